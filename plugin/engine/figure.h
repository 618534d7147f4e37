// SPDX-License-Identifier: ISC
/* figure.h - what limbs play: strokes, and figures made of lines of steps.
   Plain values; a figure never changes after it was made. */
#pragma once

#include "limits.h"
#include "ticks.h"

#include <stdbool.h>
#include <stdint.h>

typedef enum { RIGHT_HAND, LEFT_HAND, RIGHT_FOOT, LEFT_FOOT, LIMB_COUNT } Limb;

/* What is struck.  The order is that of the kit map's keys. */
typedef enum {
    VOICE_KICK,
    VOICE_KICK_LEFT,
    VOICE_SNARE,
    VOICE_SIDE_STICK,
    VOICE_HAT_CLOSED,
    VOICE_HAT_HALF_OPEN,
    VOICE_HAT_OPEN,
    VOICE_HAT_PEDAL,
    VOICE_RIDE,
    VOICE_RIDE_BELL,
    VOICE_CRASH,
    VOICE_CRASH_2,
    VOICE_CHINA,
    VOICE_SPLASH,
    VOICE_TOM_HIGH,
    VOICE_TOM_MID,
    VOICE_TOM_LOW,
    VOICE_TOM_FLOOR,
    VOICE_COWBELL,
    VOICE_COUNT
} Voice;

typedef enum { LEVEL_REST, LEVEL_GHOST, LEVEL_NORMAL, LEVEL_ACCENT } Level;

/* One hit.  `tick` counts from the start of whatever holds the stroke. */
typedef struct {
    int64_t tick;
    uint8_t limb;  /* Limb */
    uint8_t voice; /* Voice */
    uint8_t level; /* Level, never LEVEL_REST */
} Stroke;

typedef enum { FIGURE_HANDS, FIGURE_FEET, FIGURE_TURNAROUND, FIGURE_KINDS } FigureKind;

/* A figure's strokes stand in order of tick, then limb; every tick is in
   [0, cycle_ticks). */
typedef struct {
    uint32_t id; /* permanent, from 1; 0 is no figure */
    FigureKind kind;
    int64_t cycle_ticks;   /* > 0 */
    uint32_t bars;         /* bars it is written for; 0 rolls over the bar line */
    uint32_t stroke_count; /* 1 to FIGURE_STROKES_MAX */
    const Stroke* strokes;
    bool plays_limb[LIMB_COUNT];
} Figure;

/* True if `limb` is a foot. */
bool limb_is_foot(uint8_t limb);

/* Ticks in one step of a line with `grid` steps over `over` quarters, or 0 if
   either is out of 1 to 16 or the step isn't a whole number of ticks. */
int64_t step_ticks(int grid, int over);

/* Puts strokes in order of tick, then limb, then voice. */
void strokes_sort(Stroke* strokes, uint32_t count);

/* True if the figure keeps every promise written above. */
bool figure_valid(const Figure* figure);

/* Index of the first stroke at or after `tick`; stroke_count if none. */
uint32_t figure_first_from(const Figure* figure, int64_t tick);

// SPDX-License-Identifier: ISC
/* stroke.h - one hit of one limb, and bounded lists of them.  Plain values. */
#pragma once

#include "../time/limits.h"
#include "../time/ticks.h"

#include <stdbool.h>
#include <stdint.h>

typedef enum { RIGHT_HAND, LEFT_HAND, RIGHT_FOOT, LEFT_FOOT, LIMB_COUNT } Limb;

typedef enum { PAIR_HANDS, PAIR_FEET } LimbPair;

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
    VOICE_CLICK,
    VOICE_CLICK_ACCENT,
    VOICE_COUNT
} Voice;

/* A flam or drag is an accent with one or two soft grace strokes before it. */
typedef enum { LEVEL_REST, LEVEL_GHOST, LEVEL_NORMAL, LEVEL_ACCENT, LEVEL_FLAM, LEVEL_DRAG } Level;

/* `tick` counts from the start of whatever holds the stroke. */
typedef struct {
    int64_t tick;
    uint8_t limb;  /* Limb */
    uint8_t voice; /* Voice */
    uint8_t level; /* Level, never LEVEL_REST */
    bool bends;    /* written on a binary grid: a shuffle bends it */
} Stroke;

typedef struct {
    uint32_t count;
    uint32_t dropped; /* strokes beyond the list's room */
    Stroke strokes[SPAN_STROKES_MAX];
} StrokeList;

/* True if `limb` is a foot. */
bool limb_is_foot(uint8_t limb);

/* Puts strokes in order of tick, then limb, then voice. */
void strokes_sort(Stroke* strokes, uint32_t count);

/* True if `a` stands before `b` in that order. */
bool stroke_before(Stroke a, Stroke b);

/* True if both lists have the same strokes, those of `b` `apart` ticks later. */
bool stroke_lists_alike(const StrokeList* a, const StrokeList* b, int64_t apart);

/* Appends, or counts as dropped. */
void stroke_list_add(StrokeList* list, Stroke stroke);

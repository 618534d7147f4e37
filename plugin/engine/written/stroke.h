// SPDX-License-Identifier: ISC
/* stroke.h - one hit of one limb, and bounded lists of them.  Plain values. */
#pragma once

#include "../time/limits.h"
#include "../time/ticks.h"

#include <stdbool.h>
#include <stdint.h>

typedef enum { RIGHT_HAND, LEFT_HAND, RIGHT_FOOT, LEFT_FOOT, LIMB_COUNT } Limb;

typedef enum { PAIR_HANDS, PAIR_FEET } LimbPair;

/* What is struck: of the enum, in Turtle, in words, and beside its sign.  The order is that
   of the kit map's keys.  A choke is a hand that grips the cymbal it struck last. */
#define VOICES(X)                                                                                  \
    X(KICK, "kick", "kick", "kick")                                                                \
    X(KICK_LEFT, "kickLeft", "left kick", "left")                                                  \
    X(SNARE, "snare", "snare", "snare")                                                            \
    X(SIDE_STICK, "sideStick", "side stick", "stick")                                              \
    X(HAT_CLOSED, "hatClosed", "closed hat", "closed")                                             \
    X(HAT_HALF_OPEN, "hatHalfOpen", "half-open hat", "half-open")                                  \
    X(HAT_OPEN, "hatOpen", "open hat", "open")                                                     \
    X(HAT_PEDAL, "hatPedal", "pedal hat", "pedal")                                                 \
    X(RIDE, "ride", "ride", "ride")                                                                \
    X(RIDE_BELL, "rideBell", "ride bell", "bell")                                                  \
    X(CRASH, "crash", "crash", "crash")                                                            \
    X(CRASH_2, "crash2", "second crash", "second")                                                 \
    X(CHINA, "china", "china", "china")                                                            \
    X(SPLASH, "splash", "splash", "splash")                                                        \
    X(TOM_HIGH, "tomHigh", "high tom", "high")                                                     \
    X(TOM_MID, "tomMid", "middle tom", "middle")                                                   \
    X(TOM_LOW, "tomLow", "low tom", "low")                                                         \
    X(TOM_FLOOR, "tomFloor", "floor tom", "floor")                                                 \
    X(COWBELL, "cowbell", "cowbell", "cowbell")                                                    \
    X(CHOKE, "choke", "choke", "choke")                                                            \
    X(CLICK, "click", "click", "click")                                                            \
    X(CLICK_ACCENT, "clickAccent", "accented click", "accent")

#define VOICE_INDEX(NAME, name, words, brief) VOICE_##NAME,
typedef enum { VOICES(VOICE_INDEX) VOICE_COUNT } Voice;
#undef VOICE_INDEX

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

/* Index of the first stroke at or after `tick` of a list in order; its count if there is none. */
uint32_t stroke_list_first(const StrokeList* list, int64_t tick);

/* Appends, or counts as dropped. */
void stroke_list_add(StrokeList* list, Stroke stroke);

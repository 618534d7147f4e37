// SPDX-License-Identifier: ISC
/* promise.h - what each variation promises, asked of strokes one by one: how a source and what
   was made of it stand in time, without the lines and feet that made it. */
#pragma once

#include "../../plugin/engine/writing/variation_faults.h"
#include "../help/check.h"

enum { Q = TICKS_PER_QUARTER, S = TICKS_PER_QUARTER / 4 };

/* A source, what was made of it, and over what. */
typedef struct {
    uint32_t number;
    const Figure* source; /* as it is laid in the meter */
    const Figure* made;
    const Figure* hands; /* in the same bars, or rolling */
    int64_t bar;         /* ticks */
    int64_t beat;
    int64_t both;    /* ticks until source, made and hands come round together, or enough */
    bool accents;    /* the source has some */
    bool turns_same; /* each bar's second half is its first turned round as it is */
    bool runs_out;   /* it has four kicks or more in each bar's last quarter */
    int64_t grid;    /* ticks: what all kicks of the source stand on; 0: none that is counted in */
} Promise;

static inline bool is_kick(const Stroke stroke)
{
    return limb_is_foot(stroke.limb) && stroke.voice <= VOICE_KICK_LEFT;
}

/* The loudest kick at a tick counted round the cycle; LEVEL_REST if none. */
static inline uint8_t kick_at(const Figure* const figure, const int64_t tick)
{
    const int64_t at = floor_mod(tick, figure->cycle_ticks);
    uint8_t level = LEVEL_REST;
    for (uint32_t i = figure_first_from(figure, at);
         i < figure->stroke_count && figure->strokes[i].tick == at; ++i) {
        const Stroke stroke = figure->strokes[i];
        level = is_kick(stroke) && stroke.level > level ? stroke.level : level;
    }
    return level;
}

/* Which feet kick there, bit by bit. */
static inline uint32_t feet_at(const Figure* const figure, const int64_t tick)
{
    const int64_t at = floor_mod(tick, figure->cycle_ticks);
    uint32_t feet = 0;
    for (uint32_t i = figure_first_from(figure, at);
         i < figure->stroke_count && figure->strokes[i].tick == at; ++i) {
        feet |= is_kick(figure->strokes[i]) ? 1U << figure->strokes[i].limb : 0;
    }
    return feet;
}

static inline bool plays_hat(const Figure* const figure)
{
    return figure->plays_pedal;
}

enum { KICKS_MAX = 4096 };

/* Kicks of a figure, two at once as one, in order, from 0 until a tick. */
typedef struct {
    uint32_t count;
    int64_t ticks[KICKS_MAX];
    uint8_t levels[KICKS_MAX];
    uint8_t feet[KICKS_MAX]; /* bits */
} Kicks;

static inline void kicks_until(const Figure* const figure, const int64_t end, Kicks* const kicks)
{
    kicks->count = 0;
    for (int64_t turn = 0; turn < end; turn += figure->cycle_ticks) {
        for (uint32_t i = 0; i < figure->stroke_count; ++i) {
            const int64_t tick = turn + figure->strokes[i].tick;
            const bool again = kicks->count && kicks->ticks[kicks->count - 1] == tick;
            if (is_kick(figure->strokes[i]) && !again && tick < end && kicks->count < KICKS_MAX) {
                kicks->ticks[kicks->count] = tick;
                kicks->levels[kicks->count] = kick_at(figure, tick);
                kicks->feet[kicks->count++] = (uint8_t)feet_at(figure, tick);
            }
        }
    }
}

/* Ticks from kick to kick, round the end. */
static inline int64_t gap_of(const Kicks* const kicks, const uint32_t i, const int64_t end)
{
    return i + 1 < kicks->count ? kicks->ticks[i + 1] - kicks->ticks[i]
                                : kicks->ticks[0] + end - kicks->ticks[i];
}

/* The last kick before a tick. */
static inline int64_t kick_before(const Figure* const figure, const int64_t tick)
{
    int64_t best = tick - figure->cycle_ticks;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        const int64_t late = floor_mod(tick - 1 - figure->strokes[i].tick, figure->cycle_ticks);
        if (is_kick(figure->strokes[i]) && tick - 1 - late > best) {
            best = tick - 1 - late;
        }
    }
    return best;
}

/* ---- The hands */

typedef bool HandIs(const Figure* hands, Stroke stroke);

static inline bool hand_at(const Figure* const hands, HandIs* const is, const int64_t tick)
{
    const int64_t at = floor_mod(tick, hands->cycle_ticks);
    for (uint32_t i = figure_first_from(hands, at);
         i < hands->stroke_count && hands->strokes[i].tick == at; ++i) {
        if (is(hands, hands->strokes[i])) {
            return true;
        }
    }
    return false;
}

static inline bool hand_snares(const Figure* const hands, const Stroke stroke)
{
    (void)hands;
    return (stroke.voice == VOICE_SNARE || stroke.voice == VOICE_SIDE_STICK) &&
           stroke.level >= LEVEL_NORMAL;
}

static inline bool hand_plays(const Figure* const hands, const Stroke stroke)
{
    (void)hands;
    return stroke.voice != VOICE_CHOKE;
}

static inline bool hand_accents(const Figure* const hands, const Stroke stroke)
{
    return hand_plays(hands, stroke) && stroke.level >= LEVEL_ACCENT;
}

static inline bool hand_keeps_time(const Figure* const hands, const Stroke stroke)
{
    const uint8_t keeps = hands->keeps_time;
    const bool hat = keeps >= VOICE_HAT_CLOSED && keeps <= VOICE_HAT_OPEN;
    return hat ? stroke.voice >= VOICE_HAT_CLOSED && stroke.voice <= VOICE_HAT_OPEN
               : stroke.voice == keeps;
}

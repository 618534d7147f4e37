// SPDX-License-Identifier: ISC
/* promise_feet.h - what holds for every variation: which foot plays, what the foot on the hat
   does, and which bars it keeps to. */
#pragma once

#include "promise.h"

/* The kicks of the case that is looked at, of source and made. */
static Kicks source_kicks, made_kicks;

/* The closest two of one foot, of kicks that are repeated after `end`. */
static inline int64_t closest_of_a_foot(const Kicks* const kicks, const int64_t end)
{
    int64_t closest = end, last[LIMB_COUNT] = {-end, -end, -end, -end};
    for (uint32_t i = 0; i < 2 * kicks->count; ++i) {
        const uint32_t kick = i % kicks->count;
        const int64_t tick = kicks->ticks[kick] + (i == kick ? 0 : end);
        for (int foot = RIGHT_FOOT; foot <= LEFT_FOOT; ++foot) {
            if (kicks->feet[kick] >> foot & 1) {
                closest = tick - last[foot] < closest ? tick - last[foot] : closest;
                last[foot] = tick;
            }
        }
    }
    return closest;
}

/* The closest two of one foot with none of the other's between them: alternating would have
   been wider. */
static inline int64_t closest_in_a_row(const Kicks* const kicks, const int64_t end)
{
    int64_t closest = end;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        const bool same = kicks->feet[i] & kicks->feet[(i + 1) % kicks->count];
        const int64_t gap = gap_of(kicks, i, end);
        closest = same && gap < closest ? gap : closest;
    }
    return closest;
}

/* No foot gets closer strokes in a row than it had, but where its being that foot is the variation, and
   where the other closes the hat; eighths are one foot's. */
static inline void check_feet(const Promise* const promise)
{
    const bool sticking = promise->number == VARIATION_ONE_FOOT ||
                          promise->number == VARIATION_DOUBLES ||
                          promise->number == VARIATION_PARADIDDLES ||
                          (promise->number == VARIATION_ANSWER && promise->turns_same);
    if (!sticking && !plays_hat(promise->made)) {
        const int64_t had = closest_of_a_foot(&source_kicks, promise->both);
        const int64_t has = closest_in_a_row(&made_kicks, promise->both);
        check_case("feet %u, %s: %.3f quarters between strokes of a foot, %.3f before",
                   promise->source->id, variation_words(promise->number), (double)has / Q,
                   (double)had / Q);
        CHECK(has >= had || has >= Q / 2);
    }
}

static inline int64_t hats_of(const Figure* const figure)
{
    int64_t count = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        count += !is_kick(figure->strokes[i]);
    }
    return count;
}

/* The foot on the hat goes on, and kicks nothing. */
static inline void check_hat(const Promise* const promise)
{
    for (uint32_t i = 0; i < promise->made->stroke_count; ++i) {
        const Stroke stroke = promise->made->strokes[i];
        const int64_t at = stroke.tick % promise->source->cycle_ticks;
        bool found = is_kick(stroke);
        for (uint32_t j = 0; j < promise->source->stroke_count; ++j) {
            const Stroke hat = promise->source->strokes[j];
            found |= hat.tick == at && hat.limb == stroke.limb && hat.voice == stroke.voice;
        }
        CHECK(found &&
              (!plays_hat(promise->source) || is_kick(stroke) == (stroke.limb == RIGHT_FOOT)));
    }
    CHECK_INT(hats_of(promise->made) * promise->source->cycle_ticks,
              hats_of(promise->source) * promise->made->cycle_ticks);
}

/* In bars where the source is, or where the hands are that it follows; groups over the bar line
   roll. */
static inline void check_bars(const Promise* const promise)
{
    const uint32_t number = promise->number;
    const bool follows = number == VARIATION_SHOTS || number == VARIATION_CYMBAL;
    const bool groups =
        number == VARIATION_THREES || number == VARIATION_FIVES || number == VARIATION_SEVENS;
    const bool in_bars = !groups && (follows ? promise->hands : promise->source)->bars;
    CHECK_INT(promise->made->bars * promise->bar, in_bars ? promise->made->cycle_ticks : 0);
}

// SPDX-License-Identifier: ISC
#include "alike.h"

#include "../time/ticks.h"

/* What sounds alike here. */
static uint8_t sound_of(const uint8_t voice)
{
    static const uint8_t cymbals[] = {VOICE_HAT_HALF_OPEN, VOICE_HAT_OPEN, VOICE_RIDE,
                                      VOICE_RIDE_BELL,     VOICE_CRASH,    VOICE_CRASH_2,
                                      VOICE_CHINA,         VOICE_SPLASH};
    for (uint32_t i = 0; i < sizeof cymbals; ++i) {
        if (voice == cymbals[i]) {
            return VOICE_HAT_CLOSED;
        }
    }
    return voice == VOICE_KICK_LEFT ? VOICE_KICK : voice;
}

/* How often a sound is struck there. */
static uint32_t struck(const Figure* const figure, const int64_t tick, const uint8_t sound)
{
    uint32_t count = 0;
    for (uint32_t i = figure_first_from(figure, tick);
         i < figure->stroke_count && figure->strokes[i].tick == tick; ++i) {
        count += sound_of(figure->strokes[i].voice) == sound;
    }
    return count;
}

/* True if all that `a` strikes in `ticks` is struck by `b` too, both repeated. */
static bool strikes_all(const Figure* const a, const Figure* const b, const int64_t ticks)
{
    for (int64_t turn = 0; turn < ticks; turn += a->cycle_ticks) {
        for (uint32_t i = 0; i < a->stroke_count; ++i) {
            const int64_t tick = a->strokes[i].tick;
            const uint8_t sound = sound_of(a->strokes[i].voice);
            if (struck(a, tick, sound) != struck(b, (turn + tick) % b->cycle_ticks, sound)) {
                return false;
            }
        }
    }
    return true;
}

bool alike_figures(const Figure* const a, const Figure* const b)
{
    if (a->kind == FIGURE_TURNAROUND && a->cycle_ticks != b->cycle_ticks) {
        return false; /* a fill is not repeated: another length is another fill */
    }
    /* Until both have been played whole times: sixteenths in bars of seven are the same as
       those in bars of four. */
    const int64_t ticks = common_multiple(a->cycle_ticks, b->cycle_ticks);
    return strikes_all(a, b, ticks) && strikes_all(b, a, ticks);
}

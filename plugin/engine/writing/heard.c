// SPDX-License-Identifier: ISC
#include "heard.h"

#include <stddef.h>

static bool same_in(const Selection* const a, const Selection* const b, const int64_t begin,
                    const int64_t end)
{
    StrokeList with, without;
    groove_strokes(a, a->groove->meter, begin, end, &with);
    groove_strokes(b, b->groove->meter, begin, end, &without);
    return stroke_lists_alike(&with, &without, 0);
}

/* A quarter note at a time, more than which a list needn't hold. */
static bool sound_alike(const Groove* const with, const Groove* const without)
{
    const Selection a = selection_of_groove(with);
    const Selection b = selection_of_groove(without);
    const int64_t end = meter_bar_ticks(with->meter) * with->form_bars;
    for (int64_t tick = 0; tick < end; tick += TICKS_PER_QUARTER) {
        const int64_t next = tick + TICKS_PER_QUARTER;
        if (!same_in(&a, &b, tick, next < end ? next : end)) {
            return false;
        }
    }
    return true;
}

bool heard_part(const Groove* const groove, const uint8_t letter, const LimbPair pair)
{
    Groove without = *groove;
    if (pair == PAIR_HANDS) {
        without.parts[letter].hands = NULL;
    } else {
        without.parts[letter].feet = NULL;
    }
    return !sound_alike(groove, &without);
}

int heard_as(const Groove* const groove, const uint8_t letter)
{
    for (int other = 0; other < PARTS_MAX; ++other) {
        const Part part = groove->parts[other];
        Groove changed = *groove;
        changed.parts[letter] = part;
        if (other != letter && (part.hands || part.feet) && sound_alike(groove, &changed)) {
            return other;
        }
    }
    return -1;
}

bool heard_in_form(const Groove* const groove, const uint8_t letter)
{
    for (uint32_t bar = 0; bar < groove->form_bars; ++bar) {
        if (groove->form[bar] == letter) {
            return true;
        }
    }
    return false;
}

/* Three-eight, five-eight and fifteen-eight are counted in eighths. */
static bool is_compound(const Meter meter)
{
    const int64_t beats = (int64_t)meter.beats_per_bar;
    return meter.beat_unit == 8 && (beats == 6 || beats == 9 || beats == 12);
}

bool heard_fits(const Figure* const fill, const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t unit = meter_beat_ticks(meter);
    const int64_t eighth = unit < TICKS_PER_QUARTER / 2 ? unit : TICKS_PER_QUARTER / 2;
    if (fill->bars) {
        return fill->cycle_ticks == fill->bars * bar;
    }
    const bool cuts_beats =
        is_compound(meter) && fill->cycle_ticks > 3 * unit && fill->cycle_ticks % (3 * unit);
    return fill->cycle_ticks % eighth == 0 && !cuts_beats &&
           fill->cycle_ticks <= FILL_BARS_MAX * bar;
}

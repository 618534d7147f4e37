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

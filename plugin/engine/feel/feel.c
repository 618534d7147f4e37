// SPDX-License-Identifier: ISC
#include "feel.h"

#include "strays.h"

#include <math.h>

static double ticks_to_ms(const double ticks, const double tempo)
{
    return ticks / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
}

static double ms_to_ticks(const double ms, const double tempo)
{
    return ms / 60000.0 * tempo * (double)TICKS_PER_QUARTER;
}

static double push_ms(const Feel* const feel, const Stroke stroke, const int64_t turn,
                      const double tempo)
{
    if (stroke.limb >= RIGHT_FOOT) {
        return feel->push_feet_ms;
    }
    if (stroke.voice != VOICE_SNARE) {
        return feel->push_hands_ms;
    }
    const double most = ticks_to_ms((double)turn, tempo) / 4.0;
    const double apart = feel->push_snare_ms - feel->push_hands_ms;
    return feel->push_hands_ms + (apart < -most ? -most : apart > most ? most : apart);
}

int64_t feel_offset(const Feel* const feel, const Stroke stroke, const Surroundings* const around,
                    const double tempo)
{
    const double push = push_ms(feel, stroke, around->turn, tempo);
    const double strays = feel->looseness_ms > 0.0 ? strays_ms(feel, stroke, around, tempo) : 0.0;
    const double ticks = ms_to_ticks(push + strays, tempo);
    return whole_number(ticks + (ticks < 0.0 ? -0.5 : 0.5));
}

int64_t feel_reach(const Feel* const feel, const double tempo)
{
    const double snare = fmin(feel->push_snare_ms, feel->push_hands_ms);
    const double earliest = fmin(fmin(snare, feel->push_feet_ms), 0.0);
    const int64_t chance = TICKS_PER_QUARTER / 4, grace = TICKS_PER_QUARTER / 4;
    return chance + grace + whole_number(ceil(ms_to_ticks(-earliest, tempo)));
}

// SPDX-License-Identifier: ISC
#include "ladder.h"

#include "../time/ticks.h"

#include <math.h>

double ladder_tempo(const Ladder ladder, const int64_t phrase)
{
    if (phrase < 0 || !(ladder.step > 0.0)) {
        return ladder.tempo;
    }
    const int64_t rises = phrase / (int64_t)ladder.every;
    return fmax(ladder.tempo, fmin(ladder.top, ladder.tempo + ladder.step * (double)rises));
}

int64_t ladder_next_phrase(const Ladder ladder, const int64_t phrase)
{
    const int64_t every = ladder.every;
    const int64_t next = phrase < 0 ? every : (phrase / every + 1) * every;
    return ladder_tempo(ladder, next) > ladder_tempo(ladder, phrase) ? next : LADDER_STAYS;
}

LadderReach ladder_reach(const Ladder ladder, const uint32_t phrase_bars, const int64_t bar)
{
    const int64_t phrase = floor_div(bar, phrase_bars);
    const int64_t next = ladder_next_phrase(ladder, phrase);
    const double tempo = ladder_tempo(ladder, phrase);
    if (next == LADDER_STAYS) {
        return (LadderReach){tempo, tempo, 0};
    }
    return (LadderReach){tempo, ladder_tempo(ladder, next), next * phrase_bars - bar};
}

// SPDX-License-Identifier: ISC
#include "score.h"

#include "../scene/words.h"

#include <stdio.h>

static bool can_bar(const SheetBar* const bar, const Meter meter, StaffVoices* const room,
                    char why[SCORE_WHY_ROOM])
{
    Limb limb = RIGHT_HAND;
    if (bar->strokes.dropped) {
        snprintf(why, SCORE_WHY_ROOM, "bar %d has more strokes than can be written", bar->first);
        return false;
    }
    if (!staff_voices_make(room, &bar->strokes, meter, &limb)) {
        snprintf(why, SCORE_WHY_ROOM,
                 "bar %d: the %s's rhythm can't be written exactly with tuplets to 16, two in each "
                 "other",
                 bar->first, words_limb(limb));
        return false;
    }
    return true;
}

bool score_can(const NotationScore* const score, StaffVoices* const room, char why[SCORE_WHY_ROOM])
{
    const Sheet* const sheet = score->sheet;
    for (int row = 0; row < sheet->count; ++row) {
        if (!can_bar(&sheet->rows[row], sheet->meter, room, why)) {
            return false;
        }
    }
    return true;
}

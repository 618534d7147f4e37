// SPDX-License-Identifier: ISC
/* song_new.h - a song's plan to begin from, as Turtle that a person goes on with. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "../file/bytes.h"

#include <stdbool.h>

enum { SONG_NEW_WHY_ROOM = 256 };

/* `sections` is as typed: "intro 4, verse 8, turn 1 2/4, verse 8, chorus 8 x2": names, bars, a meter
   if it is another than the groove's, how often if more than once.  All play the groove of this
   id.  False, with the reason in `why`, if that can't be read. */
bool song_new_text(const char* title, const char* sections, const Bank* bank, uint32_t groove,
                   Bytes* text, char why[SONG_NEW_WHY_ROOM]);

// SPDX-License-Identifier: ISC
/* lilypond.h - a sheet as input of LilyPond (2.22 or later), an engraver: its drum mode on five
   lines, places and heads by a table in the file itself (drum_staff.h), and a score for MIDI.

   Times are those of the sheet, which should be as written: a shuffle is told in words.  Which
   limb strikes stands beside the notes, R or L.  Flams and drags have grace notes, ghosts are
   in parentheses. */
#pragma once

#include "../file/bytes.h"
#include "score.h"

/* Appends the file.  False, with the reason in `why`, if a rhythm can't be written exactly or
   memory ran out. */
bool lilypond_write(const NotationScore* score, Bytes* file, char why[SCORE_WHY_ROOM]);

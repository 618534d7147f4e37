// SPDX-License-Identifier: ISC
/* musicxml.h - a sheet as five-line notation other programs open: MusicXML 4.0 (W3C Music
   Notation Community Group, 2021), one drum part in a percussion clef.

   Times are those of the sheet, which should be as written: a shuffle is an element of `sound`
   and a word.  Divisions are the fewest that make every duration whole.  Each voice is an
   instrument of its own, named as in words.h.  A flam has one grace note, a drag two; a ghost's
   head is in parentheses; which limb strikes is its fingering, R or L. */
#pragma once

#include "../file/bytes.h"
#include "score.h"

/* Appends the file.  False, with the reason in `why`, if a rhythm can't be written exactly or
   memory ran out. */
bool musicxml_write(const NotationScore* score, Bytes* file, char why[SCORE_WHY_ROOM]);

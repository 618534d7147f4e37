// SPDX-License-Identifier: ISC
/* beams.h - which notes of a rhythm share beams: those of a beat, of a group where the sheet has
   groups, or of a tuplet that is longer, without a rest between them.  Pure. */
#pragma once

#include "../scene/sheet.h"
#include "rhythm.h"

enum { BEAMS_MOST = 6 };

/* MusicXML's beam-value of a note's beam, from 1, the eighths'; NULL: it has none. */
const char* beams_word(const Rhythm* rhythm, int index, int level, const Sheet* sheet);

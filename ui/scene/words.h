// SPDX-License-Identifier: ISC
/* words.h - what limbs, voices and fills are called where people read them. */
#pragma once

#include "../../plugin/engine/written/stroke.h"

#include "../../plugin/engine/written/swing.h"

#include <stddef.h>

/* "right hand" and so on. */
const char* words_limb(Limb limb);

/* "half-open hat" and so on. */
const char* words_voice(Voice voice);

/* The same for where there is little room. */
const char* words_voice_brief(Voice voice);

/* "fill" where it has the bar's beginning, else "fill, 2 beats": those until its line, in
   ticks from the bar line. */
void words_fill(char* text, size_t room, int64_t begin, int64_t end, Meter meter);

/* "Swing eighths, 2 to 1"; "" where it is even. */
void words_swing(char* text, size_t room, Swing swing);

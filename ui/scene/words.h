// SPDX-License-Identifier: ISC
/* words.h - what limbs and voices are called where people read them. */
#pragma once

#include "../../plugin/engine/written/stroke.h"

/* "right hand" and so on. */
const char* words_limb(Limb limb);

/* "half-open hat" and so on. */
const char* words_voice(Voice voice);

/* The same for where there is little room. */
const char* words_voice_brief(Voice voice);

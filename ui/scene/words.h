// SPDX-License-Identifier: ISC
/* words.h - what limbs and voices are called where people read them. */
#pragma once

#include "../../plugin/engine/written/stroke.h"

/* "right hand" and so on. */
const char* limb_word(Limb limb);

/* "half-open hat" and so on. */
const char* voice_word(Voice voice);

/* The same for where there is little room. */
const char* voice_brief(Voice voice);

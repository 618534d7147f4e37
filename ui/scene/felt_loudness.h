// SPDX-License-Identifier: ISC
/* felt_loudness.h - the part of felt.h that is of velocities: what the feel plays on average,
   asked of the engine stroke by stroke. */
#pragma once

#include "felt.h"

/* Of touch, the accents, ghost or level. */
void felt_loudness_words(Control control, const Feel* feel, char text[FELT_ROOM]);

// SPDX-License-Identifier: ISC
/* at_once.h - what can't be struck at once, whatever the tempo.  Pure. */
#pragma once

#include "../written/stroke.h"

/* The tick at which strokes, in order, open and close the hi-hat at once, or -1. */
int64_t at_once_open_and_closed(const Stroke* strokes, uint32_t count);

/* The tick at which one limb strikes two voices, as it must where two hands strike three, or
   -1.  The same voice twice is one. */
int64_t at_once_out_of_reach(const Stroke* strokes, uint32_t count);

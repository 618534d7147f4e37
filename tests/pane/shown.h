// SPDX-License-Identifier: ISC
/* shown.h - what shows something on the screen is counted on its way to libGL: a
   program linked with this by -rdynamic has functions that are found before
   libGL's, also by Pugl. */
#pragma once

#include <stdbool.h>

/* Swaps, and parts shown by glXCopySubBufferMESA, so far. */
extern int shown_count;

/* For panes opened from here on: as on a graphics card, only swaps show. */
extern bool shown_by_swaps_only;

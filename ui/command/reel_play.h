// SPDX-License-Identifier: ISC
/* reel_play.h - how a reel is played: the transport that rolls through its parts.  For reel.c. */
#pragma once

#include "reel.h"

/* Its tracks. */
enum { REEL_CONDUCTOR, REEL_DRUMS };

/* Rolls once from the first part to the last, and ends both tracks. */
void reel_play(Reel* song);

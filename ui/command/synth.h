// SPDX-License-Identifier: ISC
/* synth.h - drum messages become sound, by libfluidsynth and a soundfont. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

typedef struct Synth Synth;

/* The synthesizer starts notes at the borders of its blocks of 64 frames alone
   (libfluidsynth's documentation of fluid_synth_get_internal_bufsize). */
enum { SYNTH_BLOCK = 64, SYNTH_WHY_ROOM = 512 };

/* Loads a soundfont; every channel plays its drums.  The same messages give the
   same samples each time.  NULL, with the reason in `why`, if that can't be done
   or the soundfont has no drums. */
Synth* synth_open(const char* soundfont, double rate, char why[SYNTH_WHY_ROOM]);
void synth_close(Synth* synth);

/* Takes a note message; others are left out. */
void synth_send(Synth* synth, const uint8_t bytes[3]);

/* The next block: left and right in turn, full scale is 1 and may be passed. */
void synth_run(Synth* synth, float samples[2 * SYNTH_BLOCK]);

// SPDX-License-Identifier: ISC
/* wav.h - a song as a WAV file of its drums, by a soundfont. */
#pragma once

#include "request.h"
#include "reel.h"

typedef struct {
    double seconds; /* the song, and what rings on */
    double peak;    /* dB below or at full scale, of the file */
    double lowered; /* dB that everything was made softer by, so that it fits */
} WavReport;

enum { WAV_WHY_ROOM = 1024 };

/* Notes start at the frame that is nearest to theirs on a grid of SYNTH_BLOCK
   frames: at most half of that early or late.  One level for all files, which
   are comparable therefore; only what would pass 1 dB below full scale is made
   softer as a whole.  The file ends when nothing rings any more.  False, with
   the reason in `why`, if it can't be made; then nothing is there. */
bool wav_save(const Reel* song, const char* path, bool replace, const WavForm* form,
              WavReport* report, char why[WAV_WHY_ROOM]);

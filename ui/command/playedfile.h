// SPDX-License-Identifier: ISC
/* playedfile.h - what somebody played, from a MIDI file: its notes at their time. */
#pragma once

#include "../../plugin/engine/listen/told.h"

#include <stdbool.h>
#include <stddef.h>

typedef struct {
    ToldPlayed* notes; /* ms from the file's beginning */
    uint32_t count;    /* 1 and up */
    double tempo;      /* the file's first; 0: it has none */
    Meter meter;       /* likewise; 4/4 if it has none */
} PlayedFile;

/* False, with a message, if it can't be read or holds no notes; free it all the same. */
bool playedfile_read(PlayedFile* played, const char* path);
void playedfile_free(PlayedFile* played);

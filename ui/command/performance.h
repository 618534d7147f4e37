// SPDX-License-Identifier: ISC
/* performance.h - sections of the command line, played by the real plugin as a song. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "host.h"
#include "request.h"
#include "song.h"

typedef struct {
    Bank* bank;
    Host* host;
    Song song;
} Performance;

/* Opens the plugin and its bank.  False, with a message, if that can't be done;
   close it all the same. */
bool performance_open(Performance* performance, const char* bundle);
void performance_close(Performance* performance);

/* Begins another song; what was gathered before is gone. */
void performance_begin(Performance* performance, const char* title);

/* Adds a section; `told` is what it came to.  A status as in commands.h, with a
   message if it isn't DONE. */
int performance_play(Performance* performance, const Section* section, SongSection* told);

// SPDX-License-Identifier: ISC
/* performance.h - sections of the command line, as a song for the real plugin. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "host.h"
#include "request.h"
#include "reel.h"

typedef struct {
    Bank* bank;
    Host* host;
    Reel song;
} Performance;

/* Opens the plugin and its bank.  False, with a message, if that can't be done;
   close it all the same. */
bool performance_open(Performance* performance, const char* bundle);
void performance_close(Performance* performance);

/* Sets every control as a section has it: the preset's, then what it picks, then its own
   settings.  False, with a message, if there is no such entry or control, or it can't
   have the value. */
bool performance_set(const Performance* performance, const Section* section);

/* Begins another song; what was gathered before is gone. */
void performance_begin(Performance* performance, const char* title);

enum { PERFORMANCE_BARS = 8 }; /* of a section that says none */

/* What a section came to. */
typedef struct {
    ReelSection first; /* the whole of it but for the tempo, which a ladder raises */
    double last_tempo;
} Rendition;

/* Adds a section; reel_end plays all of them.  What the plugin's own clock would do is done by the song's
   tempo: it begins at the clock's, and a ladder raises it.  The count-in control
   puts bars before the section.  A status as in commands.h, with a message if it
   isn't DONE. */
int performance_play(Performance* performance, const Section* section, Rendition* played);

// SPDX-License-Identifier: ISC
/* liberty.h - what a drummer changes from bar to bar in what is written, and never twice
   alike.  Pure: the same take at the same place changes the same.

   Each bar is varied for itself, around what is written, so that a take doesn't wander off:
   - ghost notes on the snare come and go, and now and then one is a stroke; a stroke off
     the beat is left out, or is a ghost;
   - a closed hat opens before a backbeat or a bar line, where the next stroke closes it;
   - the hand that keeps time leaves out a stroke off the beat, or plays one more between
     two eighths, softly;
   - one foot's kicks off the beat are left out, and others get one more before them;
   - a crash more on the one of a bar within the phrase, or one less.
   What stays: all that two feet play, and kicks of one that run (three within a quarter
   note); backbeats, and a snare off the beats that goes on and on; accents and what stands
   on beats, but for a crash; the phrase's first beat; fills; a hand that keeps time faster
   than 120 ms, or in turn with the snare.  Nothing is added that its limb has no time for. */
#pragma once

#include "../groove/groove.h"

/* What it depends on besides. */
typedef struct {
    const Selection* selection; /* its feel has take and liberty */
    Meter meter;
    double tempo;    /* quarter notes a minute */
    int64_t in_song; /* ticks from the song's bar 0 to the selection's */
} LibertyPlace;

/* groove_strokes as it is performed: at liberty 0 as it is written.  `written` is a work
   area, for what is written from a quarter note before to two after; at liberty 0 it isn't
   used. */
void liberty_strokes(const LibertyPlace* place, int64_t begin, int64_t end, StrokeList* written,
                     StrokeList* list);

/* True if the stroke isn't in the list of what is written: it is the player's own. */
bool liberty_is_own(Stroke stroke, const StrokeList* written);

// SPDX-License-Identifier: ISC
/* drum_staff.h - where a voice stands on five lines, and how its head looks.  Places and heads
   by N. Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994, pp. 15-26,
   as the Weinberg style of LilyPond 2.24 has them (percussion clef, read as treble); second
   crash, splash and choke are our own. */
#pragma once

#include "../../plugin/engine/written/stroke.h"

typedef struct {
    char step; /* A to G; 0: this voice isn't written */
    int octave;
    const char* head;      /* MusicXML's notehead-value */
    const char* technical; /* an element of MusicXML's technical, NULL: none */
    const char* sound;     /* MusicXML's standard instrument sound */
} DrumPlace;

DrumPlace drum_staff_place(Voice voice);

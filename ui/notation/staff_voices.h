// SPDX-License-Identifier: ISC
/* staff_voices.h - one bar as voices of a staff: hands with stems up, feet with stems down.
   Two limbs share a voice unless their rhythms are read better apart.  Pure. */
#pragma once

#include "../scene/sheet.h"
#include "rhythm.h"

enum { STAFF_VOICES = LIMB_COUNT };

typedef struct {
    int number; /* 1 and 3: hands; 2 and 4: feet */
    bool is_up;
    unsigned limbs; /* 1 << Limb for each */
    Rhythm rhythm;
} StaffVoice;

typedef struct {
    int count; /* at least 1 */
    StaffVoice voices[STAFF_VOICES];
} StaffVoices;

/* False if a limb's strokes can't be written; *limb is then that one. */
bool staff_voices_make(StaffVoices* made, const StrokeList* strokes, Meter meter, Limb* limb);

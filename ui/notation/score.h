// SPDX-License-Identifier: ISC
/* score.h - what is written on five lines, in whichever language. */
#pragma once

#include "../../plugin/engine/written/swing.h"
#include "../scene/sheet.h"
#include "staff_voices.h"

typedef struct {
    const Sheet* sheet;
    Swing swing;
    const char* fill;    /* its name, UTF-8; "" where it has none */
    const uint8_t* keys; /* MIDI keys by Voice: 0 to 127, above: none */
} NotationScore;

enum { SCORE_WHY_ROOM = 160 };

/* Whether all bars can be written exactly; else the reason in `why`.  `room` is scratch. */
bool score_can(const NotationScore* score, StaffVoices* room, char why[SCORE_WHY_ROOM]);

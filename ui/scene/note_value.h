// SPDX-License-Identifier: ISC
/* note_value.h - the note that a tempo counts. */
#pragma once

#include "../../plugin/engine/time/ticks.h"

typedef struct {
    int unit; /* 1 a whole note, 2 a half, 4 a quarter, 8 an eighth */
    bool dotted;
    double quarters; /* its length */
} NoteValue;

/* A dotted note in compound meters, a half note over 2, a whole over 1; elsewhere, and where
   beats are counted in groups of twos and threes, a quarter. */
NoteValue note_value_of(Meter meter, bool has_groups);

// SPDX-License-Identifier: ISC
/* written_bars.h - what was to be played, some bars of it: a groove's strokes as they are
   written, without feel and liberty, or the notes of a MIDI file. */
#pragma once

#include "../../plugin/engine/groove/groove.h"
#include "../../plugin/engine/listen/told.h"
#include "playedfile.h"

typedef struct {
    const Selection* selection; /* its kit map, for a file too */
    const PlayedFile* file;     /* NULL: what the selection plays */
    Meter meter;
    double bar_ms;
    double first_ms; /* where bar 1 begins in what was played */
    bool split;      /* the left foot's kick has its own key */
    bool left_handed;
} WrittenSource;

typedef struct {
    ToldWritten strokes[TOLD_MOST];
    uint32_t count;
    double until_ms; /* whose notes are whose: halfway to the next bar's first stroke */
} WrittenBars;

/* What a row is called: its limb; of a file, which names none, what is struck. */
const char* written_bars_row(const WrittenSource* source, Limb limb);

/* Bars `first` to `last`, from 0. */
void written_bars_take(WrittenBars* bars, const WrittenSource* source, uint32_t first,
                       uint32_t last);

// SPDX-License-Identifier: ISC
/* sheet.h - what is to be seen of a groove: its bars, each with its strokes as
   written.  Plain values. */
#pragma once

#include "../../plugin/engine/written/stroke.h"
#include "../../plugin/engine/written/swing.h"
#include "note_value.h"

enum {
    SHEET_TURNS_MAX = 64,
    SHEET_TUPLETS_MAX = 64,
    SHEET_GROUPS_BEATS = 32,
    SHEET_GROUPS_MAX = SHEET_GROUPS_BEATS / 2
};

/* So many notes in the time of so many of the same value. */
typedef struct {
    int64_t begin; /* ticks from the bar line */
    int64_t end;
    uint8_t actual;
    uint8_t normal;
    bool is_long;  /* over more than a beat: "5:4" rather than "5" */
    bool is_left;  /* of a left limb alone */
    uint8_t depth; /* 1: within another */
    uint8_t pair;  /* LimbPair */
} SheetTuplet;

/* What a foot has to do; zeros where it rests. */
typedef struct {
    double rate;   /* strokes in the busiest second */
    double gap_ms; /* the closest two */
} SheetFoot;

/* What a letter of the form plays; "" where it is silent. */
typedef struct {
    const char* hands;
    const char* feet;
} SheetPart;

/* Bars that follow each other and are played alike are one. */
typedef struct {
    int first; /* from 1 */
    int last;
    char letter; /* of the form */
    bool has_fill;
    int64_t fill_begin; /* where it takes over: ticks from the bar line, 0 if before */
    int64_t fill_end;   /* the line it leads to, likewise */
    StrokeList strokes; /* ticks from the bar line */
    uint32_t feet_turn_count;
    int32_t feet_turns[SHEET_TURNS_MAX]; /* where the feet start again, likewise */
    int tuplet_count;
    SheetTuplet tuplets[SHEET_TUPLETS_MAX];
} SheetBar;

typedef struct {
    const char* title; /* UTF-8, as all texts here; not owned */
    const char* comment;
    const char* fill;           /* the turnaround's name; "" where there is none */
    SheetPart parts[PARTS_MAX]; /* by letter */
    char form[FORM_BARS_MAX + 1];
    Meter meter;
    int group_count; /* of beats, which are counted in twos and threes; 0: each by itself */
    uint8_t groups[SHEET_GROUPS_MAX];
    double tempo;   /* quarter notes a minute */
    NoteValue beat; /* which a drummer counts it in */
    Swing swing;    /* told in words: strokes stand as they are written */
    int bars;
    uint32_t meet_after; /* bars until all meet again; 0: not told */
    SheetFoot feet[2];   /* right, left */
    int count;
    SheetBar rows[FORM_BARS_MAX];
} Sheet;

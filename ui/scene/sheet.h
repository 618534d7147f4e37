// SPDX-License-Identifier: ISC
/* sheet.h - what is to be seen of a groove: its bars, each with its strokes as
   written.  Plain values. */
#pragma once

#include "../../plugin/engine/written/stroke.h"
#include "../../plugin/engine/written/swing.h"

enum { SHEET_TURNS_MAX = 64 };

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
} SheetBar;

typedef struct {
    const char* title; /* UTF-8, as all texts here; not owned */
    const char* comment;
    const char* hands; /* names of what is played, "" where bars differ */
    const char* feet;
    char form[FORM_BARS_MAX + 1];
    Meter meter;
    double tempo; /* quarter notes a minute */
    Swing swing;  /* told in words: strokes stand as they are written */
    int bars;
    uint32_t meet_after; /* bars until all meet again; 0: not told */
    int count;
    SheetBar rows[FORM_BARS_MAX];
} Sheet;

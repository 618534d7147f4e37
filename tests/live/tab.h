// SPDX-License-Identifier: ISC
/* tab.h - what a drummer would play from rows of steps, worked out by arithmetic
   alone: no code of the plugin's is used, so that it can't share its mistakes. */
#pragma once

#include <stddef.h>
#include <stdint.h>

/* `steps` is repeated without end from frame 0: . rest, g ghost, o normal, O
   accent; spaces are for the eye. */
typedef struct {
    uint8_t key;
    int grid; /* steps in a quarter note */
    const char* steps;
} TabRow;

typedef struct {
    int64_t frame;
    uint8_t key;
    char level; /* g, o or O */
} TabStroke;

/* The strokes with begin <= frame < end, in order of frame, then key; at most
   `room` of them are written.  Returns how many there are. */
size_t tab_strokes(const TabRow* rows, size_t row_count, double quarter_frames, int64_t begin,
                   int64_t end, size_t room, TabStroke* strokes);

// SPDX-License-Identifier: ISC
/* picture_take.h - a performance, read from a MIDI file that midicsv wrote as text.  Sixteenths
   and limbs as tests/data/drummers.tsv has them: one stroke a limb and sixteenth, the loudest;
   what is more than 0.42 of a sixteenth off is left out. */
#pragma once

#include "windows.h"

/* The limbs of windows.h, and further rows to draw. */
typedef enum {
    PICTURE_HAT_FOOT = WINDOW_LIMBS,
    PICTURE_CRASH,
    PICTURE_TOM,
    PICTURE_LIMBS
} PictureLimb;

typedef struct {
    Window ms;                        /* from the click's sixteenth; below 0 is early */
    Window velocity;                  /* 1 to 127 */
    int key[PICTURE_LIMBS][SLOTS];    /* of MIDI; 0: not struck */
    int struck[PICTURE_LIMBS][SLOTS]; /* velocity, of further rows too */
} PictureTake;

/* The means of one limb's places less its mean, of places with 8 strokes or more. */
typedef struct {
    double mean[16];
    bool has[16];
} PicturePlaces;

/* Ends the program, with a word, if the file can't be read. */
void picture_take_read(PictureTake* take, const char* folder, const char* name);

PicturePlaces picture_take_places(const Window* window, WindowLimb limb);

/* The same of bare values, not less the mean. */
PicturePlaces picture_take_levels(const Window* window, WindowLimb limb);

/* What the cymbal keeps: "eighths", "sixteenths", or neither: NULL. */
const char* picture_take_stream(const PictureTake* take);

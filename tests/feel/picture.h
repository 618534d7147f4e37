// SPDX-License-Identifier: ISC
/* picture.h - the pictures of "make feel".  Each draws a PNG file into a folder and prints the
   figures that are drawn; false if the file can't be written. */
#pragma once

#include "picture_take.h"

enum { PICTURE_TAKES = 3, PICTURE_LIBERTIES = 3 };

/* Offsets from the grid over 64 bars, and their spread. */
bool picture_offsets(const char* folder, const PictureTake* take);

/* Mean offset of each sixteenth of the bar: snare and kick of one groove, cymbal of another. */
bool picture_habits(const char* folder, const PictureTake eighths[PICTURE_TAKES],
                    const PictureTake sixteenths[PICTURE_TAKES]);

/* Mean velocity of each sixteenth of the bar. */
bool picture_contour(const char* folder, const PictureTake eighths[PICTURE_TAKES],
                     const PictureTake sixteenths[PICTURE_TAKES]);

/* Eight bars at liberty 0 (as written), as the dial is at first, and at 100, also as text; how
   alike bars are. */
bool picture_liberty(const char* folder, const PictureTake takes[PICTURE_LIBERTIES],
                     const char* dial);

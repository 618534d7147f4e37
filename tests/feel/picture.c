// SPDX-License-Identifier: ISC
/* picture.c - draws how the feel plays beside what drummers do, from MIDI files as midicsv
   writes them, and prints the figures that are drawn.
   Usage: picture FOLDER CSV_FOLDER    (tests/feel/draw.sh calls it) */
#include "picture.h"

#include <stdio.h>

static PictureTake eighths[PICTURE_TAKES], sixteenths[PICTURE_TAKES];

int main(const int count, char** const arguments)
{
    if (count != 3) {
        fprintf(stderr, "usage: picture FOLDER CSV_FOLDER\n");
        return 1;
    }
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        char name[32];
        snprintf(name, sizeof name, "eighths-%d", take + 1);
        picture_take_read(&eighths[take], arguments[2], name);
        snprintf(name, sizeof name, "sixteenths-%d", take + 1);
        picture_take_read(&sixteenths[take], arguments[2], name);
    }
    bool is_drawn = picture_offsets(arguments[1], &eighths[0]);
    is_drawn &= picture_habits(arguments[1], eighths, sixteenths);
    is_drawn &= picture_contour(arguments[1], eighths, sixteenths);
    return !is_drawn;
}

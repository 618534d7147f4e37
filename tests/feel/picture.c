// SPDX-License-Identifier: ISC
/* picture.c - draws how the feel plays beside what drummers do, from MIDI files as midicsv
   writes them, and prints the figures that are drawn.
   Usage: picture FOLDER CSV_FOLDER LIBERTY_AT_FIRST    (tests/feel/draw.sh calls it) */
#include "picture.h"

#include <stdio.h>

static PictureTake eighths[PICTURE_TAKES], sixteenths[PICTURE_TAKES], liberties[PICTURE_LIBERTIES];

int main(const int count, char** const arguments)
{
    if (count != 4) {
        fprintf(stderr, "usage: picture FOLDER CSV_FOLDER LIBERTY_AT_FIRST\n");
        return 1;
    }
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        char name[32];
        snprintf(name, sizeof name, "eighths-%d", take + 1);
        picture_take_read(&eighths[take], arguments[2], name);
        snprintf(name, sizeof name, "sixteenths-%d", take + 1);
        picture_take_read(&sixteenths[take], arguments[2], name);
    }
    picture_take_read(&liberties[0], arguments[2], "liberty-0");
    picture_take_read(&liberties[1], arguments[2], "liberty-dial");
    picture_take_read(&liberties[2], arguments[2], "liberty-100");
    bool is_drawn = picture_offsets(arguments[1], &eighths[0]);
    is_drawn &= picture_habits(arguments[1], eighths, sixteenths);
    is_drawn &= picture_contour(arguments[1], eighths, sixteenths);
    is_drawn &= picture_liberty(arguments[1], liberties, arguments[3]);
    return !is_drawn;
}

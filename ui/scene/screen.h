// SPDX-License-Identifier: ISC
/* screen.h - the whole window, drawn to any Cairo context; and what moves over it,
   as boxes, so that a moving playhead needs no Cairo. */
#pragma once

#include "targets.h"

/* Draws all that stands still, in logical pixels from the origin.  `lit`: the staff
   and its labels alone, with every stroke and beat number as it looks while it sounds. */
void screen_draw(cairo_t* cairo, const View* view, bool lit);

/* A box of the window, logical pixels: cut from the lit picture, or in the accent
   colour. */
typedef struct {
    Box box;
    bool is_lit; /* else a stretch of the playhead */
} Moving;

enum { MOVING_MAX = 32 };

/* What is to be drawn over the still picture now; how many they are. */
int screen_moving(const View* view, Moving moving[MOVING_MAX]);

/* Both together. */
void screen_draw_all(cairo_t* cairo, const View* view);

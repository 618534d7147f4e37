// SPDX-License-Identifier: ISC
/* geometry.h - where everything stands, in logical pixels from the window's top
   left, for any size from the least up.  Rows grow before they get apart. */
#pragma once

#include "ink.h"
#include "view.h"

enum { LEAST_WIDTH = 720, LEAST_HEIGHT = 420, FIRST_WIDTH = 960, FIRST_HEIGHT = 540 };

/* How real pixels become logical ones: a window smaller than the least is scaled
   down as a whole and stands in the middle. */
typedef struct {
    double scale; /* real pixels to a logical one */
    double x;     /* real pixels left of the picture */
    double y;
    double width; /* logical */
    double height;
} Fit;

Fit geometry_fit(int width, int height, double scale);

typedef struct {
    bool compact;
    bool list; /* a list is open */
    double width;
    double height;
    double scale;  /* of the staff's rows and signs, 1 to 1.6 */
    double top;    /* the line under the top row */
    double labels; /* left of the limbs' labels */
    double staff;  /* left of the rows' ground */
    double beat_1;
    double right;
    double count_hands; /* base line of the syllables */
    double count_feet;
    double line[LIMB_COUNT];
    Box ground[2];              /* under the left hand, under the left foot */
    double row_top[LIMB_COUNT]; /* the reach of each limb's signs */
    double row_bottom[LIMB_COUNT];
    double turns_top;
    double turns;
    double click;
    double meet;  /* left of what is beside the overview */
    Box overview; /* from beat 1 on */
    double panel; /* the line over it */
    double help;  /* base line; 0: none */
    Box list_box;
    double list_rows; /* top of the first line */
    double row_height;
    Box key_line; /* the list of keys' first; what a key does is in the room of its words */
    double key_words;
    double key_drop; /* from the key's base line to its words' */
} Geometry;

Geometry geometry_of(const View* view);

/* The bar shown large: beats in it, how wide one is, and how many beats of the
   next bar are seen. */
typedef struct {
    double beats;
    double beat;
    double ahead;
    double ticks; /* in a beat */
} BarSpace;

BarSpace geometry_bar(const Geometry* geometry, Meter meter);

/* Lines of the list that are seen. */
int geometry_list_rows(const Geometry* geometry);

// SPDX-License-Identifier: ISC
/* picture_bars.h - what changes from bar to bar: a take beside the same bars as written, and
   how alike neighbouring bars are, as the tables of tests/data/drummers.tsv count it. */
#pragma once

#include "picture_take.h"

typedef enum {
    PICTURE_REST,
    PICTURE_STRUCK,
    PICTURE_ADDED,
    PICTURE_LEFT_OUT,
    PICTURE_OPENED, /* the hat, closed as written */
    PICTURE_CLOSED  /* and the other way round */
} PictureChange;

/* Parts of a bar that are counted by themselves. */
typedef enum {
    PICTURE_ALL, /* but crashes */
    PICTURE_KICK,
    PICTURE_GHOSTS,
    PICTURE_SNARE,
    PICTURE_CYMBAL,
    PICTURE_BACKBEAT,
    PICTURE_PARTS
} PicturePart;

PictureChange picture_bars_change(const PictureTake* written, const PictureTake* take, int limb,
                                  int slot);
bool picture_bars_is_open(int key);

/* Snare strokes softer than this are ghosts: halfway between the middles of the tables' ghosts
   and normal strokes. */
double picture_bars_soft(void);

/* Strokes in both of two neighbouring bars over strokes in either, mean of all pairs; 1: alike. */
double picture_bars_likeness(const PictureTake* take, PicturePart part);

/* Of strokes in a bar, the share that the next bar lacks. */
double picture_bars_absent(const PictureTake* take, PicturePart part);

/* Eight bars as text. */
void picture_bars_print(const PictureTake* written, const PictureTake* take);

// SPDX-License-Identifier: ISC
/* shortlist.h - what is kept, as rows under the staff: strokes where a row is seen, and whether it
   can be played, a bit in each tick; walked through while it plays. */
#pragma once

#include "feet_row.h"
#include "model.h"

struct ShortlistDesk {
    uint32_t composed; /* the snapshot that the rows are of, */
    double tempo;      /*   and the tempo */
    int64_t laid_bar;  /* of the song */
    float laid_for[CONTROL_COUNT];
    bool is_laid[KEPT_MAX];
    int judging; /* slot from 0; -1: none */
    Playability play;
    Varied varied; /* the feet of what is kept */
};

/* A bit more of the rows; `model->shortlist` is made when first needed. */
void shortlist_tick(Model* model);
void shortlist_free(Model* model);

/* The state, and back to the page that it took the place of. */
void shortlist_open(Model* model);

/* To the slot so many on, whatever is in it, or to one, from 0; what is kept there comes in at
   its line. */
void shortlist_walk(Model* model, int by);
void shortlist_go(Model* model, int slot);

/* Where it is seen the row that was asked to play has the keys. */
void shortlist_stand(Model* model);

/* Where the other eight are shown the row that has the keys is one of them. */
void shortlist_follow(Model* model);

/* One eight or the other. */
void shortlist_turn(Model* model, int lot);

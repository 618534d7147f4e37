// SPDX-License-Identifier: ISC
/* varying.h - the page of variations: its rows are worked out from what plays, some in each tick,
   so that no picture waits; walked through while it plays; kept as one's own. */
#pragma once

#include "../../plugin/engine/varied/variation.h"
#include "feet_row.h"
#include "model.h"

/* What rows are made of: they are others where it is another. */
typedef struct {
    uint32_t composed;   /* model_compose's count */
    const Figure* feet;  /* NULL: nothing to vary */
    const Figure* hands; /* NULL: they rest */
    Meter meter;
    int32_t first; /* the variation that those of this page come after; 0: none */
    Regrid regrid;
    Realign realign;
    bool left_foot_leads;
} VarySource;

/* The rows made of one source: those of a letter of the form are kept while another plays. */
typedef struct {
    VarySource source;
    double tempo;    /* that `judged` is for */
    uint32_t looked; /* rows that were looked at, from the first on */
    VariationRow rows[VARIATION_COUNT];
    FeetVerdict verdicts[VARIATION_COUNT];
} VaryLooked;

struct Varying {
    VaryLooked letters[PARTS_MAX];
    const VaryLooked* shown;       /* that the page has */
    bool is_laid[VARIATION_COUNT]; /* strokes of the row are those of the bar shown */
    int64_t laid_bar;              /* of the song */
    float laid_for[CONTROL_COUNT]; /* as the controls were */
    double laid_tempo;
    float seen[2];  /* variation and then, as last looked at */
    int judging;    /* row; -1: none */
    bool is_saving; /* what is kept: not answered */
    char saving[TYPED_ROOM];
    Groove alone; /* the figure that is judged, by itself */
    Playability play;
    Varied varied;          /* feet that grow, */
    uint32_t grew;          /*   of this snapshot */
    VariationRoom first[1]; /* what the first variation makes */
    VariationRoom judged;   /* until that is done */
    VariationRoom rooms[2];
};

/* Some rows more; `model->vary` is made when first needed. */
void varying_tick(Model* model);
void varying_free(Model* model);

/* The page, the keys on the row that plays. */
void varying_open(Model* model);

/* To the row so many on, which is heard if it is offered. */
void varying_walk(Model* model, int by);
void varying_go(Model* model, int row);
void varying_scroll(Model* model, int rows);

/* Rows are made of what plays, and back. */
void varying_deepen(Model* model, bool deep);

/* A click on one of the two values: its rows are shown. */
void varying_choose(Model* model, Control control);

/* What plays becomes the user's own figure; what was chosen plays again. */
void varying_keep(Model* model);
void varying_leave(Model* model);

/* The plugin has saved something: true if it was asked for here. */
bool varying_saved(Model* model, uint32_t id);
void varying_refused(Model* model);

/* ---- Between the files of this room */

/* What plays in the bar shown, without its variation; false if nothing was told. */
bool varying_selection(const Model* model, Selection* selection);

/* What the page's rows are made of now; false if there is nothing. */
bool varying_source(const Model* model, VarySource* source);

/* The figure of a row of the page, in a room; NULL: it can't be made. */
const Figure* varying_make(Model* model, const VarySource* source, int number, VariationRoom* room);

/* The rows of a source, which the page has from then on; what is to look at next of them. */
VaryLooked* varying_letter(Model* model, const VarySource* source);
void varying_look_on(Model* model, VaryLooked* looked);
void varying_show_row(const VaryLooked* looked, int number, VaryPage* page);

/* Makes `model->vary`; false if there is no memory. */
bool varying_begin(Model* model);

/* Looks at all rows up to this one. */
void varying_look(Model* model, int row);

/* What was asked for elsewhere is followed. */
void varying_follow(Model* model);

/* Rows that the page has room for. */
int varying_rows_seen(const Model* model);

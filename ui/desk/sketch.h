// SPDX-License-Identifier: ISC
/* sketch.h - a figure being changed stroke by stroke, with every change kept so
   that it can be taken back.  Plain values; no window, no plugin. */
#pragma once

#include "../../plugin/engine/figure.h"

enum { SKETCH_CHANGES_MAX = 128, SKETCH_GRID_MAX = 12, SKETCH_STEPS_MAX = 64 };

/* A figure that owns its strokes. */
typedef struct {
    FigureKind kind;
    uint32_t id;
    int64_t cycle_ticks;
    int64_t step_ticks;
    uint32_t bars; /* 0 rolls over the bar line */
    uint32_t count;
    Stroke strokes[FIGURE_STROKES_MAX];
} SketchFigure;

typedef struct {
    SketchFigure now;
    int grid; /* steps in a quarter that changes fall on */
    int undo; /* changes that can be taken back */
    int redo; /* changes that can be made again */
    int next; /* place in the ring */
    SketchFigure ring[SKETCH_CHANGES_MAX];
} Sketch;

/* Begins with a figure as it is. */
void sketch_begin(Sketch* sketch, const Figure* figure);

/* The figure as it is now; its strokes are the sketch's. */
Figure sketch_figure(const Sketch* sketch);

/* The step nearest to a tick of the cycle, on the grid. */
int64_t sketch_step(const Sketch* sketch, double tick);

/* The stroke of a limb within half a step of a tick; -1: none. */
int sketch_find(const Sketch* sketch, uint8_t limb, int64_t tick);

/* Each change is true if it changed something.  A figure keeps one stroke at
   least. */

/* None, normal, accent, ghost, for hands flam and drag too, none.  A new stroke has
   the voice that the limb has at the nearest other one. */
bool sketch_cycle(Sketch* sketch, uint8_t limb, int64_t tick);
bool sketch_level(Sketch* sketch, uint8_t limb, int64_t tick, Level level);

/* The next voice that the limb can strike, or the one before. */
bool sketch_voice(Sketch* sketch, uint8_t limb, int64_t tick, int by);

/* To another step, over what is there. */
bool sketch_move(Sketch* sketch, uint8_t limb, int64_t from, int64_t to);

/* Another length: strokes beyond it are left out.  `bars` 0 lets it roll. */
bool sketch_length(Sketch* sketch, int64_t cycle_ticks, uint32_t bars);

bool sketch_undo(Sketch* sketch);
bool sketch_redo(Sketch* sketch);

// SPDX-License-Identifier: ISC
/* edit_buffer.h - a figure being changed stroke by stroke, with every change kept so
   that it can be taken back.  Plain values; no window, no plugin. */
#pragma once

#include "../../plugin/engine/written/figure.h"

enum {
    EDIT_BUFFER_CHANGES_MAX = 128, /* one less can be taken back */
    EDIT_BUFFER_GRID_MAX = 12,
    EDIT_BUFFER_STEPS_MAX = 64,
    EDIT_BUFFER_BARS_MAX = FORM_BARS_MAX, /* as the bank reads */
};

/* A figure that owns its strokes. */
typedef struct {
    FigureKind kind;
    uint32_t id;
    int64_t cycle_ticks;
    int64_t step_ticks;
    uint32_t bars; /* 0 rolls over the bar line */
    uint32_t count;
    Stroke strokes[FIGURE_STROKES_MAX];
} EditFigure;

typedef struct {
    EditFigure now;
    int grid; /* steps in a quarter that changes fall on */
    int undo; /* changes that can be taken back */
    int redo; /* changes that can be made again */
    int next; /* place in the ring */
    EditFigure ring[EDIT_BUFFER_CHANGES_MAX];
} EditBuffer;

/* Begins with a figure as it is. */
void edit_buffer_begin(EditBuffer* buffer, const Figure* figure);

/* The figure as it is now; its strokes are the buffer's. */
Figure edit_buffer_figure(const EditBuffer* buffer);

/* True if both say the same: strokes, length and bars. */
bool edit_buffer_alike(const EditFigure* a, const EditFigure* b);
bool edit_buffer_same_stroke(const Stroke* a, const Stroke* b);

/* The step nearest to a tick of the cycle, on the grid. */
int64_t edit_buffer_step(const EditBuffer* buffer, double tick);

/* The stroke of a limb within half a step of a tick; -1: none. */
int edit_buffer_find(const EditBuffer* buffer, uint8_t limb, int64_t tick);

/* Each change is true if it changed something.  A figure keeps one stroke at
   least. */

/* None, normal, accent, ghost, for hands flam and drag too, none.  A new stroke has
   the voice that the limb has at the nearest other one. */
bool edit_buffer_cycle(EditBuffer* buffer, uint8_t limb, int64_t tick);
bool edit_buffer_level(EditBuffer* buffer, uint8_t limb, int64_t tick, Level level);

/* The next voice that the limb can strike, or the one before. */
bool edit_buffer_voice(EditBuffer* buffer, uint8_t limb, int64_t tick, int by);

/* To another step, over what is there. */
bool edit_buffer_move(EditBuffer* buffer, uint8_t limb, int64_t from, int64_t to);

/* Bars that a figure of its kind may be written for. */
uint32_t edit_buffer_bars_most(const EditBuffer* buffer);

/* Another length: strokes beyond it are left out.  A turnaround's end stays where it is, so
   that it grows and loses at its beginning.  `bars` 0 lets it roll; the length
   must be a whole number of ticks for each of 1 to EDIT_BUFFER_BARS_MAX. */
bool edit_buffer_length(EditBuffer* buffer, int64_t cycle_ticks, uint32_t bars);

/* A figure that rolls becomes one of as many whole bars as it needs, filled up to the
   last bar line with what it would have rolled on with; a turnaround begins with rests. */
bool edit_buffer_to_bars(EditBuffer* buffer, int64_t bar_ticks);

/* The next length, longer for 1 or shorter for -1: of whole bars a bar, else whole
   steps of the grid, so that lines of steps can say it. */
int64_t edit_buffer_next_length(const EditBuffer* buffer, int by);

bool edit_buffer_undo(EditBuffer* buffer);

/* As if the last change had never been: it can't be made again. */
bool edit_buffer_take_back(EditBuffer* buffer);

bool edit_buffer_redo(EditBuffer* buffer);

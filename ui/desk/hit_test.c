// SPDX-License-Identifier: ISC
#include "hit_test.h"

#include "../../plugin/engine/groove/groove.h"

#include <math.h>

/* What the pair plays until the fill, or in it. */
static HitTest part_of_bar(const SeenBar* const bar, const LimbPair pair, const bool is_fill)
{
    const bool is_feet = pair == PAIR_FEET;
    const int64_t end = meter_bar_ticks(bar->meter);
    const bool is_cut = bar->fill && (!is_feet || bar->fill_feet);
    HitTest hit = {.bar = bar, .turns = is_feet ? &bar->feet_turns : &bar->hands_turns, .end = end};
    if (is_fill) {
        hit.kind = FIGURE_TURNAROUND;
        hit.id = bar->fill;
        hit.begin = bar->fill_begin;
    } else {
        hit.kind = is_feet ? FIGURE_FEET : FIGURE_HANDS;
        hit.id = is_feet ? bar->feet : bar->hands;
        hit.end = is_cut ? bar->fill_begin : end;
    }
    return hit;
}

/* Whether the pair is in the fill at a tick: what is pointed at is the nearest step. */
static bool is_in_fill(const SeenBar* const bar, const LimbPair pair, const double tick)
{
    const int32_t step = pair == PAIR_FEET ? bar->feet_step : bar->hands_step;
    const int32_t finer = step > 0 && step < bar->fill_step ? step : bar->fill_step;
    const double begin = bar->fill_begin ? bar->fill_begin - finer / 2.0 : 0.0;
    return bar->fill && (pair == PAIR_HANDS || bar->fill_feet) && tick >= begin;
}

/* The tick of the bar under x as it is written; before beat 1 is beat 1. */
static double bar_tick(const Model* const model, const SeenBar* const bar, const double x)
{
    const Geometry g = geometry_of(&model->view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double tick = ((x - g.beat_1) / space.beat + space.first) * space.ticks;
    const double bent = tick > 0.0 ? tick : 0.0;
    return swing_unbend(model->view.edit.swing, bent, meter_bar_ticks(bar->meter));
}

double hit_test_x(const Model* const model, const SeenBar* const bar, const int32_t tick)
{
    const Geometry g = geometry_of(&model->view);
    const Swing swing = model->view.edit.swing;
    const int64_t ticks = meter_bar_ticks(bar->meter);
    const double bent = swing.ratio > 1.0 ? (double)swing_bend(swing, tick, ticks) : tick;
    return geometry_tick(&g, geometry_bar(&g, bar->meter), bent);
}

bool hit_test_at(const Model* const model, const double x, HitTest* const hit)
{
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    if (!bar) {
        return false;
    }
    const LimbPair pair = view->edit.pair;
    *hit = part_of_bar(bar, pair, is_in_fill(bar, pair, bar_tick(model, bar, x)));
    return hit->id > 0;
}

bool hit_test_of(const Model* const model, HitTest* const hit)
{
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    if (!bar) {
        return false;
    }
    const LimbPair pair = view->edit.pair;
    const bool is_cut = bar->fill && (pair == PAIR_HANDS || bar->fill_feet);
    const bool is_open = model->editor.kind == FIGURE_TURNAROUND;
    *hit = part_of_bar(bar, pair, is_cut && (!bar->fill_begin || is_open));
    return hit->id > 0;
}

const Figure* hit_test_figure(const Model* const model, const HitTest* const hit)
{
    const Library* const library = model_library(model);
    return library ? library_figure(library, hit->kind, hit->id) : NULL;
}

/* A turnaround is always played as written. */
bool hit_test_is_relaid(const Model* const model, const HitTest* const hit)
{
    static const Control regrids[FIGURE_KINDS][3] = {
        [FIGURE_HANDS] = {CONTROL_HANDS_GRID, CONTROL_HANDS_CYCLE, CONTROL_HANDS_SHIFT},
        [FIGURE_FEET] = {CONTROL_FEET_GRID, CONTROL_FEET_CYCLE, CONTROL_FEET_SHIFT},
    };
    bool is_regridded = false;
    for (int i = 0; hit->kind != FIGURE_TURNAROUND && i < 3; ++i) {
        is_regridded |= fabsf(model->view.values[regrids[hit->kind][i]]) > 0.5f;
    }
    return is_regridded;
}

/* ---- Swing */

Swing hit_test_swing(const Model* const model, const int grid)
{
    const Swing even = {1.0, TICKS_PER_QUARTER};
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    if (!bar || !model->snapshot || !figure_grid_bends(grid, 1)) {
        return even;
    }
    const Settings settings = settings_from_controls(model->view.values);
    return selection_swing(&settings, library_groove(model_library(model), bar->groove),
                           model_tempo(model));
}

/* ---- Steps */

/* The nearest of even steps from 0, in [begin, end); -1: there is none. */
static int64_t nearest(const double tick, const int64_t step, const int64_t begin,
                       const int64_t end)
{
    const int64_t first = floor_div(begin + step - 1, step);
    const int64_t last = floor_div(end - 1, step);
    const double wanted = floor(tick / (double)step + 0.5); /* anything, from any pointer */
    return first > last                ? -1
           : !(wanted > (double)first) ? first * step
           : wanted < (double)last     ? (int64_t)wanted * step
                                       : last * step;
}

int32_t hit_test_hover(const Model* const model, const SeenBar* const bar, const double x)
{
    const int grid = model->view.edit.grid > 0 ? model->view.edit.grid : 4;
    return (int32_t)nearest(bar_tick(model, bar, x), TICKS_PER_QUARTER / grid, 0,
                            meter_bar_ticks(bar->meter));
}

/* The turn of the figure under a tick of the bar: a fill's ends on its line; else from a
   start that the plugin has told, if the bar has one. */
static FigureCopy copy_at(const Model* const model, const HitTest* const hit, const int64_t tick)
{
    const Figure figure = edit_buffer_figure(&model->editor.pieces[model->editor.kind].buffer);
    const FigureBar at = {hit->bar->meter, hit->bar->bar, hit->bar->in_phrase,
                          model->view.place.loops, (Realign)model->view.values[CONTROL_REALIGN]};
    if (hit->kind == FIGURE_TURNAROUND) {
        return (FigureCopy){hit->bar->fill_end - figure.cycle_ticks, 0, figure.cycle_ticks};
    }
    FigureCopy copy = groove_copy(&figure, at, tick);
    if (!figure.bars && hit->turns->count && hit->turns->ticks[0] < hit->end) {
        copy.begin = tick - floor_mod(tick - hit->turns->ticks[0], copy.ticks);
    }
    return copy;
}

/* Where in the turn the figure can be pointed at: what is played of it, but not beyond its
   end; of one that rolls the next turn's first step is its first. */
static int64_t tick_in_copy(const HitTest* const hit, const EditBuffer* const buffer,
                            const FigureCopy copy, const double tick)
{
    const int64_t left = hit->end - copy.begin;
    const bool is_whole = buffer->now.bars || hit->kind == FIGURE_TURNAROUND;
    const int64_t end = is_whole && left > copy.ticks ? copy.ticks : left;
    const int64_t begin = hit->begin > copy.begin ? hit->begin - copy.begin : 0;
    const int64_t step = TICKS_PER_QUARTER / buffer->grid;
    const int64_t from = hit->kind == FIGURE_TURNAROUND ? begin : 0;
    const int64_t found = nearest(tick - (double)copy.begin, step, from, end);
    return found < 0 ? -1 : found < copy.ticks ? copy.from + found : 0;
}

/* Nothing is found beyond the bar line. */
int64_t hit_test_tick(const Model* const model, const HitTest* const hit, const double x)
{
    const double tick = bar_tick(model, hit->bar, x);
    if (tick >= (double)meter_bar_ticks(hit->bar->meter)) {
        return -1;
    }
    const double in_part = tick < (double)hit->begin       ? (double)hit->begin
                           : tick > (double)(hit->end - 1) ? (double)(hit->end - 1)
                                                           : tick;
    const FigureCopy copy = copy_at(model, hit, (int64_t)in_part);
    return tick_in_copy(hit, &model->editor.pieces[model->editor.kind].buffer, copy, in_part);
}

int hit_test_places(const Model* const model, const HitTest* const hit, const int64_t tick,
                    int32_t* const ticks, const int room)
{
    int count = 0;
    int64_t from = hit->begin;
    while (from < hit->end && count < room) {
        const FigureCopy copy = copy_at(model, hit, from);
        const int64_t at = copy.begin + tick - copy.from;
        const int64_t next = copy.begin + copy.ticks;
        if (tick >= copy.from && at >= hit->begin && at < hit->end && at < next) {
            ticks[count++] = (int32_t)at;
        }
        if (next <= from) {
            break;
        }
        from = next;
    }
    return count;
}

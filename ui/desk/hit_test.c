// SPDX-License-Identifier: ISC
#include "hit_test.h"

#include <math.h>

/* True if the turnaround that takes the bar plays the feet too.  Ids are of a kind:
   feet may have the number that the turnaround has. */
static bool turn_has_feet(const Model* const model, const SeenBar* const bar)
{
    const HitTest turn = {bar, FIGURE_TURNAROUND, bar->hands, &bar->hands_turns};
    const Figure* const figure = hit_test_figure(model, &turn);
    return figure ? figure->plays_limb[RIGHT_FOOT] || figure->plays_limb[LEFT_FOOT]
                  : bar->feet == bar->hands;
}

bool hit_test_of(const Model* const model, HitTest* const hit)
{
    const View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const bool is_feet = view->edit.pair == PAIR_FEET;
    if (!bar) {
        return false;
    }
    const bool is_turn = bar->turns && (!is_feet || turn_has_feet(model, bar));
    hit->bar = bar;
    hit->id = is_feet ? bar->feet : bar->hands;
    hit->turns = is_feet ? &bar->feet_turns : &bar->hands_turns;
    hit->kind = is_turn ? FIGURE_TURNAROUND : is_feet ? FIGURE_FEET : FIGURE_HANDS;
    return hit->id > 0;
}

const Figure* hit_test_figure(const Model* const model, const HitTest* const hit)
{
    const Single* const draft = model->editor.drafts[hit->kind].single;
    if (draft && draft->info.id == hit->id) {
        return &draft->figure;
    }
    return model->bank ? library_figure(bank_library(model->bank), hit->kind, hit->id) : NULL;
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
    if (!bar || !model->bank || !grid_bends(grid, 1)) {
        return even;
    }
    const Settings settings = settings_from_controls(model->view.values);
    const double tempo = (double)model->view.readouts[READOUT_TEMPO_NOW];
    return selection_swing(&settings, library_groove(bank_library(model->bank), bar->groove),
                           tempo > 0.0 ? tempo : 120.0);
}

/* The tick that swing_bend brings to this one. */
static double unbend(const Swing swing, const double tick, const double bar_ticks)
{
    const double pair = (double)swing.pair_ticks;
    const double begin = floor(tick / pair) * pair;
    if (!(swing.ratio > 1.0) || begin + pair > bar_ticks || tick < 0.0) {
        return tick;
    }
    const double in_pair = tick - begin;
    const double first = pair * swing.ratio / (1.0 + swing.ratio);
    return begin + (in_pair < first
                        ? in_pair * pair / (2.0 * first)
                        : pair / 2.0 + (in_pair - first) * pair / (2.0 * (pair - first)));
}

/* The tick of the bar under x as it is written; before beat 1 is beat 1. */
static double bar_tick(const Model* const model, const SeenBar* const bar, const double x)
{
    const Geometry g = geometry_of(&model->view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double tick = (x - g.beat_1) / space.beat * space.ticks;
    const double bent = tick > 0.0 ? tick : 0.0;
    return unbend(model->view.edit.swing, bent, (double)meter_bar_ticks(bar->meter));
}

/* ---- Steps */

/* The nearest of even steps from 0 that is before `end`. */
static int64_t nearest(const double tick, const int64_t step, const int64_t end)
{
    const int64_t last = (end - 1) / step;
    const double wanted = floor(tick / (double)step + 0.5); /* anything, from any pointer */
    return !(wanted > 0.0) ? 0 : wanted < (double)last ? (int64_t)wanted * step : last * step;
}

int32_t hit_test_hover(const Model* const model, const SeenBar* const bar, const double x)
{
    const int grid = model->view.edit.grid > 0 ? model->view.edit.grid : 4;
    return (int32_t)nearest(bar_tick(model, bar, x), TICKS_PER_QUARTER / grid,
                            meter_bar_ticks(bar->meter));
}

/* Where the figure stands at the bar line of a bar in which it doesn't start, as
   groove.c lays it: from bar 0, the phrase or the bar on. */
static int64_t rolled_to(const Model* const model, const SeenBar* const bar, const int64_t cycle)
{
    const int64_t ticks = meter_bar_ticks(bar->meter);
    const int realign = (int)model->view.values[CONTROL_REALIGN];
    const bool never = realign == REALIGN_NEVER && !model->view.place.loops;
    const int64_t bars = never ? bar->bar : realign == REALIGN_BAR ? 0 : (int64_t)bar->in_phrase;
    return floor_mod(bars * ticks, cycle);
}

/* A figure of whole bars starts again at the bar line, and in a longer bar within
   it: always with the part of it that this bar has. */
static int64_t tick_of_bars(const EditBuffer* const buffer, const SeenBar* const bar,
                            const double tick)
{
    const EditFigure* const now = &buffer->now;
    const int64_t period = now->cycle_ticks / now->bars;
    const int64_t copy = (int64_t)tick / period * period;
    const int64_t left = meter_bar_ticks(bar->meter) - copy;
    const int64_t end = left < period ? left : period;
    return bar->in_phrase % now->bars * period +
           nearest(tick - (double)copy, TICKS_PER_QUARTER / buffer->grid, end);
}

static int64_t tick_of_rolling(const Model* const model, const HitTest* const hit,
                               const double tick)
{
    const EditBuffer* const buffer = &model->editor.buffer;
    const int64_t cycle = buffer->now.cycle_ticks;
    const int64_t ticks = meter_bar_ticks(hit->bar->meter);
    const int64_t at_line = hit->turns->count ? floor_mod(-(int64_t)hit->turns->ticks[0], cycle)
                                              : rolled_to(model, hit->bar, cycle);
    const double at = (double)at_line + tick;
    const int64_t start = (int64_t)(at / (double)cycle) * cycle; /* of the turn it is in */
    const int64_t step = TICKS_PER_QUARTER / buffer->grid;
    const int64_t end = at_line + ticks - start; /* the bar line, from there */
    const int64_t found = nearest(at - (double)start, step, end);
    return found < cycle ? found : 0; /* the next turn's first */
}

int64_t hit_test_tick(const Model* const model, const HitTest* const hit, const double x)
{
    const double tick = bar_tick(model, hit->bar, x);
    if (tick >= (double)meter_bar_ticks(hit->bar->meter)) {
        return -1;
    }
    return model->editor.buffer.now.bars ? tick_of_bars(&model->editor.buffer, hit->bar, tick)
                                         : tick_of_rolling(model, hit, tick);
}

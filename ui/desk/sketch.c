// SPDX-License-Identifier: ISC
#include "sketch.h"

#include <math.h>
#include <string.h>

void sketch_begin(Sketch* const sketch, const Figure* const figure)
{
    SketchFigure* const now = &sketch->now;
    now->kind = figure->kind;
    now->id = figure->id;
    now->cycle_ticks = figure->cycle_ticks;
    now->step_ticks = figure->step_ticks;
    now->bars = figure->bars;
    now->count =
        figure->stroke_count < FIGURE_STROKES_MAX ? figure->stroke_count : FIGURE_STROKES_MAX;
    memcpy(now->strokes, figure->strokes, now->count * sizeof *now->strokes);
    const int64_t grid = TICKS_PER_QUARTER / figure->step_ticks;
    const bool fits = TICKS_PER_QUARTER % figure->step_ticks == 0 && grid <= SKETCH_GRID_MAX;
    sketch->grid = fits ? (int)grid : 4;
    sketch->undo = sketch->redo = sketch->next = 0;
}

Figure sketch_figure(const Sketch* const sketch)
{
    const SketchFigure* const now = &sketch->now;
    Figure figure = {
        .id = now->id,
        .kind = now->kind,
        .cycle_ticks = now->cycle_ticks,
        .step_ticks = now->step_ticks,
        .bars = now->bars,
        .stroke_count = now->count,
        .strokes = now->strokes,
    };
    for (uint32_t i = 0; i < now->count; ++i) {
        figure.plays_limb[now->strokes[i].limb] = true;
        figure.plays_pedal |= now->strokes[i].voice == VOICE_HAT_PEDAL;
    }
    return figure;
}

static int64_t step_of(const Sketch* const sketch)
{
    return TICKS_PER_QUARTER / sketch->grid;
}

int64_t sketch_step(const Sketch* const sketch, const double tick)
{
    const int64_t step = step_of(sketch);
    const int64_t steps = (sketch->now.cycle_ticks + step - 1) / step;
    return floor_mod((int64_t)floor(tick / (double)step + 0.5), steps) * step;
}

int sketch_find(const Sketch* const sketch, const uint8_t limb, const int64_t tick)
{
    int found = -1;
    int64_t nearest = step_of(sketch) / 2;
    for (uint32_t i = 0; i < sketch->now.count; ++i) {
        const Stroke* const stroke = &sketch->now.strokes[i];
        const int64_t apart = stroke->tick < tick ? tick - stroke->tick : stroke->tick - tick;
        if (stroke->limb == limb && apart < nearest) {
            found = (int)i;
            nearest = apart;
        }
    }
    return found;
}

/* ---- What was before */

static SketchFigure* ring_at(Sketch* const sketch, const int by)
{
    const int place = (sketch->next + by + SKETCH_CHANGES_MAX) % SKETCH_CHANGES_MAX;
    return &sketch->ring[place];
}

/* To be called before each change. */
static void keep(Sketch* const sketch)
{
    *ring_at(sketch, 0) = sketch->now;
    sketch->next = (sketch->next + 1) % SKETCH_CHANGES_MAX;
    sketch->undo += sketch->undo < SKETCH_CHANGES_MAX - 1;
    sketch->redo = 0;
}

static void swap(SketchFigure* const a, SketchFigure* const b)
{
    const SketchFigure kept = *a;
    *a = *b;
    *b = kept;
}

bool sketch_undo(Sketch* const sketch)
{
    if (!sketch->undo) {
        return false;
    }
    swap(ring_at(sketch, -1), &sketch->now);
    sketch->next = (sketch->next + SKETCH_CHANGES_MAX - 1) % SKETCH_CHANGES_MAX;
    --sketch->undo;
    ++sketch->redo;
    return true;
}

bool sketch_redo(Sketch* const sketch)
{
    if (!sketch->redo) {
        return false;
    }
    swap(ring_at(sketch, 0), &sketch->now);
    sketch->next = (sketch->next + 1) % SKETCH_CHANGES_MAX;
    ++sketch->undo;
    --sketch->redo;
    return true;
}

/* ---- Changes */

/* The finest grid that strokes, cycle and the grid of changes share. */
static void settle(Sketch* const sketch)
{
    SketchFigure* const now = &sketch->now;
    int64_t step = common_divisor(now->cycle_ticks, step_of(sketch));
    for (uint32_t i = 0; i < now->count; ++i) {
        step = common_divisor(step, now->strokes[i].tick);
    }
    now->step_ticks = step;
    strokes_sort(now->strokes, now->count);
}

static void take_out(Sketch* const sketch, const int index)
{
    SketchFigure* const now = &sketch->now;
    for (uint32_t i = (uint32_t)index + 1; i < now->count; ++i) {
        now->strokes[i - 1] = now->strokes[i];
    }
    --now->count;
}

/* What the limb strikes nearest to a tick, or what such a limb strikes at first. */
static uint8_t voice_near(const Sketch* const sketch, const uint8_t limb, const int64_t tick)
{
    static const uint8_t first[LIMB_COUNT] = {
        [RIGHT_HAND] = VOICE_HAT_CLOSED,
        [LEFT_HAND] = VOICE_SNARE,
        [RIGHT_FOOT] = VOICE_KICK,
        [LEFT_FOOT] = VOICE_KICK,
    };
    uint8_t voice = first[limb];
    int64_t nearest = INT64_MAX;
    for (uint32_t i = 0; i < sketch->now.count; ++i) {
        const Stroke* const stroke = &sketch->now.strokes[i];
        const int64_t apart = stroke->tick < tick ? tick - stroke->tick : stroke->tick - tick;
        if (stroke->limb == limb && apart < nearest) {
            voice = stroke->voice;
            nearest = apart;
        }
    }
    return voice;
}

static bool put(Sketch* const sketch, const uint8_t limb, const int64_t tick, const Level level)
{
    SketchFigure* const now = &sketch->now;
    if (now->count == FIGURE_STROKES_MAX || tick < 0 || tick >= now->cycle_ticks) {
        return false;
    }
    const uint8_t voice = voice_near(sketch, limb, tick);
    keep(sketch);
    now->strokes[now->count++] =
        (Stroke){tick, limb, voice, (uint8_t)level, grid_bends(sketch->grid, 1)};
    settle(sketch);
    return true;
}

static bool remove_stroke(Sketch* const sketch, const int index)
{
    if (sketch->now.count < 2) {
        return false;
    }
    keep(sketch);
    take_out(sketch, index);
    settle(sketch);
    return true;
}

bool sketch_level(Sketch* const sketch, const uint8_t limb, const int64_t tick, const Level level)
{
    const int index = sketch_find(sketch, limb, tick);
    if (index < 0) {
        return level != LEVEL_REST && put(sketch, limb, tick, level);
    }
    if (sketch->now.strokes[index].level == (uint8_t)level) {
        return false;
    }
    if (level == LEVEL_REST) {
        return remove_stroke(sketch, index);
    }
    keep(sketch);
    sketch->now.strokes[index].level = (uint8_t)level;
    return true;
}

bool sketch_cycle(Sketch* const sketch, const uint8_t limb, const int64_t tick)
{
    static const Level after[] = {
        [LEVEL_REST] = LEVEL_NORMAL, [LEVEL_NORMAL] = LEVEL_ACCENT, [LEVEL_ACCENT] = LEVEL_GHOST,
        [LEVEL_GHOST] = LEVEL_FLAM,  [LEVEL_FLAM] = LEVEL_DRAG,     [LEVEL_DRAG] = LEVEL_REST,
    };
    const int index = sketch_find(sketch, limb, tick);
    const Level level = index < 0 ? LEVEL_REST : (Level)sketch->now.strokes[index].level;
    const Level next = after[level];
    return sketch_level(sketch, limb, tick,
                        limb_is_foot(limb) && next == LEVEL_FLAM ? LEVEL_REST : next);
}

static bool can_strike(const uint8_t limb, const int voice)
{
    const bool is_kick = voice == VOICE_KICK || voice == VOICE_KICK_LEFT;
    const bool is_click = voice == VOICE_CLICK || voice == VOICE_CLICK_ACCENT;
    if (limb_is_foot(limb)) {
        return voice == VOICE_KICK || (limb == LEFT_FOOT && voice == VOICE_HAT_PEDAL);
    }
    return !is_kick && !is_click && voice != VOICE_HAT_PEDAL;
}

bool sketch_voice(Sketch* const sketch, const uint8_t limb, const int64_t tick, const int by)
{
    const int index = sketch_find(sketch, limb, tick);
    if (index < 0) {
        return false;
    }
    int voice = sketch->now.strokes[index].voice;
    do {
        voice = (voice + by + VOICE_COUNT) % VOICE_COUNT;
    } while (!can_strike(limb, voice));
    if (voice == (int)sketch->now.strokes[index].voice) {
        return false;
    }
    keep(sketch);
    sketch->now.strokes[index].voice = (uint8_t)voice;
    settle(sketch);
    return true;
}

bool sketch_move(Sketch* const sketch, const uint8_t limb, const int64_t from, const int64_t to)
{
    const int index = sketch_find(sketch, limb, from);
    if (index < 0 || to < 0 || to >= sketch->now.cycle_ticks ||
        sketch->now.strokes[index].tick == to) {
        return false;
    }
    keep(sketch);
    Stroke moved = sketch->now.strokes[index];
    take_out(sketch, index);
    const int there = sketch_find(sketch, limb, to);
    if (there >= 0) {
        take_out(sketch, there);
    }
    moved.tick = to;
    moved.bends = grid_bends(sketch->grid, 1);
    sketch->now.strokes[sketch->now.count++] = moved;
    settle(sketch);
    return true;
}

bool sketch_length(Sketch* const sketch, const int64_t cycle_ticks, const uint32_t bars)
{
    SketchFigure* const now = &sketch->now;
    uint32_t left = 0;
    for (uint32_t i = 0; i < now->count; ++i) {
        left += now->strokes[i].tick < cycle_ticks;
    }
    if (cycle_ticks <= 0 || !left || (cycle_ticks == now->cycle_ticks && bars == now->bars)) {
        return false;
    }
    keep(sketch);
    now->cycle_ticks = cycle_ticks;
    now->bars = bars;
    now->count = 0;
    const SketchFigure* const before = ring_at(sketch, -1);
    for (uint32_t i = 0; i < before->count; ++i) {
        if (before->strokes[i].tick < cycle_ticks) {
            now->strokes[now->count++] = before->strokes[i];
        }
    }
    settle(sketch);
    return true;
}

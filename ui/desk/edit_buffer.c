// SPDX-License-Identifier: ISC
#include "edit_buffer.h"

#include <math.h>
#include <string.h>

void edit_buffer_begin(EditBuffer* const buffer, const Figure* const figure)
{
    EditFigure* const now = &buffer->now;
    now->kind = figure->kind;
    now->id = figure->id;
    now->cycle_ticks = figure->cycle_ticks;
    now->step_ticks = figure->step_ticks;
    now->bars = figure->bars;
    now->count =
        figure->stroke_count < FIGURE_STROKES_MAX ? figure->stroke_count : FIGURE_STROKES_MAX;
    memcpy(now->strokes, figure->strokes, now->count * sizeof *now->strokes);
    const int64_t grid = TICKS_PER_QUARTER / figure->step_ticks;
    const bool fits = TICKS_PER_QUARTER % figure->step_ticks == 0 && grid <= EDIT_BUFFER_GRID_MAX;
    buffer->grid = fits ? (int)grid : 4;
    buffer->undo = buffer->redo = buffer->next = 0;
}

Figure edit_buffer_figure(const EditBuffer* const buffer)
{
    const EditFigure* const now = &buffer->now;
    Figure figure = {
        .id = now->id,
        .kind = now->kind,
        .cycle_ticks = now->cycle_ticks,
        .step_ticks = now->step_ticks,
        .bars = now->bars,
        .stroke_count = now->count,
        .strokes = now->strokes,
    };
    figure_note(&figure);
    return figure;
}

bool edit_buffer_alike(const EditFigure* const a, const EditFigure* const b)
{
    bool alike = a->cycle_ticks == b->cycle_ticks && a->bars == b->bars && a->count == b->count;
    for (uint32_t i = 0; alike && i < a->count; ++i) {
        alike = edit_buffer_same_stroke(&a->strokes[i], &b->strokes[i]);
    }
    return alike;
}

bool edit_buffer_same_stroke(const Stroke* const a, const Stroke* const b)
{
    return a->tick == b->tick && a->limb == b->limb && a->voice == b->voice && a->level == b->level;
}

static int64_t step_of(const EditBuffer* const buffer)
{
    return TICKS_PER_QUARTER / buffer->grid;
}

int64_t edit_buffer_step(const EditBuffer* const buffer, const double tick)
{
    const int64_t step = step_of(buffer);
    const int64_t steps = (buffer->now.cycle_ticks + step - 1) / step;
    return floor_mod((int64_t)floor(tick / (double)step + 0.5), steps) * step;
}

int edit_buffer_find(const EditBuffer* const buffer, const uint8_t limb, const int64_t tick)
{
    int found = -1;
    int64_t nearest = step_of(buffer) / 2;
    for (uint32_t i = 0; i < buffer->now.count; ++i) {
        const Stroke* const stroke = &buffer->now.strokes[i];
        const int64_t apart = stroke->tick < tick ? tick - stroke->tick : stroke->tick - tick;
        if (stroke->limb == limb && apart < nearest) {
            found = (int)i;
            nearest = apart;
        }
    }
    return found;
}

/* ---- What was before */

static EditFigure* ring_at(EditBuffer* const buffer, const int by)
{
    const int place = (buffer->next + by + EDIT_BUFFER_CHANGES_MAX) % EDIT_BUFFER_CHANGES_MAX;
    return &buffer->ring[place];
}

/* To be called before each change. */
static void keep(EditBuffer* const buffer)
{
    *ring_at(buffer, 0) = buffer->now;
    buffer->next = (buffer->next + 1) % EDIT_BUFFER_CHANGES_MAX;
    buffer->undo += buffer->undo < EDIT_BUFFER_CHANGES_MAX - 1;
    buffer->redo = 0;
}

static void swap(EditFigure* const a, EditFigure* const b)
{
    const EditFigure kept = *a;
    *a = *b;
    *b = kept;
}

bool edit_buffer_undo(EditBuffer* const buffer)
{
    if (!buffer->undo) {
        return false;
    }
    swap(ring_at(buffer, -1), &buffer->now);
    buffer->next = (buffer->next + EDIT_BUFFER_CHANGES_MAX - 1) % EDIT_BUFFER_CHANGES_MAX;
    --buffer->undo;
    ++buffer->redo;
    return true;
}

bool edit_buffer_take_back(EditBuffer* const buffer)
{
    const bool undone = edit_buffer_undo(buffer);
    buffer->redo = 0;
    return undone;
}

bool edit_buffer_redo(EditBuffer* const buffer)
{
    if (!buffer->redo) {
        return false;
    }
    swap(ring_at(buffer, 0), &buffer->now);
    buffer->next = (buffer->next + 1) % EDIT_BUFFER_CHANGES_MAX;
    ++buffer->undo;
    --buffer->redo;
    return true;
}

/* ---- Changes */

/* The finest grid that strokes, cycle and the grid of changes share. */
static void settle(EditBuffer* const buffer)
{
    EditFigure* const now = &buffer->now;
    int64_t step = common_divisor(now->cycle_ticks, step_of(buffer));
    for (uint32_t i = 0; i < now->count; ++i) {
        step = common_divisor(step, now->strokes[i].tick);
    }
    now->step_ticks = step;
    strokes_sort(now->strokes, now->count);
}

static void take_out(EditBuffer* const buffer, const int index)
{
    EditFigure* const now = &buffer->now;
    for (uint32_t i = (uint32_t)index + 1; i < now->count; ++i) {
        now->strokes[i - 1] = now->strokes[i];
    }
    --now->count;
}

/* What the limb strikes nearest to a tick, or what such a limb strikes at first. */
static uint8_t voice_near(const EditBuffer* const buffer, const uint8_t limb, const int64_t tick)
{
    static const uint8_t first[LIMB_COUNT] = {
        [RIGHT_HAND] = VOICE_HAT_CLOSED,
        [LEFT_HAND] = VOICE_SNARE,
        [RIGHT_FOOT] = VOICE_KICK,
        [LEFT_FOOT] = VOICE_KICK,
    };
    uint8_t voice = first[limb];
    int64_t nearest = INT64_MAX;
    for (uint32_t i = 0; i < buffer->now.count; ++i) {
        const Stroke* const stroke = &buffer->now.strokes[i];
        const int64_t apart = stroke->tick < tick ? tick - stroke->tick : stroke->tick - tick;
        if (stroke->limb == limb && apart < nearest) {
            voice = stroke->voice;
            nearest = apart;
        }
    }
    return voice;
}

static bool put(EditBuffer* const buffer, const uint8_t limb, const int64_t tick, const Level level)
{
    EditFigure* const now = &buffer->now;
    if (now->count == FIGURE_STROKES_MAX || tick < 0 || tick >= now->cycle_ticks) {
        return false;
    }
    const uint8_t voice = voice_near(buffer, limb, tick);
    keep(buffer);
    now->strokes[now->count++] =
        (Stroke){tick, limb, voice, (uint8_t)level, figure_grid_bends(buffer->grid, 1)};
    settle(buffer);
    return true;
}

static bool remove_stroke(EditBuffer* const buffer, const int index)
{
    if (buffer->now.count < 2) {
        return false;
    }
    keep(buffer);
    take_out(buffer, index);
    settle(buffer);
    return true;
}

bool edit_buffer_level(EditBuffer* const buffer, const uint8_t limb, const int64_t tick,
                       const Level level)
{
    const int index = edit_buffer_find(buffer, limb, tick);
    if (index < 0) {
        return level != LEVEL_REST && put(buffer, limb, tick, level);
    }
    if (buffer->now.strokes[index].level == (uint8_t)level) {
        return false;
    }
    if (level == LEVEL_REST) {
        return remove_stroke(buffer, index);
    }
    keep(buffer);
    buffer->now.strokes[index].level = (uint8_t)level;
    return true;
}

bool edit_buffer_cycle(EditBuffer* const buffer, const uint8_t limb, const int64_t tick)
{
    static const Level after[] = {
        [LEVEL_REST] = LEVEL_NORMAL, [LEVEL_NORMAL] = LEVEL_ACCENT, [LEVEL_ACCENT] = LEVEL_GHOST,
        [LEVEL_GHOST] = LEVEL_FLAM,  [LEVEL_FLAM] = LEVEL_DRAG,     [LEVEL_DRAG] = LEVEL_REST,
    };
    const int index = edit_buffer_find(buffer, limb, tick);
    const Level level = index < 0 ? LEVEL_REST : (Level)buffer->now.strokes[index].level;
    const Level next = after[level];
    return edit_buffer_level(buffer, limb, tick,
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

bool edit_buffer_voice(EditBuffer* const buffer, const uint8_t limb, const int64_t tick,
                       const int by)
{
    const int index = edit_buffer_find(buffer, limb, tick);
    if (index < 0) {
        return false;
    }
    int voice = buffer->now.strokes[index].voice;
    do {
        voice = (voice + by + VOICE_COUNT) % VOICE_COUNT;
    } while (!can_strike(limb, voice));
    if (voice == (int)buffer->now.strokes[index].voice) {
        return false;
    }
    keep(buffer);
    buffer->now.strokes[index].voice = (uint8_t)voice;
    settle(buffer);
    return true;
}

bool edit_buffer_move(EditBuffer* const buffer, const uint8_t limb, const int64_t from,
                      const int64_t to)
{
    const int index = edit_buffer_find(buffer, limb, from);
    if (index < 0 || to < 0 || to >= buffer->now.cycle_ticks ||
        buffer->now.strokes[index].tick == to) {
        return false;
    }
    keep(buffer);
    Stroke moved = buffer->now.strokes[index];
    take_out(buffer, index);
    const int there = edit_buffer_find(buffer, limb, to);
    if (there >= 0) {
        take_out(buffer, there);
    }
    moved.tick = to;
    moved.bends = figure_grid_bends(buffer->grid, 1);
    buffer->now.strokes[buffer->now.count++] = moved;
    settle(buffer);
    return true;
}

uint32_t edit_buffer_bars_most(const EditBuffer* const buffer)
{
    return buffer->now.kind == FIGURE_TURNAROUND ? FILL_BARS_MAX : EDIT_BUFFER_BARS_MAX;
}

static bool is_within(const int64_t tick, const int64_t cycle_ticks)
{
    return tick >= 0 && tick < cycle_ticks;
}

bool edit_buffer_length(EditBuffer* const buffer, const int64_t cycle_ticks, const uint32_t bars)
{
    EditFigure* const now = &buffer->now;
    const int64_t later = now->kind == FIGURE_TURNAROUND ? cycle_ticks - now->cycle_ticks : 0;
    uint32_t left = 0;
    for (uint32_t i = 0; i < now->count; ++i) {
        left += is_within(now->strokes[i].tick + later, cycle_ticks);
    }
    const bool is_whole =
        bars <= edit_buffer_bars_most(buffer) && (!bars || cycle_ticks % bars == 0);
    if (cycle_ticks <= 0 || !is_whole || !left ||
        (cycle_ticks == now->cycle_ticks && bars == now->bars)) {
        return false;
    }
    keep(buffer);
    now->cycle_ticks = cycle_ticks;
    now->bars = bars;
    now->count = 0;
    const EditFigure* const before = ring_at(buffer, -1);
    for (uint32_t i = 0; i < before->count; ++i) {
        Stroke stroke = before->strokes[i];
        stroke.tick += later;
        if (is_within(stroke.tick, cycle_ticks)) {
            now->strokes[now->count++] = stroke;
        }
    }
    settle(buffer);
    return true;
}

bool edit_buffer_to_bars(EditBuffer* const buffer, const int64_t bar_ticks)
{
    EditFigure* const now = &buffer->now;
    const int64_t cycle = now->cycle_ticks;
    const int64_t bars = bar_ticks > 0 ? (cycle + bar_ticks - 1) / bar_ticks : 0;
    if (now->bars || bars < 1 || bars > edit_buffer_bars_most(buffer)) {
        return false;
    }
    keep(buffer);
    now->bars = (uint32_t)bars;
    now->cycle_ticks = bars * bar_ticks;
    const uint32_t count = now->count;
    if (now->kind == FIGURE_TURNAROUND) {
        for (uint32_t i = 0; i < count; ++i) {
            now->strokes[i].tick += now->cycle_ticks - cycle;
        }
        settle(buffer);
        return true;
    }
    for (int64_t turn = cycle; turn < now->cycle_ticks; turn += cycle) {
        for (uint32_t i = 0; i < count && now->count < FIGURE_STROKES_MAX; ++i) {
            Stroke stroke = now->strokes[i];
            stroke.tick += turn;
            if (stroke.tick < now->cycle_ticks) {
                now->strokes[now->count++] = stroke;
            }
        }
    }
    settle(buffer);
    return true;
}

int64_t edit_buffer_next_length(const EditBuffer* const buffer, const int by)
{
    const EditFigure* const now = &buffer->now;
    const int64_t unit = now->bars ? now->cycle_ticks / now->bars : step_of(buffer);
    const int64_t whole = by > 0 ? now->cycle_ticks / unit : (now->cycle_ticks + unit - 1) / unit;
    return (whole + by) * unit;
}

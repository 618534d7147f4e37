// SPDX-License-Identifier: ISC
#include "entries.h"
#include "names.h"
#include "steps.h"

#include <stdlib.h>
#include <string.h>

enum { BARS_MOST = 16 };

/* Which limbs a kind of figure may use. */
static bool limb_fits(const FigureKind kind, const Limb limb)
{
    return kind == FIGURE_TURNAROUND || (kind == FIGURE_FEET) == limb_is_foot((uint8_t)limb);
}

/* A figure while its lines are being read. */
typedef struct {
    FigureKind kind;
    int64_t cycle_ticks;
    int64_t step_ticks; /* the finest grid so far, 0 before the first line */
    uint32_t count;     /* strokes met, kept or not */
    Stroke strokes[FIGURE_STROKES_MAX];
} ReadFigure;

/* A line's grid and steps. */
typedef struct {
    int64_t step; /* ticks */
    int count;
    bool bends;
    const char* steps;
    char even[EVEN_STEPS_MAX + 1]; /* where they are spread, not written */
} LineSteps;

static Limb line_limb(Subject* const limb_line, const FigureKind kind)
{
    const int limb = field_choice(limb_line, "limb", limb_names, LIMB_COUNT);
    if (limb >= 0 && !limb_fits(kind, (Limb)limb)) {
        field_wrong(limb_line, "limb", "fl:%s: a %s figure has lines for its own limbs only",
                    limb_names[limb], kind == FIGURE_FEET ? "feet" : "hands");
    }
    return limb < 0 ? RIGHT_HAND : (Limb)limb;
}

static void read_grid(Subject* const limb_line, LineSteps* const read)
{
    const int grid = (int)field_integer(limb_line, "grid", 1, 16, 0);
    const int over = (int)field_integer(limb_line, "over", 1, 16, 1);
    read->step = figure_step_ticks(grid, over);
    read->bends = figure_grid_bends(grid, over);
    if (!read->step) {
        field_wrong(limb_line, "grid", "%d over %d quarter notes is not a whole number of ticks",
                    grid, over);
    }
}

static void read_written(Subject* const limb_line, LineSteps* const read)
{
    char wrong = 0;
    read->steps = field_text(limb_line, "steps");
    read->count = read->steps ? steps_count(read->steps, &wrong) : 0;
    if (read->count < 0) {
        field_wrong(
            limb_line, "steps",
            "'%c' is not a step; expected . rest, g ghost, o normal, O accent, f flam, d drag",
            wrong);
    } else if (read->steps && !read->count) {
        field_wrong(limb_line, "steps", "has no steps");
    }
}

/* fl:strokes among fl:among steps, in place of fl:steps. */
static void read_even(Subject* const limb_line, LineSteps* const read)
{
    read->count = (int)field_integer(limb_line, "among", 1, EVEN_STEPS_MAX, 0);
    const int strokes = (int)field_integer(limb_line, "strokes", 1, read->count, 0);
    if (!limb_line->failed) {
        steps_even(strokes, read->count, read->even);
        read->steps = read->even;
    }
}

static void read_limb_line(Subject* const limb_line, ReadFigure* const so_far)
{
    LineSteps read = {.count = 0};
    const Limb limb = line_limb(limb_line, so_far->kind);
    const int voice = field_choice(limb_line, "voice", voice_names, VOICE_COUNT);
    read_grid(limb_line, &read);
    if (field_node(limb_line, "strokes", false)) {
        read_even(limb_line, &read);
    } else {
        read_written(limb_line, &read);
    }
    if (limb_line->failed || !read.steps) {
        return;
    }
    const Stroke stroke = {.limb = (uint8_t)limb, .voice = (uint8_t)voice, .bends = read.bends};
    if (limb_is_foot(stroke.limb) && voice == VOICE_CHOKE) {
        field_wrong(limb_line, "voice", "a foot can't grip a cymbal; expected a hand's line");
    }
    if (limb_is_foot(stroke.limb) && strpbrk(read.steps, "fd")) {
        field_wrong(limb_line, "steps", "a foot has no flams and drags");
    }
    steps_read(read.steps, read.step, stroke, so_far->strokes, FIGURE_STROKES_MAX, &so_far->count);
    const int64_t length = read.step * read.count;
    so_far->cycle_ticks = length > so_far->cycle_ticks ? length : so_far->cycle_ticks;
    so_far->step_ticks = common_divisor(read.step, so_far->step_ticks);
}

static void read_limb_lines(Subject* const subject, ReadFigure* const so_far)
{
    SordIter* const found =
        turtle_find(subject->turtle, subject->subject, field_property(subject, "line"), NULL);
    int count = 0;
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        Subject limb_line = {subject->turtle, subject->diagnostics,
                             sord_iter_get_node(found, SORD_OBJECT), false};
        read_limb_line(&limb_line, so_far);
        subject->failed |= limb_line.failed;
        ++count;
    }
    sord_iter_free(found);
    if (!count || count > LIMB_LINES_MAX) {
        field_wrong(subject, "line", "has %d lines; expected 1 to %d", count, LIMB_LINES_MAX);
    }
}

/* One limb is in one place at a time. */
static void check_collisions(Subject* const subject, const ReadFigure* const so_far)
{
    for (uint32_t i = 1; i < so_far->count; ++i) {
        const Stroke a = so_far->strokes[i - 1];
        const Stroke b = so_far->strokes[i];
        if (a.tick == b.tick && a.limb == b.limb) {
            field_wrong(subject, "line", "the %s has two strokes at once, on %s and %s",
                        limb_names[a.limb], voice_names[a.voice], voice_names[b.voice]);
            return;
        }
    }
}

static bool keep(Subject* const subject, const ReadFigure* const so_far, const uint32_t id,
                 const uint32_t bars, Figure* const figure)
{
    Stroke* const strokes = malloc(so_far->count * sizeof(Stroke));
    if (!strokes) {
        turtle_fail(subject->turtle);
        return false;
    }
    memcpy(strokes, so_far->strokes, so_far->count * sizeof(Stroke));
    *figure = (Figure){.id = id,
                       .kind = so_far->kind,
                       .cycle_ticks = so_far->cycle_ticks,
                       .step_ticks = so_far->step_ticks,
                       .bars = bars,
                       .stroke_count = so_far->count,
                       .strokes = strokes};
    figure_note(figure);
    return true;
}

bool read_figure(Subject* const subject, const EntryReading* const reading, const EntryKind kind,
                 const uint32_t id, void* const figure)
{
    (void)reading;
    ReadFigure so_far = {.kind = (FigureKind)kind};
    const int most = kind == ENTRY_TURNAROUND ? FILL_BARS_MAX : BARS_MOST;
    const uint32_t bars = (uint32_t)field_integer(subject, "bars", 0, most, 0);
    read_limb_lines(subject, &so_far);
    if (subject->failed) {
        return false;
    }
    if (!so_far.count || so_far.count > FIGURE_STROKES_MAX) {
        field_wrong(subject, "line", "has %u strokes; expected 1 to %d", so_far.count,
                    FIGURE_STROKES_MAX);
        return false;
    }
    if (bars && so_far.cycle_ticks % bars) {
        field_wrong(subject, "bars", "its steps don't divide into %u equal bars", bars);
    }
    strokes_sort(so_far.strokes, so_far.count);
    check_collisions(subject, &so_far);
    return !subject->failed && keep(subject, &so_far, id, bars, (Figure*)figure);
}

void read_figure_free(void* const figure)
{
    /* The bank made these strokes and only lent them out as const. */
    free((void*)(uintptr_t)((Figure*)figure)->strokes);
}

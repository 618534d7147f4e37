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
    uint32_t count; /* strokes met, kept or not */
    Stroke strokes[FIGURE_STROKES_MAX];
} Draft;

static Limb line_limb(Subject* const line, const FigureKind kind)
{
    const int limb = field_choice(line, "limb", limb_names, LIMB_COUNT);
    if (limb >= 0 && !limb_fits(kind, (Limb)limb)) {
        field_wrong(line, "limb", "fl:%s: a %s figure has lines for its own limbs only",
                    limb_names[limb], kind == FIGURE_FEET ? "feet" : "hands");
    }
    return limb < 0 ? RIGHT_HAND : (Limb)limb;
}

/* Steps and their length, or NULL with a complaint. */
static const char* line_steps(Subject* const line, int64_t* const step, int* const count)
{
    const int64_t grid = field_integer(line, "grid", 1, 16, 0);
    const int64_t over = field_integer(line, "over", 1, 16, 1);
    const char* const steps = field_text(line, "steps");
    *step = step_ticks((int)grid, (int)over);
    char wrong = 0;
    *count = steps ? steps_count(steps, &wrong) : 0;
    if (*count < 0) {
        field_wrong(line, "steps",
                    "'%c' is not a step; expected . rest, g ghost, o normal, "
                    "O accent",
                    wrong);
    } else if (steps && !*count) {
        field_wrong(line, "steps", "has no steps");
    }
    if (!*step) {
        field_wrong(line, "grid", "%d over %d quarter notes is not a whole number of ticks",
                    (int)grid, (int)over);
    }
    return line->failed ? NULL : steps;
}

static void read_line(Subject* const line, Draft* const draft)
{
    const Limb limb = line_limb(line, draft->kind);
    const int voice = field_choice(line, "voice", voice_names, VOICE_COUNT);
    int64_t step = 0;
    int count = 0;
    const char* const steps = line_steps(line, &step, &count);
    if (line->failed || !steps) {
        return;
    }
    steps_read(steps, step, limb, (Voice)voice, draft->strokes, FIGURE_STROKES_MAX, &draft->count);
    const int64_t length = step * count;
    draft->cycle_ticks = length > draft->cycle_ticks ? length : draft->cycle_ticks;
}

static void read_lines(Subject* const subject, Draft* const draft)
{
    SordIter* const found =
        turtle_find(subject->turtle, subject->subject, field_property(subject, "line"), NULL);
    int count = 0;
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        Subject line = {subject->turtle, subject->complaints,
                        sord_iter_get_node(found, SORD_OBJECT), false};
        read_line(&line, draft);
        subject->failed |= line.failed;
        ++count;
    }
    sord_iter_free(found);
    if (!count || count > FIGURE_LINES_MAX) {
        field_wrong(subject, "line", "has %d lines; expected 1 to %d", count, FIGURE_LINES_MAX);
    }
}

/* One limb is in one place at a time. */
static void check_collisions(Subject* const subject, const Draft* const draft)
{
    for (uint32_t i = 1; i < draft->count; ++i) {
        const Stroke a = draft->strokes[i - 1];
        const Stroke b = draft->strokes[i];
        if (a.tick == b.tick && a.limb == b.limb) {
            field_wrong(subject, "line", "the %s has two strokes at once, on %s and %s",
                        limb_names[a.limb], voice_names[a.voice], voice_names[b.voice]);
            return;
        }
    }
}

static bool keep(Subject* const subject, const Draft* const draft, const uint32_t id,
                 const uint32_t bars, Figure* const figure)
{
    Stroke* const strokes = malloc(draft->count * sizeof(Stroke));
    if (!strokes) {
        field_wrong(subject, NULL, "there is no memory for its strokes");
        return false;
    }
    memcpy(strokes, draft->strokes, draft->count * sizeof(Stroke));
    *figure = (Figure){.id = id,
                       .kind = draft->kind,
                       .cycle_ticks = draft->cycle_ticks,
                       .bars = bars,
                       .stroke_count = draft->count,
                       .strokes = strokes};
    for (uint32_t i = 0; i < draft->count; ++i) {
        figure->plays_limb[strokes[i].limb] = true;
    }
    return true;
}

static bool read_figure(Subject* const subject, const FigureKind kind, const uint32_t id,
                        Figure* const figure)
{
    Draft draft = {.kind = kind};
    const uint32_t bars = (uint32_t)field_integer(subject, "bars", 0, BARS_MOST, 0);
    read_lines(subject, &draft);
    if (subject->failed) {
        return false;
    }
    if (!draft.count || draft.count > FIGURE_STROKES_MAX) {
        field_wrong(subject, "line", "has %u strokes; expected 1 to %d", draft.count,
                    FIGURE_STROKES_MAX);
        return false;
    }
    if (bars && draft.cycle_ticks % bars) {
        field_wrong(subject, "bars", "its steps don't divide into %u equal bars", bars);
    }
    strokes_sort(draft.strokes, draft.count);
    check_collisions(subject, &draft);
    return !subject->failed && keep(subject, &draft, id, bars, figure);
}

bool read_hands(Subject* const subject, const Table tables[ENTRY_KINDS], const uint32_t id,
                void* const figure)
{
    (void)tables;
    return read_figure(subject, FIGURE_HANDS, id, (Figure*)figure);
}

bool read_feet(Subject* const subject, const Table tables[ENTRY_KINDS], const uint32_t id,
               void* const figure)
{
    (void)tables;
    return read_figure(subject, FIGURE_FEET, id, (Figure*)figure);
}

bool read_turnaround(Subject* const subject, const Table tables[ENTRY_KINDS], const uint32_t id,
                     void* const figure)
{
    (void)tables;
    return read_figure(subject, FIGURE_TURNAROUND, id, (Figure*)figure);
}

void free_figure(void* const figure)
{
    /* The bank made these strokes and only lent them out as const. */
    free((void*)(uintptr_t)((Figure*)figure)->strokes);
}

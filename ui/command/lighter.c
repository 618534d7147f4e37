// SPDX-License-Identifier: ISC
#include "lighter.h"

#include "../../plugin/engine/groove/bar.h"
#include "../../plugin/engine/writing/lighten.h"
#include "staff.h"

#include <math.h>
#include <string.h>

/* What all figures are lightened by. */
typedef struct {
    Lighter* lighter;
    Meter meter;
    double tempo;
    const PlayLimits* limits;
    const LightenWish* wish;
} Making;

static void take_figure(LighterFigure* const to, const Stroke* const strokes, const uint32_t count)
{
    memcpy(to->strokes, strokes, count * sizeof *strokes);
    to->figure.stroke_count = count;
    to->figure.strokes = to->strokes;
}

/* As it is played, on its grid and cycle; false if that is more than a list holds. */
static bool lay_out(LighterFigure* const to)
{
    static StrokeList list; /* too large for a stack */
    const Layout layout = layout_make(to->written, to->regrid);
    to->figure = *to->written;
    if (layout_regrid_equal(to->regrid, (Regrid){0})) {
        take_figure(to, to->written->strokes, to->written->stroke_count);
        return true;
    }
    list.count = list.dropped = 0;
    layout_strokes(&layout, 0, layout_ticks(&layout), 0, &list);
    to->figure.cycle_ticks = layout_ticks(&layout);
    to->figure.step_ticks = layout.step;
    to->figure.bars = layout.bars;
    take_figure(to, list.strokes, list.count);
    return !list.dropped;
}

/* A shorter figure is as long as the bar, or one stroke less in it were one in each turn. */
static void unroll(LighterFigure* const to, const Meter meter)
{
    Figure* const figure = &to->figure;
    const int64_t bar = meter_bar_ticks(meter);
    const uint32_t turns = (uint32_t)(bar / figure->cycle_ticks);
    const uint32_t count = figure->stroke_count;
    if (turns < 2 || bar % figure->cycle_ticks || turns * count > FIGURE_STROKES_MAX) {
        return;
    }
    for (uint32_t i = count; i < turns * count; ++i) {
        to->strokes[i] = to->strokes[i - count];
        to->strokes[i].tick += figure->cycle_ticks;
    }
    figure->stroke_count = turns * count;
    figure->cycle_ticks = bar;
}

static void thin(const Making* const making, LighterFigure* const to, const Limb limb)
{
    static Stroke stay[FIGURE_STROKES_MAX];
    const bool mirrored = making->lighter->before.left_foot_leads && limb_is_foot((uint8_t)limb);
    const LightenLimit limit = {
        .limb = mirrored ? figure_mirrored(to->written, (uint8_t)limb) : (uint8_t)limb,
        .most = (uint32_t)making->wish->rate,
        .seconds = 1.0,
        .tempo = making->tempo,
        .beat = staff_beat_ticks(making->meter),
        .run_gap_ms = making->limits->run_gap_ms[limb],
    };
    const Lightened result = lighten_figure(&to->figure, limit, stay);
    take_figure(to, stay, result.count);
    to->taken = to->taken || result.taken;
}

static void thin_limbs(const Making* const making, LighterFigure* const to)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        if (making->wish->limbs[limb]) {
            thin(making, to, (Limb)limb);
        }
    }
}

/* A fill is played once: looked at with a second of rest, so that it doesn't meet itself. */
static void thin_once(const Making* const making, LighterFigure* const to)
{
    const int64_t ticks = to->figure.cycle_ticks;
    const double second = making->tempo / 60.0 * (double)TICKS_PER_QUARTER;
    const int64_t steps = (int64_t)ceil(second / (double)to->figure.step_ticks);
    to->figure.cycle_ticks += steps * to->figure.step_ticks;
    thin_limbs(making, to);
    to->figure.cycle_ticks = ticks;
}

static bool is_same(const LighterFigure* const made, const Figure* const written,
                    const Regrid regrid)
{
    return made->written == written && layout_regrid_equal(made->regrid, regrid);
}

/* The lightened figure; the written one where nothing plays or it is too much. */
static const Figure* lighten(const Making* const making, const Figure* const written,
                             const Regrid regrid)
{
    Lighter* const lighter = making->lighter;
    for (int i = 0; i < lighter->count; ++i) {
        if (is_same(&lighter->figures[i], written, regrid)) {
            return &lighter->figures[i].figure;
        }
    }
    LighterFigure* const to = &lighter->figures[lighter->count];
    to->written = written;
    to->regrid = regrid;
    to->taken = false;
    if (!written || !lay_out(to)) {
        return written;
    }
    if (written->kind == FIGURE_TURNAROUND) {
        thin_once(making, to);
    } else {
        unroll(to, making->meter);
        thin_limbs(making, to);
    }
    ++lighter->count;
    return &to->figure;
}

/* What the feet of a letter play, on ground that stays. */
static const Figure* varied_feet(Lighter* const lighter, const Meter meter, const int letter)
{
    const Selection* const before = &lighter->before;
    const VariedAsk ask = bar_ask(before, meter, (uint8_t)letter, 0);
    Figure* const to = &lighter->varied[letter];
    if (!ask.feet) {
        return NULL;
    }
    *to = *varied_find(before->varied, &ask).figure;
    memcpy(lighter->varied_strokes[letter], to->strokes, to->stroke_count * sizeof *to->strokes);
    to->strokes = lighter->varied_strokes[letter];
    return to;
}

static bool varies(const Selection* const selection)
{
    return selection->varied &&
           (selection->variation || selection->variation_then || selection->grow_every);
}

/* Each letter's feet, picked or its own, are another figure. */
static void lighten_varied(const Making* const making)
{
    Lighter* const lighter = making->lighter;
    Selection* const after = &lighter->after;
    for (int part = 0; part < PARTS_MAX; ++part) {
        lighter->groove.parts[part].feet =
            lighten(making, varied_feet(lighter, making->meter, part), lighter->before.feet_regrid);
    }
    after->feet = NULL;
    after->variation = after->variation_then = after->grow_every = 0;
}

void lighter_make(Lighter* const lighter, const Selection* const before, const Meter meter,
                  const double tempo, const PlayLimits* const limits, const LightenWish* const wish)
{
    const Making making = {lighter, meter, tempo, limits, wish};
    const Regrid as_written = {0};
    lighter->before = lighter->after = *before;
    lighter->groove = *before->groove;
    lighter->count = 0;
    for (int part = 0; part < PARTS_MAX; ++part) {
        Part* const to = &lighter->groove.parts[part];
        to->hands = before->hands ? to->hands : lighten(&making, to->hands, before->hands_regrid);
        to->feet = before->feet || varies(before) ? to->feet
                                                  : lighten(&making, to->feet, before->feet_regrid);
    }
    lighter->after.groove = &lighter->groove;
    lighter->after.hands = lighten(&making, before->hands, before->hands_regrid);
    lighter->after.feet =
        varies(before) ? before->feet : lighten(&making, before->feet, before->feet_regrid);
    lighter->after.turnaround = lighten(&making, before->turnaround, as_written);
    lighter->after.hands_regrid = lighter->after.feet_regrid = as_written;
    if (varies(before)) {
        lighten_varied(&making);
    }
}

/* ---- As text */

/* A bar of both, from its line. */
typedef struct {
    StrokeList before;
    StrokeList after;
} BarPair;

static bool pairs_alike(const BarPair* const a, const BarPair* const b, const int64_t apart)
{
    return stroke_lists_alike(&a->before, &b->before, apart) &&
           stroke_lists_alike(&a->after, &b->after, apart);
}

static void print_bar(FILE* const out, const Lighter* const lighter, const Meter meter,
                      const int bar)
{
    static BarPair last, now; /* too large for a stack */
    const int64_t ticks = meter_bar_ticks(meter);
    groove_strokes(&lighter->before, meter, bar * ticks, (bar + 1) * ticks, &now.before);
    groove_strokes(&lighter->after, meter, bar * ticks, (bar + 1) * ticks, &now.after);
    if (stroke_lists_alike(&now.before, &now.after, 0)) {
        fprintf(out, "bar %d: nothing is left out\n", bar + 1);
    } else if (bar > 0 && pairs_alike(&last, &now, ticks)) {
        fprintf(out, "bar %d: as bar %d\n", bar + 1, bar);
    } else {
        fprintf(out, "bar %d, before\n", bar + 1);
        staff_print(out, &now.before, bar * ticks, meter);
        fprintf(out, "bar %d, after\n", bar + 1);
        staff_print(out, &now.after, bar * ticks, meter);
    }
    last = now;
}

void lighter_print(FILE* const out, const Lighter* const lighter, const Meter meter)
{
    for (int bar = 0; bar < (int)lighter->before.phrase_bars; ++bar) {
        print_bar(out, lighter, meter, bar);
    }
}

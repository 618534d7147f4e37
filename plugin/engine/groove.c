// SPDX-License-Identifier: ISC
#include "groove.h"

#include <stddef.h>

static const Figure* chosen_turnaround(const Library* const library, const Groove* const groove,
                                       const int32_t id)
{
    if (id == TURNAROUND_NONE) {
        return NULL;
    }
    const Figure* const picked =
        id > 0 ? library_figure(library, FIGURE_TURNAROUND, (uint32_t)id) : NULL;
    return picked ? picked : groove->turnaround;
}

Choice choice_make(const Library* const library, const Settings* const settings)
{
    Choice choice = {0};
    choice.groove = library_groove(library, settings->groove);
    if (!choice.groove && library->groove_count) {
        choice.groove = &library->grooves[0];
    }
    choice.kit = library_kit(library, settings->kit);
    if (!choice.kit && library->kit_count) {
        choice.kit = &library->kits[0];
    }
    if (choice.groove) {
        choice.hands = library_figure(library, FIGURE_HANDS, settings->hands);
        choice.feet = library_figure(library, FIGURE_FEET, settings->feet);
        choice.turnaround = chosen_turnaround(library, choice.groove, settings->turnaround);
        choice.phrase_bars =
            settings->phrase_bars ? settings->phrase_bars : choice.groove->form_bars;
    }
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        choice.limbs[limb] = settings->limbs[limb];
    }
    return choice;
}

/* One bar of the song, and where it stands in the phrase. */
typedef struct {
    int64_t begin;        /* tick of its bar line */
    int64_t phrase_begin; /* tick of its phrase's first bar line */
    int64_t in_phrase;    /* 0 is the phrase's first bar */
    bool is_last;
} Bar;

/* A figure laid end to end: copy m puts the figure's tick `from` at
   origin + m * period, and ends a period later. */
typedef struct {
    const Figure* figure;
    int64_t origin;
    int64_t period;
    int64_t from;
} Tiling;

static Tiling tiling_of(const Figure* const figure, const Bar bar)
{
    if (!figure->bars) {
        return (Tiling){figure, bar.phrase_begin, figure->cycle_ticks, 0};
    }
    const int64_t period = figure->cycle_ticks / figure->bars;
    return (Tiling){figure, bar.begin, period, floor_mod(bar.in_phrase, figure->bars) * period};
}

static void add(StrokeList* const list, const Stroke stroke)
{
    if (list->count == SPAN_STROKES_MAX) {
        ++list->dropped;
        return;
    }
    list->strokes[list->count++] = stroke;
}

static void add_copy(const Tiling tiling, const int64_t copy_begin, const int64_t begin,
                     const int64_t end, const bool limbs[LIMB_COUNT], StrokeList* const list)
{
    const Figure* const figure = tiling.figure;
    const int64_t to_figure = tiling.from - copy_begin;
    const int64_t last = tiling.from + tiling.period;
    const int64_t stop = end + to_figure < last ? end + to_figure : last;
    const int64_t start = begin + to_figure > tiling.from ? begin + to_figure : tiling.from;
    for (uint32_t i = figure_first_from(figure, start); i < figure->stroke_count; ++i) {
        Stroke stroke = figure->strokes[i];
        if (stroke.tick >= stop) {
            break;
        }
        if (limbs[stroke.limb]) {
            stroke.tick -= to_figure;
            add(list, stroke);
        }
    }
}

static void add_figure(const Figure* const figure, const Bar bar, const int64_t begin,
                       const int64_t end, const bool limbs[LIMB_COUNT], StrokeList* const list)
{
    if (!figure) {
        return;
    }
    const Tiling tiling = tiling_of(figure, bar);
    int64_t copy = floor_div(begin - tiling.origin, tiling.period);
    int64_t copy_begin = tiling.origin + copy * tiling.period;
    for (; copy_begin < end; copy_begin += tiling.period) {
        add_copy(tiling, copy_begin, begin, end, limbs, list);
    }
}

/* The crash takes the place of what the right hand would have played there. */
static void add_crash(const Choice* const choice, const Bar bar, const int64_t begin,
                      const int64_t end, StrokeList* const list)
{
    if (!choice->groove->crash_start || !choice->limbs[RIGHT_HAND] || bar.in_phrase != 0 ||
        bar.begin < begin || bar.begin >= end) {
        return;
    }
    const Stroke crash = {bar.begin, RIGHT_HAND, VOICE_CRASH, LEVEL_ACCENT};
    for (uint32_t i = 0; i < list->count; ++i) {
        if (list->strokes[i].tick == bar.begin && list->strokes[i].limb == RIGHT_HAND) {
            list->strokes[i] = crash;
            return;
        }
    }
    add(list, crash);
}

static bool has_feet(const Figure* const figure)
{
    return figure->plays_limb[RIGHT_FOOT] || figure->plays_limb[LEFT_FOOT];
}

static void add_bar(const Choice* const choice, const Bar bar, const int64_t begin,
                    const int64_t end, StrokeList* const list)
{
    const Groove* const groove = choice->groove;
    const Part part = groove->parts[groove->form[bar.in_phrase % groove->form_bars]];
    const Figure* hands = choice->hands ? choice->hands : part.hands;
    const Figure* feet = choice->feet ? choice->feet : part.feet;
    if (bar.is_last && choice->turnaround) {
        hands = choice->turnaround;
        feet = has_feet(hands) ? NULL : feet;
    }
    const uint32_t first = list->count;
    add_figure(hands, bar, begin, end, choice->limbs, list);
    add_figure(feet, bar, begin, end, choice->limbs, list);
    add_crash(choice, bar, begin, end, list);
    strokes_sort(&list->strokes[first], list->count - first);
}

void choice_strokes(const Choice* const choice, const Meter meter, const int64_t begin,
                    const int64_t end, StrokeList* const list)
{
    list->count = 0;
    list->dropped = 0;
    if (!choice->groove) {
        return;
    }
    const int64_t bar_ticks = meter_bar_ticks(meter);
    int64_t bar = begin < 0 ? 0 : begin / bar_ticks;
    for (; bar * bar_ticks < end; ++bar) {
        const int64_t in_phrase = bar % choice->phrase_bars;
        const Bar here = {bar * bar_ticks, (bar - in_phrase) * bar_ticks, in_phrase,
                          in_phrase == (int64_t)choice->phrase_bars - 1};
        const int64_t from = here.begin > begin ? here.begin : begin;
        const int64_t to = here.begin + bar_ticks < end ? here.begin + bar_ticks : end;
        add_bar(choice, here, from, to, list);
    }
}

// SPDX-License-Identifier: ISC
/* The whole phrase, small: each pair of limbs folded to one line, right limbs up,
   left limbs down; and in how many bars feet and bar line, and all, meet. */
#include "brush.h"
#include "far.h"
#include "handed.h"
#include "signature.h"
#include "words.h"

#include <math.h>
#include <stdio.h>

typedef struct {
    const SeenBar* bar;
    Box box; /* of the bar in the overview */
    SmallPlaces at;
    double beat_ticks;
    double beats;
    bool dense; /* too small for strokes */
} Small;

static double x_of(const Small* const small, const double tick)
{
    return small->at.one + small->at.beats * tick / (small->beat_ticks * small->beats);
}

static void draw_stroke(const Brush* const brush, const Small* const small,
                        const SeenStroke* const stroke)
{
    const bool is_up = stroke->limb % 2 == 0;
    const bool heard = brush->view->values[handed_switch(brush->view, stroke->limb)] > 0.0f &&
                       brush->view->values[CONTROL_ENABLED] > 0.0f;
    const double y = small->at.lines[stroke->limb / 2];
    const double unit = (small->at.lines[1] - small->at.lines[0]) / 32.0;
    const double tall = (3.0 + 12.0 * stroke->velocity / 127.0) * unit;
    const double x = x_of(small, stroke->felt);
    const Colour colour = heard ? brush->colours->ink : brush->colours->edge;
    if (x >= small->box.x + 1.5 && !stroke->is_grace) {
        brush_stem(brush, x, is_up ? y - tall : y + tall, y, heard ? 1.6 : 1.0,
                   stroke->free ? 2.0 : 0.0, colour);
    }
}

static bool is_looped(const View* const view, const SeenBar* const bar)
{
    return bar->in_phrase + 1 == (uint32_t)view->values[CONTROL_LOOP_BAR];
}

/* The longest that has room to the right of x: whether it loops, its fill by name, by
   length, or that it has one; or that a change comes. */
static void draw_word(const Brush* const brush, const Small* const small, const double x)
{
    char beats[32];
    const SeenBar* const bar = small->bar;
    const Palette* const colours = brush->colours;
    const bool loops = is_looped(brush->view, bar);
    const Entry* const fill =
        bar->fill ? view_entry(brush->view, ENTRY_TURNAROUND, (int32_t)bar->fill) : NULL;
    const Colour colour = loops ? colours->ink : bar->is_coming ? colours->accent : colours->soft;
    const Type type = brush_type(11.0, loops, ALIGN_RIGHT, colour);
    words_fill(beats, sizeof beats, bar->fill_begin, bar->fill_end, bar->meter);
    const char* const words[] = {loops            ? "loop"
                                 : fill           ? fill->label
                                 : bar->is_coming ? "next"
                                                  : "",
                                 !loops && bar->fill ? beats : "",
                                 !loops && bar->fill ? "fill" : ""};
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        if (*words[i] && ink_width(brush->cairo, type, words[i]) < small->at.right - x) {
            ink_text(brush->cairo, small->at.right, small->at.letter.y, type, words[i]);
            return;
        }
    }
}

/* The meter where it is another than that of the bar before; how wide. */
static double draw_other_meter(const Brush* const brush, const Small* const small, const double x)
{
    char text[SIGNATURE_ROOM];
    const SeenBar* const before = view_bar(brush->view, small->bar->bar - 1);
    const Type type = brush_type(11.0, true, ALIGN_LEFT, brush->colours->ink);
    signature_text(small->bar->meter, text);
    const bool is_other = before && !meter_equal(before->meter, small->bar->meter);
    if (!is_other || x + ink_width(brush->cairo, type, text) > small->at.right) {
        return 0.0;
    }
    return 6.0 + ink_text(brush->cairo, x, small->at.letter.y, type, text);
}

static void draw_letter(const Brush* const brush, const Small* const small, const bool is_now)
{
    char text[32];
    const SeenBar* const bar = small->bar;
    const char letter[] = {(char)('A' + bar->part), '\0'};
    const Palette* const colours = brush->colours;
    const double y = small->at.letter.y;
    double x = small->at.letter.x;
    const double room = small->at.right;
    x += ink_text(brush->cairo, x, y,
                  brush_type(16.0, true, ALIGN_LEFT, is_now ? colours->accent : colours->ink),
                  letter) +
         4.0;
    const double enough = is_looped(brush->view, bar) ? 90.0 : 70.0;
    snprintf(text, sizeof text, small->box.width > enough ? "bar %u" : "%u", bar->in_phrase + 1);
    x += ink_text_in(brush->cairo, x, y, room > x ? room - x : 1.0,
                     brush_type(11.0, false, ALIGN_LEFT, is_now ? colours->ink : colours->soft),
                     text);
    x += draw_other_meter(brush, small, x + 6.0);
    draw_word(brush, small, x + 8.0);
}

static void draw_marks(const Brush* const brush, const Small* const small)
{
    const SeenBar* const bar = small->bar;
    const double end = small->box.x + small->box.width;
    for (uint32_t i = 0; !small->dense && i < bar->count; ++i) {
        draw_stroke(brush, small, &bar->strokes[i]);
    }
    for (int pair = 0; pair < 2; ++pair) {
        const double y = floor(small->at.lines[pair]) + 0.5;
        ink_line(brush->cairo, small->box.x, y, end, y, 1.0, brush->colours->edge);
    }
    if (bar->fill) { /* a line over its beats */
        const double y = small->box.y + 17.5;
        ink_line(brush->cairo, x_of(small, bar->fill_begin) + 1.0, y, end - 2.0, y, 2.0,
                 brush->colours->soft);
    }
    for (uint32_t i = 0; small->at.turns > 0.0 && i < bar->feet_turns.count; ++i) {
        const double x = x_of(small, bar->feet_turns.ticks[i]);
        if (bar->feet_turns.ticks[i] == 0) {
            ink_triangle(brush->cairo, x, small->at.turns, 4.0, POINT_UP, true,
                         brush->colours->ink);
        } else {
            ink_line(brush->cairo, x, small->at.turns - 4.0, x, small->at.turns + 4.0, 1.0,
                     brush->colours->soft);
        }
    }
}

static void draw_bar(const Brush* const brush, const Target* const target, const SeenBar* const bar,
                     const bool is_now)
{
    const Box box = target->box;
    const Small small = {
        .bar = bar,
        .box = box,
        .at = geometry_small(box),
        .beat_ticks = (double)meter_beat_ticks(bar->meter),
        .beats = bar->meter.beats_per_bar,
        .dense = box.width < 36.0,
    };
    if (is_now || brush_is_hovered(brush, target->id)) {
        ink_fill(brush->cairo, small.at.ground, brush->colours->shade);
    }
    draw_letter(brush, &small, is_now);
    draw_marks(brush, &small);
    if (is_looped(brush->view, bar)) {
        const Box ground = small.at.ground;
        ink_frame(brush->cairo, (Box){ground.x + 1.0, ground.y, ground.width - 2.0, ground.height},
                  3.0, 1.5, brush->colours->ink);
    }
    brush_focus(brush, target, 0.0);
}

static void draw_bar_lines(const Brush* const brush, const Target* const target, const bool is_edge)
{
    const Box box = geometry_small(target->box).ground;
    const double x = floor(box.x) + 0.5;
    ink_line(brush->cairo, x, box.y, x, box.y + box.height, is_edge ? 2.0 : 1.0,
             brush->colours->edge);
    const double right = floor(box.x + box.width) + 0.5;
    ink_line(brush->cairo, right, box.y, right, box.y + box.height, 1.0, brush->colours->edge);
}

/* Where a change comes in: a dashed line in the accent colour. */
static void draw_change(const Brush* const brush)
{
    const View* const view = brush->view;
    const int64_t bar = view->place.change_bar - view_phrase(view);
    const Target* const target = targets_find(brush->targets, (TargetId){TARGET_BAR, (int)bar});
    const SeenBar* const seen = view_bar(view, view->place.change_bar);
    if (!view->place.waiting || !target || !seen) {
        return;
    }
    static const double dashes[] = {4.0, 3.0};
    const double beats = view->place.change_tick / (double)meter_beat_ticks(seen->meter);
    const SmallPlaces at = geometry_small(target->box);
    const Box box = at.ground;
    const double x =
        view->place.change_tick ? at.one + at.beats * beats / seen->meter.beats_per_bar : box.x;
    cairo_set_dash(brush->cairo, dashes, 2, 0.0);
    ink_line(brush->cairo, x, box.y, x, box.y + box.height, 2.0, brush->colours->accent);
    cairo_set_dash(brush->cairo, NULL, 0, 0.0);
}

/* A number, a sign if it has one, and what it counts; where it ends. */
static double draw_count(const Brush* const brush, double x, const int64_t bars,
                         const bool has_sign, const char* const what)
{
    char text[96];
    const Geometry* const g = brush->g;
    const Palette* const colours = brush->colours;
    const bool is_told = bars > 0 && bars <= BARS_SHOWN_MAX;
    snprintf(text, sizeof text, is_told ? "%d" : "\xE2\x80\x93", is_told ? (int)bars : 0);
    x +=
        ink_text(brush->cairo, x, g->quiet, brush_type(13.0, true, ALIGN_LEFT, colours->ink), text);
    if (has_sign) {
        ink_triangle(brush->cairo, x + 9.0, g->quiet - 4.5, 4.0, POINT_UP, true, colours->ink);
        x += 12.0;
    }
    snprintf(text, sizeof text, "bar%s until %s", bars == 1 ? "" : "s", what);
    x += 6.0;
    return x + ink_text_in(brush->cairo, x, g->quiet, g->right - x,
                           brush_type(12.0, false, ALIGN_LEFT, colours->soft), text);
}

static void draw_counts(const Brush* const brush)
{
    char text[64];
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const SeenPlace* const place = &view->place;
    const bool has_gap = place->click_bars > 0 && view->values[CONTROL_CLICK] > 1.5f;
    double x = g->overview.x;
    if (has_gap) {
        x = draw_count(brush, x, place->click_bars, false,
                       place->click_rests ? "the click comes back" : "the click rests");
    } else {
        x = draw_count(brush, x, place->feet_meet, true, "feet meet the bar line");
    }
    const double most = (double)readout_rows[READOUT_TEMPO_NOW].most;
    const bool has_next = place->next_tempo > 0.0 && place->next_tempo <= most;
    x += 20.0;
    if (place->own_clock && place->ladder_bars > 0 && has_next) {
        snprintf(text, sizeof text, "%.4g bpm", place->next_tempo);
        draw_count(brush, x, place->ladder_bars, false, text);
    } else {
        draw_count(brush, x, place->all_meet, false, "all meet again");
    }
}

void draw_overview(const Brush* const brush)
{
    const View* const view = brush->view;
    const Geometry* const g = brush->g;
    const int64_t phrase = view_phrase(view);
    const int64_t shown = view_shown(view);
    const int64_t now = floor_mod(shown - phrase, view_phrase_bars(view));
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        const SeenBar* const bar =
            target->id.kind == TARGET_BAR ? view_bar(view, phrase + target->id.index) : NULL;
        if (bar &&
            (g->edits || geometry_is_far(target->id.index, view_phrase_bars(view), (int)now))) {
            draw_far_bar(brush, target, bar);
        } else if (bar) {
            draw_bar(brush, target, bar, phrase + target->id.index == shown);
            draw_bar_lines(brush, target, target->id.index == 0);
        }
    }
    draw_change(brush);
    if (view->has_place && !g->list && !g->kept && !help_explains(brush)) {
        draw_counts(brush);
    }
}

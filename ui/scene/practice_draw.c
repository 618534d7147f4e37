// SPDX-License-Identifier: ISC
/* The staircase: what was climbed is bright, the rung that plays thick, where it goes thin. */
#include "brush.h"
#include "practice.h"

#include <math.h>
#include <stdio.h>

static const double thick_now = 4.0;

static void tempo_at(const Brush* const brush, const double x, const double y, const Type type,
                     const double tempo)
{
    char text[32];
    snprintf(text, sizeof text, "%.4g", tempo);
    ink_text(brush->cairo, x, y, type, text);
}

static void draw_rung(const Brush* const brush, const Rungs* const rungs, const Box stairs,
                      const int rung)
{
    const Palette* const colours = brush->colours;
    const RungPlace place = practice_rung(stairs, rung, rungs->count);
    const bool is_now = rung == rungs->now;
    const bool is_behind = rung < rungs->now;
    const double right = place.at.x + place.wide;
    const double y = floor(place.at.y) + (is_now ? 0.0 : 0.5);
    const double thick = is_now ? thick_now : is_behind ? 2.0 : 1.0;
    const Colour colour = is_now ? colours->accent : is_behind ? colours->ink : colours->soft;
    ink_line(brush->cairo, place.at.x, y, right, y, thick, colour);
    if (rung + 1 < rungs->count) {
        const double next = floor(practice_rung(stairs, rung + 1, rungs->count).at.y) + 0.5;
        ink_line(brush->cairo, right, next, right, y, is_behind ? 2.0 : 1.0,
                 is_behind ? colours->ink : colours->soft);
    }
}

/* The first one's under it, the last one's over it; those that play and come in larger type.
   Over a rung there is room for a disc a phrase. */
static void draw_tempo(const Brush* const brush, const Rungs* const rungs, const Box stairs,
                       const int rung)
{
    const Palette* const colours = brush->colours;
    const RungPlace place = practice_rung(stairs, rung, rungs->count);
    const double right = place.at.x + place.wide;
    const double size = brush->g->compact ? 15.0 : 20.0;
    if (rung == rungs->now) {
        const bool is_first = rung == 0;
        tempo_at(brush, is_first ? place.at.x : right, place.at.y + (is_first ? size - 1.0 : -7.0),
                 brush_type(size, true, is_first ? ALIGN_LEFT : ALIGN_RIGHT, colours->accent),
                 rungs->tempo[rung]);
    } else if (rungs->now >= 0 && rung == rungs->now + 1) {
        tempo_at(brush, right + 6.0, place.at.y + 5.0,
                 brush_type(12.0, false, ALIGN_LEFT, colours->ink), rungs->tempo[rung]);
    } else if (rung == 0) {
        tempo_at(brush, place.at.x, place.at.y + 14.0,
                 brush_type(12.0, false, ALIGN_LEFT, colours->soft), rungs->tempo[rung]);
    } else if (rung + 1 == rungs->count && !rungs->is_cut) {
        tempo_at(brush, right, place.at.y - 6.0,
                 brush_type(12.0, false, ALIGN_RIGHT, colours->soft), rungs->top);
    }
}

static void words_of(const View* const view, const Rungs* const rungs, char text[64])
{
    if (view->values[CONTROL_CLOCK] < 0.5f) {
        snprintf(text, 64, "needs own clock");
    } else if (rungs->count < 2) {
        snprintf(text, 64, "steady");
    } else if (rungs->bars > 0) {
        snprintf(text, 64, "%d bar%s to %.4g", (int)rungs->bars, rungs->bars == 1 ? "" : "s",
                 view->place.next_tempo);
    } else {
        snprintf(text, 64, "at the top");
    }
}

static void draw_title(const Brush* const brush, const PracticePlaces* const places,
                       const Rungs* const rungs)
{
    char text[64];
    const Palette* const colours = brush->colours;
    const bool is_right = !brush->g->compact;
    const double wide =
        ink_text(brush->cairo, places->title.x, places->title.y,
                 brush_type(11.0, false, ALIGN_LEFT, colours->soft), "Tempo ladder");
    if (rungs->is_cut) {
        snprintf(text, sizeof text, "to %.4g", rungs->top);
        ink_text(brush->cairo, places->title.x + wide + 6.0, places->title.y,
                 brush_type(11.0, false, ALIGN_LEFT, colours->soft), text);
    }
    words_of(brush->view, rungs, text);
    ink_text(brush->cairo, places->more.x, places->more.y,
             brush_type(13.0, true, is_right ? ALIGN_RIGHT : ALIGN_LEFT, colours->ink), text);
}

void draw_practice(const Brush* const brush)
{
    Rungs rungs;
    const PracticePlaces places = practice_places(brush->g);
    practice_rungs(brush->view, places.room, &rungs);
    draw_title(brush, &places, &rungs);
    if (rungs.count < 2) {
        ink_name(brush->cairo,
                 (Box){places.stairs.x, places.stairs.y + 12.0, places.stairs.width - 20.0, 48.0},
                 brush_type(13.0, false, ALIGN_LEFT, brush->colours->soft),
                 "Ladder step makes the own clock's tempo rise, phrase by phrase");
    }
    for (int rung = 0; rung < rungs.count && rungs.count > 1; ++rung) {
        draw_rung(brush, &rungs, places.stairs, rung);
        draw_tempo(brush, &rungs, places.stairs, rung);
    }
    draw_cells(brush);
}

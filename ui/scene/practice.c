// SPDX-License-Identifier: ISC
#include "practice.h"

#include "../../plugin/engine/groove/settings.h"
#include "../../plugin/engine/groove/ladder.h"
#include "cells.h"
#include "dial.h"
#include "target_choice.h"

#include <math.h>

/* ---- Rungs */

/* The rung that plays, by the tempo that was told to come next. */
static int64_t playing(const View* const view, const Ladder ladder)
{
    const SeenPlace* const place = &view->place;
    if (place->ladder_bars <= 0) {
        return place->bar < 0 || !(ladder.step > 0.0)
                   ? 0
                   : (int64_t)ceil(fmax(ladder.top - ladder.tempo, 0.0) / ladder.step);
    }
    return (int64_t)ceil((place->next_tempo - ladder.tempo) / ladder.step - 1e-6) - 1;
}

void practice_rungs(const View* const view, const int room, Rungs* const rungs)
{
    const Ladder ladder = settings_from_controls(view->values).ladder;
    const bool rises = ladder.step > 0.0 && ladder.top > ladder.tempo;
    const double steps = rises ? ceil((ladder.top - ladder.tempo) / ladder.step - 1e-6) : 0.0;
    const int64_t all = (int64_t)steps + 1;
    const bool plays = view->has_place && view->place.own_clock;
    const int64_t now = plays ? playing(view, ladder) : -1;
    const int64_t most = room < RUNGS_MAX ? room : RUNGS_MAX;
    const int64_t wanted = now < 3 ? 0 : now - 2; /* some that are behind */
    const int64_t last = all - most < 0 ? 0 : all - most;
    const int64_t first = wanted < last ? wanted : last;
    *rungs = (Rungs){.count = (int)(all < most ? all : most),
                     .now = now < 0 || now >= all ? -1 : (int)(now - first),
                     .top = ladder_tempo(ladder, (all - 1) * ladder.every),
                     .is_cut = first < last,
                     .bars = plays ? view->place.ladder_bars : 0,
                     .has_more = first > 0};
    for (int i = 0; i < rungs->count; ++i) {
        rungs->tempo[i] = ladder_tempo(ladder, (first + i) * ladder.every);
    }
}

/* ---- Where all stands */

static const double beside = 340.0; /* x of the dials, at the first width */

PracticePlaces practice_places(const Geometry* const g)
{
    const Box page = geometry_page_box(g);
    if (g->compact) {
        const Box stairs = {page.x + 140.0, g->overview.y, g->right - page.x - 140.0,
                            g->overview.height};
        return (PracticePlaces){{page.x, stairs.y + 16.0},
                                {page.x, stairs.y + 36.0},
                                stairs,
                                (int)(stairs.width / 46.0)};
    }
    const double wide = beside - 24.0 - page.x;
    const Box stairs = {page.x, page.y + 16.0, wide, page.height - 16.0};
    return (PracticePlaces){
        {page.x, page.y + 14.0}, {page.x + wide, page.y + 14.0}, stairs, (int)(wide / 33.0)};
}

static int in_a_row(const int column, const int row)
{
    return 5 * row + column;
}

int practice_page(const int column, const int row)
{
    return in_a_row(column, row) / 7;
}

Box practice_cell(const Geometry* const g, const int page, const int column, const int row)
{
    if (g->compact) {
        return geometry_cell(g, page, in_a_row(column, row) % 7, practice_page(column, row));
    }
    const Box box = geometry_page_box(g);
    const double gap = 20.0;
    const double width = (g->right - beside - 4.0 * gap) / 5.0;
    const double pitch = fmin((box.height - 3.0) / 3.0, 66.0);
    return (Box){beside + column * (width + gap), box.y + 3.0 + pitch * row, width, 42.0};
}

RungPlace practice_rung(const Box stairs, const int rung, const int count)
{
    const bool is_low = stairs.height < 80.0;
    const double under = is_low ? 17.0 : 23.0; /* the first one's tempo */
    const double over = is_low ? 15.0 : 20.0;  /* the last one's, and what was played clean on it */
    const double wide = stairs.width / fmax(count, 6.0);
    const double tall = fmin((stairs.height - under - over) / fmax(count - 1.0, 1.0), 30.0);
    return (RungPlace){{stairs.x + wide * rung, stairs.y + stairs.height - under - tall * rung},
                       wide};
}

/* ---- What can be pointed at */

static bool lays_out_words(const View* const view)
{
    return view->is_choosing && dial_of(view->choosing)->panel == (int)view->panel;
}

static void add_words(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (int word = 0; word < target_choice_words(view->choosing); ++word) {
        const Box cell = practice_cell(g, 0, word % 5, word / 5);
        target_list_add(list, TARGET_WORD, word, GROUP_PANEL,
                        g->compact ? geometry_word(g, word)
                                   : (Box){cell.x, cell.y + 14.0, cell.width, 24.0});
    }
}

void practice_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    if (lays_out_words(view)) {
        add_words(view, g, list);
        return;
    }
    for (int place = 0; place < 15; ++place) {
        const int control = cells_control(PANEL_PRACTICE, place % 5, place / 5);
        const Box box = practice_cell(g, view->page, place % 5, place / 5);
        if (control < CONTROL_COUNT && box.y > 0.0) {
            target_list_add(list, TARGET_DIAL, control, GROUP_PANEL, box);
        }
    }
}

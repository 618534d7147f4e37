// SPDX-License-Identifier: ISC
#include "keys.h"
#include "reading.h"

#include <math.h>
#include <stddef.h>

/* Where the rows of the staff are at scale 1, from its top. */
typedef struct {
    double count_hands;
    double line[LIMB_COUNT];
    double ground[2][2];
    double count_feet;
    double turns_top;
    double turns;
    double click;
    double height;
} Rows;

static const Rows regular_rows = {
    .count_hands = 19,
    .line = {64, 83, 171, 190},
    .ground = {{73, 115}, {180, 222}},
    .count_feet = 131,
    .turns_top = 226,
    .turns = 234,
    .click = 247,
    .height = 255,
};

static const Rows compact_rows = {
    .count_hands = 19,
    .line = {55, 75, 150, 170},
    .ground = {{65, 104}, {160, 199}},
    .count_feet = 115,
    .turns_top = 202,
    .turns = 209,
    .click = 221,
    .height = 228,
};

/* While a figure is edited its pair has most of the height, 192 of 284, and the other folds. */
static const Rows edit_rows[2][2] = {
    [PAIR_HANDS] = {{.count_hands = 18,
                     .line = {90, 122, 230, 240},
                     .ground = {{108, 192}, {235, 256}},
                     .count_feet = 212,
                     .turns_top = 259,
                     .turns = 264,
                     .click = 275,
                     .height = 284},
                    {.count_hands = 15,
                     .line = {64, 92, 182, 192},
                     .ground = {{79, 150}, {187, 202}},
                     .count_feet = 168,
                     .turns_top = 204,
                     .turns = 209,
                     .click = 221,
                     .height = 228}},
    [PAIR_FEET] = {{.count_hands = 16,
                    .line = {36, 46, 154, 186},
                    .ground = {{41, 60}, {172, 256}},
                    .count_feet = 82,
                    .turns_top = 258,
                    .turns = 264,
                    .click = 275,
                    .height = 284},
                   {.count_hands = 14,
                    .line = {31, 41, 110, 138},
                    .ground = {{36, 50}, {125, 199}},
                    .count_feet = 66,
                    .turns_top = 202,
                    .turns = 209,
                    .click = 221,
                    .height = 228}},
};

/* For what is open under it: neither turns nor clicks. */
static const Rows low_rows = {
    .count_hands = 16,
    .line = {51, 65, 133, 147},
    .ground = {{59, 88}, {140, 174}},
    .count_feet = 104,
    .turns_top = 174,
    .turns = 174,
    .click = 170,
    .height = 182,
};

/* Over a list. */
static const Rows list_rows = {
    .count_hands = 18,
    .line = {56, 71, 138, 153},
    .ground = {{63, 93}, {145, 175}},
    .count_feet = 107,
    .turns_top = 177,
    .turns = 183,
    .click = 179,
    .height = 188,
};

/* What rows may grow to: as far as signs have room beside each other. */
static const double most_scale = 1.6; /* where the bar is as wide as at first */
static const double first_room = 628.0;

/* Spare height is the staff's at first, and then in shares the overview's too. */
static const double first_spare = 170.0;
static const double staff_share = 0.72;

static double for_staff(const double spare)
{
    return spare < first_spare ? fmax(spare, 0.0)
                               : first_spare + staff_share * (spare - first_spare);
}

static double most_scale_of(const Geometry* const g)
{
    const double wider = (g->right - g->beat_1) / first_room;
    return most_scale * fmax(wider, 1.0);
}

/* Type grows less than the rows it stands in. */
static double type_scale(const double rows)
{
    return rows < 1.4 ? rows : 1.4 + 0.7 * (rows - 1.4);
}
static const double most_low_scale = 1.25;

/* The share of the window's height that the staff has over a list. */
static const double list_share = 0.345;
static const double least_list_scale = 0.84;

Fit geometry_fit(const int width, const int height, const double scale)
{
    Fit fit = {.scale = scale};
    const double across = width / scale / LEAST_WIDTH;
    const double down = height / scale / LEAST_HEIGHT;
    const double least = across < down ? across : down;
    if (least < 1.0) {
        fit.scale *= least;
    }
    fit.width = width / fit.scale;
    fit.height = height / fit.scale;
    return fit;
}

/* From the quiet line down: tabs, the phrase's bars, dials. */
static void place_panel(Geometry* const g)
{
    const double left = g->compact ? 12.0 : 16.0;
    g->panel = g->quiet + (g->compact ? 5.0 : 7.0);
    g->tabs = (Box){left, g->panel + 1.0, g->right - left, g->compact ? 21.0 : 25.0};
    g->cells = g->height - (g->compact ? 48.0 : 108.0);
    const double top = g->tabs.y + g->tabs.height + (g->compact ? 2.0 : 3.0);
    const double tall = g->edits ? 18.0 : g->cells - 5.0 - top;
    g->overview = (Box){left, top, g->right - left, tall};
}

/* What a window needs besides the rows while a figure is edited, when the phrase's bars have
   one line. */
static const double edit_others[] = {237.0, 150.0};

/* Of spare height the staff has as much over the shortlist, whose rows grow too. */
static const double kept_share = 0.5;

static const Rows* rows_of(const Geometry* const g)
{
    return g->edits     ? &edit_rows[g->edited][g->compact]
           : g->list    ? &list_rows
           : g->low     ? &low_rows
           : g->compact ? &compact_rows
                        : &regular_rows;
}

/* How large the rows are drawn, and the signs in them. */
static void scale_rows(Geometry* const g, const Rows* const rows, const double extra)
{
    const double wanted = g->list    ? fmax(list_share * g->height / rows->height, least_list_scale)
                          : g->edits ? (g->height - edit_others[g->compact]) / rows->height
                          : g->kept  ? 1.0 + kept_share * fmax(extra, 0.0) / rows->height
                                     : 1.0 + for_staff(extra) / rows->height;
    const double most = g->low && !g->kept ? most_low_scale : most_scale_of(g);
    const double s = g->scale = wanted < most ? wanted : most;
    g->sign[PAIR_HANDS] = g->sign[PAIR_FEET] = s;
    if (g->edits) {
        g->sign[g->edited] = (g->compact ? 1.15 : 1.35) * s;
        g->sign[g->edited == PAIR_FEET ? PAIR_HANDS : PAIR_FEET] = 0.45 * s;
    }
}

static void place_rows(Geometry* const g, const double extra)
{
    const Rows* const rows = rows_of(g);
    scale_rows(g, rows, extra);
    const double s = g->scale;
    g->beat_1 = g->staff + 10.0 * fmax(s, 1.6); /* heads are free of the bar line */
    const double y = g->top + (g->compact ? 0.0 : 4.0);
    const double grown = type_scale(s);
    g->count_size[PAIR_HANDS] = (g->compact ? 15.0 : 20.0) * grown;
    g->count_size[PAIR_FEET] = 13.0 * grown;
    g->said_size[PAIR_HANDS] = 13.0 * grown;
    g->said_size[PAIR_FEET] = 11.0 * grown;
    g->count_hands = y + s * rows->count_hands;
    g->count_feet = y + s * rows->count_feet;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        g->line[limb] = y + s * rows->line[limb];
    }
    for (size_t pair = 0; pair < 2; ++pair) {
        const double* const ground = rows->ground[pair];
        g->ground[pair] =
            (Box){g->staff, y + s * ground[0], g->right - g->staff, s * (ground[1] - ground[0])};
        const double count = pair ? g->count_feet : g->count_hands;
        g->row_top[2 * pair] = count + 4.0;
        g->row_bottom[2 * pair] = g->row_top[2 * pair + 1] = g->ground[pair].y;
        g->row_bottom[2 * pair + 1] = g->ground[pair].y + g->ground[pair].height;
    }
    g->turns_top = y + s * rows->turns_top;
    g->turns = y + s * rows->turns;
    g->click = y + s * rows->click;
    const double bottom = y + s * rows->height;
    g->quiet = bottom + (g->compact ? 8.0 : 10.0);
    place_panel(g);
}

/* From the staff's end to the line that explains. */
static void place_list(Geometry* const g)
{
    const double top = g->low ? g->row_bottom[3] + 8.0 : g->turns + 8.0;
    const double x = g->compact ? 12.0 : 16.0;
    g->list_box = (Box){x, top, g->right - x, g->height - top - (g->compact ? 6.0 : 24.0)};
    g->list_rows = top + 52.0;
    g->row_height = g->compact ? 22.0 : 24.0;
    g->overview = (Box){g->labels, g->height, g->right - g->labels, 0.0};
    g->panel = g->cells = top;
    g->tabs = (Box){0.0, top, g->width, 0.0};
}

static void place_columns(Geometry* const g)
{
    if (g->list) {
        g->labels = g->compact ? 12.0 : 16.0;
        g->staff = g->labels + (g->kept ? 210.0 : g->compact ? 124.0 : 134.0);
        g->beat_1 = g->staff + 16.0;
        g->right = g->width - g->labels;
    } else if (g->compact) {
        g->labels = 138.0;
        g->staff = 222.0;
        g->beat_1 = g->staff + 16.0;
        g->right = g->width - 12.0;
    } else {
        g->labels = 196.0;
        g->staff = 316.0;
        g->beat_1 = g->staff + 16.0;
        g->right = g->width - 16.0;
    }
}

/* A step that is narrower is hard to hit.  Of those that a shuffle bends the narrowest are
   2 / (ratio + 1) as wide, and have still what any target has. */
static double step_least_of(const View* const view)
{
    const double least = 24.0;
    const double target = 16.0;
    const double ratio = view->edit.swing.ratio > 1.0 ? view->edit.swing.ratio : 1.0;
    return fmax(least, target * (ratio + 1.0) / 2.0);
}

Geometry geometry_of(const View* const view)
{
    Geometry g = {.width = view->width, .height = view->height};
    g.compact = view->width < 860.0 || view->height < 530.0;
    g.keys = view->keys.is_open && !view->list.is_open;
    g.kept = view->panel == PANEL_SHORTLIST && !view->list.is_open && !g.keys && !view->reads;
    g.list = view->list.is_open || (g.kept && g.compact);
    g.low = (g.keys || g.kept) && !g.compact;
    g.edits = view->panel == PANEL_EDIT && !g.list && !g.keys && !view->reads;
    g.edited = view->edit.pair;
    g.top = g.compact ? 44.0 : 56.0;
    g.help = g.compact ? 0.0 : g.height - 7.0;
    place_columns(&g);
    place_rows(&g, g.height - (g.compact ? LEAST_HEIGHT : FIRST_HEIGHT));
    if (g.list || g.kept) {
        place_list(&g);
    } else if (g.keys) {
        keys_place(&g);
    } else if (view->reads) {
        g.reads = true;
        reading_place(&g);
    } else if (g.edits) {
        g.edit_grid = view->edit.grid;
        g.edit_tick = view->edit.cursor;
        g.edit_swings = view->edit.swing.ratio > 1.0;
        g.step_least = step_least_of(view);
    }
    return g;
}

/* As many whole beats as leave each step room enough, the page that has edit_tick; where a
   beat alone is too wide a part of it. */
static void turn_to_page(const Geometry* const g, const double room, BarSpace* const space)
{
    const double pair = g->edit_swings ? TICKS_PER_QUARTER / space->ticks : 1.0;
    const double group = fmax(pair, 1.0); /* beats: a page begins where a shuffle does */
    space->seen = space->beats;
    if (!g->edit_grid) {
        return;
    }
    space->ahead = 0.0;
    space->beat = room / space->beats;
    const double steps = space->ticks * g->edit_grid / (double)TICKS_PER_QUARTER; /* in a beat */
    if (space->beat / steps >= g->step_least) {
        return;
    }
    const double fit = room / (steps * g->step_least); /* beats */
    if (fit < 1.0) {
        space->seen = fit < 0.5 ? 0.25 : 0.5;
    } else {
        const double most = fmax(floor(fit / group), 1.0) * group;
        const double pages = ceil(space->beats / most);
        space->seen = ceil(space->beats / pages / group) * group;
    }
    space->beat = room / space->seen;
    space->first = floor(g->edit_tick / space->ticks / space->seen) * space->seen;
}

BarSpace geometry_bar(const Geometry* const g, const Meter meter)
{
    const double room = g->right - g->beat_1;
    const double beats = meter.beats_per_bar;
    const double ahead = g->compact ? 0.5 : 1.0;
    BarSpace space = {beats, room / (beats + ahead), ahead, (double)meter_beat_ticks(meter), 0.0,
                      beats};
    if (space.beat < (g->reads ? 1.6 * g->count_size[PAIR_HANDS] : 40.0)) {
        space.ahead = 0.0;
        space.beat = room / beats;
    }
    turn_to_page(g, room, &space);
    return space;
}

double geometry_clear(const Geometry* const g)
{
    const double room = g->beat_1 - g->staff;
    return fmin(10.0 * g->scale, room);
}

bool geometry_folds(const Geometry* const g, const int limb)
{
    return g->edits && (limb >= RIGHT_FOOT) != (g->edited == PAIR_FEET);
}

bool geometry_covers(const Geometry* const g)
{
    return g->keys && !g->low;
}

int geometry_list_rows(const Geometry* const g)
{
    const double room = g->list_box.y + g->list_box.height - g->list_rows - 4.0;
    return g->row_height > 0.0 ? (int)floor(room / g->row_height) : 0; /* none is open */
}

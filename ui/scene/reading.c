// SPDX-License-Identifier: ISC
#include "reading.h"

#include <math.h>
#include <stddef.h>

static const double full_width = 1280.0;
static const double full_height = 760.0;

/* At full size, from the top: the staff begins, ends. */
static const double staff_top = 88.0;
static const double staff_bottom = 604.0;

/* What the hands' rows leave over and under their tallest signs. */
static double free_height(const Geometry* const g)
{
    const double stem = 31.0 * g->scale;
    const double ring = 15.0 * g->scale;
    return fmin(g->line[0] - g->row_top[0] - stem - ring, g->row_bottom[1] - g->line[1] - stem);
}

double reading_size(const Geometry* const g, const ReadingRole role)
{
    static const double sizes[READING_ROLES] = {
        [READING_COUNT] = 50.0, [READING_SAID] = 49.0,  [READING_GROOVE] = 49.0,
        [READING_BAR] = 49.0,   [READING_METER] = 49.0, [READING_TEMPO] = 60.0,
        [READING_LIMB] = 49.0,  [READING_RATE] = 52.0,  [READING_VOICE] = 49.0,
        [READING_FORM] = 54.0,  [READING_NAME] = 49.0,  [READING_ASIDE] = 22.0,
    };
    const double least = sizes[role] * g->unit;
    return role == READING_ASIDE ? fmax(least, fmin(free_height(g), sizes[READING_VOICE] * g->unit))
                                 : least;
}

/* Between the lines over and under the staff, as shares of that stretch at full size; the
   sizes of signs and type grow with the window's unit alone. */
static double row_at(const Geometry* const g, const double y)
{
    const double top = staff_top * g->unit;
    const double bottom = g->height - (full_height - staff_bottom) * g->unit;
    return top + (bottom - top) * (y - staff_top) / (staff_bottom - staff_top);
}

static void place_pair(Geometry* const g, const size_t pair, const double count,
                       const double lines[2], const double ground[2])
{
    const double base = row_at(g, count);
    g->line[2 * pair] = row_at(g, lines[0]);
    g->line[2 * pair + 1] = row_at(g, lines[1]);
    g->ground[pair] = (Box){g->staff, row_at(g, ground[0]), g->right - g->staff,
                            row_at(g, ground[1]) - row_at(g, ground[0])};
    g->row_top[2 * pair] = base + 11.0 * g->unit;
    g->row_bottom[2 * pair] = g->row_top[2 * pair + 1] = g->ground[pair].y;
    g->row_bottom[2 * pair + 1] = g->ground[pair].y + g->ground[pair].height;
    g->count_size[pair] = reading_size(g, READING_COUNT);
    g->said_size[pair] = reading_size(g, READING_SAID);
}

void reading_place(Geometry* const g)
{
    const double across = g->width / full_width;
    const double down = g->height / full_height;
    const double u = g->unit = across < down ? across : down;
    const double taller =
        (row_at(g, staff_bottom) - row_at(g, staff_top)) / ((staff_bottom - staff_top) * u);
    g->compact = false;
    g->labels = 20.0 * u;
    g->staff = 262.0 * u;
    g->beat_1 = g->staff + 26.0 * u;
    g->right = g->width - 20.0 * u;
    g->scale = 2.0 * u * fmin(taller, 1.6);
    g->sign[PAIR_HANDS] = g->sign[PAIR_FEET] = g->scale;
    place_pair(g, PAIR_HANDS, 138.0, (const double[]){238.0, 272.0},
               (const double[]){255.0, 336.0});
    place_pair(g, PAIR_FEET, 384.0, (const double[]){480.0, 514.0}, (const double[]){497.0, 578.0});
    g->count_hands = row_at(g, 138.0);
    g->count_feet = row_at(g, 384.0);
    g->turns_top = row_at(g, 582.0);
    g->turns = row_at(g, 594.0);
    g->click = g->turns - 4.0;
    g->panel = row_at(g, staff_bottom);
    g->help = 0.0;
}

ReadingPlaces reading_places(const Geometry* const g)
{
    static const double over[LIMB_COUNT] = {-78.0, 16.0, -60.0, 22.0}; /* from its line */
    const double u = g->unit;
    const double right = g->right;
    ReadingPlaces places = {
        .groove = {g->labels, 62.0 * u},
        .bar = {right - 585.0 * u, 62.0 * u},
        .meter = {right - 325.0 * u, 42.0 * u},
        .meter_lower = 81.0 * u,
        .tempo = {right, 65.0 * u},
        .limb_room = g->staff - g->labels - 6.0 * u,
        .rule = {staff_top * u, g->panel},
        .name = {g->labels, g->height - 20.0 * u},
        .name_room = right - g->labels,
    };
    places.groove_room = places.bar.x - 210.0 * u - g->labels;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const double y = g->line[limb] + over[limb] * u;
        places.limb[limb] = (At){g->labels, y};
        places.beside[limb] = (At){g->labels, y + 48.0 * u};
    }
    return places;
}

Box reading_bar(const Geometry* const g, const int bar, const int bars)
{
    const double u = g->unit;
    const double room = g->right - g->labels;
    const double wide = fmin(room / bars, 190.0 * u);
    return (Box){g->labels + wide * bar, g->panel + 6.0 * u, wide, 66.0 * u};
}

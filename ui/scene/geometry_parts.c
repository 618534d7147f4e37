// SPDX-License-Identifier: ISC
/* The parts of the window: the second half of geometry.h. */
#include "geometry.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static TopRow compact_top(const double more)
{
    return (TopRow){
        .enabled = {12, 10, 34, 22},
        .on = {16, 21},
        .groove = {50, 6, 312.0 + more, 32},
        .groove_name = {54, 28},
        .groove_room = 284.0 + more,
        .groove_mark = 27,
        .groove_sign = {350.0 + more, 22},
        .clock = {530.0 + more, 10, 90, 24},
        .clock_word = {524.0 + more, 28},
        .tempo = {392.0 + more, 6, 100, 34},
        .tempo_note = {401.0 + more, 26},
        .tempo_equals = {417.0 + more, 29},
        .tempo_number = {425.0 + more, 30},
        .meter = {{377.0 + more, 21}, {377.0 + more, 36}},
    };
}

/* All but the groove stands by the right edge. */
TopRow geometry_top(const Geometry* const g)
{
    const double more = g->width - (g->compact ? LEAST_WIDTH : FIRST_WIDTH);
    const double words = 20.0;
    const TopRow row = {
        .enabled = {10, 7, 42, 45},
        .on_word = {16, words},
        .on = {16, 38},
        .groove = {56, 8, 336.0 + more, 44},
        .groove_word = {60, words},
        .groove_sign = {111, 16},
        .groove_name = {60, 46},
        .groove_room = 328.0 + more,
        .groove_mark = 44,
        .change_at = {694.0 + more, 26, 250, 24},
        .change_word = {694.0 + more, words},
        .clock = {580.0 + more, 26, 94, 24},
        .clock_word = {580.0 + more, words},
        .tempo = {428.0 + more, 8, 142, 46},
        .tempo_word = {432.0 + more, words},
        .tempo_note = {438.0 + more, 46},
        .tempo_equals = {458.0 + more, 48},
        .tempo_number = {468.0 + more, 49},
        .meter = {{410.0 + more, 31}, {410.0 + more, 50}},
        .news = {124, words},
        .news_room = 264.0 + more,
    };
    return g->compact ? compact_top(more) : row;
}

/* Roughly, in the type of the groove's name: nothing here can measure words. */
static double width_of_name(const char* const name)
{
    double width = 0.0;
    for (const char* at = name; *at; ++at) {
        const unsigned char byte = (unsigned char)*at;
        width += byte < 0x80 ? 12.0 : byte >= 0xE0 ? 21.0 : byte >= 0xC0 ? 15.0 : 0.0;
    }
    return width;
}

Box geometry_changed(const TopRow* const top, const char* const name, const size_t letters)
{
    const double width = 14.0 + 7.0 * (double)letters;
    const double last = top->groove_name.x + top->groove_room - width;
    const double wanted = top->groove_name.x + width_of_name(name) + 10.0;
    return (Box){wanted < last ? wanted : last, top->groove_mark - 14.0, width, 19.0};
}

/* From where to where a card stands: beside its rows.  A pair that is edited has all of its
   block, the other's has a name. */
typedef struct {
    double top;
    double height;
} Reach;

static Reach card_reach(const Geometry* const g, const LimbPair pair)
{
    const size_t right = pair == PAIR_FEET ? RIGHT_FOOT : RIGHT_HAND;
    if (geometry_folds(g, (int)right)) {
        return (Reach){g->line[right] - 26.0, g->compact ? 42.0 : 52.0};
    }
    if (g->edits) {
        const double top = g->row_top[right] - 20.0;
        return (Reach){top, g->row_bottom[right + 1] - top};
    }
    const double over = g->compact ? 47.0 : g->low ? 49.0 : 61.0;
    const double feet = g->compact || g->low ? 0.87 : 0.79; /* of it: their row is lower */
    const double under = g->compact ? 29.0 : g->low ? (pair == PAIR_FEET ? 30.0 : 20.0) : 39.0;
    const double top = g->line[right] - over * (pair == PAIR_FEET ? feet : 1.0);
    const double room = g->line[right + 1] + under - top;
    const double tall = (g->compact ? 96.0 : 110.0) * g->scale;
    return (Reach){top, room < tall ? room : tall};
}

CardPlaces geometry_card(const Geometry* const g, const LimbPair pair)
{
    const bool is_folded = geometry_folds(g, pair == PAIR_FEET ? RIGHT_FOOT : RIGHT_HAND);
    const Reach reach = card_reach(g, pair);
    const double top = reach.top;
    const double height = reach.height;
    const double width = g->compact ? 118.0 : 168.0;
    const double foot = is_folded ? 24.0 : g->edits ? height - 50.0 : g->compact ? 42.0 : 46.0;
    const double x = g->compact ? 12.0 : 16.0;
    const double end = x + width;
    const double bottom = top + height;
    return (CardPlaces){
        .box = {x, top, width, height},
        .up = {end - 52.0, top + 3.0, 24.0, 22.0},
        .down = {end - 28.0, top + 3.0, 24.0, 22.0},
        .title = {x + 10.0, top + 17.0},
        .title_width = 44.0,
        .up_sign = {end - 40.0, top + 13.0},
        .down_sign = {end - 18.0, top + 13.0},
        .name = {x + 10.0, top + 22.0, width - 16.0, height - foot},
        .held = {x + 10.0, top + 88.0},
        .over = g->compact ? 14.0 : 16.0,
        .line = {x + 10.0, bottom - (g->compact ? 24.0 : 27.0)},
        .foot = {x + 10.0, bottom - 9.0},
        .room = width - 20.0,
        .indent = 14.0,
        .dots = {end - 55.0, bottom - 13.0},
        .put_back = {x + 6.0, bottom - 22.0, width - 66.0, 18.0},
    };
}

/* The middle of a label: a right limb's stands over its line. */
static double label_y(const Geometry* const g, const int limb)
{
    const double over = g->low ? 10.0 : g->compact ? 18.0 : g->list ? 20.0 : 28.0;
    if (limb == LIMB_COUNT) {
        return g->click;
    }
    return geometry_folds(g, limb) ? g->line[limb] + (limb % 2 ? 8.0 : -8.0)
           : limb % 2              ? g->line[limb] + (g->low ? 12.0 : 0.0)
                                   : g->line[limb] - over;
}

LabelPlaces geometry_label(const Geometry* const g, const int limb)
{
    const double x = g->labels;
    const bool is_brief = g->compact || g->list;
    const double y = label_y(g, limb);
    const double rate = y + (g->compact ? 21.0 : 27.0);
    return (LabelPlaces){
        .box = {x - 4.0, y - 8.0, g->staff - x - 6.0, 16.0},
        .on = {x, y},
        .name = {x + 32.0, y + 4.5},
        .voice = {is_brief ? x : x + 32.0, y + 21.0},
        .voice_room = g->staff - x - 6.0,
        .rate = {g->list ? g->staff - 26.0 : x + 26.0, g->list ? y + 4.5 : rate},
        .rate_unit = {g->list ? g->staff - 23.0 : x + 30.0, g->list ? y + 4.5 : rate},
        .record = {x + 32.0, rate - 9.0},
        .closest = {x + 32.0, rate + 3.0},
        .closest_room = g->staff - x - 36.0,
    };
}

Box geometry_row(const Geometry* const g, const int limb)
{
    const double top = g->row_top[limb];
    return (Box){g->staff, top, g->right - g->staff, g->row_bottom[limb] - top};
}

/* ---- The overview */

/* The first of the eight that are near. */
static int first_near(const int bars, const int now)
{
    const int first = now / NEAR_BARS * NEAR_BARS;
    return first + NEAR_BARS <= bars ? first : bars > NEAR_BARS ? bars - NEAR_BARS : 0;
}

bool geometry_is_far(const int bar, const int bars, const int now)
{
    const int first = first_near(bars, now);
    return bar < first || bar >= first + NEAR_BARS;
}

Box geometry_bar_box(const Geometry* const g, const int bar, const int bars, const int now)
{
    const int across = bars < NEAR_BARS ? bars : NEAR_BARS;
    const int first = first_near(bars, now);
    const double width = g->overview.width / (g->edits ? bars : across);
    if (g->edits) {
        return (Box){g->overview.x + width * bar, g->overview.y, width, g->overview.height};
    }
    const double far = bars > NEAR_BARS ? 17.0 : 0.0;
    const double near = g->overview.height - far;
    if (geometry_is_far(bar, bars, now)) {
        const int column = bar < first ? bar : bar - NEAR_BARS;
        return (Box){g->overview.x + width * column, g->overview.y + near, width, far};
    }
    return (Box){g->overview.x + width * (bar - first), g->overview.y, width, near};
}

SmallPlaces geometry_small(const Box bar)
{
    const bool is_low = bar.height < 60.0;
    const double head = bar.height < 24.0 ? 0.0 : is_low ? 16.0 : 17.0;
    const double rows = bar.height - head - 1.0;
    const double clear = bar.width > 56.0 ? 7.0 : bar.width / 8.0;
    const double one = bar.x + clear;
    const double beats = bar.width - clear - 1.0;
    return (SmallPlaces){
        .one = one,
        .beats = beats,
        .ground = {bar.x, bar.y + head, bar.width, bar.height - head},
        .playhead = {one, bar.y + fmax(head - 2.0, 0.0), beats, bar.height - fmax(head - 2.0, 0.0)},
        .letter = {bar.x + 5.0, bar.y + 13.0},
        .right = bar.x + bar.width - 4.0,
        .lines = {bar.y + head + 1.0 + (is_low ? 0.27 : 0.32) * rows,
                  bar.y + head + 1.0 + (is_low ? 0.76 : 0.72) * rows},
        .turns = is_low ? 0.0 : bar.y + bar.height - 5.0,
    };
}

/* ---- The staff */

Box geometry_number(const double x, const double y, const double size)
{
    return (Box){x - 0.7 * size, y - 0.96 * size, 1.4 * size, 1.2 * size};
}

double geometry_tick(const Geometry* const g, const BarSpace space, const double tick)
{
    return g->beat_1 + space.beat * (tick / space.ticks - space.first);
}

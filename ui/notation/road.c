// SPDX-License-Identifier: ISC
#include "road.h"

const SheetBar* road_bar(const Sheet* const sheet, const int bar)
{
    int row = 0;
    while (row + 1 < sheet->count && sheet->rows[row].last < bar + 1) {
        ++row;
    }
    return &sheet->rows[row];
}

static bool are_alike(const Sheet* const sheet, const int a, const int b)
{
    const SheetBar* const one = road_bar(sheet, a);
    const SheetBar* const other = road_bar(sheet, b);
    return one == other || (one->letter == other->letter && one->has_fill == other->has_fill &&
                            (!one->has_fill || (one->fill_begin == other->fill_begin &&
                                                one->fill_end == other->fill_end)) &&
                            stroke_lists_alike(&one->strokes, &other->strokes, 0));
}

/* How many bars from `a` on are as those from `b` on, `most` at the most. */
static int alike_for(const Sheet* const sheet, const int a, const int b, const int most)
{
    int count = 0;
    while (count < most && b + count < sheet->bars && are_alike(sheet, a + count, b + count)) {
        ++count;
    }
    return count;
}

static RoadStretch stretch_of(const Sheet* const sheet, const int bar, const int count)
{
    RoadStretch stretch = {bar, count, 1, -1};
    while (alike_for(sheet, bar, bar + stretch.times * count, count) == count) {
        ++stretch.times;
    }
    const bool has_room = bar + 2 * count <= sheet->bars;
    if (stretch.times == 1 && count > 1 && has_room &&
        alike_for(sheet, bar, bar + count, count) == count - 1) {
        stretch.times = 2;
        stretch.second = bar + 2 * count - 1;
    }
    return stretch;
}

static int spared(const RoadStretch stretch)
{
    return stretch.count * (stretch.times - 1) - (stretch.second >= 0);
}

Road road_make(const Sheet* const sheet)
{
    Road road = {.count = 0};
    for (int bar = 0; bar < sheet->bars;) {
        RoadStretch best = {bar, 1, 1, -1};
        for (int count = 1; bar + count <= sheet->bars; ++count) {
            const RoadStretch stretch = stretch_of(sheet, bar, count);
            best = spared(stretch) > spared(best) ? stretch : best;
        }
        road.stretches[road.count++] = best;
        bar += best.count * best.times;
    }
    return road;
}

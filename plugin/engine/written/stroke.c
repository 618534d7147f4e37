// SPDX-License-Identifier: ISC
#include "stroke.h"

bool limb_is_foot(const uint8_t limb)
{
    return limb == RIGHT_FOOT || limb == LEFT_FOOT;
}

bool stroke_before(const Stroke a, const Stroke b)
{
    if (a.tick != b.tick) {
        return a.tick < b.tick;
    }
    return a.limb != b.limb ? a.limb < b.limb : a.voice < b.voice;
}

/* Insertion: lists are short and mostly in order already, and it is stable. */
void strokes_sort(Stroke* const strokes, const uint32_t count)
{
    for (uint32_t i = 1; i < count; ++i) {
        const Stroke stroke = strokes[i];
        uint32_t place = i;
        for (; place > 0 && stroke_before(stroke, strokes[place - 1]); --place) {
            strokes[place] = strokes[place - 1];
        }
        strokes[place] = stroke;
    }
}

uint32_t stroke_list_first(const StrokeList* const list, const int64_t tick)
{
    uint32_t low = 0, high = list->count;
    while (low < high) {
        const uint32_t middle = low + (high - low) / 2;
        if (list->strokes[middle].tick < tick) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

void stroke_list_add(StrokeList* const list, const Stroke stroke)
{
    if (list->count == SPAN_STROKES_MAX) {
        ++list->dropped;
        return;
    }
    list->strokes[list->count++] = stroke;
}

bool stroke_lists_alike(const StrokeList* const a, const StrokeList* const b, const int64_t apart)
{
    bool alike = a->count == b->count;
    for (uint32_t i = 0; alike && i < a->count; ++i) {
        const Stroke x = a->strokes[i];
        const Stroke y = b->strokes[i];
        alike = x.tick + apart == y.tick && x.limb == y.limb && x.voice == y.voice &&
                x.level == y.level;
    }
    return alike;
}

// SPDX-License-Identifier: ISC
#include "liberty.h"

#include "liberty_add.h"
#include "liberty_vary.h"

static void vary_bar(const LibertyBar* const bar, const int64_t begin, const int64_t end,
                     StrokeList* const list)
{
    for (uint32_t i = 0; i < bar->written->count; ++i) {
        Stroke stroke = bar->written->strokes[i];
        if (stroke.tick >= begin && stroke.tick < end && liberty_vary_stroke(bar, &stroke)) {
            stroke_list_add(list, stroke);
        }
    }
    for (int64_t in_bar = 0; bar->step && in_bar < bar->bar.ticks; in_bar += bar->step) {
        const int64_t tick = liberty_bar_tick(bar, in_bar);
        if (tick >= begin && tick < end) {
            liberty_add_at(bar, in_bar, list);
        }
    }
}

void liberty_strokes(const LibertyPlace* const place, const int64_t begin, const int64_t end,
                     StrokeList* const written, StrokeList* const list)
{
    const Selection* const selection = place->selection;
    const int64_t bar_ticks = meter_bar_ticks(place->meter);
    if (!(selection->feel.liberty > 0.0) || !selection->groove) {
        groove_strokes(selection, place->meter, begin, end, list);
        return;
    }
    list->count = 0;
    groove_strokes(selection, place->meter, begin - TICKS_PER_QUARTER, end + 2 * TICKS_PER_QUARTER,
                   written);
    list->dropped = written->dropped;
    for (int64_t index = begin < 0 ? 0 : begin / bar_ticks; index * bar_ticks < end; ++index) {
        const LibertyBar bar = liberty_bar_make(place, written, index);
        const int64_t line = bar.bar.begin + bar.bar.ticks;
        vary_bar(&bar, begin > bar.bar.begin ? begin : bar.bar.begin, end < line ? end : line,
                 list);
    }
    strokes_sort(list->strokes, list->count);
}

bool liberty_is_own(const Stroke stroke, const StrokeList* const written)
{
    for (uint32_t i = 0; i < written->count; ++i) {
        const Stroke other = written->strokes[i];
        if (other.tick == stroke.tick && other.limb == stroke.limb && other.voice == stroke.voice &&
            other.level == stroke.level) {
            return false;
        }
    }
    return true;
}

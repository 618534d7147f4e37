// SPDX-License-Identifier: ISC
/* liberty_rig.h - bars as they are written and as they are performed with liberty. */
#pragma once

#include "../../plugin/engine/writing/liberty.h"
#include "../bank/factory.h"

typedef struct {
    const Groove* groove;
    uint32_t take;
    double liberty; /* 0 to 1 */
    double tempo;
} LibertyCase;

static inline Selection liberty_selection(const LibertyCase* const what)
{
    Selection selection = plain_choice(what->groove, what->groove->form_bars);
    selection.crash = CRASH_AS_WRITTEN;
    selection.feel.take = what->take;
    selection.feel.liberty = what->liberty;
    if (what->groove->feel.swing_ratio > 1.0) {
        selection.swing = (Swing){what->groove->feel.swing_ratio,
                                  what->groove->feel.swing_sixteenths ? TICKS_PER_QUARTER / 2
                                                                      : TICKS_PER_QUARTER};
    }
    return selection;
}

static inline StrokeList liberty_span(const LibertyCase* const what, const int64_t begin,
                                      const int64_t end)
{
    static StrokeList written, list;
    const Selection selection = liberty_selection(what);
    const LibertyPlace place = {&selection, what->groove->meter, what->tempo, 0};
    liberty_strokes(&place, begin, end, &written, &list);
    return list;
}

static inline StrokeList liberty_bar_of(const LibertyCase* const what, const int64_t bar)
{
    const int64_t ticks = meter_bar_ticks(what->groove->meter);
    return liberty_span(what, bar * ticks, (bar + 1) * ticks);
}

static inline StrokeList written_bar_of(const LibertyCase* const what, const int64_t bar)
{
    static StrokeList list;
    const Selection selection = liberty_selection(what);
    const int64_t ticks = meter_bar_ticks(what->groove->meter);
    groove_strokes(&selection, what->groove->meter, bar * ticks, (bar + 1) * ticks, &list);
    return list;
}

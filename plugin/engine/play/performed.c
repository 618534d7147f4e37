// SPDX-License-Identifier: ISC
#include "performed.h"

#include <string.h>

/* Worked out ahead of what is asked for. */
static const int64_t ahead = TICKS_PER_QUARTER / 4;

void performed_forget(Performed* const performed)
{
    performed->from = performed->until = 0;
    performed->strokes.count = performed->strokes.dropped = 0;
}

/* Of the tempo only liberty knows, so that a ramp costs nothing without it. */
static bool keys_alike(const PerformedKey* const a, const PerformedKey* const b,
                       const bool has_liberty)
{
    return a->revision == b->revision && a->bar == b->bar && a->tick == b->tick &&
           a->in_song == b->in_song && meter_equal(a->meter, b->meter) &&
           !(has_liberty && differs(a->tempo, b->tempo));
}

static void drop_before(Performed* const performed, const int64_t tick)
{
    StrokeList* const list = &performed->strokes;
    const uint32_t first = stroke_list_first(list, tick);
    list->count -= first;
    memmove(list->strokes, list->strokes + first, list->count * sizeof *list->strokes);
    performed->from = tick;
}

/* Limbs that aren't heard are silenced when their time comes. */
static Selection everybody(const Selection* const selection, const Swing swing)
{
    Selection all = *selection;
    all.swing = swing;
    memset(all.limbs, true, sizeof all.limbs);
    return all;
}

static void look_on(Performed* const performed, const LibertyPlace* const place,
                    const int64_t until)
{
    StrokeList more;
    liberty_strokes(place, performed->until, until, &performed->written, &more);
    for (uint32_t i = 0; i < more.count; ++i) {
        stroke_list_add(&performed->strokes, more.strokes[i]);
    }
    performed->strokes.dropped += more.dropped;
    performed->until = until;
}

void performed_look(Performed* const performed, const PerformedKey key,
                    const Selection* const selection, const Swing swing, const int64_t begin,
                    const int64_t end)
{
    const int64_t from = begin - TICKS_PER_QUARTER, until = end + TICKS_PER_QUARTER;
    const bool is_kept = performed->from < performed->until && performed->from <= from &&
                         from <= performed->until && !performed->strokes.dropped &&
                         keys_alike(&performed->key, &key, selection->feel.liberty > 0.0);
    if (is_kept && until <= performed->until) {
        return;
    }
    const Selection all = everybody(selection, swing);
    const LibertyPlace place = {&all, key.meter, key.tempo, key.in_song};
    if (is_kept) {
        drop_before(performed, from);
    } else {
        performed_forget(performed);
        performed->from = performed->until = from;
    }
    performed->key = key;
    look_on(performed, &place, until + ahead);
}

void performed_crowd(Performed* const performed, const PerformedKey key,
                     const Selection* const selection, const Swing swing, const int64_t begin,
                     const int64_t end, StrokeList* const list)
{
    const Selection all = everybody(selection, swing);
    const LibertyPlace place = {&all, key.meter, key.tempo, key.in_song};
    liberty_strokes(&place, begin, end, &performed->written, list);
}

int64_t performed_next(const Performed* const performed, const PerformedKey* const key,
                       const int64_t tick)
{
    const StrokeList* const list = &performed->strokes;
    if (tick < performed->from || tick >= performed->until || list->dropped ||
        !keys_alike(&performed->key, key, true)) {
        return tick;
    }
    const uint32_t first = stroke_list_first(list, tick);
    return first < list->count ? list->strokes[first].tick : performed->until;
}

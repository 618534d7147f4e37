// SPDX-License-Identifier: ISC
#include "feet_row.h"

#include <stddef.h>

/* Ours: from here on it is hard. */
static const double hard_rate = 7.0; /* strokes of a foot a second, over three */
static const double hard_pair_ms = 120.0;

static const double song_minutes = 4.0;

static double ms_of(const int64_t ticks, const double tempo)
{
    return (double)ticks / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
}

/* ---- A bar */

/* A stroke so close behind another of its foot, or of both, that nobody keeps it up. */
static void note_beyond(const int64_t before, const int64_t tick, FeetRow* const row)
{
    RowSpan* const last = row->spans ? &row->beyond[row->spans - 1] : NULL;
    if (last && before <= last->to) {
        last->to = (int32_t)(tick > last->to ? tick : last->to);
    } else if (row->spans < FEET_ROW_SPANS) {
        row->beyond[row->spans++] = (RowSpan){(int32_t)before, (int32_t)tick};
    }
}

static void mark_beyond(const double tempo, const PlayLimits* const limits, FeetRow* const row)
{
    int64_t last[PLAY_STREAMS];
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        last[stream] = INT32_MIN;
    }
    row->spans = 0;
    for (uint32_t i = 0; i < row->count; ++i) {
        const RowStroke* const stroke = &row->strokes[i];
        const int streams[] = {stroke->limb, PLAY_FEET};
        for (int k = 0; k < 2; ++k) {
            int64_t* const before = &last[streams[k]];
            const bool is_close =
                *before > INT32_MIN && stroke->tick > *before &&
                ms_of(stroke->tick - *before, tempo) < 1000.0 / limits->rate[streams[k]] - 0.01;
            if (is_close) {
                note_beyond(*before, stroke->tick, row);
            }
            *before = stroke->tick;
        }
    }
}

void feet_row_lay(const Selection* const selection, const Meter meter, const int64_t bar,
                  const double tempo, const PlayLimits* const limits, FeetRow* const row)
{
    StrokeList list;
    Selection heard = *selection;
    const int64_t ticks = meter_bar_ticks(meter);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        heard.limbs[limb] = limb_is_foot((uint8_t)limb);
    }
    groove_strokes(&heard, meter, bar * ticks, (bar + 1) * ticks, &list);
    row->count = 0;
    for (uint32_t i = 0; i < list.count && row->count < FEET_ROW_STROKES; ++i) {
        const Stroke stroke = list.strokes[i];
        row->strokes[row->count++] =
            (RowStroke){(int32_t)(stroke.tick - bar * ticks), stroke.limb, stroke.level};
    }
    mark_beyond(tempo, limits, row);
}

/* ---- Whether it can be played */

void feet_row_begin(const Selection* const selection, const Meter meter, const double tempo,
                    const PlayLimits* const limits, Playability* const room)
{
    const uint32_t bars = playability_bars(song_minutes, meter, tempo);
    playability_start(room, selection, meter, tempo, bars > FORM_BARS_MAX ? bars : FORM_BARS_MAX,
                      limits);
}

/* A foot's last two strokes. */
typedef struct {
    int count;
    int64_t before;
    int64_t last;
} Steps;

static bool is_hard_step(Steps* const steps, const int64_t tick, const double tempo)
{
    const bool pair = steps->count > 0 && ms_of(tick - steps->last, tempo) < hard_pair_ms - 0.01;
    const bool three =
        steps->count > 1 && ms_of(tick - steps->before, tempo) < 2.0 * 1000.0 / hard_rate + 0.01;
    *steps = (Steps){steps->count + 1, steps->last, tick};
    return pair || three;
}

/* In the first bars, which are as many as a phrase has at most. */
static bool is_hard(const Playability* const room)
{
    const int64_t ticks = meter_bar_ticks(room->meter);
    Steps steps[LIMB_COUNT] = {{0, 0, 0}};
    StrokeList list;
    bool hard = false;
    for (int64_t bar = 0; bar < FORM_BARS_MAX && !hard; ++bar) {
        groove_strokes(&room->selection, room->meter, bar * ticks, (bar + 1) * ticks, &list);
        for (uint32_t i = 0; i < list.count; ++i) {
            const Stroke stroke = list.strokes[i];
            hard = hard || (limb_is_foot(stroke.limb) &&
                            is_hard_step(&steps[stroke.limb], stroke.tick, room->tempo));
        }
    }
    return hard;
}

bool feet_row_judge(Playability* const room, const int quarters, FeetVerdict* const verdict)
{
    for (int i = 0; i < quarters; ++i) {
        if (!playability_step(room)) {
            const uint32_t faults = playability_faults(room, (PlayStream)RIGHT_FOOT) |
                                    playability_faults(room, (PlayStream)LEFT_FOOT) |
                                    playability_faults(room, PLAY_FEET);
            verdict->rates[0] = room->found[RIGHT_FOOT].rate;
            verdict->rates[1] = room->found[LEFT_FOOT].rate;
            verdict->playable = faults ? PLAYABLE_NO : is_hard(room) ? PLAYABLE_HARD : PLAYABLE_YES;
            return true;
        }
    }
    return false;
}

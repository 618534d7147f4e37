// SPDX-License-Identifier: ISC
#include "liberty_bar.h"

#include "../feel/noise.h"
#include "../groove/fill.h"

#include <stddef.h>

/* Uses of chance beside those of the feel. */
enum { LIBERTY_USES = 256 };

static int64_t step_in(const Figure* const figure, const Regrid regrid)
{
    return figure ? layout_make(figure, regrid).step : TICKS_PER_QUARTER;
}

/* Sixteenths where all is written on halves of halves, the swung pair's half where eighths
   swing, triplets where all is written on thirds; nothing is added to finer mixtures. */
static int64_t grid_step(const Selection* const selection, const Part part)
{
    const int64_t finest =
        common_divisor(common_divisor(step_in(part.hands, selection->hands_regrid),
                                      step_in(part.feet, selection->feet_regrid)),
                       TICKS_PER_QUARTER);
    const int64_t parts = TICKS_PER_QUARTER / finest;
    if (parts == 3 || parts == 6) {
        return TICKS_PER_QUARTER / 3;
    }
    const bool is_binary = (parts & (parts - 1)) == 0;
    const bool swings = selection->swing.ratio > 1.0;
    return !is_binary ? 0 : swings ? selection->swing.pair_ticks / 2 : TICKS_PER_QUARTER / 4;
}

/* The left foot's kicks make it two feet's, not its hi-hat. */
static bool has_two_feet(const Figure* const feet)
{
    return feet && feet->plays_limb[RIGHT_FOOT] && feet->plays_limb[LEFT_FOOT] &&
           !feet->plays_pedal;
}

LibertyBar liberty_bar_make(const LibertyPlace* const place, const StrokeList* const written,
                            const int64_t index)
{
    const Selection* const selection = place->selection;
    const Bar bar = bar_at(selection, place->meter, index);
    const Part part = bar_part(selection, &bar);
    const Fill fill = fill_in_bar(selection, &bar);
    const int64_t unit = meter_beat_ticks(place->meter);
    const int64_t beat = meter_is_compound(place->meter) ? 3 * unit : TICKS_PER_QUARTER;
    return (LibertyBar){
        .place = place,
        .written = written,
        .bar = bar,
        .beat = beat,
        .step = grid_step(selection, part),
        .from = bar.begin + (bar.in_phrase == 0 ? beat : 0),
        .until = fill.figure ? fill.begin : bar.begin + bar.ticks,
        .two_feet = has_two_feet(part.feet),
        .often = 2.0 * selection->feel.liberty,
    };
}

int64_t liberty_bar_tick(const LibertyBar* const bar, const int64_t in_bar)
{
    const Swing swing = bar->place->selection->swing;
    const int64_t ticks = bar->bar.ticks;
    const int64_t line = floor_div(in_bar, ticks) * ticks;
    const bool bends = swing.ratio > 1.0 && bar->step != TICKS_PER_QUARTER / 3;
    return bar->bar.begin + (bends ? line + swing_bend(swing, in_bar - line, ticks) : in_bar);
}

bool liberty_bar_on_beat(const LibertyBar* const bar, const int64_t tick)
{
    return floor_mod(tick - bar->bar.begin, bar->bar.ticks) % bar->beat == 0;
}

int64_t liberty_bar_ticks(const LibertyBar* const bar, const double ms)
{
    return whole_number(ms / 60000.0 * bar->place->tempo * (double)TICKS_PER_QUARTER);
}

double liberty_bar_chance(const LibertyBar* const bar, const LibertyUse use, const uint8_t limb,
                          const int64_t tick)
{
    const double white =
        noise_white(bar->place->selection->feel.take, LIBERTY_USES + (uint32_t)use + limb,
                    tick + bar->place->in_song);
    return 0.5 + white * 0.28867513459481287; /* uniform within +- the square root of 3 */
}

bool liberty_bar_rides(const Stroke stroke)
{
    return stroke.voice == VOICE_HAT_CLOSED || stroke.voice == VOICE_RIDE;
}

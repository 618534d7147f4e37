// SPDX-License-Identifier: ISC
#include "foot_load.h"

#include "fill.h"

#include <math.h>

/* A phrase; where fills with feet come round otherwise until both begin anew. */
static int64_t bars_looked_at(const Selection* const selection)
{
    const bool has_feet = selection->turnaround && figure_has_feet(selection->turnaround);
    return has_feet ? fill_round_bars(selection, FILL_ROUND_MAX) : selection->phrase_bars;
}

void foot_load_start(FootLoad* const foot_load, const Selection* const selection, const Meter meter,
                     const double tempo)
{
    foot_load->selection = *selection;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        foot_load->selection.limbs[limb] = limb_is_foot((uint8_t)limb); /* a silenced foot's too */
    }
    foot_load->meter = meter;
    foot_load->tempo = tempo;
    foot_load->at = 0;
    foot_load->selection.fill_bar = 0;
    foot_load->end =
        bars_looked_at(selection) * meter_bar_ticks(meter) + limb_tally_second(foot_load->tempo);
    for (int foot = 0; foot < FOOT_LOAD_FEET; ++foot) {
        foot_load->feet[foot] = (LimbTally){.count = 0};
    }
}

bool foot_load_is_of(const FootLoad* const foot_load, const Selection* const selection,
                     const Swing swing, const Meter meter)
{
    const bool is_done = foot_load->at >= foot_load->end;
    Selection looked_at = *selection;
    looked_at.fill_bar = 0; /* it comes but once */
    return meter_equal(foot_load->meter, meter) &&
           selection_writes_alike(&foot_load->selection, &looked_at) &&
           !(is_done && !swing_equal(foot_load->selection.swing, swing));
}

static void finish(FootLoad* const foot_load)
{
    for (int foot = 0; foot < FOOT_LOAD_FEET; ++foot) {
        const LimbTally* const seen = &foot_load->feet[foot];
        const double second = foot_load->tempo / 60.0 * (double)TICKS_PER_QUARTER;
        foot_load->found[foot] =
            (FootDemand){seen->busiest, (double)seen->closest / second * 1000.0};
    }
}

static bool is_at_another(const FootLoad* const foot_load, const double tempo)
{
    return fabs(tempo / foot_load->tempo - 1.0) > 1e-6;
}

bool foot_load_is_done(const FootLoad* const foot_load, const double tempo)
{
    return foot_load->at >= foot_load->end && !is_at_another(foot_load, tempo);
}

void foot_load_step(FootLoad* const foot_load, const double tempo)
{
    if (foot_load->at >= foot_load->end) {
        if (is_at_another(foot_load, tempo)) {
            const Selection selection = foot_load->selection;
            foot_load_start(foot_load, &selection, foot_load->meter, tempo);
        }
        return;
    }
    const int64_t next = foot_load->at + TICKS_PER_QUARTER;
    const int64_t end = next < foot_load->end ? next : foot_load->end;
    const int64_t second = limb_tally_second(foot_load->tempo);
    groove_strokes(&foot_load->selection, foot_load->meter, foot_load->at, end,
                   &foot_load->strokes);
    for (uint32_t i = 0; i < foot_load->strokes.count; ++i) {
        const Stroke stroke = foot_load->strokes.strokes[i];
        if (limb_is_foot(stroke.limb)) {
            limb_tally_strike(&foot_load->feet[stroke.limb == LEFT_FOOT], stroke.tick, second);
        }
    }
    foot_load->at = end;
    if (foot_load->at >= foot_load->end) {
        finish(foot_load);
    }
}

void foot_load_all(FootLoad* const foot_load, const Selection* const selection, const Meter meter,
                   const double tempo)
{
    foot_load_start(foot_load, selection, meter, tempo);
    while (foot_load->at < foot_load->end) {
        foot_load_step(foot_load, tempo);
    }
}

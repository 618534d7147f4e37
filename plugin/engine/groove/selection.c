// SPDX-License-Identifier: ISC
#include "selection.h"

#include <math.h>
#include <stddef.h>

static const Figure* chosen_turnaround(const Library* const library, const Groove* const groove,
                                       const int32_t id)
{
    if (id == TURNAROUND_NONE) {
        return NULL;
    }
    const Figure* const picked =
        id > 0 ? library_figure(library, FIGURE_TURNAROUND, (uint32_t)id) : NULL;
    return picked ? picked : groove->turnaround;
}

/* The groove's wish where the control is where it was at first. */
static double wish(const double asked, const Control control, const double scale,
                   const double written)
{
    const double normal = (double)control_rows[control].normal * scale;
    const bool moved = asked < normal || asked > normal;
    return moved || isnan(written) ? asked : written;
}

Swing selection_swing(const Settings* const settings, const Groove* const groove,
                      const double tempo)
{
    double asked = settings->swing_ratio;
    bool sixteenths = settings->swing_sixteenths;
    if (groove && !(asked > 1.0) && groove->feel.swing_ratio > 1.0) {
        asked = groove->feel.swing_ratio;
        sixteenths = groove->feel.swing_sixteenths;
    }
    const int64_t pair = sixteenths ? TICKS_PER_QUARTER / 2 : TICKS_PER_QUARTER;
    const double ratio = settings->swing_follow ? swing_ratio_at(asked, pair, tempo) : asked;
    return (Swing){ratio, pair};
}

Feel selection_feel(const Settings* const settings, const Groove* const groove)
{
    Feel feel = settings->feel;
    if (!groove) {
        return feel;
    }
    const WrittenFeel* const written = &groove->feel;
    feel.touch = wish(feel.touch, CONTROL_TOUCH, 0.01, written->touch);
    feel.liberty = wish(feel.liberty, CONTROL_LIBERTY, 0.01, written->liberty);
    if (settings->feel.looseness_ms > 0.0) { /* 0 is the grid, whatever is written */
        feel.looseness_ms = wish(feel.looseness_ms, CONTROL_LOOSENESS, 1.0, written->looseness_ms);
        feel.push_hands_ms =
            wish(feel.push_hands_ms, CONTROL_PUSH_HANDS, 1.0, written->push_hands_ms);
        feel.push_snare_ms =
            wish(feel.push_snare_ms, CONTROL_PUSH_SNARE, 1.0, written->push_snare_ms);
        feel.push_feet_ms = wish(feel.push_feet_ms, CONTROL_PUSH_FEET, 1.0, written->push_feet_ms);
    }
    return feel;
}

static const Groove* chosen_groove(const Library* const library, const uint32_t id)
{
    const Groove* const groove = library_groove(library, id);
    return groove || !library->groove_count ? groove : &library->grooves[0];
}

const Kit* selection_kit(const Library* const library, const uint32_t id)
{
    const Kit* const kit = library_kit(library, id);
    return kit || !library->kit_count ? kit : &library->kits[0];
}

/* The control's, else that of picked hands which left the bank. */
static RideOn chosen_ride_on(const Library* const library, const Settings* const settings)
{
    return settings->ride_on ? settings->ride_on : library_ride_on(library, settings->hands);
}

/* Where a slot was emptied, what still plays of it is sought among all. */
static const Library* library_of(const Library* const library, const Settings* const settings)
{
    const Library* const kept = settings->kept ? library->kept[settings->kept - 1] : NULL;
    return kept ? kept : library;
}

Selection selection_make(const Library* const everything, const Settings* const settings,
                         const double tempo)
{
    const Library* const library = library_of(everything, settings);
    Selection selection = {
        .groove = chosen_groove(library, settings->groove),
        .hands = library_figure(library, FIGURE_HANDS, settings->hands),
        .feet = library_figure(library, FIGURE_FEET, settings->feet),
        .variation = settings->variation,
        .variation_then = settings->variation_then,
        .grow_every = settings->grow_every,
        .grow_turn = VARIED_STAYS,
        .ride_on = chosen_ride_on(library, settings),
        .kit = selection_kit(everything, settings->kit),
        .phrase_bars = settings->phrase_bars ? settings->phrase_bars : 1,
        .hands_regrid = settings->hands_regrid,
        .feet_regrid = settings->feet_regrid,
        .loop_bar = settings->loop_bar,
        .fill_every = settings->fill_every,
        .fill_beats = settings->fill_beats,
        .crash = settings->crash,
        .realign = settings->realign,
        .left_foot_leads = settings->left_foot_leads,
    };
    selection.swing = selection_swing(settings, selection.groove, tempo);
    selection.feel = selection_feel(settings, selection.groove);
    if (selection.groove) {
        selection.turnaround = chosen_turnaround(library, selection.groove, settings->turnaround);
        selection.phrase_bars =
            settings->phrase_bars ? settings->phrase_bars : selection.groove->form_bars;
    }
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        selection.limbs[limb] = settings->limbs[limb];
    }
    return selection;
}

Selection selection_of_groove(const Groove* const groove)
{
    return (Selection){.groove = groove,
                       .turnaround = groove->turnaround,
                       .phrase_bars = groove->form_bars,
                       .realign = REALIGN_PHRASE,
                       .swing = {1.0, TICKS_PER_QUARTER},
                       .limbs = {true, true, true, true}};
}

bool selection_writes_alike(const Selection* const a, const Selection* const b)
{
    return a->groove == b->groove && a->hands == b->hands && a->feet == b->feet &&
           a->variation == b->variation && a->variation_then == b->variation_then &&
           a->grow_every == b->grow_every && a->grow_turn == b->grow_turn &&
           a->ride_on == b->ride_on && a->turnaround == b->turnaround &&
           a->phrase_bars == b->phrase_bars && a->loop_bar == b->loop_bar &&
           a->fill_every == b->fill_every && a->fill_beats == b->fill_beats &&
           a->fill_bar == b->fill_bar && a->crash == b->crash && a->realign == b->realign &&
           a->left_foot_leads == b->left_foot_leads &&
           layout_regrid_equal(a->hands_regrid, b->hands_regrid) &&
           layout_regrid_equal(a->feet_regrid, b->feet_regrid);
}

// SPDX-License-Identifier: ISC
/* Rates are those of tests/data/liberty.tsv, computed from the Groove MIDI Dataset (Gillick,
   Roberts, Engel, Eck, Bamman, ICML 2019, CC BY 4.0): of what half of a take's bars have, how
   often a bar lacks it ("absent"), and what changes from bar to bar.  They hold at liberty 50. */
#include "liberty_vary.h"

#include <stddef.h>

/* "absent": ghosts on "e", "a" and "and"; snare, kicks, hat or ride there. */
static const double ghost_leaves = 0.33, snare_leaves = 0.21;
static const double kick_leaves = 0.23, time_leaves = 0.13;

/* "ghost became a stroke": 0.09 a bar of 1.5; "stroke became a ghost": 0.08 a bar of 0.6 off
   the beats. */
static const double ghost_turns = 0.06, snare_turns = 0.12;

/* "hat opened": 0.34 a bar; "opening at sixteenth": most at 3, 11 and 15, before the backbeats
   and the line. */
static const double hat_opens = 0.11;

/* "crash on one": bars that are multiples of 2, other bars.  "crash left out". */
static const double crash_comes_even = 0.11, crash_comes_odd = 0.05, crash_leaves = 0.15;

/* A hand that is faster goes on: the source's timing-by-gap.tsv ends here. */
static const double runs_ms = 120.0;

/* To the crash and back, from hats and ride: as play_limits.c has it, rounded up. */
static const double crash_ms = 180.0;

static bool may_change_kick(const LibertyBar* const bar, const Stroke kick)
{
    return !bar->two_feet && kick.tick >= bar->from && kick.tick < bar->until &&
           !beside_kick_runs(bar->written, kick);
}

/* Of one number: below two rates kicks come before it, above another it is left out. */
static bool kick_stays(const LibertyBar* const bar, const Stroke kick)
{
    const double chance = liberty_bar_chance(bar, USE_KICK, kick.limb, kick.tick);
    return liberty_bar_on_beat(bar, kick.tick) || kick.level >= LEVEL_ACCENT ||
           chance < 1.0 - bar->often * kick_leaves || !may_change_kick(bar, kick);
}

/* Not a backbeat, nor one of many: a blast's snare is off the beats too. */
static bool may_change_snare(const LibertyBar* const bar, const Stroke stroke)
{
    const Beside near = beside_look(bar->written, stroke.tick, beside_backbeat, LIMB_COUNT);
    const bool runs =
        near.before && near.after && !beside_is_clear(&near, stroke.tick, TICKS_PER_QUARTER + 1);
    return stroke.level == LEVEL_NORMAL && !liberty_bar_on_beat(bar, stroke.tick) && !runs;
}

/* True if it strikes, maybe as loud as another. */
static bool vary_snare(const LibertyBar* const bar, Stroke* const stroke)
{
    const bool is_ghost = stroke->level == LEVEL_GHOST;
    const double chance = liberty_bar_chance(bar, USE_STROKE, stroke->limb, stroke->tick);
    const double turns = bar->often * (is_ghost ? ghost_turns : snare_turns);
    if (!is_ghost && !may_change_snare(bar, *stroke)) {
        return true;
    }
    if (chance >= 1.0 - turns) {
        stroke->level = is_ghost ? LEVEL_NORMAL : LEVEL_GHOST;
    }
    return chance >= bar->often * (is_ghost ? ghost_leaves : snare_leaves);
}

/* The same hand closes it on the next beat, which has a backbeat or is the next bar's. */
static bool can_open(const LibertyBar* const bar, const Stroke hat)
{
    const Beside hats = beside_look(bar->written, hat.tick, beside_hat, LIMB_COUNT);
    const Stroke* const next = hats.after;
    if (!next || next->limb != hat.limb || next->voice != VOICE_HAT_CLOSED ||
        next->tick - hat.tick > TICKS_PER_QUARTER || !liberty_bar_on_beat(bar, next->tick) ||
        next->tick - hat.tick < liberty_bar_ticks(bar, runs_ms) ||
        beside_look(bar->written, hat.tick, beside_pedal, LIMB_COUNT).at) {
        return false;
    }
    const int64_t line = bar->bar.begin + bar->bar.ticks;
    return next->tick == line ||
           beside_look(bar->written, next->tick, beside_backbeat, LIMB_COUNT).at;
}

/* Cymbal and snare in turn, as in a blast: neither goes without the other. */
static bool is_in_turn(const LibertyBar* const bar, const Stroke stroke)
{
    const Beside snare = beside_look(bar->written, stroke.tick, beside_backbeat, LIMB_COUNT);
    return snare.before && snare.after &&
           snare.after->tick - snare.before->tick <= TICKS_PER_QUARTER;
}

/* The hand that keeps time: true if it strikes. */
static bool vary_time(const LibertyBar* const bar, Stroke* const stroke)
{
    const double chance = liberty_bar_chance(bar, USE_STROKE, stroke->limb, stroke->tick);
    const Beside hand = beside_look(bar->written, stroke->tick, beside_any, stroke->limb);
    const bool is_fast = !beside_is_clear(&hand, stroke->tick, liberty_bar_ticks(bar, runs_ms));
    const bool closes = hand.before && hand.before->voice != stroke->voice;
    if (liberty_bar_on_beat(bar, stroke->tick) || stroke->level >= LEVEL_ACCENT || is_fast ||
        is_in_turn(bar, *stroke)) {
        return true;
    }
    if (stroke->voice == VOICE_HAT_CLOSED && chance >= 1.0 - bar->often * hat_opens &&
        can_open(bar, *stroke)) {
        stroke->voice = VOICE_HAT_OPEN;
        stroke->level = LEVEL_NORMAL; /* meant to be heard */
        return true;
    }
    return closes || chance >= bar->often * time_leaves;
}

static double crash_rate(const LibertyBar* const bar)
{
    return bar->often * (bar->bar.in_phrase % 2 ? crash_comes_odd : crash_comes_even);
}

/* On the one of a bar within the phrase, where the groove has crashes at its lines. */
static void vary_crash(const LibertyBar* const bar, Stroke* const stroke)
{
    const Selection* const selection = bar->place->selection;
    const bool crashes = selection->crash == CRASH_PHRASE ||
                         (selection->crash == CRASH_AS_WRITTEN && selection->groove->crash_start);
    if (!crashes || stroke->tick != bar->bar.begin || stroke->limb != RIGHT_HAND) {
        return;
    }
    const Beside hand = beside_look(bar->written, stroke->tick, beside_any, RIGHT_HAND);
    const double chance = liberty_bar_chance(bar, USE_CRASH, 0, stroke->tick);
    if (stroke->voice == VOICE_CRASH && hand.after && liberty_bar_rides(*hand.after) &&
        chance < bar->often * crash_leaves) {
        stroke->voice = hand.after->voice;
        stroke->level = LEVEL_NORMAL;
    } else if (liberty_bar_rides(*stroke) && chance >= 1.0 - crash_rate(bar) &&
               beside_look(bar->written, stroke->tick, beside_kick, LIMB_COUNT).at &&
               beside_is_clear(&hand, stroke->tick, liberty_bar_ticks(bar, crash_ms))) {
        stroke->voice = VOICE_CRASH;
        stroke->level = LEVEL_ACCENT;
    }
}

bool liberty_vary_stroke(const LibertyBar* const bar, Stroke* const stroke)
{
    if (stroke->tick < bar->from || stroke->tick >= bar->until) {
        return true;
    }
    if (beside_kick(*stroke)) {
        return kick_stays(bar, *stroke);
    }
    if (beside_snare(*stroke)) {
        return vary_snare(bar, stroke);
    }
    if (stroke->limb == RIGHT_HAND || stroke->limb == LEFT_HAND) {
        vary_crash(bar, stroke);
        return !liberty_bar_rides(*stroke) || vary_time(bar, stroke);
    }
    return true;
}

// SPDX-License-Identifier: ISC
/* Rates are those of tests/data/liberty.tsv, computed from the Groove MIDI Dataset (Gillick,
   Roberts, Engel, Eck, Bamman, ICML 2019, CC BY 4.0): what bars have that half of a
   take's bars lack ("added a bar"); a bar of 4/4 has twelve sixteenths off the beats.  They hold
   at liberty 50. */
#include "liberty_add.h"

#include <stddef.h>

/* 0.45 ghosts, of which 0.37 off the beats. */
static const double ghost_comes = 0.031;

/* 0.82 kicks to 3.4 that are written; "new kick": 0.22 of them a sixteenth before one of these,
   0.22 an eighth before. */
static const double kick_comes = 0.053;

/* Hat or ride: 0.17 on "e", 0.16 on "a". */
static const double time_comes = 0.042;

/* What one limb does in a second at most, for a while: play_limits.c, one hand and one foot. */
static const double hand_ms = 100.0, foot_ms = 117.0;

/* Of steps that are too close for one hand those after a beat and every second from there, or
   third: two that come are never closer than it can. */
static bool may_come(const LibertyBar* const bar, const int64_t in_bar)
{
    const int64_t hand = liberty_bar_ticks(bar, hand_ms);
    const int64_t every = (hand + bar->step - 1) / bar->step;
    return (in_bar % bar->beat / bar->step - 1) % every == 0 && every * bar->step < bar->beat;
}

/* The hand that has a backbeat within a quarter note, and nothing else to do there. */
static void add_ghost(const LibertyBar* const bar, const int64_t in_bar, StrokeList* const list)
{
    const int64_t tick = liberty_bar_tick(bar, in_bar);
    const Beside backbeats = beside_look(bar->written, tick, beside_backbeat, LIMB_COUNT);
    const Stroke* const near = backbeats.before ? backbeats.before : backbeats.after;
    if (!near || beside_look(bar->written, tick, beside_snare, LIMB_COUNT).at) {
        return;
    }
    const Beside hand = beside_look(bar->written, tick, beside_any, near->limb);
    const bool stays =
        (!hand.before || beside_snare(*hand.before)) &&
        (!hand.after || (beside_snare(*hand.after) && hand.after->level < LEVEL_FLAM));
    const double chance = liberty_bar_chance(bar, USE_COMES, near->limb, tick);
    if (stays && !hand.at && may_come(bar, in_bar) && chance < bar->often * ghost_comes &&
        beside_is_clear(&hand, tick, liberty_bar_ticks(bar, hand_ms))) {
        stroke_list_add(list, (Stroke){tick, near->limb, VOICE_SNARE, LEVEL_GHOST, true});
    }
}

/* A stroke on the bar line may be a crash by now. */
static bool is_at_line(const LibertyBar* const bar, const Stroke stroke)
{
    return floor_mod(stroke.tick - bar->bar.begin, bar->bar.ticks) == 0;
}

/* Half-way between two eighths of the same hand on the same hat or ride, where nothing else
   sounds like it. */
static void add_time(const LibertyBar* const bar, const int64_t tick, const uint8_t limb,
                     StrokeList* const list)
{
    const Beside hand = beside_look(bar->written, tick, beside_any, limb);
    const double chance = liberty_bar_chance(bar, USE_COMES, limb, tick);
    if (chance >= bar->often * time_comes || hand.at || !hand.before || !hand.after ||
        hand.after->tick - hand.before->tick > TICKS_PER_QUARTER / 2 ||
        !liberty_bar_rides(*hand.before) || hand.before->voice != hand.after->voice ||
        is_at_line(bar, *hand.before) || is_at_line(bar, *hand.after) ||
        beside_look(bar->written, tick, beside_cymbal, LIMB_COUNT).at ||
        !beside_is_clear(&hand, tick, liberty_bar_ticks(bar, hand_ms))) {
        return;
    }
    stroke_list_add(list, (Stroke){tick, limb, hand.before->voice, LEVEL_GHOST, true});
}

/* The kick on the step `steps` later gets one before it. */
static void add_kick(const LibertyBar* const bar, const int64_t in_bar, const int steps,
                     StrokeList* const list)
{
    const int64_t tick = liberty_bar_tick(bar, in_bar);
    const int64_t later = liberty_bar_tick(bar, in_bar + steps * bar->step);
    const Stroke* const kick = beside_look(bar->written, later, beside_kick, LIMB_COUNT).at;
    if (!kick || bar->two_feet || beside_kick_runs(bar->written, *kick) ||
        kick->tick > bar->until) {
        return;
    }
    const double rate = bar->often * kick_comes;
    const double chance = liberty_bar_chance(bar, USE_KICK, kick->limb, kick->tick);
    const Beside kicks = beside_look(bar->written, tick, beside_kick, LIMB_COUNT);
    const Beside foot = beside_look(bar->written, tick, beside_any, kick->limb);
    const int64_t apart = liberty_bar_ticks(bar, foot_ms);
    if (chance >= rate * (steps - 1) && chance < rate * steps && !kicks.at && !foot.at &&
        kicks.after == kick && beside_is_clear(&kicks, tick, apart) &&
        beside_is_clear(&foot, tick, apart) &&
        !beside_look(bar->written, tick, beside_backbeat, LIMB_COUNT).at) {
        const uint8_t level = kick->level == LEVEL_GHOST ? LEVEL_GHOST : LEVEL_NORMAL;
        stroke_list_add(list, (Stroke){tick, kick->limb, kick->voice, level, true});
    }
}

void liberty_add_at(const LibertyBar* const bar, const int64_t in_bar, StrokeList* const list)
{
    const int64_t tick = liberty_bar_tick(bar, in_bar);
    if (tick < bar->from || tick >= bar->until || liberty_bar_on_beat(bar, tick)) {
        return;
    }
    add_ghost(bar, in_bar, list);
    add_time(bar, tick, RIGHT_HAND, list);
    add_time(bar, tick, LEFT_HAND, list);
    add_kick(bar, in_bar, 1, list);
    add_kick(bar, in_bar, 2, list);
}

// SPDX-License-Identifier: ISC
/* Chance and habit.  Tables named in comments are those of tests/data/drummers.tsv and of its
   source (computed from the Groove MIDI Dataset: Gillick, Roberts, Engel, Eck, Bamman, ICML
   2019, CC BY 4.0).  What is given in ms holds at a spread of 18.6 ms and moves with it. */
#include "strays.h"

#include "noise.h"
#include "role.h"

#include <math.h>

/* What all that follows comes to in eight bars; timing.tsv, "offset sd": medians 18.9, 19.7
   and 17.1 ms. */
static const double measured_at_ms = 18.6;

/* timing.tsv, "offset sd", 10 to 90 %: 12.2 to 25.2 ms for cymbals.  Part of that is tempo,
   and that a window of drift has more of it or less; the rest is the take's. */
static const double takes_differ = 0.25;

/* What all limbs share: timing.tsv, "correlation of offsets" 0.65, of kick with snare 0.43 a
   beat on and 0.22 two beats on, "correlation two bars on" 0: who has strayed from the click
   is back within two bars.  So the longest row is a bar, and the rows below it a walk,
   1 / f^2.  "Lag-1 within places" of cymbals, 0.68: no row under a quarter.  How deep: "drift:
   sd of bar means", 10.9 to 11.7 ms. */
static const Drift drift = {
    .rows = 3, .longest = 4 * TICKS_PER_QUARTER, .growth = 1.4142135623730951};
static const double drift_ms = 16.5;
static const double drifts_differ = 0.2;

/* Each limb's own lateness in a take: timing.tsv, "mean against all limbs", 10 to 90 %: -8.1
   to 5.3 ms for kick, -4.6 to 7.2 snare, -4.1 to 5.6 cymbals, where the middles of four
   drummers, and so their kits, are within 3 ms of each other. */
static const double late_ms[ROLE_COUNT] = {2.0, 2.0, 3.7, 8.0};

/* A take's habits: timing.tsv, "habit, lasting" 3.9, 5.7 and 4.1 ms, from 0 to 10, 13 and 9.5;
   "e", "and" and "a less beat", 10 to 90 %: 31, 14 and 42 ms apart for cymbals, 37, 36 and 40
   for snare, 43, 23 and 38 for kick: what lies between eighths has the largest.  Part of them
   is one movement wherever it comes: in all beats for what lies between eighths, in every
   second one for eighths (covariance of takes' place means in odd bars with those in even
   bars, computed from the same strokes). */
static const double movement_ms[ROLE_COUNT][ON_NONE + 1] = {
    {2.5, 7.5, 2.5, 7.5, 4.0},
    {4.5, 6.5, 6.5, 6.5, 5.0},
    {1.5, 6.5, 2.0, 6.5, 4.0},
    {1.5, 6.5, 2.0, 6.5, 4.0},
};
static const double habit_ms[ROLE_COUNT][ON_NONE + 1] = {
    {3.0, 5.0, 3.0, 5.0, 5.0},
    {2.0, 8.0, 6.0, 8.0, 8.0},
    {3.5, 6.0, 4.0, 6.0, 6.0},
    {3.5, 6.0, 4.0, 6.0, 6.0},
};

/* And of what lies between eighths most are a little early and some very late: the middles
   of "e" and "a less beat" are nearer to their 10 % than to their 90 %. */
static const double lilt = 0.5;

/* What takes have in common: timing.tsv, "and less beat" -4.1 ms, "e" -2.1 and "a" -2.5 for
   cymbals; "e" and "a less beat" 6.1 and 6.4 for snare, "e less beat" 5.6 for kick; and
   timing-by-place.tsv where that has another sign: "and" of snare and of kick. */
static const double place_ms[ROLE_COUNT][ON_NONE + 1] = {
    {1.2, 0.5, -2.8, 0.5, 0.0},
    {-2.0, 5.0, -3.0, 5.0, 0.0},
    {-2.0, 4.0, -3.0, 1.5, 0.0},
    {0.0, 0.0, 0.0, 0.0, 0.0},
};

/* What parts limbs that strike together has no memory: timing.tsv, "difference: lag-1" is
   0, its sd 13.4 ms for kick, 9.6 for snare with cymbals; "interval sd" of cymbals is 15.3.
   Between eighths kick and snare have more: "interval sd" 21.8 and 24.5, and the spread of
   "e" and "a less beat". */
static const double jitter_ms[ROLE_COUNT][ON_NONE + 1] = {
    {7.5, 10.0, 7.5, 10.0, 9.0},
    {7.5, 17.0, 10.0, 17.0, 12.0},
    {11.0, 15.0, 11.5, 15.0, 12.0},
    {15.0, 16.0, 15.0, 16.0, 15.0},
};
static const double jitters_differ = 0.25;

/* A hand on a drum has more of it where no cymbal is near: timing.tsv, "offset sd" and
   "interval sd" of all strokes of the snare, 19.7 and 24.5 ms, against "difference: sd" of
   those that strike with a cymbal. */
static const double alone_ms = 9.0;

/* Two hands that strike together go by one movement: timing.tsv, "correlation of offsets",
   0.80 for the snare against 0.65 for the kick. */
static const double hands_shared = 0.4;

/* timing.tsv, "skew" 0.1 to 0.3: late strokes stray further.  "Excess kurtosis" -0.3, from -1
   to 1.7: some stray much further. */
static const double late = 0.4;
static const double usual = 0.25, far = 0.75;
static const double chance_sd = 1.332; /* what these two make of 1 */

/* timing-by-tempo.tsv, "drift: sd of bar means": kick 14.3 and 13.1 ms under 110, 10.6 and 9.9
   above; snare 15.1 and 13.4, 10.8 and 9.4; cymbals 13.1 and 12.6, 10.2 and 9.3.  "Interval sd"
   falls less: kick 23.5 and 24.9, 17.7 and 21.8; cymbals 15.8 and 17.9, 13.4 and 13.5. */
static const double slow_tempo = 100.0, slow_drift = 1.2, slow_own = 1.15;
static const double fast_tempo = 110.0, fast_drift = 0.88, fast_own = 1.0;

/* timing-by-gap.tsv: nothing shrinks down to 120 ms between strokes, and hardly below.  But
   feet that are faster, of which it has hardly any, and that run: an uneven stream is heard
   from a fixed 6 ms on below 240 ms (Friberg & Sundberg 1995, JASA 98(5), 2524-2531), and
   they are practised to be even.  In runs nine strokes in ten are within that at 120 ms. */
static const double hands_even_below_ms = 90.0, feet_even_below_ms = 120.0,
                    runs_even_below_ms = 160.0;

/* fills.tsv, "offset less the two bars before": -3.4 ms in a fill's last beat, -5.3 in the
   beat after. */
static const double fill_ms[] = {
    [FILL_NOWHERE] = 0.0, [FILL_LAST_BEAT] = -3.4, [FILL_BEAT_AFTER] = -5.3};

/* One stroke, as it is seen from here. */
typedef struct {
    const Feel* feel;
    const Surroundings* around;
    uint8_t limb;
    Role role;
    InBeat in_beat;
    Draws depths; /* the limb's in this take: habit, jitter, lateness */
} Seen;

/* Most takes have less than the mean, some have far more: "habit, lasting". */
static double habit_depth(const double draw)
{
    const double even = 0.5 + draw / (2.0 * 1.7320508075688772); /* 0 to 1 */
    return 0.2 + 2.4 * even * even;
}

static double habit_of(const Seen* const seen)
{
    const uint32_t take = seen->feel->take;
    const int64_t in_bar = seen->around->in_bar;
    const bool is_eighth = seen->in_beat == ON_BEAT || seen->in_beat == ON_AND;
    const int64_t beats = is_eighth ? 2 * TICKS_PER_QUARTER : TICKS_PER_QUARTER;
    const double draw = noise_white(take, LIMB_MOVEMENT + seen->limb, in_bar % beats);
    const double movement = is_eighth ? draw : draw + lilt * (draw * draw - 1.0);
    const double own = noise_white(take, LIMB_HABIT + seen->limb, in_bar);
    return place_ms[seen->role][seen->in_beat] + late_ms[seen->role] * seen->depths.of[2] +
           habit_depth(seen->depths.of[0]) * (movement_ms[seen->role][seen->in_beat] * movement +
                                              habit_ms[seen->role][seen->in_beat] * own);
}

/* A stroke's own chance, standard deviation 1. */
static double chance_of(const Seen* const seen)
{
    const Draws draws =
        noise_draws(seen->feel->take, LIMB_JITTER + seen->limb, seen->around->in_take);
    const double bell = (draws.of[0] + draws.of[1]) * 0.7071067811865476;
    const double reach = usual + far * draws.of[2] * draws.of[2];
    return reach * (bell + late * (bell * bell - 1.0)) / chance_sd;
}

static double jitter_of(const Seen* const seen, const InBeat in_beat)
{
    const double chance = chance_of(seen);
    const double depth = depth_of(seen->depths.of[1], jitters_differ);
    const double with = jitter_ms[seen->role][in_beat];
    if (seen->role == ROLE_DRUM && !seen->around->with_time) {
        return depth * sqrt(with * with + alone_ms * alone_ms) * chance;
    }
    if (seen->role >= ROLE_KICK || in_beat == ON_E || in_beat == ON_A) {
        return depth * with * chance;
    }
    const double both = noise_bell(seen->feel->take, HANDS_TOGETHER, seen->around->in_take);
    return depth * with * (sqrt(hands_shared) * both + sqrt(1.0 - hands_shared) * chance);
}

/* What a gap leaves of habit and jitter. */
static double evenness(const Role role, const bool runs, const double gap_ms)
{
    if (role < ROLE_KICK) {
        return gap_ms < hands_even_below_ms ? gap_ms / hands_even_below_ms : 1.0;
    }
    const double below = runs ? runs_even_below_ms : feet_even_below_ms;
    const double ratio = gap_ms < below ? gap_ms / below : 1.0, square = ratio * ratio;
    return ratio * square * (runs ? square : 1.0);
}

/* Fast feet have no more jitter between eighths. */
static double own_of(const Seen* const seen, const double even)
{
    const bool is_fast = seen->role >= ROLE_KICK && even < 1.0;
    return even * (habit_of(seen) + jitter_of(seen, is_fast ? ON_BEAT : seen->in_beat));
}

/* Towards +-most without ever getting there, and as it is near 0. */
static double soften(const double value, const double most)
{
    const double ratio = value / most, square = ratio * ratio, fourth = square * square;
    return value / sqrt(sqrt(sqrt(1.0 + fourth * fourth)));
}

/* From 0, slow, to 1, fast. */
static double way_of(const double tempo)
{
    const double way = (tempo - slow_tempo) / (fast_tempo - slow_tempo);
    return way < 0.0 ? 0.0 : way > 1.0 ? 1.0 : way;
}

double strays_ms(const Feel* const feel, const Stroke stroke, const Surroundings* const around,
                 const double tempo)
{
    const Seen seen = {.feel = feel,
                       .around = around,
                       .limb = stroke.limb,
                       .role = role_of(stroke),
                       .in_beat = in_beat_of(around->in_bar),
                       .depths = noise_draws(feel->take, LIMB_TIMING_DEPTH + stroke.limb, 0)};
    const double gap_ms = (double)around->near / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
    const double way = way_of(tempo);
    const Draws take = noise_draws(feel->take, TAKE_SPREAD, 0);
    const double drifts = drift_ms * depth_of(take.of[1], drifts_differ) *
                          noise_drift(drift, feel->take, TAKE_DRIFT, around->in_take);
    const double own = own_of(&seen, evenness(seen.role, role_in_run(stroke, around), gap_ms));
    const double all = (slow_drift + (fast_drift - slow_drift) * way) * drifts +
                       (slow_own + (fast_own - slow_own) * way) * own + fill_ms[around->fill];
    const double spread = feel->looseness_ms / measured_at_ms * depth_of(take.of[0], takes_differ);
    return soften(spread * all, gap_ms / 4.0);
}

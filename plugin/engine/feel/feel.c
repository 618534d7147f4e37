// SPDX-License-Identifier: ISC
/* Timing.  Tables named in comments are those of tests/data/drummers.tsv and of its source
   (computed from the Groove MIDI Dataset: Gillick, Roberts, Engel, Eck, Bamman, ICML 2019,
   CC BY 4.0); what is given in ms holds at a spread of 18 ms and moves with it. */
#include "feel.h"

#include "noise.h"
#include "role.h"

#include <math.h>

/* What all that follows comes to in eight bars; timing.tsv, "offset sd": medians 18.9, 19.7
   and 17.1 ms. */
static const double measured_at_ms = 18.2;

/* timing.tsv, "offset sd", 10 to 90 %: 12.2 to 25.2 ms for cymbals.  Part of that is that a
   window of drift has more of it or less; the rest is the take's. */
static const double takes_differ = 0.25;

/* What all limbs share.  Its depth: timing.tsv, "drift: sd of bar means", 10.9 to 11.7 ms,
   and "correlation of offsets", 0.65 and 0.80.  Its slope: "long-range exponent" of
   cymbals, 0.97, once there is chance in each stroke: a spectrum of 1 / f^1.4.  Its longest
   row: "correlation two bars on" is 0.  Its shortest: "lag-1 within places" of cymbals. */
static const Drift drift = {.rows = 6, .longest = 16 * TICKS_PER_QUARTER, .growth = 1.15};
static const double drift_ms = 17.0;
static const double drifts_differ = 0.2;

/* timing.tsv, "habit, lasting": 3.9, 5.7 and 4.1 ms, from 0 to 10, 13 and 9.5. */
static const double habit_ms[ROLE_COUNT] = {4.0, 6.0, 4.0};
static const double habits_differ = 0.7;

/* Limbs have part of that in common: "difference: lag-1" is 0 for snare and kick, where
   habits of their own would make it turn with each backbeat. */
static const double habit_shared = 0.4;

/* timing.tsv, "and less beat" -4.1 ms for cymbals, "e" and "a less beat" 6.1 and 6.4 for the
   snare, "e less beat" 5.6 for the kick, and timing-by-place.tsv where that has another
   sign: "and" of the snare, of the kick. */
static const double place_ms[ROLE_COUNT][ON_NONE + 1] = {
    {1.0, 0.0, -2.6, 0.0, 0.0},
    {-2.0, 4.0, -3.0, 4.0, 0.0},
    {-1.0, 4.0, -2.0, 2.0, 0.0},
};

/* What parts limbs that strike together has no memory: timing.tsv, "difference: lag-1" is
   0, its sd 13.4 ms for kick, 9.6 for snare with cymbals; "interval sd" of cymbals is 15.3. */
static const double jitter_ms[ROLE_COUNT] = {6.5, 6.5, 11.5};
static const double jitters_differ = 0.25;

/* Two hands that strike together go by one movement: timing.tsv, "correlation of offsets",
   0.80 for the snare against 0.65 for the kick. */
static const double hands_shared = 0.5;

/* More of it without a cymbal: timing.tsv, "offset sd" and "interval sd" of all strokes of
   snare and kick against those that strike with a cymbal ("difference: sd"). */
static const double alone_ms[ROLE_COUNT] = {0.0, 13.0, 7.0};

/* timing.tsv, "skew" 0.1 to 0.3: late strokes stray further.  "Excess kurtosis" -0.3. */
static const double late = 0.3;
static const double strays = 0.5;

/* timing-by-tempo.tsv, "offset sd": kick 21.0 and 22.2 ms under 110, 16.6 and 16.9 above;
   snare 25.6 and 23.7, 17.3 and 16.5; cymbals 19.7 and 19.5, 14.7 and 14.6. */
static const double slow_tempo = 95.0, slow_spread = 1.2;
static const double fast_tempo = 110.0, fast_spread = 0.9;

/* timing-by-gap.tsv: nothing shrinks down to 120 ms between strokes, and hands hardly below.
   Feet: an uneven stream is heard from a fixed 6 ms on below 240 ms (Friberg & Sundberg
   1995, JASA 98(5), 2524-2531), and running feet are practised to be even. */
static const double even_below_ms = 120.0;

/* fills.tsv, "offset less the two bars before": -3.4 ms in a fill's last beat, -5.3 in the
   beat after. */
static const double fill_ms[] = {
    [FILL_NOWHERE] = 0.0, [FILL_LAST_BEAT] = -3.4, [FILL_BEAT_AFTER] = -5.3};

static double ticks_to_ms(const double ticks, const double tempo)
{
    return ticks / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
}

static double ms_to_ticks(const double ms, const double tempo)
{
    return ms / 60000.0 * tempo * (double)TICKS_PER_QUARTER;
}

typedef enum { PUSH_FEET, PUSH_SNARE, PUSH_HANDS } Push;

static Push push_of(const Stroke stroke)
{
    return limb_is_foot(stroke.limb)     ? PUSH_FEET
           : stroke.voice == VOICE_SNARE ? PUSH_SNARE
                                         : PUSH_HANDS;
}

bool feel_pushes_alike(const Stroke a, const Stroke b)
{
    return push_of(a) == push_of(b);
}

bool feel_keeps_time(const Stroke stroke)
{
    const bool is_drum = stroke.voice <= VOICE_SIDE_STICK ||
                         (stroke.voice >= VOICE_TOM_HIGH && stroke.voice <= VOICE_TOM_FLOOR);
    return !limb_is_foot(stroke.limb) && !is_drum;
}

static double push_ms(const Feel* const feel, const Stroke stroke, const int64_t turn,
                      const double tempo)
{
    switch (push_of(stroke)) {
    case PUSH_FEET:
        return feel->push_feet_ms;
    case PUSH_HANDS:
        return feel->push_hands_ms;
    case PUSH_SNARE:
        break;
    }
    const double most = ticks_to_ms((double)turn, tempo) / 4.0;
    const double apart = feel->push_snare_ms - feel->push_hands_ms;
    return feel->push_hands_ms + fmin(fmax(apart, -most), most);
}

/* At this tempo, in parts of what the tables hold at. */
static double spread_of(const Feel* const feel, const double tempo)
{
    const double way = (tempo - slow_tempo) / (fast_tempo - slow_tempo);
    const double within = way < 0.0 ? 0.0 : way > 1.0 ? 1.0 : way;
    return feel->looseness_ms / measured_at_ms *
           (slow_spread + (fast_spread - slow_spread) * within);
}

static double habit_of(const Feel* const feel, const Stroke stroke, const Role role,
                       const int64_t in_bar, const double draw)
{
    const double all = noise_white(feel->take, TAKE_HABIT, in_bar);
    const double own = noise_white(feel->take, LIMB_HABIT + stroke.limb, in_bar);
    return place_ms[role][in_beat_of(in_bar)] +
           depth_of(draw, habits_differ) * habit_ms[role] *
               (sqrt(habit_shared) * all + sqrt(1.0 - habit_shared) * own);
}

/* In parts of the stroke's own chance. */
static double stroke_chance(const Feel* const feel, const Stroke stroke, const int64_t tick)
{
    const double bell = noise_bell(feel->take, LIMB_JITTER + stroke.limb, tick);
    const double far = 1.0 + strays * noise_white(feel->take, LIMB_STRAY + stroke.limb, tick);
    return far * (bell + late * (bell * bell - 1.0));
}

static double jitter_of(const Feel* const feel, const Stroke stroke, const Role role,
                        const Surroundings* const around, const double draw)
{
    const int64_t tick = around->in_take;
    const double with = depth_of(draw, jitters_differ) * jitter_ms[role];
    const double apart = role == ROLE_TIME || around->with_time ? 0.0 : alone_ms[role];
    const double own = sqrt(with * with + apart * apart) * stroke_chance(feel, stroke, tick);
    if (role == ROLE_FOOT || apart > 0.0) {
        return own;
    }
    const double both = with * noise_bell(feel->take, HANDS_TOGETHER, tick);
    return sqrt(hands_shared) * both + (role == ROLE_TIME ? sqrt(1.0 - hands_shared) : 1.0) * own;
}

static double evenness(const Role role, const double gap_ms)
{
    const double ratio = gap_ms < even_below_ms ? gap_ms / even_below_ms : 1.0;
    return role == ROLE_FOOT ? ratio * ratio * ratio : ratio;
}

/* Towards +-most without ever getting there, and as it is near 0. */
static double soften(const double value, const double most)
{
    const double ratio = value / most, square = ratio * ratio;
    return value / sqrt(sqrt(1.0 + square * square));
}

static double strays_of(const Feel* const feel, const Stroke stroke,
                        const Surroundings* const around, const double tempo)
{
    const Role role = role_of(stroke);
    const double gap_ms = ticks_to_ms((double)around->near, tempo);
    const TwoDraws take = noise_two(feel->take, TAKE_SPREAD);
    const TwoDraws limb = noise_two(feel->take, LIMB_TIMING_DEPTH + stroke.limb);
    const double drifts = drift_ms * depth_of(take.other, drifts_differ) *
                          noise_drift(&drift, feel->take, TAKE_DRIFT, around->in_take);
    const double own = habit_of(feel, stroke, role, around->in_bar, limb.one) +
                       jitter_of(feel, stroke, role, around, limb.other);
    const double all = drifts + fill_ms[around->fill] + evenness(role, gap_ms) * own;
    const double spread = spread_of(feel, tempo) * depth_of(take.one, takes_differ);
    return soften(spread * all, gap_ms / 4.0);
}

int64_t feel_offset(const Feel* const feel, const Stroke stroke, const Surroundings* const around,
                    const double tempo)
{
    const double push = push_ms(feel, stroke, around->turn, tempo);
    double strays_ms = 0.0;
    if (feel->looseness_ms > 0.0) {
        strays_ms = strays_of(feel, stroke, around, tempo);
    }
    return whole_number(round(ms_to_ticks(push + strays_ms, tempo)));
}

int64_t feel_reach(const Feel* const feel, const double tempo)
{
    const double snare = fmin(feel->push_snare_ms, feel->push_hands_ms);
    const double earliest = fmin(fmin(snare, feel->push_feet_ms), 0.0);
    const int64_t chance = TICKS_PER_QUARTER / 4, grace = TICKS_PER_QUARTER / 4;
    return chance + grace + whole_number(ceil(ms_to_ticks(-earliest, tempo)));
}

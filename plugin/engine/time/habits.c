// SPDX-License-Identifier: ISC
#include "habits.h"

#include <math.h>

/* Beats of evidence that are remembered of each reading. */
enum { DOUBT_MOST = 4 };

/* A stretch is measured from a mark at most so many beats back. */
static const double mark_beats = 8.0;

/* How much a place may differ from a reading that holds: in beats, and as a share
   of the beats moved. */
typedef struct {
    double rounding;
    double uneven;
} Slack;

/* Two places cut to 1/384 of a beat; a bar of a tempo ramp is more uneven. */
static const Slack coarse = {2.1 / 384.0, 0.01};

/* What is left where a host is known to round less: tempo and beats are floats. */
static const Slack fine = {1e-6, 1e-6};

bool habits_know_unit(const Habits* const habits)
{
    const uint8_t* const quarters = habits->doubt[TEMPO_IN_QUARTERS];
    const uint8_t* const beats = habits->doubt[TEMPO_IN_BEATS];
    const uint8_t of_quarters = quarters[0] < quarters[1] ? quarters[0] : quarters[1];
    return of_quarters != (beats[0] < beats[1] ? beats[0] : beats[1]);
}

double habits_quarters_per_count(const Habits* const habits, const Meter meter)
{
    return habits->tempo_unit == TEMPO_IN_BEATS ? 4.0 / meter.beat_unit : 1.0;
}

/* Beats as a quarter's fraction are hidden only where a beat is shorter. */
static double beats_by(const FractionKind kind, const double unit)
{
    return kind == FRACTION_OF_QUARTER && unit > 4.0 ? unit / 4.0 : 1.0;
}

static double moved_beats(const Sighting from, const Sighting to, const double stretched)
{
    return (double)(to.beats - from.beats) + (to.fraction - from.fraction) * stretched;
}

/* One bit for each reading. */
static uint32_t bit_of(const TempoUnit unit, const FractionKind kind)
{
    return 1U << ((uint32_t)unit * FRACTION_READINGS + (kind == FRACTION_OF_QUARTER));
}

enum { ALL_READINGS = (1 << TEMPO_UNITS * FRACTION_READINGS) - 1 };

static const FractionKind kinds[FRACTION_READINGS] = {FRACTION_OF_BEAT, FRACTION_OF_QUARTER};

/* The readings by which the place would have moved otherwise. */
static uint32_t contradicted(const Sighting from, const Sighting to, const double per_beat,
                             const double unit, const Slack slack)
{
    const double counts = (double)(to.frame - from.frame) / per_beat;
    uint32_t bits = 0;
    for (int i = 0; i < TEMPO_UNITS; ++i) {
        const double moved = counts * (i == TEMPO_IN_BEATS ? 1.0 : unit / 4.0);
        for (int k = 0; k < FRACTION_READINGS; ++k) {
            const double stretched = beats_by(kinds[k], unit);
            const double most = from.counted || to.counted
                                    ? 1.0
                                    : slack.rounding * stretched + slack.uneven * moved;
            const bool beyond =
                kinds[k] == FRACTION_OF_QUARTER && unit > 4.0 && to.fraction > 4.0 / unit + 0.02;
            if (beyond || fabs(moved_beats(from, to, stretched) - moved) > most) {
                bits |= bit_of((TempoUnit)i, kinds[k]);
            }
        }
    }
    return bits;
}

/* Where beats are quarters all readings are one. */
static bool is_contradicted(const Sighting from, const Sighting to, const double per_beat,
                            const Slack slack)
{
    const double moved = (double)(to.frame - from.frame) / per_beat;
    const double most = from.counted || to.counted ? 1.0 : slack.rounding + slack.uneven * moved;
    return fabs(moved_beats(from, to, 1.0) - moved) > most;
}

/* Of what is left, that which this host is known to be able to tell apart may rule
   out one more; never all. */
static uint32_t doubted_by(const Habits* const habits, const Sighting here, const double per_beat,
                           const double unit)
{
    if (!differs(unit, 4.0)) {
        return is_contradicted(habits->mark, here, per_beat, coarse) ? ALL_READINGS : 0;
    }
    const uint32_t rough = contradicted(habits->mark, here, per_beat, unit, coarse);
    if (here.counted) {
        return rough;
    }
    const Slack known = {2.0 * grain_rounding(&habits->grain) + fine.rounding, fine.uneven};
    const uint32_t finer = rough | contradicted(habits->mark, here, per_beat, unit, known);
    return finer == ALL_READINGS ? rough : finer;
}

/* What all readings of least doubt have in common holds; true if that is new. */
static bool judge(Habits* const habits)
{
    uint8_t least = DOUBT_MOST;
    for (int i = 0; i < TEMPO_UNITS * FRACTION_READINGS; ++i) {
        const uint8_t doubt = habits->doubt[i / FRACTION_READINGS][i % FRACTION_READINGS];
        least = doubt < least ? doubt : least;
    }
    bool units[TEMPO_UNITS] = {false}, fractions[FRACTION_READINGS] = {false};
    for (int i = 0; i < TEMPO_UNITS; ++i) {
        for (int k = 0; k < FRACTION_READINGS; ++k) {
            const bool holds = habits->doubt[i][k] == least;
            units[i] |= holds;
            fractions[k] |= holds;
        }
    }
    const TempoUnit unit = habits->tempo_unit;
    const FractionKind fraction = habits->fraction;
    if (units[TEMPO_IN_QUARTERS] != units[TEMPO_IN_BEATS]) {
        habits->tempo_unit = units[TEMPO_IN_BEATS] ? TEMPO_IN_BEATS : TEMPO_IN_QUARTERS;
    }
    if (fractions[0] != fractions[1]) {
        habits->fraction = fractions[1] ? FRACTION_OF_QUARTER : FRACTION_OF_BEAT;
    }
    return habits->tempo_unit != unit || habits->fraction != fraction;
}

static bool weigh(Habits* const habits, const uint32_t doubted)
{
    for (int i = 0; i < TEMPO_UNITS; ++i) {
        for (int k = 0; k < FRACTION_READINGS; ++k) {
            uint8_t* const doubt = &habits->doubt[i][k];
            if (doubted & bit_of((TempoUnit)i, kinds[k])) {
                *doubt = (uint8_t)(*doubt < DOUBT_MOST ? *doubt + 1 : DOUBT_MOST);
            } else if (*doubt) {
                --*doubt;
            }
        }
    }
    return judge(habits);
}

static Sighting sight(const Report* const report, const Meter meter, const int64_t frame)
{
    if (report_has_place(report, meter)) {
        return (Sighting){true, false, report_whole_beats(report, meter),
                          report->bar_beat - floor(report->bar_beat), frame};
    }
    if (report_counts_beats(report, meter)) {
        return (Sighting){true, true, report_whole_beats(report, meter), 0.0, frame};
    }
    return (Sighting){.set = false};
}

static void mark(Habits* const habits, const Sighting here)
{
    habits->mark = here;
    grain_restart(&habits->grain);
}

void habits_begin(Habits* const habits, const Report* const report, const Meter meter,
                  const int64_t frame)
{
    const Sighting here = sight(report, meter, frame);
    if (here.set && !here.counted) {
        grain_hear(&habits->grain, report->bar_beat);
    }
    mark(habits, here);
    habits->last_doubt = 0;
}

/* The reading in effect, or all of them while it isn't known. */
static uint32_t reading(const Habits* const habits, const double unit)
{
    const bool told = habits_know_unit(habits);
    const bool known = unit > 4.0 ? told && habits->fraction != FRACTION_UNKNOWN : told;
    return known || !(unit > 4.0 || unit < 4.0) ? bit_of(habits->tempo_unit, habits->fraction)
                                                : (uint32_t)ALL_READINGS;
}

/* How far the place has strayed from the line, in beats as the host counts inside
   one: to be learnt where it is known how it counts, or not by any reading. */
static void learn_grain(Habits* const habits, const Sighting here, const double counts,
                        const double unit, const uint32_t doubted)
{
    const uint32_t in_effect = reading(habits, unit);
    if (here.counted || in_effect == ALL_READINGS ||
        (doubted != ALL_READINGS && (doubted & in_effect))) {
        return;
    }
    const double stretched = beats_by(habits->fraction, unit);
    const double moved = counts * (habits->tempo_unit == TEMPO_IN_BEATS ? 1.0 : unit / 4.0);
    grain_stray(&habits->grain, (moved_beats(habits->mark, here, stretched) - moved) / stretched,
                moved);
}

/* The same doubt counts once a beat; one that is about other readings, at once. */
static bool learn_readings(Habits* const habits, const Sighting here, const uint32_t doubted)
{
    const bool again = doubted == habits->last_doubt && here.beats < habits->doubted_at + 1;
    if (!doubted || again) {
        return false;
    }
    habits->last_doubt = doubted;
    habits->doubted_at = here.beats;
    return weigh(habits, doubted);
}

bool habits_learn(Habits* const habits, const Report* const report, const Meter meter,
                  const double per_beat, const int64_t frame)
{
    const Sighting here = sight(report, meter, frame);
    const bool goes_on = habits->mark.set && here.set && habits->mark.counted == here.counted &&
                         here.beats >= habits->mark.beats;
    if (!goes_on) {
        habits_begin(habits, report, meter, frame);
        return false;
    }
    const double counts = (double)(frame - habits->mark.frame) / per_beat;
    const uint32_t doubted = doubted_by(habits, here, per_beat, meter.beat_unit);
    bool changed = false;
    if (!here.counted) {
        grain_hear(&habits->grain, report->bar_beat);
    }
    if (meter.beat_unit != 4 && doubted != ALL_READINGS) {
        changed = learn_readings(habits, here, doubted);
    }
    if (changed) {
        habits->grain.jitter = 0.0; /* it was taken by what doesn't hold */
    } else {
        learn_grain(habits, here, counts, meter.beat_unit, doubted);
    }
    if (changed || doubted == ALL_READINGS ||
        (double)(here.beats - habits->mark.beats) >= mark_beats) {
        mark(habits, here);
    }
    return changed;
}

void habits_hint(Habits* const habits, const TempoUnit unit, const int64_t beats, const bool sure)
{
    const bool again = habits->hinted && habits->hint == unit && habits->hint_beats != beats;
    habits->hinted = true;
    habits->hint = unit;
    habits->hint_beats = beats;
    if (again || sure) {
        const TempoUnit other = unit == TEMPO_IN_BEATS ? TEMPO_IN_QUARTERS : TEMPO_IN_BEATS;
        weigh(habits, bit_of(other, FRACTION_OF_BEAT) | bit_of(other, FRACTION_OF_QUARTER));
    }
}

void habits_no_hint(Habits* const habits)
{
    habits->hinted = false;
}

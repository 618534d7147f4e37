// SPDX-License-Identifier: ISC
#include "habits.h"

#include <math.h>

void habits_restart(Habits* const habits)
{
    habits->mark.set = false;
    habits->first.set = false;
    habits->last.set = false;
}

double habits_quarters_per_count(const Habits* const habits, const Meter meter)
{
    return habits->tempo_unit == TEMPO_IN_BEATS ? 4.0 / meter.beat_unit : 1.0;
}

static bool near_ratio(const double value, const double wanted)
{
    return fabs(value / wanted - 1.0) < 0.15;
}

static bool set_unit(Habits* const habits, const TempoUnit unit)
{
    const bool was_beats = habits->tempo_unit == TEMPO_IN_BEATS;
    habits->tempo_unit = unit;
    return was_beats != (unit == TEMPO_IN_BEATS);
}

/* How fast the fraction grows, in beats per beat unit's worth of frames, is
   unit/4 or 1 if the tempo counts quarters (beats told right or as quarters),
   and 1 or 4/unit if it counts beat units: only the outer two are certain. */
static bool learn_inside_beat(Habits* const habits, const Sighting here, const double per_beat,
                              const double unit)
{
    const double moved = here.fraction - habits->first.fraction;
    const double frames = (double)(here.frame - habits->first.frame);
    if (here.fraction > 4.0 / unit + 0.02) {
        habits->fraction = FRACTION_OF_BEAT;
    }
    if (moved < 0.02 || frames <= 0.0) {
        return false;
    }
    const double slope = moved / frames * per_beat;
    if (near_ratio(slope, unit / 4.0)) {
        habits->fraction = FRACTION_OF_BEAT;
        return set_unit(habits, TEMPO_IN_QUARTERS);
    }
    if (near_ratio(slope, 4.0 / unit)) {
        habits->fraction = FRACTION_OF_QUARTER;
        return set_unit(habits, TEMPO_IN_BEATS);
    }
    if (habits->tempo_unit != TEMPO_UNKNOWN && near_ratio(slope, 1.0)) {
        habits->fraction =
            habits->tempo_unit == TEMPO_IN_QUARTERS ? FRACTION_OF_QUARTER : FRACTION_OF_BEAT;
    }
    return false;
}

/* A new beat began between the last report and this one. */
static bool learn_whole_beats(Habits* const habits, const Sighting here, const double per_beat,
                              const double unit)
{
    const double beats = (double)(here.beats - habits->mark.beats);
    const double since_low = (double)(here.frame - habits->mark_low);
    const double since_mark = (double)(here.frame - habits->mark.frame);
    const double until_last = (double)(habits->last.frame - habits->mark.frame);
    const double most = since_low / beats * 1.02;
    const double least = fmax(until_last / beats, since_mark / (beats + 1.0)) * 0.98;
    const double per_beat_quarters = per_beat * 4.0 / unit;
    const bool fits_beats = per_beat >= least && per_beat <= most;
    const bool fits_quarters = per_beat_quarters >= least && per_beat_quarters <= most;
    if (fits_beats == fits_quarters) {
        return false;
    }
    return set_unit(habits, fits_beats ? TEMPO_IN_BEATS : TEMPO_IN_QUARTERS);
}

static void set_mark(Habits* const habits, const Sighting here, const int64_t low)
{
    habits->mark = here;
    habits->mark_low = low;
}

bool habits_learn(Habits* const habits, const Report* const report, const Meter meter,
                  const double per_beat, const int64_t frame)
{
    const bool has_place = report_has_place(report, meter);
    if (meter.beat_unit <= 4 || !(has_place || report_counts_beats(report, meter))) {
        habits_restart(habits);
        return false;
    }
    /* Where beats are only counted the fraction isn't known: no good mark. */
    const double fraction = has_place ? report->bar_beat - floor(report->bar_beat) : 0.5;
    const Sighting here = {true, report_whole_beats(report, meter), fraction, frame};
    bool changed = false;
    if (!habits->last.set || here.beats < habits->last.beats) {
        habits_restart(habits);
        habits->first = here;
        if (fraction < 0.01) {
            set_mark(habits, here, frame);
        }
    } else if (here.beats == habits->last.beats) {
        changed = learn_inside_beat(habits, here, per_beat, meter.beat_unit);
    } else {
        if (habits->mark.set) {
            changed = learn_whole_beats(habits, here, per_beat, meter.beat_unit);
        } else {
            set_mark(habits, here, habits->last.frame);
        }
        habits->first = here;
    }
    habits->last = here;
    return changed;
}

// SPDX-License-Identifier: ISC
#include "report.h"

#include "limits.h"

#include <math.h>

static const double most_frames = 1.0e13;  /* a year at 192 kHz; its ticks still fit */
static const double most_speed = 1000.0;   /* beyond any shuttle */
static const double least_speed = 1e-4;    /* a beat in an hour and more is none */
static const int64_t most_bars = 10000000; /* its ticks still fit */

static void keep_if(Report* const report, const uint32_t field, const bool good)
{
    if (!good) {
        report->has &= ~field;
    }
}

static bool power_of_two(const int32_t number)
{
    return number > 0 && (number & (number - 1)) == 0;
}

void report_clean(Report* const report)
{
    keep_if(report, HAS_FRAME, fabs((double)report->frame) < most_frames);
    keep_if(report, HAS_SPEED, fabs(report->speed) <= most_speed);
    report->speed = fabs(report->speed) < least_speed ? 0.0 : report->speed;
    keep_if(report, HAS_BAR, report->bar > -most_bars && report->bar < most_bars);
    keep_if(report, HAS_BAR_BEAT, isfinite(report->bar_beat));
    keep_if(report, HAS_BEAT, isfinite(report->beat));
    keep_if(report, HAS_BEAT_UNIT, report->beat_unit <= 32 && power_of_two(report->beat_unit));
    keep_if(report, HAS_BEATS_PER_BAR,
            report->beats_per_bar >= 0.5 && report->beats_per_bar <= 256.0);
    keep_if(report, HAS_BEATS_PER_MINUTE,
            report->beats_per_minute >= (double)TEMPO_LEAST &&
                report->beats_per_minute <= (double)TEMPO_MOST);
}

bool report_has_place(const Report* const report, const Meter meter)
{
    const uint32_t needed = HAS_BAR | HAS_BAR_BEAT;
    if ((report->has & needed) != needed || report->bar_beat < 0.0 ||
        report->bar_beat >= meter.beats_per_bar) {
        return false;
    }
    const double beats = (double)report->bar * meter.beats_per_bar + report->bar_beat;
    return !(report->has & HAS_BEAT) || fabs(report->beat - beats) < 0.01;
}

double report_tick(const Report* const report, const Meter meter, const FractionKind kind)
{
    double beats = report->bar_beat;
    if (kind == FRACTION_OF_QUARTER && meter.beat_unit > 4) {
        const double whole = floor(beats);
        beats = whole + (beats - whole) * meter.beat_unit / 4.0;
    }
    return (double)(report->bar * meter_bar_ticks(meter)) + beats * (double)meter_beat_ticks(meter);
}

bool report_counts_beats(const Report* const report, const Meter meter)
{
    const uint32_t needed = HAS_BAR | HAS_BEAT;
    return (report->has & needed) == needed && !report_has_place(report, meter) &&
           report->beat >= 1.0 && report->beat < meter.beats_per_bar + 1.0 &&
           report->beat <= floor(report->beat);
}

int64_t report_whole_beats(const Report* const report, const Meter meter)
{
    const double before = (double)report->bar * meter.beats_per_bar;
    const double in_bar =
        report_counts_beats(report, meter) ? report->beat - 1.0 : floor(report->bar_beat);
    return whole_number(floor(before + in_bar));
}

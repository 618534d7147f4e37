// SPDX-License-Identifier: ISC
#include "routine_head.h"

#include <math.h>
#include <string.h>

/* A tempo range; 0 where it isn't said. */
typedef struct {
    int low;
    int high;
} Range;

static void narrow(Range* const range, const EntryInfo* const info)
{
    range->low = info->tempo_low > range->low ? info->tempo_low : range->low;
    if (info->tempo_high && (!range->high || info->tempo_high < range->high)) {
        range->high = info->tempo_high;
    }
}

static bool is_moved(const Picks* const picks, const Control control)
{
    const float value = picks->values[control], normal = control_rows[control].normal;
    return value > normal || value < normal;
}

/* On another grid a figure is another thing than the one its range speaks of. */
static bool is_laid_anew(const Picks* const picks, const LimbSet limbs)
{
    return (limbs & LIMBS_HANDS && is_moved(picks, CONTROL_HANDS_GRID)) ||
           (limbs & LIMBS_FEET && is_moved(picks, CONTROL_FEET_GRID));
}

static Range range_of(const Routine* const routine)
{
    const Picks* const picks = routine->picks;
    Range range = {0, 0};
    if (is_laid_anew(picks, routine->limbs)) {
        return range;
    }
    if (routine->limbs & LIMBS_HANDS) {
        narrow(&range, picks->hands ? picks->hands : picks->info);
    }
    if (routine->limbs & LIMBS_FEET) {
        narrow(&range, picks->feet ? picks->feet : picks->info);
    }
    return range;
}

int routine_head_tempo_high(const Routine* const routine)
{
    return range_of(routine).high;
}

/* One that takes the place of the groove's own; nothing is said of limbs that are in
   no file. */
static void print_figure(FILE* const out, const char* const what, const EntryInfo* const info)
{
    if (info) {
        fprintf(out, "- %s: %s%s%s\n", what, info->label, *info->comment ? ". " : "",
                info->comment);
    }
}

/* Told elsewhere, or of no weight for a file. */
static bool is_told_elsewhere(const Control control)
{
    switch ((int)control) {
    case CONTROL_ENABLED:
    case CONTROL_GROOVE:
    case CONTROL_HANDS:
    case CONTROL_FEET:
    case CONTROL_TURNAROUND:
    case CONTROL_CHANGE_AT:
    case CONTROL_LOOSENESS:
    case CONTROL_PRACTICE_RATE:
        return true;
    default:
        return (control >= CONTROL_RIGHT_HAND && control <= CONTROL_CLICK_CHANNEL) ||
               control == CONTROL_GAP_PLAY || control == CONTROL_GAP_REST;
    }
}

static void print_moved(FILE* const out, const Picks* const picks)
{
    const char* before = picks->as_written ? "\n- Set: " : "- Set: ";
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (is_moved(picks, (Control)i) && !is_told_elsewhere((Control)i)) {
            fprintf(out, "%s%s=%g", before, control_rows[i].symbol, (double)picks->values[i]);
            before = ", ";
        }
    }
    fputs(*before == ',' ? "\n" : "", out);
}

static void print_what(FILE* const out, const Routine* const routine)
{
    const Picks* const picks = routine->picks;
    char limbs[LIMBSET_ROOM];
    if (picks->as_written) {
        fprintf(out, "%s\n", picks->info->comment);
    } else {
        limbset_words(routine->limbs, limbs);
        fprintf(out, "The groove is %s, not all of it as it was written:\n\n- Heard: %s\n",
                picks->info->label, limbs);
        print_figure(out, "Hands", routine->limbs & LIMBS_HANDS ? picks->hands : NULL);
        print_figure(out, "Feet", routine->limbs & LIMBS_FEET ? picks->feet : NULL);
        print_figure(out, "Turnaround", picks->turnaround);
        fputs(!picks->selection.turnaround && picks->selection.groove->turnaround
                  ? "- Turnaround: none\n"
                  : "",
              out);
    }
    print_moved(out, picks);
    fputs("\n", out);
}

static void print_push(FILE* const out, const char* const who, const double ms)
{
    if (ms > 0.0 || ms < 0.0) {
        fprintf(out, "%s are meant to come %g ms %s the beat.\n", who, fabs(ms),
                ms > 0.0 ? "behind" : "ahead of");
    }
}

static void print_feel(FILE* const out, const Routine* const routine)
{
    const Feel* const feel = &routine->picks->selection.feel;
    const double stray = facts_stray_ms(&routine->stray);
    if (stray < 0.5) {
        fputs(routine->limbs ? "Strokes don't stray from the grid.\n" : "", out);
    } else {
        fprintf(out,
                "Strokes stray from the grid by %.0f ms (standard deviation in these files), as "
                "people's do;\nwith `--set looseness=0` the set is made on it.\n",
                stray);
    }
    if (routine->limbs & LIMBS_HANDS) {
        print_push(out, "Hands but for the snare", feel->push_hands_ms);
        print_push(out, "Snare strokes", feel->push_snare_ms);
    }
    if (routine->limbs & LIMBS_FEET) {
        print_push(out, "Feet", feel->push_feet_ms);
    }
    fputs("\n", out);
}

void routine_head_print(FILE* const out, const Routine* const routine)
{
    const Range range = range_of(routine);
    fprintf(out, "# Practising %s\n\n", routine->title);
    print_what(out, routine);
    fprintf(out, "%g/%d", routine->picks->meter.beats_per_bar, routine->picks->meter.beat_unit);
    if (range.low && range.high > range.low) {
        fprintf(out, ", written for %d to %d quarter notes a minute", range.low, range.high);
    }
    fprintf(out, "; the chart is %s.\n", routine->chart);
    print_feel(out, routine);
    fputs("What a file leaves out is yours to play, or to leave out, too.\n\n", out);
}

// SPDX-License-Identifier: ISC
#include "felt.h"

#include "../../plugin/engine/groove/selection.h"
#include "felt_loudness.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

static Settings settings_with(const View* const view, const Control control, const float value)
{
    float values[CONTROL_COUNT];
    memcpy(values, view->values, sizeof values);
    values[control] = value;
    return settings_from_controls(values);
}

static const Groove* groove_of(const View* const view)
{
    const Entry* const entry = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    return entry ? entry->groove : NULL;
}

Feel felt_feel(const View* const view, const Control control, const float value)
{
    const Settings settings = settings_with(view, control, value);
    return selection_feel(&settings, groove_of(view));
}

/* Quarter notes a minute; 0 if nobody has said. */
static double tempo_of(const View* const view)
{
    return (double)view->readouts[READOUT_TEMPO_NOW];
}

Swing felt_swing(const View* const view, const Control control, const float value)
{
    const Settings settings = settings_with(view, control, value);
    const double tempo = tempo_of(view);
    return selection_swing(&settings, groove_of(view), tempo > 0.0 ? tempo : 120.0);
}

/* What a groove may have of its own, in the unit of its control. */
static const struct {
    Control control;
    size_t at; /* in Feel */
    double unit;
} of_grooves[] = {
    {CONTROL_LOOSENESS, offsetof(Feel, looseness_ms), 1.0},
    {CONTROL_TOUCH, offsetof(Feel, touch), 100.0},
    {CONTROL_LIBERTY, offsetof(Feel, liberty), 100.0},
    {CONTROL_PUSH_HANDS, offsetof(Feel, push_hands_ms), 1.0},
    {CONTROL_PUSH_SNARE, offsetof(Feel, push_snare_ms), 1.0},
    {CONTROL_PUSH_FEET, offsetof(Feel, push_feet_ms), 1.0},
};

/* The control's number; not a number if it is none that a groove writes. */
static double number_of(const Control control, const Feel* const feel, const double swing_ratio)
{
    double number = control == CONTROL_SWING_RATIO ? swing_ratio : (double)NAN;
    for (size_t i = 0; i < sizeof of_grooves / sizeof *of_grooves; ++i) {
        if (of_grooves[i].control == control) {
            memcpy(&number, (const char*)feel + of_grooves[i].at, sizeof number);
            number *= of_grooves[i].unit;
        }
    }
    return number;
}

bool felt_written(const View* const view, const Control control, const float value,
                  double* const written)
{
    const Settings asked = settings_with(view, control, value);
    const Feel feel = felt_feel(view, control, value);
    const double ratio = felt_swing(view, control, value).ratio;
    const double played = number_of(control, &feel, fmax(ratio, asked.swing_ratio));
    *written = played;
    return fabs(played - number_of(control, &asked.feel, asked.swing_ratio)) > 0.001;
}

/* ---- Timing */

static void swing_words(const View* const view, const Control control, const float value,
                        char text[FELT_ROOM])
{
    const Swing swing = felt_swing(view, control, value);
    const double tempo = tempo_of(view);
    const double pair_ms = (double)swing.pair_ticks / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
    const double first_ms = pair_ms * swing.ratio / (1.0 + swing.ratio);
    if (tempo > 0.0 && swing.ratio >= 1.005) {
        snprintf(text, FELT_ROOM, "%.0f and %.0f ms at this tempo", first_ms, pair_ms - first_ms);
    }
}

/* From where the short note of the pair would be under 100 ms (see swing_ratio_at). */
static void follow_words(const View* const view, const Control control, const float value,
                         char text[FELT_ROOM])
{
    const Swing asked = felt_swing(view, control, 0.0f);
    const double pairs = (double)asked.pair_ticks / (double)TICKS_PER_QUARTER;
    if (value > 0.0f && asked.ratio >= 1.005) {
        snprintf(text, FELT_ROOM, "evens out from %.0f bpm on, straight from %.0f",
                 600.0 * pairs / (1.0 + asked.ratio), 300.0 * pairs);
    }
}

/* Of eight-bar passages, over tempi from 70 to 160: timing, "offset sd". */
static void looseness_words(const View* const view, const Control control, const float value,
                            char text[FELT_ROOM])
{
    const double ms = felt_feel(view, control, value).looseness_ms;
    snprintf(text, FELT_ROOM, "%s",
             ms <= 0.0    ? "exactly on the click"
             : ms <= 10.0 ? "tighter than nine in ten passages of drummers"
             : ms <= 16.0 ? "tighter than most passages of drummers"
             : ms <= 20.0 ? "as drummers stray from a click"
                          : "looser than most passages of drummers");
}

/* timing, "difference: mean" of snare and kick less cymbal, 10 to 90 %. */
static void push_words(const View* const view, const Control control, const float value,
                       char text[FELT_ROOM])
{
    const Feel feel = felt_feel(view, control, value);
    const double ms = number_of(control, &feel, 1.0);
    snprintf(text, FELT_ROOM, "%s%s",
             fabs(ms) < 0.05 ? "with the click"
             : ms < 0.0      ? "on top of the beat"
                             : "laid back",
             control == CONTROL_PUSH_SNARE  ? "; drummers: 12 ms before their hats to 3 after"
             : control == CONTROL_PUSH_FEET ? "; drummers: 12 ms before their hats to 4 after"
                                            : "");
}

/* True if both feet kick in the bar shown: then liberty leaves them alone. */
static bool has_two_feet(const View* const view)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Entry* const entry = bar ? view_entry(view, ENTRY_FEET, (int32_t)bar->feet) : NULL;
    const Figure* const feet = entry ? entry->figure : NULL;
    return feet && feet->plays_limb[RIGHT_FOOT] && feet->plays_limb[LEFT_FOOT] &&
           !feet->plays_pedal;
}

/* liberty-strokes, "absent in the next bar", snare ghost and kick. */
static void liberty_words(const View* const view, const Control control, const float value,
                          char text[FELT_ROOM])
{
    const double often = 2.0 * felt_feel(view, control, value).liberty;
    if (often > 0.0 && has_two_feet(view)) {
        snprintf(text, FELT_ROOM, "%.0f %% of ghosts left out, drummers: 33; two feet as written",
                 33.0 * often);
    } else if (often > 0.0) {
        snprintf(text, FELT_ROOM,
                 "%.0f %% of ghosts left out, %.0f %% of kicks off the beat; drummers: 33 and 23",
                 33.0 * often, 23.0 * often);
    } else {
        snprintf(text, FELT_ROOM, "nothing added, nothing left out");
    }
}

static void grid_words(const View* const view, const Control control, const float value,
                       char text[FELT_ROOM])
{
    (void)control;
    if (value >= 1.0f && tempo_of(view) > 0.0) {
        snprintf(text, FELT_ROOM, "a step is %.0f ms at this tempo",
                 60000.0 / tempo_of(view) / (double)value);
    }
}

static void ladder_words(const View* const view, const Control control, const float value,
                         char text[FELT_ROOM])
{
    const Settings settings = settings_with(view, control, value);
    const Ladder ladder = settings.ladder;
    const double rises = ladder.step > 0.0 ? ceil((ladder.top - ladder.tempo) / ladder.step) : 0.0;
    if (settings.clock == CLOCK_OWN && rises > 0.0) {
        snprintf(text, FELT_ROOM, "from %.4g to %.4g bpm in %.0f phrases", ladder.tempo, ladder.top,
                 rises * (double)ladder.every);
    }
}

/* ---- All */

static void loudness_words(const View* const view, const Control control, const float value,
                           char text[FELT_ROOM])
{
    const Feel feel = felt_feel(view, control, value);
    felt_loudness_words(control, &feel, text);
}

typedef void (*Say)(const View* view, Control control, float value, char text[FELT_ROOM]);

static const Say says[CONTROL_COUNT] = {
    [CONTROL_SWING_RATIO] = swing_words,   [CONTROL_SWING_GRID] = swing_words,
    [CONTROL_SWING_FOLLOW] = follow_words, [CONTROL_PUSH_HANDS] = push_words,
    [CONTROL_PUSH_SNARE] = push_words,     [CONTROL_PUSH_FEET] = push_words,
    [CONTROL_LOOSENESS] = looseness_words, [CONTROL_TOUCH] = loudness_words,
    [CONTROL_ACCENT] = loudness_words,     [CONTROL_ACCENT_FEET] = loudness_words,
    [CONTROL_HANDS_GRID] = grid_words,     [CONTROL_FEET_GRID] = grid_words,
    [CONTROL_LADDER_STEP] = ladder_words,  [CONTROL_LADDER_EVERY] = ladder_words,
    [CONTROL_LADDER_TOP] = ladder_words,   [CONTROL_GHOST] = loudness_words,
    [CONTROL_LEVEL] = loudness_words,      [CONTROL_LIBERTY] = liberty_words,
};

void felt_words(const View* const view, const Control control, const float value,
                char text[FELT_ROOM])
{
    *text = '\0';
    if (says[control]) {
        says[control](view, control, value, text);
    }
}

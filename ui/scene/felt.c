// SPDX-License-Identifier: ISC
#include "felt.h"

#include "../../plugin/engine/groove/selection.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* Where a stroke is looked at: bars of takes, so that neither habit nor chance of one shows. */
enum { TAKES = 512, BARS = 2 };

static const Stroke backbeat = {.limb = LEFT_HAND, .voice = VOICE_SNARE};
static const Stroke kick = {.limb = RIGHT_FOOT, .voice = VOICE_KICK};

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
             : ms <= 17.0 ? "tighter than most passages of drummers"
             : ms <= 23.0 ? "as drummers stray from a click"
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

/* liberty-strokes, "absent in the next bar", snare ghost and kick. */
static void liberty_words(const View* const view, const Control control, const float value,
                          char text[FELT_ROOM])
{
    const double often = 2.0 * felt_feel(view, control, value).liberty;
    if (often > 0.0) {
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

/* ---- Loudness, in velocities */

static double velocity_of(const Feel* const feel, Stroke stroke, const Level level, const int bar)
{
    const int64_t quarter = TICKS_PER_QUARTER;
    const int64_t in_bar = limb_is_foot(stroke.limb) ? 0 : quarter;
    const Surroundings around = {.near = quarter,
                                 .turn = quarter,
                                 .limb_before = quarter,
                                 .limb_after = quarter,
                                 .in_bar = in_bar,
                                 .in_take = 4 * quarter * bar + in_bar,
                                 .with_time = true};
    stroke.tick = around.in_take;
    stroke.level = (uint8_t)level;
    return (double)feel_velocity(feel, stroke, &around, 120.0);
}

/* Means over takes: of the velocity, of its sd from bar to bar. */
typedef struct {
    double mean;
    double sd;
} Loudness;

static Loudness loudness_of(Feel feel, const Stroke stroke, const Level level)
{
    Loudness all = {0.0, 0.0};
    for (int take = 1; take <= TAKES; ++take) {
        double sum = 0.0, squares = 0.0;
        feel.take = (uint32_t)take;
        for (int bar = 0; bar < BARS; ++bar) {
            const double velocity = velocity_of(&feel, stroke, level, bar);
            sum += velocity / BARS;
            squares += velocity * velocity;
        }
        all.mean += sum / TAKES;
        all.sd += fmax((squares - BARS * sum * sum) / (BARS - 1), 0.0) / TAKES;
    }
    all.sd = sqrt(all.sd);
    return all;
}

/* Rows of loudness, 10 to 90 %: "accents: mean" of snare and kick. */
static void accent_words(const View* const view, const Control control, const float value,
                         char text[FELT_ROOM])
{
    const Feel feel = felt_feel(view, control, value);
    const bool is_hands = control == CONTROL_ACCENT;
    const Stroke stroke = is_hands ? backbeat : kick;
    snprintf(text, FELT_ROOM, "%s near %.0f, without %.0f; drummers' accents %s",
             is_hands ? "snare" : "kick", loudness_of(feel, stroke, LEVEL_ACCENT).mean,
             loudness_of(feel, stroke, LEVEL_NORMAL).mean, is_hands ? "90 to 118" : "50 to 118");
}

/* "Ghosts: mean" of the snare. */
static void ghost_words(const View* const view, const Control control, const float value,
                        char text[FELT_ROOM])
{
    const Feel feel = felt_feel(view, control, value);
    snprintf(text, FELT_ROOM, "snare near %.0f, normal %.0f; drummers' ghosts 20 to 44",
             loudness_of(feel, backbeat, LEVEL_GHOST).mean,
             loudness_of(feel, backbeat, LEVEL_NORMAL).mean);
}

/* "Normal: mean" of both. */
static void level_words(const View* const view, const Control control, const float value,
                        char text[FELT_ROOM])
{
    const Feel feel = felt_feel(view, control, value);
    snprintf(text, FELT_ROOM, "snare near %.0f, kick %.0f; drummers' 51 to 95 and 34 to 71",
             loudness_of(feel, backbeat, LEVEL_NORMAL).mean,
             loudness_of(feel, kick, LEVEL_NORMAL).mean);
}

/* "Sd within places" of the snare. */
static void touch_words(const View* const view, const Control control, const float value,
                        char text[FELT_ROOM])
{
    const Feel feel = felt_feel(view, control, value);
    snprintf(text, FELT_ROOM, "a backbeat strays by %.0f from bar to bar; drummers' by 7 to 22",
             loudness_of(feel, backbeat, LEVEL_NORMAL).sd);
}

typedef void (*Say)(const View* view, Control control, float value, char text[FELT_ROOM]);

static const Say says[CONTROL_COUNT] = {
    [CONTROL_SWING_RATIO] = swing_words,   [CONTROL_SWING_GRID] = swing_words,
    [CONTROL_SWING_FOLLOW] = follow_words, [CONTROL_PUSH_HANDS] = push_words,
    [CONTROL_PUSH_SNARE] = push_words,     [CONTROL_PUSH_FEET] = push_words,
    [CONTROL_LOOSENESS] = looseness_words, [CONTROL_TOUCH] = touch_words,
    [CONTROL_ACCENT] = accent_words,       [CONTROL_ACCENT_FEET] = accent_words,
    [CONTROL_HANDS_GRID] = grid_words,     [CONTROL_FEET_GRID] = grid_words,
    [CONTROL_LADDER_STEP] = ladder_words,  [CONTROL_LADDER_EVERY] = ladder_words,
    [CONTROL_LADDER_TOP] = ladder_words,   [CONTROL_GHOST] = ghost_words,
    [CONTROL_LEVEL] = level_words,         [CONTROL_LIBERTY] = liberty_words,
};

void felt_words(const View* const view, const Control control, const float value,
                char text[FELT_ROOM])
{
    *text = '\0';
    if (says[control]) {
        says[control](view, control, value, text);
    }
}

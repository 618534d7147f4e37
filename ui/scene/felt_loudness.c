// SPDX-License-Identifier: ISC
#include "felt_loudness.h"

#include <math.h>
#include <stdio.h>

/* Where a stroke is looked at: bars of takes, so that neither habit nor chance of one shows. */
enum { TAKES = 512, BARS = 2 };

static const Stroke backbeat = {.limb = LEFT_HAND, .voice = VOICE_SNARE};
static const Stroke kick = {.limb = RIGHT_FOOT, .voice = VOICE_KICK};

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
static void accent_words(const Feel* const feel, const bool is_hands, char text[FELT_ROOM])
{
    const Stroke stroke = is_hands ? backbeat : kick;
    snprintf(text, FELT_ROOM, "%s near %.0f, without %.0f; drummers' accents %s",
             is_hands ? "snare" : "kick", loudness_of(*feel, stroke, LEVEL_ACCENT).mean,
             loudness_of(*feel, stroke, LEVEL_NORMAL).mean, is_hands ? "90 to 118" : "50 to 118");
}

/* "Ghosts: mean" of the snare. */
static void ghost_words(const Feel* const feel, char text[FELT_ROOM])
{
    snprintf(text, FELT_ROOM, "snare near %.0f, normal %.0f; drummers' ghosts 20 to 44",
             loudness_of(*feel, backbeat, LEVEL_GHOST).mean,
             loudness_of(*feel, backbeat, LEVEL_NORMAL).mean);
}

/* "Normal: mean" of both. */
static void level_words(const Feel* const feel, char text[FELT_ROOM])
{
    snprintf(text, FELT_ROOM, "snare near %.0f, kick %.0f; drummers' 51 to 95 and 34 to 71",
             loudness_of(*feel, backbeat, LEVEL_NORMAL).mean,
             loudness_of(*feel, kick, LEVEL_NORMAL).mean);
}

/* "Sd within places" of the snare. */
static void touch_words(const Feel* const feel, char text[FELT_ROOM])
{
    snprintf(text, FELT_ROOM, "a backbeat strays by %.0f from bar to bar; drummers' by 7 to 22",
             loudness_of(*feel, backbeat, LEVEL_NORMAL).sd);
}

void felt_loudness_words(const Control control, const Feel* const feel, char text[FELT_ROOM])
{
    if (control == CONTROL_ACCENT || control == CONTROL_ACCENT_FEET) {
        accent_words(feel, control == CONTROL_ACCENT, text);
    } else if (control == CONTROL_GHOST) {
        ghost_words(feel, text);
    } else if (control == CONTROL_LEVEL) {
        level_words(feel, text);
    } else {
        touch_words(feel, text);
    }
}

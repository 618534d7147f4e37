// SPDX-License-Identifier: ISC
/* scenarios.h - how each recorded song was set up: its tempo, its bars, and how
   near a plugin can come to it.  Numbers are the scenario's own, not read from
   the positions, except where a row says so. */
#pragma once

#include "expected.h"

/* Tempo and bars from frame 0 on, never changing. */
#define STEADY(tempo)                                                                              \
    {                                                                                              \
        {                                                                                          \
            0,                                                                                     \
            {                                                                                      \
                {                                                                                  \
                    0, 0, tempo, 0                                                                 \
                }                                                                                  \
            }                                                                                      \
        }                                                                                          \
    }
#define FOUR_FOUR                                                                                  \
    {                                                                                              \
        {                                                                                          \
            0, 4.0, 1.0, 0                                                                         \
        }                                                                                          \
    }
#define SEVEN_EIGHT                                                                                \
    {                                                                                              \
        {                                                                                          \
            0, 3.5, 0.5, 0                                                                         \
        }                                                                                          \
    }
#define TWELVE_EIGHT                                                                               \
    {                                                                                              \
        {                                                                                          \
            0, 6.0, 0.5, 0                                                                         \
        }                                                                                          \
    }

/* MuSE keeps whole microseconds a quarter: 448766 for 133.7, 666667 for 90. */
#define MUSE_133_7 (60e6 / 448766.0)
#define MUSE_90 (60e6 / 666667.0)

/* One of the host's ticks, 1/1920 of a beat, in frames: what its places are
   rounded to, and all a plugin can know where a place is all it is told. */
#define TICK(rate, tempo) ((rate)*60.0 / (tempo) / 1920.0)

/* A change of tempo inside a block is told at the start of the next, up to 255
   frames late: until then strokes run on at the old tempo, and a plugin that
   takes small differences for rounding keeps what that adds up to. */
#define LATE(before, after)                                                                        \
    (256.0 * ((after) > (before) ? (after) / (before)-1.0 : 1.0 - (after) / (before)))

/* ---- Nothing changes: every stroke is where it belongs, to the sample */

static const Scenario steady_scenarios[] = {
    {"ardour_buf-1024", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_buf-32", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_buf-441", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_buf-64", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_buffer-size-change", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_export", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_param-automation", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_rate-96000", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_tempo-133.7", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_tempo-60", STEADY(60), FOUR_FOUR, 0, 0},
    {"ardour_time-ports", STEADY(120), FOUR_FOUR, 0, 0},
    {"jalv_buf-1024", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_buf-32", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_buf-64", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_buffer-size-change", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_freewheel", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_master-muse", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"jalv_midi-out", STEADY(120), FOUR_FOUR, 0, 0},
    {"jalv_rate-44100", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_tempo-133.7", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_tempo-240", STEADY(240), FOUR_FOUR, 0, 0},
    {"jalv_tempo-60", STEADY(60), FOUR_FOUR, 0, 0},
    {"jalv_time-ports", STEADY(120), FOUR_FOUR, 0, 0},
    {"muse_buf-1024", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_buf-32", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_buf-441", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_buf-64", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_freewheel", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_rate-44100", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_rate-96000", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_tempo-133.7", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_tempo-60", STEADY(60), FOUR_FOUR, 0, 0},
    {"qtractor_buf-1024", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_buf-32", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_buf-441", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_buf-64", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_chain", STEADY(120), FOUR_FOUR, 0, 0},
    {"qtractor_freewheel", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_fx-audio-track", STEADY(120), FOUR_FOUR, 0, 0},
    {"qtractor_rate-96000", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_tempo-133.7", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_tempo-60", STEADY(60), FOUR_FOUR, 0, 0},
    {"qtractor_time-ports", STEADY(120), FOUR_FOUR, 0, 0},
};

/* ---- Starts, stops, locates, loops: to the sample as well */

static const Scenario moving_scenarios[] = {
    {"ardour_count-in", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_count-in-from-bar-5", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_latency-after-logger", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_latency-before-logger", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_latency-other-track", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_locate", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_loop-1bar", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_loop-with-latency", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"ardour_reverse", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_reverse-2x-to-zero", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_start-stop", STEADY(120), FOUR_FOUR, 0, 0},
    {"ardour_varispeed", STEADY(120), FOUR_FOUR, 0, 0},
    {"jalv_locate", STEADY(120), FOUR_FOUR, 0, 0},
    {"jalv_loop-1bar", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_loop-4bar", STEADY(240), FOUR_FOUR, 0, 0},
    {"jalv_master-appears", STEADY(120), FOUR_FOUR, 0, 0},
    {"jalv_missed-cycles", STEADY(120), FOUR_FOUR, 0, 0},
    {"jalv_no-timebase-master", STEADY(GROOVE_TEMPO), FOUR_FOUR, 0, 0},
    {"jalv_start-stop", STEADY(120), FOUR_FOUR, 0, 0},
    {"muse_locate", STEADY(120), FOUR_FOUR, 0, 0},
    {"muse_loop-1bar", STEADY(MUSE_133_7), FOUR_FOUR, 0, 0},
    {"muse_loop-4bar", STEADY(240), FOUR_FOUR, 0, 0},
    {"muse_start-stop", STEADY(120), FOUR_FOUR, 0, 0},
    {"qtractor_export-loop-range", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_far-out-frame-precision", STEADY((double)133.7f), FOUR_FOUR, 0, 0},
    {"qtractor_locate", STEADY(120), FOUR_FOUR, 0, 0},
    {"qtractor_locate-within-beat", STEADY(120), FOUR_FOUR, 0, 0},
    {"qtractor_loop-1bar", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"qtractor_loop-4bar", STEADY(240), FOUR_FOUR, 0, 0},
    {"qtractor_start-stop", STEADY(120), FOUR_FOUR, 0, 0},
};

/* ---- Beats that are no quarters, told as quarters or as beats */

static const Scenario eighths_scenarios[] = {
    {"ardour_meter-12-8", STEADY(120), TWELVE_EIGHT, 0, 0},
    {"ardour_meter-7-8", STEADY(120), SEVEN_EIGHT, 0, 0},
    {"muse_meter-12-8", STEADY(120), TWELVE_EIGHT, 0, 0},
    {"muse_meter-7-8", STEADY(120), SEVEN_EIGHT, 0, 0},
    {"qtractor_meter-12-8", STEADY(120), TWELVE_EIGHT, 0, 0},
    {"qtractor_meter-7-8", STEADY(120), SEVEN_EIGHT, 0, 0},
    {"qtractor_timebase-slave", STEADY(150), SEVEN_EIGHT, 0, 0},
    /* Tempo counts eighths here.  Ardour's beats show it in the first block;
       Qtractor's only after three of them, 36000 frames and a block. */
    {"ardour_meter-12-8-dotted", STEADY(180), TWELVE_EIGHT, 0, 0},
    {"ardour_meter-7-8-eighth-tempo", STEADY(120), SEVEN_EIGHT, 0, 0},
    {"qtractor_meter-7-8-beattype8", STEADY(120), SEVEN_EIGHT, 0, 36300},
};

/* ---- The meter changes on the way: 4/4 for two bars, one of 7/8, then 3/4 */

static const Scenario meter_change_scenarios[] = {
    {"ardour_meter-change", STEADY(120), {{0, 4, 1, 0}, {8, 3.5, 0.5, 2}, {11.5, 3, 1, 3}}, 0, 0},
    {"qtractor_meter-change", STEADY(120), {{0, 4, 1, 0}, {8, 3.5, 0.5, 2}, {11.5, 3, 1, 3}}, 0, 0},
};

/* ---- The tempo changes on the way: 120, 133.7, 90.  Frames of the changes:
   so many quarters after the last. */

#define AFTER(frame, quarters, tempo) ((frame) + (quarters)*2880000.0 / (tempo))

static const Scenario tempo_change_scenarios[] = {
    {"ardour_tempo-change",
     {{0, {{0, 0, 120, 0}, {120000, 5, 133.7, 0}, {AFTER(120000, 5, 133.7), 10, 90, 0}}}},
     FOUR_FOUR,
     LATE(120.0, 133.7) + LATE(133.7, 90.0),
     0},
    {"muse_tempo-change",
     {{0,
       {{0, 0, 120, 0},
        {120000, 5, MUSE_133_7, 0},
        {AFTER(120000, 4.5, MUSE_133_7), 9.5, MUSE_90, 0}}}},
     FOUR_FOUR,
     LATE(120.0, 133.7) + LATE(133.7, 90.0),
     0},
    {"qtractor_tempo-change",
     {{0, {{0, 0, 120, 0}, {96000, 4, 133.7, 0}, {AFTER(96000, 4, 133.7), 8, 90, 0}}}},
     FOUR_FOUR,
     LATE(120.0, 133.7) + LATE(133.7, 90.0),
     0},
    /* Every change begins a bar with this master, though the bar before had five
       beats, or four and a half: it leaps back, and only its place tells where to. */
    {"jalv_tempo-change",
     {{0, {{0, 0, 120, 0}}},
      {122624, {{120000, 4, 133.7, 0}}},
      {219648, {{AFTER(120000, 4.5, 133.7), 8, 90, 0}}}},
     FOUR_FOUR,
     TICK(48000, 90),
     0},
    /* The whole map is edited to 150 at frame 73728: the song leaps ahead. */
    {"ardour_tempo-edit-while-rolling",
     {{0, {{0, 0, 120, 0}}}, {75008, {{0, 0, 150, 0}}}},
     FOUR_FOUR,
     0,
     0},
};

/* ---- A ramp from 60 to 240 over 16 quarters: 11.25 more with every quarter,
   which takes 16/3 ln 4 seconds */

#define RAMP                                                                                       \
    {                                                                                              \
        {                                                                                          \
            0,                                                                                     \
            {                                                                                      \
                {0, 0, 60, 11.25},                                                                 \
                {                                                                                  \
                    354891.356, 16, 240, 0                                                         \
                }                                                                                  \
            }                                                                                      \
        }                                                                                          \
    }

static const Scenario ramp_scenarios[] = {
    /* Ardour says 60 until the end.  That it isn't so is known only once places
       differ by more than rounding, 1/192 of a beat or 250 frames. */
    {"ardour_tempo-ramp", RAMP, FOUR_FOUR, 300, 0},
    /* Here each block tells its tempo, but not how it grows inside.  What adds up
       stays within the same rounding, 100 frames at 150. */
    {"jalv_tempo-ramp", RAMP, FOUR_FOUR, 100, 0},
};

/* ---- Masters whose bar and beat contradict their frames */

static const Scenario contradicting_scenarios[] = {
    /* These drift away, but jalv tells nothing of it until a change. */
    {"jalv_master-jack_transport", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"jalv_master-jack_transport-32", STEADY(133.7), FOUR_FOUR, 0, 0},
    /* At the change of tempo it counts anew from frame 0, as if it had always
       been 90: back by a beat, from 3.91 to 2.94. */
    {"jalv_master-jack_transport-tempo-change",
     {{0, {{0, 0, 120, 0}}}, {95232, {{0, 0, 90, 0}}}},
     FOUR_FOUR,
     0,
     0},
    /* Starts once, stops, starts again at frame 0 with a place one block ahead,
       which holds until the locate.  The beat in that block was heard before. */
    {"jalv_master-qtractor",
     {{0, {{0, 0, 133.7, 0}}}, {3072, {{-256, 0, 133.7, 0}}}, {194304, {{0, 0, 133.7, 0}}}},
     FOUR_FOUR,
     TICK(48000, 133.7),
     0},
    {"jalv_master-qtractor-7-8",
     {{0, {{0, 0, 120, 0}}}, {3072, {{-256, 0, 120, 0}}}},
     SEVEN_EIGHT,
     TICK(48000, 240),
     0},
};

/* ---- Hosts that say they roll and don't: the first block plays, the others
   can't be told from standing still */

static const Scenario still_scenarios[] = {
    {"ardour_master-ardour", STEADY(133.7), FOUR_FOUR, 0, 0},
    {"audacity_offline-effect", STEADY(GROOVE_TEMPO), FOUR_FOUR, 0, 0},
};

/* ---- A host that tells nothing at all */

static const Scenario silent_scenarios[] = {
    {"ffmpeg_lv2-filter", STEADY(GROOVE_TEMPO), FOUR_FOUR, 0, 0},
};

/* ---- Nothing tells how it was meant.  jalv says a word at the start and none
   until the stop: tempo counts eighths in the first two, and in the last the
   meter changes unsaid.  Read as quarters, and as 4/4 throughout. */

static const Scenario untold_scenarios[] = {
    {"jalv_meter-12-8", STEADY(180), TWELVE_EIGHT, 0, 0},
    {"jalv_meter-7-8", STEADY(120), SEVEN_EIGHT, 0, 0},
    {"jalv_meter-change", STEADY(120), FOUR_FOUR, 0, 0},
};

/* All of them */

typedef struct {
    const Scenario* rows;
    size_t count;
} ScenarioList;

#define LIST(rows)                                                                                 \
    {                                                                                              \
        (rows), sizeof(rows) / sizeof *(rows)                                                      \
    }

static const ScenarioList all_scenarios[] = {
    LIST(steady_scenarios),        LIST(moving_scenarios),       LIST(eighths_scenarios),
    LIST(meter_change_scenarios),  LIST(tempo_change_scenarios), LIST(ramp_scenarios),
    LIST(contradicting_scenarios), LIST(still_scenarios),        LIST(silent_scenarios),
    LIST(untold_scenarios),
};

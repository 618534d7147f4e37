// SPDX-License-Identifier: ISC
/* controls.h - the table of the plugin's ports: what the engine takes and answers, and
   what a window's dials turn and show.  It is the C side of ttl/groove.ttl.in; a test
   reads that file with lilv and compares. */
#pragma once

#include "../time/limits.h"
#include "../written/kinds.h"

#include <stdbool.h>

/* Ports before the controls: control, midi_out, notify. */
enum { PORT_CONTROL, PORT_MIDI_OUT, PORT_NOTIFY, PORT_FIRST_CONTROL };

/* name, symbol, least, most, default, in the order of the ports.  S: part of a selection,
   what says what is written; what is kept has a value of each of them, and no other. */
#define CONTROL_ROWS(X, S)                                                                         \
    X(ENABLED, "enabled", 0, 1, 1)                                                                 \
    S(GROOVE, "groove", 1, ID_MOST, 1)                                                             \
    S(HANDS, "hands", 0, ID_MOST, 0)                                                               \
    S(FEET, "feet", 0, ID_MOST, 0)                                                                 \
    S(VARIATION, "variation", 0, 63, 0)                                                            \
    S(VARIATION_THEN, "variation_then", 0, 63, 0)                                                  \
    S(GROW_EVERY, "grow_every", 0, 64, 0)                                                          \
    S(RIDE_ON, "ride_on", 0, 8, 0)                                                                 \
    S(PHRASE_BARS, "phrase_bars", 0, 16, 0)                                                        \
    S(TURNAROUND, "turnaround", -1, ID_MOST, 0)                                                    \
    S(FILL_EVERY, "fill_every", 0, 64, 0)                                                          \
    S(FILL_BEATS, "fill_beats", 0, 16, 0)                                                          \
    S(CRASH, "crash", 0, 3, 0)                                                                     \
    X(FILL_NOW, "fill_now", 0, 1, 0)                                                               \
    X(CHANGE_AT, "change_at", 0, 3, 2)                                                             \
    X(KEPT, "kept", 0, 16, 0)                                                                      \
    S(HANDS_GRID, "hands_grid", 0, 12, 0)                                                          \
    S(FEET_GRID, "feet_grid", 0, 12, 0)                                                            \
    S(HANDS_CYCLE, "hands_cycle", 0, 64, 0)                                                        \
    S(FEET_CYCLE, "feet_cycle", 0, 64, 0)                                                          \
    S(HANDS_SHIFT, "hands_shift", -32, 32, 0)                                                      \
    S(FEET_SHIFT, "feet_shift", -32, 32, 0)                                                        \
    S(REALIGN, "realign", 0, 2, 1)                                                                 \
    S(LEAD_FOOT, "lead_foot", 0, 1, 0)                                                             \
    S(SWING_RATIO, "swing_ratio", 1, 3, 1)                                                         \
    S(SWING_GRID, "swing_grid", 0, 1, 0)                                                           \
    S(SWING_FOLLOW, "swing_follow", 0, 1, 0)                                                       \
    X(PUSH_HANDS, "push_hands", -50, 50, 0)                                                        \
    X(PUSH_SNARE, "push_snare", -50, 50, 0)                                                        \
    X(PUSH_FEET, "push_feet", -50, 50, 0)                                                          \
    X(LOOSENESS, "looseness", 0, 30, 18)                                                           \
    X(TOUCH, "touch", 0, 100, 50)                                                                  \
    X(ACCENT, "accent", 0, 100, 85)                                                                \
    X(ACCENT_FEET, "accent_feet", 0, 100, 30)                                                      \
    X(GHOST, "ghost", 0, 100, 55)                                                                  \
    X(LEVEL, "level", 1, 127, 76)                                                                  \
    X(TAKE, "take", 1, 9999, 1)                                                                    \
    X(LIBERTY, "liberty", 0, 100, 20)                                                              \
    X(RIGHT_HAND, "right_hand", 0, 1, 1)                                                           \
    X(LEFT_HAND, "left_hand", 0, 1, 1)                                                             \
    X(RIGHT_FOOT, "right_foot", 0, 1, 1)                                                           \
    X(LEFT_FOOT, "left_foot", 0, 1, 1)                                                             \
    X(CLOCK, "clock", 0, 1, 0)                                                                     \
    X(TEMPO, "tempo", 20, 400, 120)                                                                \
    X(LADDER_STEP, "ladder_step", 0, 20, 0)                                                        \
    X(LADDER_EVERY, "ladder_every", 1, 64, 4)                                                      \
    X(LADDER_TOP, "ladder_top", 20, 400, 200)                                                      \
    X(COUNT_IN, "count_in", 0, 4, 0)                                                               \
    X(CLICK, "click", 0, 2, 1)                                                                     \
    X(CLICK_GRID, "click_grid", 0, 4, 0)                                                           \
    X(CLICK_LEVEL, "click_level", 1, 127, 90)                                                      \
    X(CLICK_CHANNEL, "click_channel", 0, 16, 0)                                                    \
    X(GAP_PLAY, "gap_play", 1, 32, 2)                                                              \
    X(GAP_REST, "gap_rest", 0, 32, 0)                                                              \
    X(PRACTICE_RATE, "practice_rate", 0, 5, 5)                                                     \
    X(LOOP_BAR, "loop_bar", 0, 16, 0)                                                              \
    X(CHANNEL, "channel", 1, 16, 10)                                                               \
    X(KIT, "kit", 1, ID_MOST, 1)                                                                   \
    X(SPLIT_FEET, "split_feet", 0, 1, 0)                                                           \
    X(THROUGH, "through", 0, 1, 1)

#define CONTROLS(X) CONTROL_ROWS(X, X)

#define CONTROL_INDEX(name, symbol, least, most, normal) CONTROL_##name,
typedef enum { CONTROLS(CONTROL_INDEX) CONTROL_COUNT } Control;
#undef CONTROL_INDEX

/* One row of the table. */
typedef struct {
    const char* symbol;
    float least;
    float most;
    float normal;
    bool is_selection; /* part of what is selected, and so of what is kept */
} ControlRow;

extern const ControlRow control_rows[CONTROL_COUNT];

/* The plugin's answers, as output ports after the controls. */
#define READOUTS(X)                                                                                \
    X(RIGHT_FOOT_RATE, "right_foot_rate", 0, 100)                                                  \
    X(LEFT_FOOT_RATE, "left_foot_rate", 0, 100)                                                    \
    X(RIGHT_FOOT_GAP, "right_foot_gap", 0, 60000)                                                  \
    X(LEFT_FOOT_GAP, "left_foot_gap", 0, 60000)                                                    \
    X(REALIGN_BARS, "realign_bars", 0, 9999)                                                       \
    X(TEMPO_NOW, "tempo_now", 0, TEMPO_MOST)

#define READOUT_INDEX(name, symbol, least, most) READOUT_##name,
typedef enum { READOUTS(READOUT_INDEX) READOUT_COUNT } Readout;
#undef READOUT_INDEX

/* Which control picks a kind. */
extern const Control kind_controls[ENTRY_KINDS];

enum { PORT_FIRST_READOUT = PORT_FIRST_CONTROL + CONTROL_COUNT };

extern const ControlRow readout_rows[READOUT_COUNT];

/* Values of the controls that pick, besides ids. */
enum { TURNAROUND_NONE = -1, AS_WRITTEN = 0 };

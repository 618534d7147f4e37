// SPDX-License-Identifier: ISC
/* settings.h - the control ports as one plain struct.  The table below is the
   C side of ttl/groove.ttl.in; a test reads that file with lilv and compares. */
#pragma once

#include "../feel/feel.h"
#include "../written/layout.h"
#include "../time/limits.h"
#include "../written/library.h"

#include <stdbool.h>
#include <stdint.h>

/* Ports before the controls: control, midi_out, notify. */
enum { PORT_CONTROL, PORT_MIDI_OUT, PORT_NOTIFY, PORT_FIRST_CONTROL };

/* name, symbol, least, most, default, in the order of the ports. */
#define CONTROLS(X)                                                                                \
    X(ENABLED, "enabled", 0, 1, 1)                                                                 \
    X(GROOVE, "groove", 1, ID_MOST, 1)                                                             \
    X(HANDS, "hands", 0, ID_MOST, 0)                                                               \
    X(FEET, "feet", 0, ID_MOST, 0)                                                                 \
    X(PHRASE_BARS, "phrase_bars", 0, 16, 0)                                                        \
    X(TURNAROUND, "turnaround", -1, ID_MOST, 0)                                                    \
    X(CHANGE_AT, "change_at", 0, 3, 2)                                                             \
    X(HANDS_GRID, "hands_grid", 0, 12, 0)                                                          \
    X(FEET_GRID, "feet_grid", 0, 12, 0)                                                            \
    X(HANDS_CYCLE, "hands_cycle", 0, 64, 0)                                                        \
    X(FEET_CYCLE, "feet_cycle", 0, 64, 0)                                                          \
    X(HANDS_SHIFT, "hands_shift", -32, 32, 0)                                                      \
    X(FEET_SHIFT, "feet_shift", -32, 32, 0)                                                        \
    X(REALIGN, "realign", 0, 2, 1)                                                                 \
    X(LEAD_FOOT, "lead_foot", 0, 1, 0)                                                             \
    X(SWING_RATIO, "swing_ratio", 1, 3, 1)                                                         \
    X(SWING_GRID, "swing_grid", 0, 1, 0)                                                           \
    X(SWING_FOLLOW, "swing_follow", 0, 1, 0)                                                       \
    X(PUSH_HANDS, "push_hands", -50, 50, 0)                                                        \
    X(PUSH_SNARE, "push_snare", -50, 50, 0)                                                        \
    X(PUSH_FEET, "push_feet", -50, 50, 0)                                                          \
    X(LOOSENESS, "looseness", 0, 30, 14)                                                           \
    X(TOUCH, "touch", 0, 100, 50)                                                                  \
    X(ACCENT, "accent", 0, 100, 60)                                                                \
    X(GHOST, "ghost", 0, 100, 70)                                                                  \
    X(LEVEL, "level", 1, 127, 76)                                                                  \
    X(TAKE, "take", 1, 9999, 1)                                                                    \
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

#define CONTROL_INDEX(name, symbol, least, most, normal) CONTROL_##name,
typedef enum { CONTROLS(CONTROL_INDEX) CONTROL_COUNT } Control;
#undef CONTROL_INDEX

/* One row of the table. */
typedef struct {
    const char* symbol;
    float least;
    float most;
    float normal;
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

/* A readout's value brought into its range; not a number is the least. */
float readout_in_range(Readout readout, double value);

enum { TURNAROUND_NONE = -1, AS_WRITTEN = 0 };

/* Where rolling figures start again: at bar 0 alone, or at each phrase or bar. */
typedef enum { REALIGN_NEVER, REALIGN_PHRASE, REALIGN_BAR } Realign;

/* When a change of what is played comes into effect. */
typedef enum { CHANGE_NOW, CHANGE_AT_BEAT, CHANGE_AT_BAR, CHANGE_AT_PHRASE } ChangeAt;

/* What moves the groove. */
typedef enum { CLOCK_HOST, CLOCK_OWN } ClockKind;

/* The own clock's tempo from phrase to phrase; see ladder.h. */
typedef struct {
    double tempo;   /* quarter notes a minute, of the first phrases */
    double step;    /* more of them each time; 0: no ladder */
    double top;     /* never beyond */
    uint32_t every; /* phrases at one tempo, at least 1 */
} Ladder;

typedef enum { CLICK_OFF, CLICK_COUNT_IN, CLICK_ALWAYS } ClickWhen;

typedef enum {
    CLICK_BEATS,
    CLICK_EIGHTHS,
    CLICK_TRIPLETS,
    CLICK_SIXTEENTHS,
    CLICK_FEET /* the steps of the feet figure */
} ClickGrid;

typedef struct {
    ClickWhen when;
    ClickGrid grid;
    uint32_t gap_play; /* bars with, at least 1, then */
    uint32_t gap_rest; /* bars without, from bar 0 on */
    uint8_t level;     /* velocity, 1 to 127 */
    uint8_t channel;   /* 0 to 15 */
} ClickSettings;

/* The groove's time goes `over` ticks while the host's goes `under`. */
typedef struct {
    int32_t over;
    int32_t under;
} Ratio;

typedef struct {
    bool enabled;
    uint32_t groove;      /* id */
    uint32_t hands;       /* id, or AS_WRITTEN */
    uint32_t feet;        /* id, or AS_WRITTEN */
    uint32_t phrase_bars; /* 1 to 16, or AS_WRITTEN */
    int32_t turnaround;   /* id, AS_WRITTEN or TURNAROUND_NONE */
    ChangeAt change_at;
    Regrid hands_regrid;
    Regrid feet_regrid;
    Realign realign;
    bool left_foot_leads;
    double swing_ratio;    /* 1 to 3, long to short */
    bool swing_sixteenths; /* else eighths */
    bool swing_follow;
    Feel feel;       /* as the controls have it */
    bool limbs[4];   /* by Limb: heard or silent */
    uint8_t channel; /* 0 to 15 */
    uint32_t kit;    /* id */
    bool split_feet; /* the left foot's kick on its own key */
    bool through;    /* MIDI that comes in and isn't used goes on */
    ClockKind clock;
    Ladder ladder;
    uint32_t count_in; /* bars before bar 0 on the own clock */
    ClickSettings click;
    Ratio practice_rate;
    uint32_t loop_bar; /* 1 to 16: only this bar of the phrase; 0 all */
} Settings;

/* Settings from any floats, one for each Control: out of range is brought into
   range, not a number becomes the default.  lv2:toggled: above 0 is on. */
Settings settings_from_controls(const float values[CONTROL_COUNT]);

/* What the controls pick of a kind: an id, AS_WRITTEN or TURNAROUND_NONE. */
int32_t settings_pick(const float values[CONTROL_COUNT], EntryKind kind);

/* True if what is played is the same: all but swing, feel, limbs, output and
   click, which may change at any time without a stroke lost or doubled, and the
   clock with its ladder and rate, which say where the groove is, not what. */
bool settings_play_alike(const Settings* a, const Settings* b);

/* Takes over what may change at any moment: of the rest of the list above all but
   click, clock, ladder and rate, which nobody reads from what is played. */
void settings_take_at_once(Settings* played, const Settings* asked);

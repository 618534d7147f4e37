// SPDX-License-Identifier: ISC
/* settings.h - the control ports as one plain struct. */
#pragma once

#include "controls.h"
#include "../feel/feel.h"
#include "../written/layout.h"
#include "../time/limits.h"
#include "../written/library.h"

#include <stdbool.h>
#include <stdint.h>

/* Where rolling figures start again: at bar 0 alone, or at each phrase or bar. */
typedef enum { REALIGN_NEVER, REALIGN_PHRASE, REALIGN_BAR } Realign;

/* When a change of what is played comes into effect. */
typedef enum { CHANGE_NOW, CHANGE_AT_BEAT, CHANGE_AT_BAR, CHANGE_AT_PHRASE } ChangeAt;

/* Where the right hand strikes a crash: where the groove says so, at no line, at each
   phrase's and after each fill, or at the section's first alone. */
typedef enum { CRASH_AS_WRITTEN, CRASH_NEVER, CRASH_PHRASE, CRASH_SECTION } CrashWhen;

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
    uint32_t kept;           /* the slot, 1 to KEPT_MAX, whose selection this is; 0: the picks' */
    uint32_t groove;         /* id */
    uint32_t hands;          /* id, or AS_WRITTEN */
    uint32_t feet;           /* id, or AS_WRITTEN */
    uint32_t variation;      /* number of variation.h, 0 to 63; 0: none */
    uint32_t variation_then; /* of what that makes */
    uint32_t grow_every;     /* phrases; 0: the feet stay as they are */
    RideOn ride_on;
    uint32_t phrase_bars; /* 1 to 16, or AS_WRITTEN */
    int32_t turnaround;   /* id, AS_WRITTEN or TURNAROUND_NONE */
    uint32_t fill_every;  /* bars, 1 to 64; 0: as the phrase has it */
    uint32_t fill_beats;  /* 1 to 16; 0: as written */
    CrashWhen crash;
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

/* The settings that play a kept selection whole: its values in place of those of all controls
   that belong to a selection, and what they name found in its own library. */
Settings settings_of_kept(const float values[CONTROL_COUNT], uint32_t slot,
                          const float kept[CONTROL_COUNT]);

/* What is kept of a control's value: it as it is, in range. */
float settings_fit(Control control, float value);

/* What the controls pick of a kind: an id, AS_WRITTEN or TURNAROUND_NONE. */
int32_t settings_pick(const float values[CONTROL_COUNT], EntryKind kind);

/* True if what is played is the same: all but the picks' swing, feel, limbs, output and
   click, which may change at any time without a stroke lost or doubled, and the
   clock with its ladder and rate, which say where the groove is, not what. */
bool settings_play_alike(const Settings* a, const Settings* b);

/* Takes over what may change at any moment: the rest of the list above, but for the swing
   of what is kept, which comes and goes with it. */
void settings_take_at_once(Settings* played, const Settings* asked);

// SPDX-License-Identifier: ISC
/* settings.h - the control ports as one plain struct.  The table below is the
   C side of ttl/groove.ttl.in; a test reads that file with lilv and compares. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

/* Ports before the controls: control, midi_out, notify. */
enum { PORT_CONTROL, PORT_MIDI_OUT, PORT_NOTIFY, PORT_FIRST_CONTROL };

/* name, symbol, least, most, default.  Ids have no upper bound of their own
   (0 here): the Turtle's is the highest id in the bank when it was built. */
#define CONTROLS(X)                                                                                \
    X(ENABLED, "enabled", 0, 1, 1)                                                                 \
    X(GROOVE, "groove", 1, 0, 1)                                                                   \
    X(HANDS, "hands", 0, 0, 0)                                                                     \
    X(FEET, "feet", 0, 0, 0)                                                                       \
    X(PHRASE_BARS, "phrase_bars", 0, 16, 0)                                                        \
    X(TURNAROUND, "turnaround", -1, 0, 0)                                                          \
    X(RIGHT_HAND, "right_hand", 0, 1, 1)                                                           \
    X(LEFT_HAND, "left_hand", 0, 1, 1)                                                             \
    X(RIGHT_FOOT, "right_foot", 0, 1, 1)                                                           \
    X(LEFT_FOOT, "left_foot", 0, 1, 1)                                                             \
    X(CHANNEL, "channel", 1, 16, 10)                                                               \
    X(KIT, "kit", 1, 0, 1)                                                                         \
    X(SPLIT_FEET, "split_feet", 0, 1, 0)

#define CONTROL_INDEX(name, symbol, least, most, normal) CONTROL_##name,
typedef enum { CONTROLS(CONTROL_INDEX) CONTROL_COUNT } Control;
#undef CONTROL_INDEX

/* One row of the table. */
typedef struct {
    const char* symbol;
    float least;
    float most; /* 0 where the bank decides */
    float normal;
} ControlRow;

extern const ControlRow control_rows[CONTROL_COUNT];

enum { TURNAROUND_NONE = -1, AS_WRITTEN = 0 };

typedef struct {
    bool enabled;
    uint32_t groove;      /* id */
    uint32_t hands;       /* id, or AS_WRITTEN */
    uint32_t feet;        /* id, or AS_WRITTEN */
    uint32_t phrase_bars; /* 1 to 16, or AS_WRITTEN */
    int32_t turnaround;   /* id, AS_WRITTEN or TURNAROUND_NONE */
    bool limbs[4];        /* by Limb: heard or silent */
    uint8_t channel;      /* 0 to 15 */
    uint32_t kit;         /* id */
    bool split_feet;      /* the left foot's kick on its own key */
} Settings;

/* Settings from any floats, one for each Control: out of range is brought into
   range, not a number becomes the default.  lv2:toggled: above 0 is on. */
Settings settings_from_controls(const float values[CONTROL_COUNT]);

/* True if every setting is the same. */
bool settings_equal(const Settings* a, const Settings* b);

// SPDX-License-Identifier: ISC
#include "pads.h"

#include <stddef.h>

static const uint8_t streams[VOICE_COUNT] = {
    [VOICE_KICK] = PAD_KICK,        [VOICE_KICK_LEFT] = PAD_KICK,  [VOICE_SNARE] = PAD_SNARE,
    [VOICE_SIDE_STICK] = PAD_SNARE, [VOICE_HAT_CLOSED] = PAD_HATS, [VOICE_HAT_HALF_OPEN] = PAD_HATS,
    [VOICE_HAT_OPEN] = PAD_HATS,    [VOICE_HAT_PEDAL] = PAD_PEDAL, [VOICE_RIDE] = PAD_RIDE,
    [VOICE_RIDE_BELL] = PAD_RIDE,   [VOICE_CRASH] = PAD_CRASHES,   [VOICE_CRASH_2] = PAD_CRASHES,
    [VOICE_CHINA] = PAD_CRASHES,    [VOICE_SPLASH] = PAD_CRASHES,  [VOICE_TOM_HIGH] = PAD_TOMS,
    [VOICE_TOM_MID] = PAD_TOMS,     [VOICE_TOM_LOW] = PAD_TOMS,    [VOICE_TOM_FLOOR] = PAD_TOMS,
    [VOICE_COWBELL] = PAD_COWBELL,  [VOICE_CHOKE] = PAD_NONE,      [VOICE_CLICK] = PAD_NONE,
    [VOICE_CLICK_ACCENT] = PAD_NONE};

/* Rims and edges of electronic kits that General MIDI has no name or another one for, as in the
   Groove MIDI Dataset's table of keys (Gillick et al. 2019; from memory). */
static const struct {
    uint8_t key;
    uint8_t stream;
} edges[] = {{22, PAD_HATS}, {26, PAD_HATS},    {40, PAD_SNARE},   {58, PAD_TOMS},
             {59, PAD_RIDE}, {52, PAD_CRASHES}, {55, PAD_CRASHES}, {35, PAD_KICK}};

static bool has_left_key(const Kit* const kit, const bool split)
{
    return split && kit->notes[VOICE_KICK_LEFT] != kit->notes[VOICE_KICK];
}

PadStream pads_of_key(const Kit* const kit, const bool split, const uint8_t key)
{
    if (has_left_key(kit, split) && key == kit->notes[VOICE_KICK_LEFT]) {
        return PAD_KICK_LEFT;
    }
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        if (kit->notes[voice] == key && streams[voice] != PAD_NONE) {
            return (PadStream)streams[voice];
        }
    }
    for (size_t i = 0; i < sizeof edges / sizeof *edges; ++i) {
        if (edges[i].key == key) {
            return (PadStream)edges[i].stream;
        }
    }
    return PAD_NONE;
}

PadStream pads_of_stroke(const Kit* const kit, const bool split, const Stroke stroke)
{
    const PadStream stream = (PadStream)streams[stroke.voice];
    return stream == PAD_KICK && stroke.limb == LEFT_FOOT && has_left_key(kit, split)
               ? PAD_KICK_LEFT
               : stream;
}

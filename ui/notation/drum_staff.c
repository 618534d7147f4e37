// SPDX-License-Identifier: ISC
#include "drum_staff.h"

#include <stddef.h>

static const DrumPlace places[VOICE_COUNT] = {
    [VOICE_KICK] = {'F', 4, "normal", NULL, "drum.bass-drum"},
    [VOICE_KICK_LEFT] = {'E', 4, "normal", NULL, "drum.bass-drum"},
    [VOICE_SNARE] = {'C', 5, "normal", NULL, "drum.snare-drum"},
    [VOICE_SIDE_STICK] = {'C', 5, "x", NULL, "drum.snare-drum"},
    [VOICE_HAT_CLOSED] = {'G', 5, "x", NULL, "metal.hi-hat"},
    [VOICE_HAT_HALF_OPEN] = {'G', 5, "x", "half-muted", "metal.hi-hat"},
    [VOICE_HAT_OPEN] = {'G', 5, "x", "open", "metal.hi-hat"},
    [VOICE_HAT_PEDAL] = {'D', 4, "x", NULL, "metal.hi-hat"},
    [VOICE_RIDE] = {'F', 5, "x", NULL, "metal.cymbal.ride"},
    [VOICE_RIDE_BELL] = {'F', 5, "diamond", NULL, "metal.cymbal.ride"},
    [VOICE_CRASH] = {'A', 5, "x", NULL, "metal.cymbal.crash"},
    [VOICE_CRASH_2] = {'C', 6, "x", NULL, "metal.cymbal.crash"},
    [VOICE_CHINA] = {'B', 5, "x", NULL, "metal.cymbal.chinese"},
    [VOICE_SPLASH] = {'A', 5, "diamond", NULL, "metal.cymbal.splash"},
    [VOICE_TOM_HIGH] = {'F', 5, "normal", NULL, "drum.tom-tom"},
    [VOICE_TOM_MID] = {'D', 5, "normal", NULL, "drum.tom-tom"},
    [VOICE_TOM_LOW] = {'B', 4, "normal", NULL, "drum.tom-tom"},
    [VOICE_TOM_FLOOR] = {'A', 4, "normal", NULL, "drum.tom-tom"},
    [VOICE_COWBELL] = {'E', 5, "triangle", NULL, "metal.bells.cowbell"},
    [VOICE_CHOKE] = {'A', 5, "cross", NULL, "metal.cymbal.crash"},
};

DrumPlace drum_staff_place(const Voice voice)
{
    return places[voice];
}

// SPDX-License-Identifier: ISC
#include "names.h"

#include <string.h>

const char* const limb_names[LIMB_COUNT] = {
    [RIGHT_HAND] = "rightHand",
    [LEFT_HAND] = "leftHand",
    [RIGHT_FOOT] = "rightFoot",
    [LEFT_FOOT] = "leftFoot",
};

const char* const voice_names[VOICE_COUNT] = {
    [VOICE_KICK] = "kick",
    [VOICE_KICK_LEFT] = "kickLeft",
    [VOICE_SNARE] = "snare",
    [VOICE_SIDE_STICK] = "sideStick",
    [VOICE_HAT_CLOSED] = "hatClosed",
    [VOICE_HAT_HALF_OPEN] = "hatHalfOpen",
    [VOICE_HAT_OPEN] = "hatOpen",
    [VOICE_HAT_PEDAL] = "hatPedal",
    [VOICE_RIDE] = "ride",
    [VOICE_RIDE_BELL] = "rideBell",
    [VOICE_CRASH] = "crash",
    [VOICE_CRASH_2] = "crash2",
    [VOICE_CHINA] = "china",
    [VOICE_SPLASH] = "splash",
    [VOICE_TOM_HIGH] = "tomHigh",
    [VOICE_TOM_MID] = "tomMid",
    [VOICE_TOM_LOW] = "tomLow",
    [VOICE_TOM_FLOOR] = "tomFloor",
    [VOICE_COWBELL] = "cowbell",
    [VOICE_CLICK] = "click",
    [VOICE_CLICK_ACCENT] = "clickAccent",
};

int name_index(const char* const* const names, const int count, const char* const name)
{
    int index = 0;
    while (index < count && strcmp(names[index], name)) {
        ++index;
    }
    return index < count ? index : -1;
}

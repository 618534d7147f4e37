// SPDX-License-Identifier: ISC
#include "words.h"

const char* words_limb(const Limb limb)
{
    static const char* const words[LIMB_COUNT + 1] = {"right hand", "left hand", "right foot",
                                                      "left foot", ""};
    return words[limb];
}

const char* words_voice(const Voice voice)
{
    static const char* const words[VOICE_COUNT + 1] = {
        [VOICE_KICK] = "kick",
        [VOICE_KICK_LEFT] = "left kick",
        [VOICE_SNARE] = "snare",
        [VOICE_SIDE_STICK] = "side stick",
        [VOICE_HAT_CLOSED] = "closed hat",
        [VOICE_HAT_HALF_OPEN] = "half-open hat",
        [VOICE_HAT_OPEN] = "open hat",
        [VOICE_HAT_PEDAL] = "pedal hat",
        [VOICE_RIDE] = "ride",
        [VOICE_RIDE_BELL] = "ride bell",
        [VOICE_CRASH] = "crash",
        [VOICE_CRASH_2] = "second crash",
        [VOICE_CHINA] = "china",
        [VOICE_SPLASH] = "splash",
        [VOICE_TOM_HIGH] = "high tom",
        [VOICE_TOM_MID] = "middle tom",
        [VOICE_TOM_LOW] = "low tom",
        [VOICE_TOM_FLOOR] = "floor tom",
        [VOICE_COWBELL] = "cowbell",
        [VOICE_CLICK] = "click",
        [VOICE_CLICK_ACCENT] = "accented click",
        [VOICE_COUNT] = "",
    };
    return words[voice];
}

const char* words_voice_brief(const Voice voice)
{
    static const char* const words[VOICE_COUNT + 1] = {
        [VOICE_KICK_LEFT] = "left",      [VOICE_SIDE_STICK] = "stick",
        [VOICE_HAT_CLOSED] = "closed",   [VOICE_HAT_HALF_OPEN] = "half-open",
        [VOICE_HAT_OPEN] = "open",       [VOICE_HAT_PEDAL] = "pedal",
        [VOICE_RIDE_BELL] = "bell",      [VOICE_CRASH_2] = "second",
        [VOICE_TOM_HIGH] = "high",       [VOICE_TOM_MID] = "middle",
        [VOICE_TOM_LOW] = "low",         [VOICE_TOM_FLOOR] = "floor",
        [VOICE_CLICK_ACCENT] = "accent",
    };
    return words[voice] ? words[voice] : words_voice(voice);
}

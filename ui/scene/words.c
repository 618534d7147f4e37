// SPDX-License-Identifier: ISC
#include "words.h"

#include <stdio.h>

const char* words_limb(const Limb limb)
{
    static const char* const words[LIMB_COUNT + 1] = {"right hand", "left hand", "right foot",
                                                      "left foot", ""};
    return words[limb];
}

#define VOICE_WORDS(NAME, name, words, brief) words,
#define VOICE_BRIEF(NAME, name, words, brief) brief,

const char* words_voice(const Voice voice)
{
    static const char* const words[] = {VOICES(VOICE_WORDS) ""};
    return words[voice];
}

const char* words_voice_brief(const Voice voice)
{
    static const char* const words[] = {VOICES(VOICE_BRIEF) ""};
    return words[voice];
}

void words_fill(char* const text, const size_t room, const int64_t begin, const int64_t end,
                const Meter meter)
{
    const double beats = (double)(end - begin) / (double)meter_beat_ticks(meter);
    const bool is_one = beats > 0.999 && beats < 1.001;
    if (begin > 0) {
        snprintf(text, room, "fill, %.3g beat%s", beats, is_one ? "" : "s");
    } else {
        snprintf(text, room, "fill");
    }
}

void words_swing(char* const text, const size_t room, const Swing swing)
{
    const char* const notes = swing.pair_ticks < TICKS_PER_QUARTER ? "sixteenths" : "eighths";
    text[0] = '\0';
    if (swing.ratio > 1.0) {
        snprintf(text, room, "Swing %s, %.4g to 1", notes, swing.ratio);
    }
}

// SPDX-License-Identifier: ISC
#include "words.h"

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

// SPDX-License-Identifier: ISC
#include "names.h"

#include <string.h>

const char* const limb_names[LIMB_COUNT] = {
    [RIGHT_HAND] = "rightHand",
    [LEFT_HAND] = "leftHand",
    [RIGHT_FOOT] = "rightFoot",
    [LEFT_FOOT] = "leftFoot",
};

#define VOICE_NAME(NAME, name, words, brief) name,
const char* const voice_names[VOICE_COUNT] = {VOICES(VOICE_NAME)};
#undef VOICE_NAME

int name_index(const char* const* const names, const int count, const char* const name)
{
    int index = 0;
    while (index < count && strcmp(names[index], name)) {
        ++index;
    }
    return index < count ? index : -1;
}

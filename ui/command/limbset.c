// SPDX-License-Identifier: ISC
#include "limbset.h"

#include "../scene/words.h"

#include <stdio.h>
#include <string.h>

int limbset_parts(const LimbSet whole, LimbSet parts[LIMBSET_PARTS])
{
    const LimbSet hands = whole & LIMBS_HANDS, feet = whole & LIMBS_FEET;
    int count = 0;
    if (hands && feet) {
        parts[count++] = hands;
        parts[count++] = feet;
    }
    parts[count++] = whole;
    return count;
}

/* Of hands or feet alone. */
static const char* pair_words(const LimbSet limbs)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        if (limbs == 1U << limb) {
            return words_limb((Limb)limb);
        }
    }
    return limbs == LIMBS_HANDS ? "hands" : "feet";
}

void limbset_words(const LimbSet limbs, char words[LIMBSET_ROOM])
{
    const LimbSet hands = limbs & LIMBS_HANDS, feet = limbs & LIMBS_FEET;
    snprintf(words, LIMBSET_ROOM, "%s%s%s", hands ? pair_words(hands) : "",
             hands && feet ? " and " : "",
             feet    ? pair_words(feet)
             : limbs ? ""
                     : "click");
}

void limbset_name(const LimbSet limbs, char name[LIMBSET_ROOM])
{
    if (limbs & LIMBS_HANDS && limbs & LIMBS_FEET) {
        snprintf(name, LIMBSET_ROOM, "together");
        return;
    }
    limbset_words(limbs, name);
    for (char* gap = strchr(name, ' '); gap; gap = strchr(gap, ' ')) {
        *gap = '-';
    }
}

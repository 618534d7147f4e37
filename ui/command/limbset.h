// SPDX-License-Identifier: ISC
/* limbset.h - which limbs a file of a practice set is of, and what that is called. */
#pragma once

#include "../../plugin/engine/written/stroke.h"

/* A bit for each Limb. */
typedef unsigned LimbSet;

enum {
    LIMBS_HANDS = 1U << RIGHT_HAND | 1U << LEFT_HAND,
    LIMBS_FEET = 1U << RIGHT_FOOT | 1U << LEFT_FOOT,
    LIMBS_ALL = LIMBS_HANDS | LIMBS_FEET,
    LIMBSET_PARTS = 3,
    LIMBSET_ROOM = 64
};

/* What is practised one after the other: hands, feet, then together, where there
   are both; else the one.  Tells how many. */
int limbset_parts(LimbSet whole, LimbSet parts[LIMBSET_PARTS]);

/* For a file's name: "hands", "left-foot", "together"; "click" where there are none. */
void limbset_name(LimbSet limbs, char name[LIMBSET_ROOM]);

/* "hands", "left foot", "right hand and feet"; "click". */
void limbset_words(LimbSet limbs, char words[LIMBSET_ROOM]);

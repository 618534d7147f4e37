// SPDX-License-Identifier: ISC
/* kept_shown.h - what is kept, as plain values for the strip and the shortlist. */
#pragma once

#include "../../plugin/engine/groove/controls.h"

#include <stdbool.h>

enum { KEPT_LOT = 8, KEPT_SHOWN_ROOM = 64, KEPT_TOLD_ROOM = 160 };

/* One slot; texts are UTF-8. */
typedef struct {
    bool is_there;
    bool is_picked; /* the ports pick just this, though it isn't this that plays */
    char name[KEPT_SHOWN_ROOM];
    char told[KEPT_TOLD_ROOM]; /* what it is: "Ostrel, feet: Salt Gallop" */
} KeptRow;

typedef struct {
    KeptRow rows[KEPT_MAX]; /* by slot from 0 */
    int lot;                /* the first slot, from 0, of the eight that are shown: 0 or 8 */
    int pair[2];            /* slots, from 1, that are compared: of now and of before; 0: none */
    int playing;            /* the slot that sounds while another waits; 0: none */
    int dropped;            /* the slot that was emptied last; 0: none, or it is back */
} KeptShown;

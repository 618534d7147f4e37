// SPDX-License-Identifier: ISC
/* selection.h - what settings pick from the library, and how it is to be played. */
#pragma once

#include "../varied/varied.h"
#include "../written/layout.h"
#include "../written/library.h"
#include "../written/swing.h"
#include "settings.h"

/* The picks that are in effect, found in the library once per change.
   Ids the library lacks fall back: groove to the library's first, hands, feet
   and turnaround to what the groove has written, kit to the first.  What is kept is found
   in its own library, but for the kit. */
typedef struct {
    const Groove* groove; /* NULL if the library has none: silence */
    const Figure* hands;  /* NULL: as written */
    const Figure* feet;   /* NULL: as written */
    uint32_t variation;   /* of the feet, as varied.h has them */
    uint32_t variation_then;
    uint32_t grow_every; /* phrases; 0: they stay */
    int64_t grow_turn;   /* VARIED_STAYS: by the place; else how often they have grown, wherever
                            it is: for who looks through one phrase */
    Varied* varied;      /* where they are made; NULL: the feet play as they are chosen */
    RideOn ride_on;      /* of all hands but the fill's; or as written */
    const Figure* turnaround; /* NULL: none */
    const Kit* kit;           /* NULL if the library has none: silence */
    uint32_t phrase_bars;     /* at least 1 */
    uint32_t loop_bar;        /* 1 and up: only this bar of the phrase; 0 all */
    uint32_t fill_every;      /* bars from fill to fill; 0: as the phrase has it */
    uint32_t fill_beats;      /* no fill is longer; 0: as written */
    int64_t fill_bar;         /* one more fill ends on the line of this bar; 0: none */
    CrashWhen crash;
    Regrid hands_regrid;
    Regrid feet_regrid;
    Realign realign;
    bool left_foot_leads;
    Swing swing;
    Feel feel;
    bool limbs[LIMB_COUNT]; /* heard or silent */
} Selection;

/* `tempo`: quarter notes a minute, for a swing that follows it.  Who asks for the feet puts
   `varied` in place. */
Selection selection_make(const Library* everything, const Settings* settings, double tempo);

/* A groove by itself, as it is written: straight, and all limbs heard. */
Selection selection_of_groove(const Groove* groove);

/* True if the same is written in both: all but swing, feel, limbs and kit. */
bool selection_writes_alike(const Selection* a, const Selection* b);

/* The kit map with this id, or the library's first. */
const Kit* selection_kit(const Library* library, uint32_t id);

/* The swing that settings, or the groove where they leave it open, ask for. */
Swing selection_swing(const Settings* settings, const Groove* groove, double tempo);

/* The feel likewise: a control at its default means what the groove has written;
   at looseness 0 the groove's push is left out, so that 0 is the grid. */
Feel selection_feel(const Settings* settings, const Groove* groove);

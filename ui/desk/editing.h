// SPDX-License-Identifier: ISC
/* editing.h - what the files of the editor do for each other. */
#pragma once

#include "moves.h"

/* The figure that the bar shown plays with the pair that is edited. */
typedef struct {
    const SeenBar* bar;
    FigureKind kind;
    uint32_t id;
    const SeenTurns* turns;
} Spot;

/* False if nothing is shown, or the pair rests there. */
bool editing_spot(const Desk* desk, Spot* spot);

/* Takes up the figure of the spot, if it isn't already; false, and said why, if that
   can't be done. */
bool editing_begin(Desk* desk, const Spot* spot);

/* Lets the plugin play the sketch as it is now. */
void editing_send(Desk* desk);

/* Fills in what the panel shows. */
void editing_show(Desk* desk);

/* The property that drafts of a kind go by. */
LV2_URID editing_property(const Desk* desk, FigureKind kind);

// SPDX-License-Identifier: ISC
/* editing.h - what the files of the editor do for each other. */
#pragma once

#include "hit_test.h"

/* Takes up the figure of the hit, if it isn't already; false, and said why, if that
   can't be done. */
bool editing_begin(Desk* desk, const HitTest* hit);

/* Lets the plugin play the buffer as it is now, which was changed; a change that can't
   be written, or that the plugin would not take, is taken back. */
void editing_change(Desk* desk);

/* The same after going back or on. */
void editing_send(Desk* desk);

/* Fills in what the panel shows. */
void editing_show(Desk* desk);

/* The property that drafts of a kind go by. */
LV2_URID editing_property(const Desk* desk, FigureKind kind);

/* The kind of entry that a kind of figure is. */
EntryKind editing_entry(FigureKind kind);

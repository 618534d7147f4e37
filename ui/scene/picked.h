// SPDX-License-Identifier: ISC
/* picked.h - what plays in the place of what the groove has itself, as the bars that were
   told say it: a figure that a person picked stays when the groove becomes another. */
#pragma once

#include "view.h"

/* What the groove has for the bar shown: of hands or feet that of its letter, else its fill.
   NULL: that rests, or isn't known. */
const Entry* picked_own(const View* view, EntryKind kind);

/* True if a bar plays the hands, feet or fill that its groove has there. */
bool picked_is_own(const View* view, const SeenBar* bar, EntryKind kind);

/* True if the bar shown plays other hands, feet or another fill than the groove has. */
bool picked_here(const View* view, EntryKind kind);

/* True if a bar of the phrase does. */
bool picked_in_phrase(const View* view, EntryKind kind);

enum { PICKED_ROOM = 40 };

/* Likewise in words: "feet changed", "hands, fill changed"; "" if nothing is. */
void picked_words(const View* view, char text[PICKED_ROOM]);

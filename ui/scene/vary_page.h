// SPDX-License-Identifier: ISC
/* vary_page.h - the page of variations, from the view. */
#pragma once

#include "brush.h"
#include "vary_place.h"

/* What can be pointed at in it. */
void vary_page_targets(const View* view, const Geometry* geometry, TargetList* list);

void vary_page_draw(const Brush* brush);

/* The row that sounds, as the playhead crosses it; false if it isn't seen. */
bool vary_page_sounds(const View* view, const Geometry* geometry, Box* box);

enum { VARY_HELP_ROOM = 256 };

/* What a row is, or why it isn't offered, in a sentence. */
void vary_page_help(const View* view, int row, char text[VARY_HELP_ROOM]);

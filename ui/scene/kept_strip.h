// SPDX-License-Identifier: ISC
/* kept_strip.h - eight names of what is kept, in a line under the page of variations. */
#pragma once

#include "brush.h"

/* Where it stands; a name's part of it, from the left. */
Box kept_strip_box(const Geometry* geometry);
Box kept_strip_name(const Geometry* geometry, int index);

void kept_strip_targets(const View* view, const Geometry* geometry, TargetList* list);
void kept_strip_draw(const Brush* brush);

/* What is kept in a slot, from 0, sounds; or was asked for, and comes in at its line. */
bool kept_strip_plays(const View* view, int slot);
bool kept_strip_waits(const View* view, int slot);

/* How many there are. */
int kept_strip_count(const View* view);

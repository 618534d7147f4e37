// SPDX-License-Identifier: ISC
/* targets.h - all that can be pointed at.  The scene draws these boxes, the desk answers for
   them. */
#pragma once

#include "target_list.h"

void targets_of(const View* view, const Geometry* geometry, TargetList* list);

/* The topmost target at a point; NULL if there is none. */
const Target* targets_at(const TargetList* list, double x, double y);

const Target* targets_find(const TargetList* list, TargetId id);

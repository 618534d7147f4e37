// SPDX-License-Identifier: ISC
/* target_list.h - what can be pointed at, where it is, and in which order Tab goes through
   it: the list that each part of the window adds to. */
#pragma once

#include "geometry.h"

/* Tab goes from group to group, left and right within one. */
typedef enum {
    GROUP_TOP,
    GROUP_HANDS,
    GROUP_FEET,
    GROUP_LIMBS,
    GROUP_ROW, /* of the right limb of the pair that is edited, */
    GROUP_ROW_LEFT,
    GROUP_TABS,
    GROUP_BARS,
    GROUP_PANEL,
    GROUP_ROWS, /* the row of the page that has the keys */
    GROUP_KEPT,
    GROUP_LIST, /* as far as Tab goes */
    GROUP_NONE, /* by the mouse alone */
} Group;

typedef struct {
    TargetId id;
    Group group;
    Box box;
} Target;

enum { TARGETS_MAX = 160 };

typedef struct {
    int count;
    Target targets[TARGETS_MAX];
} TargetList;

/* Adds one; nothing where the list is full. */
void target_list_add(TargetList* list, TargetKind kind, int index, Group group, Box box);

/* What can be pointed at on a page. */
typedef void TargetsOf(const View* view, const Geometry* geometry, TargetList* list);

// SPDX-License-Identifier: ISC
/* targets.h - what can be pointed at, where it is, and in which order Tab goes
   through it.  The scene draws these boxes, the desk answers for them. */
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
    GROUP_BARS,
    GROUP_TABS,
    GROUP_PANEL,
    GROUP_LIST,
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

void targets_of(const View* view, const Geometry* geometry, TargetList* list);

/* The topmost target at a point; NULL if there is none. */
const Target* targets_at(const TargetList* list, double x, double y);

const Target* targets_find(const TargetList* list, TargetId id);

/* Which word of a choice is at x. */
int targets_choice_at(const Target* target, Control control, double x);

/* Where the words of a choice stand: left of word i of n in the box; i = n is its
   right end. */
double targets_choice_edge(Box box, Control control, int word);
int targets_choice_words(Control control);

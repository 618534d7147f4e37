// SPDX-License-Identifier: ISC
/* moves.h - what the files of this room do for each other. */
#pragma once

#include "desk.h"

/* Shows a value and tells the plugin, if it differs. */
void desk_set(Desk* desk, Control control, float value);

/* Sets it between touch begin and end. */
void desk_nudge(Desk* desk, Control control, float value);

/* A switch, or the click: off, or as on as it goes. */
void desk_toggle(Desk* desk, Control control);

void desk_focus(Desk* desk, TargetId id);
/* As the host, dark, light. */
void desk_cycle_theme(Desk* desk);

void desk_targets(const Desk* desk, TargetList* targets);

/* The entry before or after the one picked, `by` entries on; or at the ends. */
void desk_walk(Desk* desk, ShelfKind shelf, int by);

/* The first entry of the family before or after. */
void desk_walk_family(Desk* desk, ShelfKind shelf, int by);

void list_open(Desk* desk, ShelfKind shelf);
void list_close(Desk* desk, bool keep);
/* True if the list has a use for the key: while letters can be typed, all but
   function keys are kept from the host. */
bool list_key(Desk* desk, const PaneEvent* event);
void list_scroll(Desk* desk, int lines);

/* Selects a line and lets it be heard. */
void list_choose(Desk* desk, int line);

/* Fills in what the lines seen ask of the feet. */
void list_measure(Desk* desk);

/* The shelves are others: the open list has what is found in them now. */
void list_refresh(Desk* desk);

/* A piece of the session's entries was told; what there is of them goes. */
void entries_told(Desk* desk, const LV2_Atom* value);
void entries_close(Desk* desk);

/* Fills view.shelves from the bank. */
bool shelves_fill(Desk* desk);

/* True if it does something here. */
bool desk_key(Desk* desk, const PaneEvent* event);
void desk_press(Desk* desk, const PaneEvent* event);
void desk_motion(Desk* desk, const PaneEvent* event);
void desk_release(Desk* desk);
void desk_scroll(Desk* desk, const PaneEvent* event);

/* Typing of a value, where the focus is on one, or of a name. */
bool desk_can_type(const Desk* desk);
bool desk_typing_key(Desk* desk, const PaneEvent* event); /* true as for a list's key */
void desk_type(Desk* desk, uint32_t text);
void desk_begin_name(Desk* desk);
void desk_end_typing(Desk* desk, bool keep);

// SPDX-License-Identifier: ISC
/* scenes.h - what the states of scenes.c are played with, and those that stand in
   scenes_names.c. */
#pragma once

#include "stage.h"

/* A control's value, by the host. */
void scenes_pick(Stage* stage, Control control, int id);

/* The entry of a shelf with this name; 0 if there is none. */
int scenes_named(const Stage* stage, EntryKind shelf, const char* name);

/* The first groove, rolling. */
void scenes_play(Stage* stage);

/* scenes_vary.c */
void scenes_vary(Stage* stage);
void scenes_vary_light(Stage* stage);
void scenes_vary_walks(Stage* stage);
void scenes_vary_waits(Stage* stage);
void scenes_vary_not_offered(Stage* stage);
void scenes_vary_deep(Stage* stage);
void scenes_vary_seven_eight(Stage* stage);
void scenes_vary_twelve_eight(Stage* stage);
void scenes_vary_kept(Stage* stage);
void scenes_shortlist(Stage* stage);
void scenes_shortlist_light(Stage* stage);
void scenes_shortlist_empty(Stage* stage);
void scenes_shortlist_full(Stage* stage);

void scenes_kept(Stage* stage);
void scenes_other_meter(Stage* stage);
void scenes_groove_waits(Stage* stage);
void scenes_own(Stage* stage);
void scenes_own_list(Stage* stage);
void scenes_words(Stage* stage);
void scenes_odd_groups(Stage* stage);
void scenes_groups_over_eighths(Stage* stage);
void scenes_reading(Stage* stage);
void scenes_reading_light(Stage* stage);
void scenes_reading_waits(Stage* stage);
void scenes_reading_twelve_eight(Stage* stage);
void scenes_reading_long(Stage* stage);
void scenes_light(Stage* stage);
void scenes_change_waits(Stage* stage);
void scenes_twelve_eight(Stage* stage);
void scenes_long_names(Stage* stage);
void scenes_ladder(Stage* stage);
void scenes_sorted_list(Stage* stage);

/* scenes_looks.c */
void scenes_liberty(Stage* stage);
void scenes_liberty_light(Stage* stage);
void scenes_left_handed(Stage* stage);
void scenes_larger(Stage* stage);

// SPDX-License-Identifier: ISC
/* effects.h - what the rows of actions.h do. */
#pragma once

#include "model.h"

typedef struct {
    int which; /* an index or a number of steps, as the row's key says */
    bool shift;
    uint32_t text;  /* the code point typed; 0: none */
    double seconds; /* when the key was struck, by a clock that goes forward */
} Press;

typedef void Effect(Model* model, Press press);

/* Which limbs effects_hear_only leaves. */
enum { HANDS_ALONE, FEET_ALONE, EVERYTHING };

/* Wherever the focus is. */
Effect effects_turn, effects_trigger, effects_hear_only, effects_open_list, effects_tap,
    effects_put_all_back, effects_loop_shown, effects_do_item, effects_write_phrase;

/* What the window shows: effects_pages.c. */
Effect effects_next_panel, effects_open_panel, effects_leave_panel, effects_show_keys, effects_read;
void effects_show(Model* model, ShowItem item);

/* What is kept. */
Effect effects_keep, effects_drop_kept, effects_play_kept, effects_swap_kept, effects_other_kept,
    effects_hand_out, effects_name_kept;

/* The ring of focus. */
Effect effects_go_to_group, effects_go_within;

/* What has the focus. */
Effect effects_step, effects_go_to_end, effects_go_back, effects_go_round, effects_put_back,
    effects_walk_card, effects_walk_families, effects_step_item, effects_step_option,
    effects_use_focused;

/* A row of the editor: cursor.h. */
Effect effects_edit, effects_leave_row, effects_go_step, effects_go_end, effects_move_stroke,
    effects_louder, effects_level, effects_cycle_level, effects_clear_step, effects_next_voice,
    effects_turn_page, effects_save_edits;

/* Typing. */
Effect effects_leave_words, effects_type_more, effects_type_less, effects_keep_typed,
    effects_leave_typed;

/* The question where. */
Effect effects_ask_more, effects_ask_less, effects_ask_complete, effects_ask_yes, effects_ask_no;

/* What asks first. */
Effect effects_save_groove, effects_delete;

/* Lists. */
Effect effects_walk, effects_walk_pages, effects_close_list, effects_leave_list, effects_find_more,
    effects_find_less, effects_sort, effects_sort_round, effects_scroll, effects_scroll_pages;

/* The page of variations: varying.h. */
Effect effects_vary, effects_vary_walk, effects_vary_pages, effects_vary_deepen, effects_vary_keep,
    effects_vary_leave;

/* The shortlist: shortlist.h. */
Effect effects_shortlist, effects_shortlist_walk;

/* What Enter and a click do at what opens, turns or goes on; nothing elsewhere. */
void effects_use(Model* model, TargetId id);

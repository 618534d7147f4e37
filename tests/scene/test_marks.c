// SPDX-License-Identifier: ISC
/* What is the user's own, changed or missing is marked so, in cards, in lists and beside the
   groove's name; what is the factory's has no mark.  A figure is changed by a person's clicks,
   with the plugin in a host. */
#include "../help/check.h"
#include "scenes.h"
#include "shown_text.h"

static void the_factorys_have_no_mark(void)
{
    static const char* const scenes[] = {"playing-dark", "least", "groove-list-light", "feet-list"};
    for (int i = 0; i < 4; ++i) {
        Stage* const stage = stage_play(stage_scene(scenes[i]));
        shown_draw(&stage->model.view);
        check_case("%s", scenes[i]);
        CHECK_INT(shown_times("own") - (shown_times("host") > 0), 0); /* of the clock's words */
        CHECK_INT(shown_times("edited"), 0);
        CHECK_INT(shown_times("missing"), 0);
        stage_end(stage);
    }
}

static void a_changed_figure_is_marked_until_it_is_dropped(void)
{
    Stage* const stage = stage_play(stage_scene("edit"));
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("edited"), 2); /* in the feet's card, and of the groove that has them */
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_EDIT});
    stage_click(stage, (TargetId){TARGET_EDIT, EDIT_DROP});
    stage_run(stage, 0.3);
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("edited"), 0);
    stage_end(stage);
}

static void what_is_own_and_changed_is_marked_in_cards_and_lists(void)
{
    char amount[64];
    Stage* stage = stage_play(stage_scene("own"));
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("edited"), 2);
    CHECK_INT(shown_times("own"), 2); /* the groove's, and the clock's word */
    stage_end(stage);
    stage = stage_play(stage_scene("own-least"));
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("edited"), 1); /* the card's */
    stage_end(stage);
    stage = stage_play(stage_scene("own-list"));
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("edited"), 2); /* the line's, and the groove's */
    CHECK_INT(shown_times("own"), 3);
    const int all = stage->model.view.shelves[ENTRY_FEET].count;
    snprintf(amount, sizeof amount, "%d of %d, 1 own", all, all);
    CHECK_INT(shown_times(amount), 1);
    stage_end(stage);
}

static void what_the_bank_lacks_is_marked_missing(void)
{
    Stage* const stage = stage_play(stage_scene("missing"));
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("missing"), 1);
    CHECK_INT(shown_times("1900: not in the bank"), 1);
    stage_key(stage, 'f');
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("1900 is missing: the groove's own feet play instead"), 1);
    stage_key(stage, PANE_KEY_ESCAPE);
    scenes_pick(stage, CONTROL_GROOVE, 1901);
    stage_run(stage, 3.0);
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("1901 is missing: the bank's first groove plays instead"), 1);
    stage_end(stage);
}

int main(void)
{
    RUN(the_factorys_have_no_mark);
    RUN(a_changed_figure_is_marked_until_it_is_dropped);
    RUN(what_is_own_and_changed_is_marked_in_cards_and_lists);
    RUN(what_the_bank_lacks_is_marked_missing);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* Hands, feet and fill edited together: from one to the other by key and by click, each with
   its changes and what takes them back; all that changed is saved, each under its name.
   Checked by the MIDI that the plugin plays and the files it writes. */
#include "bench.h"

static Bench* bench;
static View* view;

static void begin(void)
{
    bench = bench_open();
    view = bench_view(bench);
}

static void key(const uint32_t key)
{
    stage_key(&bench->stage, key);
}

static void steps(const int count)
{
    for (int i = 0; i < count; ++i) {
        key(PANE_KEY_RIGHT);
    }
}

static void check_part(const FigureKind kind, const int row)
{
    CHECK_INT(view->edit.kind, kind);
    CHECK(view_target_same(view->focus, (TargetId){TARGET_ROW, row}));
}

static void e_goes_from_feet_to_hands_to_fill_and_back(void)
{
    begin();
    bench_pick(bench, CONTROL_TURNAROUND, 1002); /* in bar 4, with feet */
    bench_stand(bench, 0);
    key('e');
    check_part(FIGURE_FEET, RIGHT_FOOT);
    key('e');
    check_part(FIGURE_HANDS, RIGHT_HAND);
    CHECK_INT(view->looked_at, 0);
    key('e');
    check_part(FIGURE_TURNAROUND, RIGHT_HAND);
    CHECK_INT(view->looked_at, 3);
    key('e');
    check_part(FIGURE_TURNAROUND, RIGHT_FOOT);
    key('e');
    check_part(FIGURE_FEET, RIGHT_FOOT);
    CHECK(view->looked_at != 3); /* that bar is all fill */
    check_case("a fill without feet");
    bench_pick(bench, CONTROL_TURNAROUND, 1001);
    key('e');
    key('e');
    check_part(FIGURE_TURNAROUND, RIGHT_HAND);
    key('e');
    check_part(FIGURE_FEET, RIGHT_FOOT);
    check_case("no fill");
    bench_pick(bench, CONTROL_TURNAROUND, TURNAROUND_NONE);
    key('e');
    key('e');
    check_part(FIGURE_FEET, RIGHT_FOOT);
    bench_close(bench);
}

/* A fill of a beat: its bar has both. */
static void a_bar_that_has_a_fill_is_stayed_in(void)
{
    begin();
    bench_pick(bench, CONTROL_TURNAROUND, 1003);
    bench_stand(bench, 3);
    key('e');
    key('e');
    steps(2);
    key('e');
    check_part(FIGURE_TURNAROUND, RIGHT_HAND);
    CHECK_INT(view->looked_at, 3);
    CHECK_INT(view->edit.cursor, 3 * Q);
    key('e');
    check_part(FIGURE_FEET, RIGHT_FOOT);
    CHECK_INT(view->looked_at, 3);
    CHECK_INT(view->edit.cursor, 3 * Q); /* the feet go on under it */
    key('e');
    CHECK_INT(view->edit.cursor, 0);
    bench_close(bench);
}

/* Three changes, in the rows of three figures. */
static void edit_all(void)
{
    bench_pick(bench, CONTROL_TURNAROUND, 1003);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_item(bench, EDIT_PAIR);
    bench_click(bench, LEFT_HAND, 2.0);
    bench_item(bench, EDIT_PAIR);
    bench_click(bench, LEFT_HAND, 3.75);
}

static void check_heard(const char* const snare, const char* const kick)
{
    CHECK_TEXT(bench_bar(bench, 3, SNARE), snare);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 4, 16), kick);
}

static void each_keeps_its_changes_and_takes_them_back(void)
{
    begin();
    edit_all();
    check_heard("....o...o....ooo", "....o...........");
    CHECK_TEXT(view->edit.name, "A beat");
    CHECK_INT(view->edit.undo, 1);
    bench_item(bench, EDIT_PAIR);
    CHECK_TEXT(view->edit.name, "One bar");
    CHECK_INT(view->edit.undo, 1);
    key('z');
    bench_settle(bench);
    check_heard("....o...o....ooo", "................");
    bench_item(bench, EDIT_PAIR);
    CHECK_TEXT(view->edit.name, "Hats");
    CHECK_INT(view->edit.undo, 1);
    key('z');
    bench_item(bench, EDIT_PAIR);
    key('z');
    bench_settle(bench);
    check_heard("....o........oo.", "................");
    key('y');
    bench_item(bench, EDIT_PAIR);
    key('y');
    bench_settle(bench);
    check_heard("....o........ooo", "....o...........");
    bench_close(bench);
}

/* The first word is asked for each; then it is quick. */
static void s_saves_all_that_changed_each_under_its_name(void)
{
    begin();
    edit_all();
    key('e');
    const TargetId row = view->focus;
    key('s');
    CHECK(view->is_typing);
    CHECK_TEXT(view->typed, "Hats");
    CHECK_INT(times(bench_bank(), "urn:fourlimb:mine"), 0); /* nothing yet */
    stage_text(&bench->stage, " all");
    key(PANE_KEY_ENTER);
    bench_settle(bench);
    CHECK_TEXT(view->typed, "One bar");
    stage_text(&bench->stage, " all");
    key(PANE_KEY_ENTER);
    bench_settle(bench);
    CHECK_TEXT(view->typed, "A beat");
    stage_text(&bench->stage, " all");
    key(PANE_KEY_ENTER);
    bench_settle(bench);
    CHECK(bench_notes(bench, "Saved as \"Hats all\" and \"One bar all\" and \"A beat all\""));
    CHECK(listed(bench, ENTRY_HANDS, "Hats all"));
    CHECK(listed(bench, ENTRY_FEET, "One bar all"));
    CHECK(listed(bench, ENTRY_TURNAROUND, "A beat all"));
    CHECK(view_target_same(view->focus, row));
    check_heard("....o...o....ooo", "....o...........");
    bench_close(bench);
}

static void what_is_not_changed_is_not_saved(void)
{
    begin();
    edit_all();
    const int before = times(bench_bank(), "urn:fourlimb:mine");
    bench_item(bench, EDIT_PAIR); /* feet */
    key('z');
    bench_settle(bench);
    bench_item(bench, EDIT_PAIR); /* hands */
    bench_item(bench, EDIT_SAVE); /* the button asks no more */
    bench_settle(bench);
    CHECK(bench_notes(bench, "Saved as \"Hats\" and \"A beat\""));
    CHECK(times(bench_bank(), "urn:fourlimb:mine") >= before + 2);
    bench_close(bench);
}

static void escape_saves_nothing_more(void)
{
    begin();
    edit_all();
    const int before = times(bench_bank(), "urn:fourlimb:mine");
    key('e');
    key('s');
    key(PANE_KEY_ESCAPE);
    bench_settle(bench);
    CHECK(bench_notes(bench, "Nothing is saved"));
    CHECK(view->focus.kind == TARGET_ROW);
    CHECK_INT(times(bench_bank(), "urn:fourlimb:mine"), before);
    check_heard("....o...o....ooo", "....o...........");
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(e_goes_from_feet_to_hands_to_fill_and_back);
    RUN(a_bar_that_has_a_fill_is_stayed_in);
    RUN(each_keeps_its_changes_and_takes_them_back);
    RUN(s_saves_all_that_changed_each_under_its_name);
    RUN(what_is_not_changed_is_not_saved);
    RUN(escape_saves_nothing_more);
    bench_move_out();
    return tests_end();
}

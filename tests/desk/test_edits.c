// SPDX-License-Identifier: ISC
/* test_edits.c - what can be done to a stroke and a figure in the editor, back and on,
   and what is refused with a reason; checked by the MIDI that the plugin plays. */
#include "bench.h"

static void a_drag_for_the_level_is_one_change(void)
{
    Bench* const bench = bench_open();
    bench_bar(bench, 0, KICK);
    const int normal = bench_velocity(bench, KICK, 8);
    bench_drag(bench, RIGHT_FOOT, 2.0, 2.0, 40.0, 0);
    CHECK_INT(bench_view(bench)->edit.undo, 1);
    bench_bar(bench, 0, KICK);
    CHECK(bench_velocity(bench, KICK, 8) < normal);
    bench_drag(bench, RIGHT_FOOT, 2.0, 2.0, -60.0, 0);
    CHECK_INT(bench_view(bench)->edit.undo, 2);
    bench_bar(bench, 0, KICK);
    CHECK(bench_velocity(bench, KICK, 8) > normal);
    bench_item(bench, EDIT_UNDO);
    bench_item(bench, EDIT_UNDO);
    bench_bar(bench, 0, KICK);
    CHECK_INT(bench_velocity(bench, KICK, 8), normal);
    bench_close(bench);
}

static void a_drag_back_to_where_it_began_changes_nothing(void)
{
    Bench* const bench = bench_open();
    PaneEvent event = bench_place(bench, RIGHT_FOOT, 2.0);
    bench_mouse(bench, event, PANE_PRESS);
    event.y -= 30.0;
    bench_mouse(bench, event, PANE_MOTION);
    CHECK_INT(bench->stage.model.editor.pieces[bench->stage.model.editor.kind]
                  .buffer.now.strokes[1]
                  .level,
              LEVEL_ACCENT);
    event.y += 30.0;
    bench_mouse(bench, event, PANE_MOTION);
    bench_mouse(bench, event, PANE_RELEASE);
    CHECK_INT(bench->stage.model.editor.pieces[bench->stage.model.editor.kind]
                  .buffer.now.strokes[1]
                  .level,
              LEVEL_NORMAL);
    CHECK_INT(bench_view(bench)->edit.undo, 0);
    CHECK_INT(bench->stage.model.editor.pieces[bench->stage.model.editor.kind].buffer.redo, 0);
    bench_close(bench);
}

static void shift_and_drag_moves_a_stroke(void)
{
    Bench* const bench = bench_open();
    bench_drag(bench, RIGHT_FOOT, 2.0, 3.25, 0.0, PANE_SHIFT);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o............o..");
    CHECK_INT(bench_view(bench)->edit.undo, 1);
    bench_drag(bench, RIGHT_FOOT, 3.25, 0.0, 0.0, PANE_SHIFT); /* over what is there */
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o...............");
    bench_item(bench, EDIT_UNDO);
    bench_item(bench, EDIT_UNDO);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.......o.......");
    check_case("a shifted click without a drag");
    bench_button(bench, RIGHT_FOOT, 2.0, 1, PANE_SHIFT);
    CHECK_INT(bench_view(bench)->edit.undo, 0);
    bench_close(bench);
}

static void the_right_button_goes_through_the_voices(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_button(bench, LEFT_FOOT, 1.0, 3, 0);
    bench_settle(bench);
    CHECK(bench_notes(bench, "pedal hat"));
    CHECK_TEXT(bench_bar(bench, 0, PEDAL), "....o...........");
    bench_button(bench, LEFT_FOOT, 1.0, 3, PANE_SHIFT);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    CHECK_TEXT(bench_steps(bench, PEDAL, 4, 16), "................");
    check_case("a right foot has the kick alone");
    const int undo = bench_view(bench)->edit.undo;
    bench_button(bench, RIGHT_FOOT, 0.0, 3, 0);
    CHECK_INT(bench_view(bench)->edit.undo, undo);
    bench_close(bench);
}

static void keys_go_back_and_on(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_click(bench, LEFT_FOOT, 3.0);
    stage_key(&bench->stage, 'z');
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    stage_key(&bench->stage, 'z');
    stage_key(&bench->stage, 'z');
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    stage_key(&bench->stage, 'y');
    stage_key(&bench->stage, 'y');
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    bench_close(bench);
}

/* Threes that begin with each bar: five and a third of them. */
static void what_rolled_fills_its_bars_when_it_starts_again(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_item(bench, EDIT_ROLLS);
    CHECK_TEXT(bench_bar(bench, 1, KICK), "o..o..o..o..o..o");
    bench_item(bench, EDIT_UNDO);
    CHECK_TEXT(bench_bar(bench, 1, KICK), "..o..o..o..o..o.");
    check_case("nine quarters take three bars");
    bench_item(bench, EDIT_DROP);
    bench_pick(bench, CONTROL_FEET, NINE);
    bench_item(bench, EDIT_ROLLS);
    CHECK_TEXT(bench_bar(bench, 2, KICK), "....o...........");
    CHECK_TEXT(bench_bar(bench, 3, KICK), "o...............");
    bench_close(bench);
}

static void lengths_follow_the_wheel(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_item(bench, EDIT_LENGTH); /* a click is a step longer */
    CHECK_INT(bench_view(bench)->edit.steps, 4);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o...o...o...o...");
    check_case("from each bar line, then on over it");
    bench_item(bench, EDIT_ROLLS);
    CHECK(!bench_view(bench)->edit.rolls);
    CHECK_TEXT(bench_bar(bench, 1, KICK), "o...o...o...o...");
    CHECK_INT(bench_view(bench)->edit.steps, 16);
    bench_item(bench, EDIT_ROLLS);
    CHECK(bench_view(bench)->edit.rolls);
    check_case("sixteen bars are the most");
    bench_item(bench, EDIT_ROLLS);
    for (int i = 0; i < 30; ++i) {
        bench_item(bench, EDIT_LENGTH);
    }
    CHECK_INT(bench_view(bench)->edit.steps, 64);
    CHECK(bench_notes(bench, "as long as it can be"));
    CHECK_INT(bench->refused, 0);
    bench_close(bench);
}

/* ---- What is not edited */

static void a_figure_laid_out_otherwise_is_refused_with_a_reason(void)
{
    static const Control regrids[] = {CONTROL_FEET_GRID, CONTROL_FEET_CYCLE, CONTROL_FEET_SHIFT};
    for (int i = 0; i < 3; ++i) {
        Bench* const bench = bench_open();
        bench_pick(bench, regrids[i], 3);
        check_case("%s", control_rows[regrids[i]].symbol);
        bench_click(bench, LEFT_FOOT, 1.0);
        CHECK(bench_notes(bench, "Rhythm panel"));
        CHECK_INT(bench->said, 0);
        bench_hands(bench); /* the hands are as written */
        bench_click(bench, LEFT_HAND, 2.0);
        CHECK_INT(bench->said, 1);
        bench_close(bench);
    }
}

static void laid_out_otherwise_later_it_is_refused_too(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_pick(bench, CONTROL_FEET_GRID, 3);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK(bench_notes(bench, "Rhythm panel"));
    CHECK_INT(bench->said, 1);
    check_case("a turnaround is always as written");
    bench_pick(bench, CONTROL_TURNAROUND, 1002);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_FOOT, 0.5);
    CHECK_TEXT(bench_bar(bench, 3, KICK_LEFT), "..o.............");
    bench_close(bench);
}

static void a_second_figure_waits_until_the_first_is_saved_or_dropped(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    check_case("after an edit of the hands, too");
    bench_hands(bench);
    bench_click(bench, LEFT_HAND, 2.0);
    bench_item(bench, EDIT_PAIR);
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK(bench_notes(bench, "Save or drop the edit of \"One bar\" first"));
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    bench_pick(bench, CONTROL_FEET, 0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    check_case("dropped");
    bench_item(bench, EDIT_DROP);
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "........o.......");
    bench_close(bench);
}

static void dropping_puts_back_what_was_written(void)
{
    Bench* const bench = bench_open();
    static Note before[NOTES_MAX];
    bench_play(bench, 0, 16.0);
    const int count = bench->count;
    memcpy(before, bench->notes, sizeof before);
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_click(bench, RIGHT_FOOT, 0.0);
    bench_play(bench, 0, 16.0);
    CHECK(bench->count != count);
    bench_item(bench, EDIT_DROP);
    bench_play(bench, 0, 16.0);
    CHECK_INT(bench->count, count);
    CHECK(same_notes(before, bench->notes, count));
    CHECK(bench_notes(bench, "as it was written"));
    CHECK(!bench_view(bench)->edit.is_open);
    bench_close(bench);
}

/* A plugin that answers late, or a host that hands on nothing for a while. */
static void changes_made_faster_than_answers_come_are_all_played(void)
{
    Bench* const bench = bench_open();
    bench->is_deaf = true;
    for (int i = 0; i < 40; ++i) {
        bench_button(bench, LEFT_FOOT, 0.25 + 0.25 * (i % 15), 1, 0);
    }
    CHECK_INT(bench->said, 1); /* the first; the rest waits for its answer */
    bench_run(bench, BENCH_BLOCK);
    bench->is_deaf = false;
    bench_run(bench, 4 * BENCH_RATE); /* the answer was lost */
    CHECK_INT(bench->refused, 0);
    const EditFigure* const now =
        &bench->stage.model.editor.pieces[bench->stage.model.editor.kind].buffer.now;
    char want[17] = "................";
    for (uint32_t i = 0; i < now->count; ++i) {
        if (now->strokes[i].limb == LEFT_FOOT) {
            want[now->strokes[i].tick / (Q / 4)] = 'o';
        }
    }
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), want);
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(a_drag_for_the_level_is_one_change);
    RUN(a_drag_back_to_where_it_began_changes_nothing);
    RUN(shift_and_drag_moves_a_stroke);
    RUN(the_right_button_goes_through_the_voices);
    RUN(keys_go_back_and_on);
    RUN(what_rolled_fills_its_bars_when_it_starts_again);
    RUN(lengths_follow_the_wheel);
    RUN(a_figure_laid_out_otherwise_is_refused_with_a_reason);
    RUN(laid_out_otherwise_later_it_is_refused_too);
    RUN(a_second_figure_waits_until_the_first_is_saved_or_dropped);
    RUN(dropping_puts_back_what_was_written);
    RUN(changes_made_faster_than_answers_come_are_all_played);
    bench_move_out();
    return tests_end();
}

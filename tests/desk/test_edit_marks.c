// SPDX-License-Identifier: ISC
/* What is underlined while a figure is edited: the steps where it isn't as it is kept, in the bar
   shown, and nothing once it is taken back or saved. */
#include "bench.h"

static Bench* bench;
static View* view;

static void begin(void)
{
    bench = bench_open();
    view = bench_view(bench);
}

/* "row:sixteenth" of each, in the order found. */
static const char* marks(void)
{
    static char text[256];
    size_t length = 0;
    text[0] = '\0';
    bench_settle(bench);
    for (int i = 0; i < view->edit.mark_count && length < 240; ++i) {
        length += (size_t)snprintf(text + length, sizeof text - length, "%s%d:%d", i ? " " : "",
                                   (int)view->edit.marks[i].row,
                                   (int)(view->edit.marks[i].tick / (Q / 4)));
    }
    return text;
}

static void what_differs_is_marked_until_it_is_taken_back(void)
{
    begin();
    CHECK_TEXT(marks(), "");
    bench_click(bench, LEFT_FOOT, 1.0);
    CHECK_TEXT(marks(), "3:4");
    bench_click(bench, RIGHT_FOOT, 2.0); /* an accent now */
    CHECK_TEXT(marks(), "3:4 2:8");
    CHECK_INT(view->edit.differ, 2);
    check_case("a stroke that is gone");
    bench_click(bench, RIGHT_FOOT, 2.0);
    bench_click(bench, RIGHT_FOOT, 2.0);
    CHECK_TEXT(marks(), "3:4 2:8");
    bench_item(bench, EDIT_UNDO);
    bench_item(bench, EDIT_UNDO);
    bench_item(bench, EDIT_UNDO);
    CHECK_TEXT(marks(), "3:4");
    bench_item(bench, EDIT_UNDO);
    CHECK_TEXT(marks(), "");
    bench_close(bench);
}

static void saved_it_is_as_it_is_kept(void)
{
    begin();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_save(bench, "Sill");
    CHECK_TEXT(marks(), "");
    CHECK_INT(view->edit.differ, 0);
    bench_click(bench, LEFT_FOOT, 3.0);
    CHECK_TEXT(marks(), "3:12");
    bench_close(bench);
}

/* Two bars: each mark in its own; threes: wherever they come again. */
static void marks_stand_where_the_bar_shown_plays_the_figure(void)
{
    begin();
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_stand(bench, 1);
    bench_click(bench, LEFT_FOOT, 0.5);
    CHECK_TEXT(marks(), "3:2");
    bench_stand(bench, 0);
    CHECK_TEXT(marks(), "");
    CHECK_INT(view->edit.differ, 1);
    bench_item(bench, EDIT_DROP);
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_stand(bench, 0);
    bench_click(bench, LEFT_FOOT, 0.25);
    CHECK_TEXT(marks(), "3:1 3:4 3:7 3:10 3:13");
    bench_stand(bench, 1);
    CHECK_TEXT(marks(), "3:0 3:3 3:6 3:9 3:12 3:15"); /* sixteen by threes: one over */
    bench_close(bench);
}

static void where_the_left_foot_leads_they_stand_in_the_other_row(void)
{
    begin();
    bench_pick(bench, CONTROL_LEAD_FOOT, 1);
    bench_click(bench, RIGHT_FOOT, 1.0);
    CHECK_TEXT(marks(), "2:4");
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(what_differs_is_marked_until_it_is_taken_back);
    RUN(saved_it_is_as_it_is_kept);
    RUN(marks_stand_where_the_bar_shown_plays_the_figure);
    RUN(where_the_left_foot_leads_they_stand_in_the_other_row);
    bench_move_out();
    return tests_end();
}

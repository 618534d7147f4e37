// SPDX-License-Identifier: ISC
/* The editor by keys alone, heard in the plugin's MIDI; and the page that stays while one
   edits.  What a key does must be what the mouse does there: the same strokes are heard. */
#include "bench.h"

static Bench* bench;
static View* view;

static void begin(void)
{
    bench = bench_open();
    view = bench_view(bench);
}

static void key(const uint32_t which)
{
    stage_key(&bench->stage, which);
    bench_settle(bench);
}

static void shift_key(const uint32_t which)
{
    const PaneEvent event = {.kind = PANE_KEY, .key = which, .modifiers = PANE_SHIFT};
    controller_input(&bench->stage.model, &event);
    bench_settle(bench);
}

static void keys(const uint32_t which, const int times)
{
    for (int i = 0; i < times; ++i) {
        stage_key(&bench->stage, which);
    }
    bench_settle(bench);
}

static bool is_in_row(const int limb)
{
    return view_target_same(view->focus, (TargetId){TARGET_ROW, limb});
}

static void e_goes_to_the_row_and_to_the_other_pair(void)
{
    begin();
    stage_click(&bench->stage, (TargetId){TARGET_TAB, PANEL_FEEL});
    key('e');
    CHECK_INT(view->panel, PANEL_EDIT);
    CHECK(is_in_row(RIGHT_FOOT));
    key(PANE_KEY_TAB);
    CHECK(is_in_row(LEFT_FOOT));
    key('e');
    CHECK(is_in_row(RIGHT_HAND));
    CHECK_INT(view->edit.pair, PAIR_HANDS);
    key(PANE_KEY_ESCAPE);
    CHECK(view_target_same(view->focus, (TargetId){TARGET_TAB, PANEL_EDIT}));
    bench_close(bench);
}

static void a_stroke_is_put_where_the_cursor_stands(void)
{
    begin();
    key('e');
    key(PANE_KEY_TAB);
    keys(PANE_KEY_RIGHT, 6);
    CHECK_INT(view->edit.cursor, 6 * Q / 4);
    key(PANE_KEY_ENTER);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "......o.........");
    CHECK_TEXT(bench_steps(bench, KICK, 4, 16), "o.......o.......");
    keys(PANE_KEY_RIGHT, 40); /* the end holds */
    key(PANE_KEY_ENTER);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "......o........o");
    keys(PANE_KEY_LEFT, 40);
    key(PANE_KEY_ENTER);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o.....o........o");
    key(PANE_KEY_END);
    key(PANE_KEY_DELETE);
    key(PANE_KEY_HOME);
    key(PANE_KEY_BACKSPACE);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "......o.........");
    CHECK_INT(bench->refused, 0);
    bench_close(bench);
}

/* Up: none, ghost, normal, accent; each louder than the one before. */
static void up_is_louder_and_down_is_softer(void)
{
    begin();
    key('e');
    keys(PANE_KEY_RIGHT, 4);
    int before = 0;
    for (int up = 0; up < 3; ++up) {
        key(PANE_KEY_UP);
        bench_bar(bench, 0, KICK);
        const int now = bench_velocity(bench, KICK, 4);
        check_case("up %d", up);
        CHECK(now > before);
        before = now;
    }
    key(PANE_KEY_UP); /* no more */
    CHECK_INT(view->edit.undo, 3);
    keys(PANE_KEY_DOWN, 3);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.......o.......");
    bench_close(bench);
}

static int level_at(const int limb, const int sixteenth)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    for (uint32_t i = 0; bar && i < bar->count; ++i) {
        const SeenStroke* const stroke = &bar->strokes[i];
        if (stroke->limb == limb && stroke->written == sixteenth * (int)Q / 4 &&
            !stroke->is_grace) {
            return stroke->level;
        }
    }
    return LEVEL_REST;
}

static void o_g_f_d_are_accent_ghost_flam_and_drag(void)
{
    static const struct {
        uint32_t key;
        Level level;
    } rows[] = {{'o', LEVEL_ACCENT}, {'g', LEVEL_GHOST}, {'f', LEVEL_FLAM}, {'d', LEVEL_DRAG}};
    begin();
    key('e'); /* the feet's rows, */
    key('e'); /* and the hands' */
    key(PANE_KEY_TAB);
    CHECK(is_in_row(LEFT_HAND));
    keys(PANE_KEY_RIGHT, 2);
    for (int i = 0; i < 4; ++i) {
        check_case("%c", (char)rows[i].key);
        key(rows[i].key);
        CHECK_INT(level_at(LEFT_HAND, 2), rows[i].level);
    }
    key('d'); /* twice is normal */
    CHECK_INT(level_at(LEFT_HAND, 2), LEVEL_NORMAL);
    CHECK(!view->reads && !view->list.is_open);
    bench_close(bench);
}

static void feet_have_no_flams_and_it_says_so(void)
{
    begin();
    key('e');
    key('f');
    CHECK(bench_notes(bench, "neither flams nor drags"));
    CHECK_INT(level_at(RIGHT_FOOT, 0), LEVEL_NORMAL);
    CHECK(!view->list.is_open);
    bench_close(bench);
}

static void shift_and_an_arrow_move_the_stroke(void)
{
    begin();
    key('e');
    keys(PANE_KEY_RIGHT, 8);
    shift_key(PANE_KEY_RIGHT);
    shift_key(PANE_KEY_RIGHT);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.........o.....");
    shift_key(PANE_KEY_LEFT);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o........o......");
    bench_close(bench);
}

static void v_is_another_voice(void)
{
    begin();
    key('e');
    key(PANE_KEY_TAB);
    key(PANE_KEY_ENTER);
    key('v');
    CHECK_TEXT(bench_bar(bench, 0, PEDAL), "o...............");
    shift_key('v');
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o...............");
    bench_close(bench);
}

static void z_and_y_go_back_and_on_from_a_row(void)
{
    begin();
    key('e');
    keys(PANE_KEY_RIGHT, 2);
    key(PANE_KEY_ENTER);
    key('z');
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.......o.......");
    key('y');
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.o.....o.......");
    bench_close(bench);
}

/* Edit, name, save, without the mouse. */
static void a_figure_is_edited_and_saved_by_keys_alone(void)
{
    begin();
    key('e');
    keys(PANE_KEY_RIGHT, 2);
    key(PANE_KEY_ENTER);
    key(PANE_KEY_ESCAPE);
    for (int i = 0; i < 60 && !view_target_same(view->focus, (TargetId){TARGET_EDIT, EDIT_PAIR});
         ++i) {
        key(PANE_KEY_TAB);
    }
    for (int i = 0; i < 20 && !view_target_same(view->focus, (TargetId){TARGET_EDIT, EDIT_NAME});
         ++i) {
        key(PANE_KEY_RIGHT);
    }
    key(PANE_KEY_ENTER);
    keys(PANE_KEY_BACKSPACE, TYPED_ROOM);
    stage_text(&bench->stage, "By keys");
    key(PANE_KEY_ENTER);
    key(PANE_KEY_RIGHT);
    CHECK(view_target_same(view->focus, (TargetId){TARGET_EDIT, EDIT_SAVE}));
    key(PANE_KEY_ENTER);
    bench_settle(bench);
    CHECK(listed(bench, ENTRY_FEET, "By keys"));
    bench_close(bench);
}

/* ---- The page */

static void the_page_stays_while_one_edits(void)
{
    begin();
    bench_stand(bench, 1);
    bench_click(bench, LEFT_FOOT, 1.5);
    const int64_t held = view_shown(view) - view_phrase(view);
    CHECK_INT(held, 1);
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
    bool moved = false;
    for (int i = 0; i < 24; ++i) { /* six bars: into the next phrase */
        bench_run(bench, QUARTER_FRAMES);
        CHECK_INT(view_shown(view) - view_phrase(view), 1);
        moved = moved || view->place.bar != view_shown(view);
    }
    CHECK(moved);
    CHECK(view_bar(view, view_shown(view)) != NULL);
    bench_close(bench);
}

/* The playhead goes on in the overview alone: nothing of the bar held is lit. */
static void the_playhead_goes_on_in_the_overview(void)
{
    Moving moving[MOVING_MAX];
    begin();
    bench_stand(bench, 1);
    key('e');
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
    bench_run(bench, QUARTER_FRAMES);
    CHECK_INT(screen_moving(view, moving), 1);
    CHECK(!moving[0].is_lit);
    const double before = moving[0].box.x;
    bench_run(bench, QUARTER_FRAMES);
    CHECK_INT(screen_moving(view, moving), 1);
    CHECK(moving[0].box.x > before + 4.0);
    bench_close(bench);
}

static void pages_turn_by_keys_and_end_with_the_phrase(void)
{
    begin();
    key('e');
    key(PANE_KEY_PAGE_DOWN);
    CHECK_INT(view_shown(view) - view_phrase(view), 1);
    keys(PANE_KEY_PAGE_DOWN, 9);
    CHECK_INT(view_shown(view) - view_phrase(view), view_phrase_bars(view) - 1);
    keys(PANE_KEY_PAGE_UP, 9);
    CHECK_INT(view_shown(view) - view_phrase(view), 0);
    bench_close(bench);
}

static void the_page_follows_again_when_one_is_done(void)
{
    static const uint32_t ways[] = {PANE_KEY_ESCAPE, 'p'};
    for (int way = 0; way < 3; ++way) {
        begin();
        key('e');
        CHECK(view->held);
        check_case("way %d", way);
        if (way < 2) {
            key(ways[way]);
        } else {
            bench_item(bench, EDIT_PAGE);
        }
        CHECK(!view->held);
        stage_roll(&bench->stage, 2, 0.0f, 1.0f);
        bench_run(bench, QUARTER_FRAMES);
        CHECK_INT(view_shown(view), view->place.bar);
        bench_close(bench);
    }
}

/* ---- Steps that are too narrow for one page */

static const int sizes[][2] = {{720, 420}, {860, 530}, {960, 540}, {1280, 760}, {1600, 1000}};

/* 16 pixels for each step, at every size, grid and meter; the page has the step of the keys. */
static void every_step_is_wide_enough_to_hit(void)
{
    static const Meter meters[] = {{4.0, 4}, {3.0, 4}, {7.0, 8}, {12.0, 8}, {5.0, 4}, {15.0, 8}};
    begin();
    for (int i = 0; i < 5; ++i) {
        controller_resize(&bench->stage.model, sizes[i][0], sizes[i][1], 1.0);
        for (int grid = 1; grid <= EDIT_BUFFER_GRID_MAX; ++grid) {
            for (int meter = 0; meter < 6; ++meter) {
                const int64_t bar = meter_bar_ticks(meters[meter]);
                const int64_t step = Q / grid;
                view->edit.grid = grid;
                for (int64_t tick = 0; tick < bar; tick += step) {
                    view->edit.cursor = (int32_t)tick;
                    const Geometry g = geometry_of(view);
                    const BarSpace space = geometry_bar(&g, meters[meter]);
                    const double x = geometry_tick(&g, space, (double)tick);
                    check_case("%d by %d, grid %d, %g/%d, tick %d", sizes[i][0], sizes[i][1], grid,
                               meters[meter].beats_per_bar, (int)meters[meter].beat_unit,
                               (int)tick);
                    CHECK(space.beat * (double)step / space.ticks >= 16.0);
                    CHECK(x >= g.beat_1 - 0.001 && x < g.right);
                }
            }
        }
    }
    bench_close(bench);
}

/* Twelve a quarter in the smallest window: by keys, and by the mouse where it is seen. */
static void a_step_on_a_later_page_is_found_by_keys_and_mouse(void)
{
    begin();
    controller_resize(&bench->stage.model, 720, 420, 1.0);
    key('e');
    key(PANE_KEY_TAB);
    bench_click(bench, LEFT_FOOT, 0.25); /* takes the figure up, on sixteenths */
    key('z');
    for (int i = 0; i < 8; ++i) {
        stage_click(&bench->stage, (TargetId){TARGET_EDIT, EDIT_GRID});
    }
    CHECK_INT(view->edit.grid, 12);
    for (int i = 0; i < 12 && !is_in_row(LEFT_FOOT); ++i) {
        key(PANE_KEY_TAB);
    }
    key(PANE_KEY_HOME);
    keys(PANE_KEY_RIGHT, 30); /* two quarters and a half */
    key(PANE_KEY_ENTER);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "..........o.....");
    bench_click(bench, LEFT_FOOT, 2.25);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), ".........oo.....");
    bench_close(bench);
}

static void pages_of_a_bar_turn_before_the_bar_does(void)
{
    begin();
    controller_resize(&bench->stage.model, 720, 420, 1.0);
    view->edit.grid = 12;
    key('e');
    int pages = 1;
    int32_t before = view->edit.cursor;
    for (; view_shown(view) == view_phrase(view) && pages < 9; ++pages) {
        key(PANE_KEY_PAGE_DOWN);
        CHECK(view->edit.cursor > before || view_shown(view) > view_phrase(view));
        before = view->edit.cursor;
    }
    CHECK_INT(view->edit.cursor, 0);
    CHECK(pages > 2);
    for (int i = 1; i < pages; ++i) {
        key(PANE_KEY_PAGE_UP);
    }
    CHECK_INT(view_shown(view), view_phrase(view));
    CHECK_INT(view->edit.cursor, 0);
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(e_goes_to_the_row_and_to_the_other_pair);
    RUN(a_stroke_is_put_where_the_cursor_stands);
    RUN(up_is_louder_and_down_is_softer);
    RUN(o_g_f_d_are_accent_ghost_flam_and_drag);
    RUN(feet_have_no_flams_and_it_says_so);
    RUN(shift_and_an_arrow_move_the_stroke);
    RUN(v_is_another_voice);
    RUN(z_and_y_go_back_and_on_from_a_row);
    RUN(a_figure_is_edited_and_saved_by_keys_alone);
    RUN(the_page_stays_while_one_edits);
    RUN(the_playhead_goes_on_in_the_overview);
    RUN(pages_turn_by_keys_and_end_with_the_phrase);
    RUN(the_page_follows_again_when_one_is_done);
    RUN(every_step_is_wide_enough_to_hit);
    RUN(a_step_on_a_later_page_is_found_by_keys_and_mouse);
    RUN(pages_of_a_bar_turn_before_the_bar_does);
    bench_move_out();
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_editor.c - from clicks in a limb's row to the MIDI that the plugin plays: the
   stroke is heard where it was pointed at, whatever the figure and the bar. */
#include "../../plugin/engine/groove/settings.h"
#include "../../ui/desk/edit_items.h"
#include "bench.h"

static void a_click_is_a_stroke_on_the_step_pointed_at(void)
{
    Bench* const bench = bench_open();
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.......o.......");
    bench_click(bench, LEFT_FOOT, 1.5);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "......o.........");
    CHECK_TEXT(bench_steps(bench, KICK, 4, 16), "o.......o.......");
    check_case("in the other bars too");
    CHECK_TEXT(bench_bar(bench, 3, KICK_LEFT), "......o.........");
    check_case("accent, ghost, none");
    const int normal = bench_velocity(bench, KICK_LEFT, 6);
    bench_click(bench, LEFT_FOOT, 1.5);
    bench_bar(bench, 0, KICK_LEFT);
    CHECK(bench_velocity(bench, KICK_LEFT, 6) > normal);
    bench_click(bench, LEFT_FOOT, 1.5);
    bench_bar(bench, 0, KICK_LEFT);
    CHECK(bench_velocity(bench, KICK_LEFT, 6) < normal);
    bench_click(bench, LEFT_FOOT, 1.5);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    CHECK_INT(bench->refused, 0);
    bench_close(bench);
}

static void every_sixteenth_is_met_at_any_size(void)
{
    static const struct {
        int width, height;
        double scale;
    } sizes[] = {{960, 540, 1.0},   {720, 420, 1.0}, {1440, 840, 1.0},
                 {1920, 1080, 2.0}, {480, 300, 1.0}, {1200, 800, 1.25}};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; ++i) {
        Bench* const bench = bench_open();
        controller_resize(&bench->stage.model, sizes[i].width, sizes[i].height, sizes[i].scale);
        for (int step = 0; step < 16; ++step) {
            check_case("%d by %d at %g, sixteenth %d", sizes[i].width, sizes[i].height,
                       sizes[i].scale, step);
            char want[17] = "................";
            want[step] = 'o';
            /* a third of a step beside it, which is nearer than any other */
            bench_click(bench, LEFT_FOOT, (step + (step % 2 ? 0.33 : step ? -0.33 : 0.0)) / 4.0);
            CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), want);
            CHECK_INT(bench_view(bench)->edit.hover_tick, step * Q / 4);
            bench_item(bench, EDIT_UNDO);
        }
        bench_close(bench);
    }
}

static void hands_are_edited_in_their_rows(void)
{
    Bench* const bench = bench_open();
    bench_hands(bench);
    bench_click(bench, LEFT_HAND, 2.5);
    CHECK_TEXT(bench_bar(bench, 0, SNARE), "....o.....o.o...");
    bench_click(bench, RIGHT_HAND, 0.5); /* an accent */
    bench_click(bench, RIGHT_HAND, 0.5); /* a ghost */
    bench_click(bench, RIGHT_HAND, 0.5);
    CHECK_INT(bench_view(bench)->edit.undo, 4);
    bench_button(bench, RIGHT_HAND, 1.0, 2, 0); /* the middle button does nothing */
    CHECK_INT(bench_view(bench)->edit.undo, 4);
    bench_close(bench);
}

static void in_figures_of_two_bars_the_bar_shown_is_edited(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_stand(bench, 1);
    bench_click(bench, LEFT_FOOT, 3.25);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    CHECK_TEXT(bench_bar(bench, 1, KICK_LEFT), ".............o..");
    CHECK_TEXT(bench_bar(bench, 2, KICK_LEFT), "................");
    bench_stand(bench, 2);
    bench_click(bench, LEFT_FOOT, 0.0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o...............");
    CHECK_TEXT(bench_bar(bench, 3, KICK_LEFT), ".............o..");
    check_case("a bar that is looked at");
    stage_click(&bench->stage, (TargetId){TARGET_BAR, 1});
    bench_click(bench, LEFT_FOOT, 1.0);
    CHECK_TEXT(bench_bar(bench, 1, KICK_LEFT), "....o........o..");
    bench_close(bench);
}

/* Threes in sixteenths from bar 0 on: bar 1 has turns at sixteenths 2, 5, 8 .. */
static void in_rolling_figures_any_turn_of_the_bar_can_be_clicked(void)
{
    static const double clicks[] = {0.25, 1.5, 2.0, 3.25, 3.75};
    for (size_t i = 0; i < sizeof clicks / sizeof *clicks; ++i) {
        Bench* const bench = bench_open();
        bench_pick(bench, CONTROL_FEET, THREE);
        CHECK_TEXT(bench_bar(bench, 1, KICK), "..o..o..o..o..o.");
        check_case("at %g", clicks[i]);
        bench_stand(bench, 1);
        bench_click(bench, LEFT_FOOT, clicks[i]);
        const int sixteenth = (int)(4.0 * clicks[i]);
        const char* const want = sixteenth % 3 == 1   ? ".o..o..o..o..o.."
                                 : sixteenth % 3 == 0 ? "o..o..o..o..o..o"
                                                      : "..o..o..o..o..o.";
        CHECK_TEXT(bench_bar(bench, 1, KICK_LEFT), want);
        CHECK_INT(bench_view(bench)->edit.steps, 3);
        bench_close(bench);
    }
}

static void a_long_rolling_figure_is_edited_where_it_does_not_start(void)
{
    static const int realigns[] = {REALIGN_NEVER, REALIGN_PHRASE};
    for (size_t i = 0; i < 2; ++i) {
        Bench* const bench = bench_open();
        bench_set(bench, CONTROL_REALIGN, realigns[i]);
        bench_pick(bench, CONTROL_FEET, NINE);
        bench_stand(bench, 1);
        check_case("realign %d", realigns[i]);
        bench_click(bench, LEFT_FOOT, 2.0);
        CHECK_TEXT(bench_bar(bench, 1, KICK_LEFT), "........o.......");
        CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
        CHECK_TEXT(bench_bar(bench, 2, KICK), "....o...........");
        CHECK_TEXT(bench_bar(bench, 3, KICK_LEFT), "............o...");
        bench_close(bench);
    }
}

static void a_turnaround_is_edited_in_its_bar(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_TURNAROUND, 1002);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_FOOT, 3.75);
    CHECK_TEXT(bench_bar(bench, 3, KICK_LEFT), "...............o");
    CHECK_TEXT(bench_bar(bench, 2, KICK_LEFT), "................");
    bench_hands(bench);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 3.5);
    CHECK_TEXT(bench_bar(bench, 3, SNARE), "o...o.........o.");
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 4, 16), "...............o");
    bench_close(bench);
}

static void before_a_fill_the_groove_s_own_figure_is_edited(void)
{
    Bench* const bench = bench_open();
    bench_set(bench, CONTROL_FILL_BEATS, 2);
    bench_pick(bench, CONTROL_TURNAROUND, 1002);
    bench_hands(bench);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 2.5);
    CHECK_TEXT(bench_bar(bench, 3, SNARE), "....o.....o.....");
    CHECK_TEXT(bench_bar(bench, 2, SNARE), "....o.......o...");
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 1.5);
    CHECK_TEXT(bench_bar(bench, 3, SNARE), "....o.o...o.....");
    CHECK_TEXT(bench_bar(bench, 2, SNARE), "....o.o.....o...");
    bench_close(bench);
}

/* Its end stays on the line: a step more is one before the first. */
static void a_fill_grows_at_its_beginning(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_TURNAROUND, 1003);
    bench_hands(bench);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 3.25); /* what is there: an accent */
    edit_items_step(&bench->stage.model, EDIT_LENGTH, 1);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 3, SNARE), "....o........oo.");
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 2.75);
    CHECK_TEXT(bench_bar(bench, 3, SNARE), "....o......o.oo.");
    bench_close(bench);
}

/* Ids are of a kind: the feet figure has the turnaround's number here. */
static void under_a_turnaround_of_the_hands_the_feet_are_their_own_figure(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_TURNAROUND, 1001);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_FOOT, 3.75);
    CHECK_TEXT(bench_bar(bench, 3, KICK_LEFT), "...............o");
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "...............o");
    CHECK_INT(bench->stage.model.editor.pieces[bench->stage.model.editor.kind].buffer.now.kind,
              FIGURE_FEET);
    bench_close(bench);
}

static void swapped_feet_are_edited_where_they_are_seen(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_LEAD_FOOT, 1);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o.......o.......");
    bench_click(bench, LEFT_FOOT, 2.0); /* what is there: an accent */
    bench_click(bench, RIGHT_FOOT, 1.5);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o.......o.......");
    CHECK_TEXT(bench_steps(bench, KICK, 4, 16), "......o.........");
    CHECK(bench_velocity(bench, KICK_LEFT, 8) > bench_velocity(bench, KICK_LEFT, 0));
    bench_close(bench);
}

/* A bar at half the speed is two bars of the host's. */
static void at_half_the_speed_the_step_is_the_one_pointed_at(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_PRACTICE_RATE, 2);
    bench_click(bench, LEFT_FOOT, 1.75);
    bench_play(bench, 0, 8.0);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 2, 16), ".......o........");
    CHECK_TEXT(bench_steps(bench, KICK, 2, 16), "o.......o.......");
    bench_close(bench);
}

static void a_shorter_bar_has_no_step_beyond_its_end(void)
{
    Bench* const bench = bench_open();
    bench->stage.beats_per_bar = 3.0f;
    bench_stand(bench, 1);
    bench_click(bench, LEFT_FOOT, 2.95);
    bench_play(bench, 1, 3.0);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 4, 12), "...........o");
    CHECK_INT(bench_view(bench)->edit.hover_tick, 11 * Q / 4);
    check_case("beyond the bar line nothing is edited");
    bench_click(bench, LEFT_FOOT, 3.25);
    CHECK_INT(bench_view(bench)->edit.undo, 1);
    bench_close(bench);
}

/* The figure starts again within the bar, with the part of it that the bar has. */
static void in_a_longer_bar_both_places_are_one_step(void)
{
    Bench* const bench = bench_open();
    bench->stage.beats_per_bar = 5.0f;
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_stand(bench, 2);
    bench_click(bench, LEFT_FOOT, 4.25);
    bench_play(bench, 2, 5.0);
    CHECK_TEXT(bench_steps(bench, KICK, 4, 20), "o...............o...");
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 4, 20), ".o...............o..");
    bench_play(bench, 3, 5.0);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 4, 20), "....................");
    bench_close(bench);
}

/* At 2 to 1 the second eighth of a pair is the triplet's last. */
static void a_swung_stroke_is_found_where_it_is_seen(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_SWING_RATIO, 2.0);
    bench_click(bench, LEFT_FOOT, 1.0 + 2.0 / 3.0);
    bench_play(bench, 0, 4.0);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 3, 12), ".....o......");
    const int normal = bench->count;
    bench_click(bench, LEFT_FOOT, 1.0 + 2.0 / 3.0); /* an accent, no second stroke */
    bench_play(bench, 0, 4.0);
    CHECK_INT(bench->count, normal);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 3, 12), ".....o......");
    check_case("triplets are not bent");
    for (int grid = 4; grid > 3; --grid) {
        stage_point(&bench->stage, (TargetId){TARGET_EDIT, EDIT_GRID});
        controller_input(
            &bench->stage.model,
            &(PaneEvent){
                .kind = PANE_SCROLL,
                .x = bench->stage.model.fit.x + bench->stage.model.fit.scale * bench->stage.model.x,
                .y = bench->stage.model.fit.y + bench->stage.model.fit.scale * bench->stage.model.y,
                .scroll = -1.0});
    }
    CHECK_INT(bench_view(bench)->edit.grid, 3);
    bench_click(bench, LEFT_FOOT, 3.0 + 1.0 / 3.0);
    bench_play(bench, 0, 4.0);
    CHECK_TEXT(bench_steps(bench, KICK_LEFT, 3, 12), ".....o....o.");
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(a_click_is_a_stroke_on_the_step_pointed_at);
    RUN(every_sixteenth_is_met_at_any_size);
    RUN(hands_are_edited_in_their_rows);
    RUN(in_figures_of_two_bars_the_bar_shown_is_edited);
    RUN(in_rolling_figures_any_turn_of_the_bar_can_be_clicked);
    RUN(a_long_rolling_figure_is_edited_where_it_does_not_start);
    RUN(a_turnaround_is_edited_in_its_bar);
    RUN(before_a_fill_the_groove_s_own_figure_is_edited);
    RUN(a_fill_grows_at_its_beginning);
    RUN(under_a_turnaround_of_the_hands_the_feet_are_their_own_figure);
    RUN(swapped_feet_are_edited_where_they_are_seen);
    RUN(at_half_the_speed_the_step_is_the_one_pointed_at);
    RUN(a_shorter_bar_has_no_step_beyond_its_end);
    RUN(in_a_longer_bar_both_places_are_one_step);
    RUN(a_swung_stroke_is_found_where_it_is_seen);
    bench_move_out();
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* Pointing, clicking, dragging and the wheel.  200 pixels are a whole range, with
   Shift a tenth of it (ui/desk/mouse.c says so; the numbers here are by hand). */
#include "../../plugin/engine/groove/settings.h"
#include "../../ui/scene/target_choice.h"
#include "../help/check.h"
#include "own_desk.h"

static OwnDesk* own;

static TargetId dial(const Control control)
{
    return (TargetId){TARGET_DIAL, (int)control};
}

/* A desk as new for each test. */
static void fresh(void)
{
    if (own) {
        own_desk_close(own);
    }
    own = own_desk_open();
    controller_tick(&own->model, 100.0);
}

static void drag_by(const double right, const double up, const uint32_t modifiers)
{
    own_mouse(own, PANE_MOTION, own->model.drag_x + right, own->model.drag_y - up, modifiers);
}

static void a_drag_of_200_pixels_is_the_whole_range(void)
{
    fresh(); /* touch: 0 to 100, at 50 */
    own_press(own, dial(CONTROL_TOUCH), 0);
    drag_by(0.0, 20.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 60.0, 1e-4);
    drag_by(40.0, 0.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 70.0, 1e-4);
    drag_by(-20.0, -20.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 30.0, 1e-4);
    drag_by(0.0, 150.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 100.0, 1e-4);
    own_release(own);
    CHECK_INT(own->port, PORT_FIRST_CONTROL + CONTROL_TOUCH);
    CHECK_NEAR(own->value, 100.0, 0.0);
}

static void with_shift_a_drag_is_ten_times_finer(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), PANE_SHIFT);
    drag_by(0.0, 20.0, PANE_SHIFT);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 51.0, 1e-4);
    own_release(own);
}

static void shift_in_the_middle_of_a_drag_makes_no_leap(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), 0);
    drag_by(0.0, 40.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 70.0, 1e-4);
    drag_by(0.0, 40.0, PANE_SHIFT);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 70.0, 1e-4);
    drag_by(0.0, 20.0, PANE_SHIFT); /* from where Shift was pressed */
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 71.0, 1e-4);
    drag_by(0.0, 20.0, 0);
    drag_by(0.0, -22.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 60.0, 1e-4);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 50.0, 1e-4);
}

static void a_hand_that_trembles_drags_nothing(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), 0);
    drag_by(1.0, 1.0, 0);
    own_release(own);
    CHECK_INT(own->writes, 0);
}

static void a_drag_of_a_whole_port_stays_whole(void)
{
    fresh();
    own_press(own, dial(CONTROL_LEVEL), 0);
    for (int i = 0; i < 100; ++i) {
        drag_by(0.0, 0.7 * i, 0);
    }
    own_release(own);
    CHECK(own->writes > 20);
    CHECK_INT(own->wrong, 0);
}

static void escape_puts_back_what_a_drag_changed(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), 0);
    drag_by(0.0, 60.0, 0);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 50.0, 0.0);
    CHECK_NEAR(own->value, 50.0, 0.0); /* the plugin hears of it */
    CHECK_INT(own->held, 0);
    drag_by(0.0, 80.0, 0); /* the button is still down: nothing is held any more */
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 50.0, 0.0);
}

static void a_double_click_brings_the_default_back(void)
{
    fresh();
    own_say(own, CONTROL_TOUCH, 12.0f);
    own_click(own, dial(CONTROL_TOUCH));
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 12.0, 0.0);
    own_double_click(own, dial(CONTROL_TOUCH));
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 50.0, 0.0);
    CHECK_NEAR(own->value, 50.0, 0.0);
}

static void two_slow_clicks_are_no_double_click(void)
{
    fresh();
    own_say(own, CONTROL_TOUCH, 12.0f);
    own_click(own, dial(CONTROL_TOUCH));
    own_click(own, dial(CONTROL_TOUCH));
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 12.0, 0.0);
}

static void scroll(const TargetId id, const double lines, const uint32_t modifiers)
{
    Target target;
    if (own_find(own, id, &target)) {
        const Fit fit = own->model.fit;
        const PaneEvent event = {.kind = PANE_SCROLL,
                                 .x = fit.x + fit.scale * middle_x(&target),
                                 .y = fit.y + fit.scale * middle_y(&target),
                                 .scroll = lines,
                                 .modifiers = modifiers};
        controller_input(&own->model, &event);
    }
}

static void the_wheel_moves_a_dial_by_a_step(void)
{
    fresh();
    scroll(dial(CONTROL_TOUCH), 1.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 51.0, 1e-4);
    scroll(dial(CONTROL_TOUCH), -1.0, PANE_SHIFT);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 50.9, 1e-4);
    scroll(dial(CONTROL_TOUCH), (double)NAN, 0);
    CHECK_INT(own->wrong, 0);
    own_say(own, CONTROL_TOUCH, 100.0f);
    const int before = own->writes;
    scroll(dial(CONTROL_TOUCH), 1.0, 0); /* at its end: nothing to write */
    CHECK_INT(own->writes, before);
}

static void the_wheel_walks_the_figures(void)
{
    fresh();
    own_say(own, CONTROL_FEET, 1.0f);
    scroll((TargetId){TARGET_CARD, ENTRY_FEET}, -1.0, 0);
    const float next = own_value(own, CONTROL_FEET);
    CHECK(next > 1.0f || next < 1.0f);
    scroll((TargetId){TARGET_CARD, ENTRY_FEET}, 1.0, 0);
    CHECK_NEAR(own_value(own, CONTROL_FEET), 1.0, 0.0);
}

/* ---- Holding */

static void a_dial_that_is_held_is_told_once_each_way(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), 0);
    CHECK_INT(own->held, 1);
    drag_by(0.0, 10.0, 0);
    drag_by(0.0, 20.0, 0);
    CHECK_INT(own->touches, 1);
    own_release(own);
    CHECK_INT(own->held, 0);
    own_release(own); /* once more, as some hosts do */
    CHECK_INT(own->unbalanced, 0);
}

static void a_lost_release_leaves_no_dial_held(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), 0);
    own_press(own, dial(CONTROL_ACCENT), 0);
    CHECK_INT(own->held, 1);
    own_release(own);
    CHECK_INT(own->held, 0);
    CHECK_INT(own->unbalanced, 0);
}

static void a_window_that_closes_lets_go(void)
{
    fresh();
    own_press(own, dial(CONTROL_TOUCH), 0);
    controller_close(&own->model);
    CHECK_INT(own->held, 0);
}

static void another_button_neither_drags_nor_lets_go(void)
{
    fresh();
    Target target;
    own_find(own, dial(CONTROL_TOUCH), &target);
    PaneEvent event = {
        .kind = PANE_PRESS, .x = middle_x(&target), .y = middle_y(&target), .button = 3};
    controller_input(&own->model, &event);
    CHECK_INT(own->held, 0);
    own_press(own, dial(CONTROL_TOUCH), 0);
    event.kind = PANE_RELEASE;
    controller_input(&own->model, &event);
    CHECK_INT(own->held, 1);
    own_release(own);
    CHECK_INT(own->held, 0);
}

static void automation_moves_a_dial_unless_it_is_held(void)
{
    fresh();
    own_say(own, CONTROL_TOUCH, 20.0f);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 20.0, 0.0);
    own_press(own, dial(CONTROL_TOUCH), 0);
    own_say(own, CONTROL_TOUCH, 80.0f);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 20.0, 0.0);
    drag_by(0.0, 20.0, 0);
    own_say(own, CONTROL_TOUCH, 80.0f);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 30.0, 1e-4);
    own_say(own, CONTROL_ACCENT, 80.0f); /* another one goes on moving */
    CHECK_NEAR(own_value(own, CONTROL_ACCENT), 80.0, 0.0);
    own_release(own);
    own_say(own, CONTROL_TOUCH, 80.0f);
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 80.0, 0.0);
}

static void what_the_host_says_is_not_written_back(void)
{
    fresh();
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        own_say(own, (Control)i, control_rows[i].most);
    }
    CHECK_INT(own->writes, 0);
    CHECK_INT(own->touches, 0);
}

/* ---- Clicks */

static void a_click_turns_a_switch(void)
{
    fresh();
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const Control control = (Control)(CONTROL_RIGHT_HAND + limb);
        own_click(own, dial(control));
        CHECK_NEAR(own_value(own, control), 0.0, 0.0);
        own_click(own, dial(control));
        CHECK_NEAR(own_value(own, control), 1.0, 0.0);
    }
    own_click(own, (TargetId){TARGET_CLICK, 0});
    CHECK_NEAR(own_value(own, CONTROL_CLICK), CLICK_ALWAYS, 0.0);
    own_click(own, (TargetId){TARGET_CLICK, 0});
    CHECK_NEAR(own_value(own, CONTROL_CLICK), CLICK_OFF, 0.0);
    CHECK_INT(own->unbalanced, 0);
}

static void a_click_on_a_word_chooses_it(void)
{
    fresh();
    Target target;
    own_find(own, dial(CONTROL_CHANGE_AT), &target);
    for (int word = 0; word < target_choice_words(CONTROL_CHANGE_AT); ++word) {
        const double left = target_choice_edge(target.box, CONTROL_CHANGE_AT, word);
        const double right = target_choice_edge(target.box, CONTROL_CHANGE_AT, word + 1);
        own_mouse(own, PANE_PRESS, (left + right) / 2.0, middle_y(&target), 0);
        own_release(own);
        controller_tick(&own->model, own->model.now + 1.0);
        CHECK_NEAR(own_value(own, CONTROL_CHANGE_AT), word, 0.0);
    }
}

static void a_double_click_loops_a_bar_and_again_the_phrase(void)
{
    fresh();
    own->model.view.place.phrase_bars = 8;
    own_double_click(own, (TargetId){TARGET_BAR, 5});
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 6.0, 0.0);
    own_double_click(own, (TargetId){TARGET_BAR, 5});
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 0.0, 0.0);
    own_click(own, (TargetId){TARGET_BAR, 2});
    CHECK_INT(own->model.view.looked_at, 2);
}

static void the_triangles_of_a_card_walk_it(void)
{
    fresh();
    own_say(own, CONTROL_HANDS, 1.0f);
    own_click(own, (TargetId){TARGET_CARD_DOWN, ENTRY_HANDS});
    CHECK(own_value(own, CONTROL_HANDS) < 1.0f || own_value(own, CONTROL_HANDS) > 1.0f);
    own_click(own, (TargetId){TARGET_CARD_UP, ENTRY_HANDS});
    CHECK_NEAR(own_value(own, CONTROL_HANDS), 1.0, 0.0);
    CHECK(!own->model.view.list.is_open);
}

static void pointing_marks_what_is_under_the_pointer(void)
{
    fresh();
    Target target;
    own_find(own, dial(CONTROL_GHOST), &target);
    own_mouse(own, PANE_MOTION, middle_x(&target), middle_y(&target), 0);
    CHECK(view_target_same(own->model.view.hover, dial(CONTROL_GHOST)));
    const PaneEvent leave = {.kind = PANE_LEAVE};
    controller_input(&own->model, &leave);
    CHECK_INT(own->model.view.hover.kind, TARGET_NONE);
}

static void the_same_in_a_scaled_window(void)
{
    fresh();
    controller_resize(&own->model, 1920, 1080, 2.0);
    CHECK_NEAR(own->model.view.width, 960.0, 1e-9);
    own_press(own, dial(CONTROL_TOUCH), 0);
    drag_by(0.0, 20.0, 0); /* logical pixels */
    CHECK_NEAR(own_value(own, CONTROL_TOUCH), 60.0, 1e-4);
    own_release(own);
}

int main(void)
{
    RUN(a_drag_of_200_pixels_is_the_whole_range);
    RUN(with_shift_a_drag_is_ten_times_finer);
    RUN(shift_in_the_middle_of_a_drag_makes_no_leap);
    RUN(a_hand_that_trembles_drags_nothing);
    RUN(a_drag_of_a_whole_port_stays_whole);
    RUN(escape_puts_back_what_a_drag_changed);
    RUN(a_double_click_brings_the_default_back);
    RUN(two_slow_clicks_are_no_double_click);
    RUN(the_wheel_moves_a_dial_by_a_step);
    RUN(the_wheel_walks_the_figures);
    RUN(a_dial_that_is_held_is_told_once_each_way);
    RUN(a_lost_release_leaves_no_dial_held);
    RUN(a_window_that_closes_lets_go);
    RUN(another_button_neither_drags_nor_lets_go);
    RUN(automation_moves_a_dial_unless_it_is_held);
    RUN(what_the_host_says_is_not_written_back);
    RUN(a_click_turns_a_switch);
    RUN(a_click_on_a_word_chooses_it);
    RUN(a_double_click_loops_a_bar_and_again_the_phrase);
    RUN(the_triangles_of_a_card_walk_it);
    RUN(pointing_marks_what_is_under_the_pointer);
    RUN(the_same_in_a_scaled_window);
    own_desk_close(own);
    return tests_end();
}

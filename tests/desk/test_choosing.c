// SPDX-License-Identifier: ISC
/* A dial of words: a click lays all of them out, and the one that is pressed is the one that
   is set, at once. */
#include "../../ui/scene/practice.h"
#include "../help/check.h"
#include "fresh_desk.h"

static bool is_of_words(const Control control)
{
    const Dial* const dial = dial_of(control);
    return dial->kind == DIAL_VALUE && dial->form == FORM_WORDS;
}

/* On its panel, with whatever else it needs; in a small window on its row. */
static void go_to(const Control control)
{
    View* const view = &own->model.view;
    own_say(own, CONTROL_CLOCK, 1.0f);
    view->panel = (Panel)dial_of(control)->panel;
    view->page = view->panel == PANEL_PRACTICE
                     ? practice_page(dial_of(control)->column, dial_of(control)->row)
                     : dial_of(control)->row;
}

static void press_each(const Control control)
{
    const ControlRow* const row = &control_rows[control];
    for (int word = 0; word <= (int)(row->most - row->least); ++word) {
        own_click(own, (TargetId){TARGET_DIAL, (int)control});
        check_case("%s, word %d", dial_of(control)->label, word);
        CHECK(own->model.view.is_choosing);
        own_click(own, (TargetId){TARGET_WORD, word});
        CHECK_NEAR(own_value(own, control), row->least + (float)word, 0.0);
        CHECK(!own->model.view.is_choosing);
        CHECK(view_target_same(own->model.view.focus, (TargetId){TARGET_DIAL, (int)control}));
    }
}

static void the_word_pressed_is_the_word_set_on_every_dial(void)
{
    int dials = 0;
    for (int size = 0; size < 2; ++size) {
        fresh();
        controller_resize(&own->model, size ? 720 : 960, size ? 420 : 540, 1.0);
        for (int control = 0; control < CONTROL_COUNT; ++control) {
            if (is_of_words((Control)control)) {
                go_to((Control)control);
                press_each((Control)control);
                ++dials;
            }
        }
        CHECK_INT(own->wrong, 0);
        CHECK_INT(own->held, 0);
    }
    CHECK(dials >= 14);
}

static void a_drag_lays_nothing_out(void)
{
    Target target;
    fresh();
    go_to(CONTROL_FEET_GRID);
    CHECK(own_find(own, (TargetId){TARGET_DIAL, CONTROL_FEET_GRID}, &target));
    own_press(own, (TargetId){TARGET_DIAL, CONTROL_FEET_GRID}, 0);
    own_mouse(own, PANE_MOTION, middle_x(&target) + 60.0, middle_y(&target), 0);
    own_release(own);
    CHECK(!own->model.view.is_choosing);
    CHECK(own_value(own, CONTROL_FEET_GRID) > 0.0f);
}

static void a_double_click_is_still_the_default(void)
{
    fresh();
    go_to(CONTROL_REALIGN);
    own_say(own, CONTROL_REALIGN, 2.0f);
    Target target;
    CHECK(own_find(own, (TargetId){TARGET_DIAL, CONTROL_REALIGN}, &target));
    for (int click = 0; click < 2; ++click) {
        own_mouse(own, PANE_PRESS, middle_x(&target), middle_y(&target), 0);
        own_mouse(own, PANE_RELEASE, middle_x(&target), middle_y(&target), 0);
    }
    CHECK(!own->model.view.is_choosing);
    CHECK_NEAR(own_value(own, CONTROL_REALIGN), control_rows[CONTROL_REALIGN].normal, 0.0);
}

static void keys_lay_words_out_walk_pick_and_leave_them(void)
{
    fresh();
    go_to(CONTROL_FEET_GRID);
    focus(TARGET_DIAL, CONTROL_FEET_GRID);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK(own->model.view.is_choosing);
    CHECK(view_target_same(own->model.view.focus, (TargetId){TARGET_WORD, 0}));
    for (int i = 0; i < 5; ++i) {
        own_key(own, PANE_KEY_RIGHT, 0);
    }
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_FEET_GRID), 5.0, 0.0);
    own_key(own, PANE_KEY_ENTER, 0);
    own_key(own, PANE_KEY_RIGHT, 0);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK(!own->model.view.is_choosing);
    CHECK_NEAR(own_value(own, CONTROL_FEET_GRID), 5.0, 0.0);
}

static void a_click_elsewhere_leaves_them_and_counts(void)
{
    fresh();
    go_to(CONTROL_FEET_GRID);
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_FEET_GRID});
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_ENABLED});
    CHECK(!own->model.view.is_choosing);
    CHECK_NEAR(own_value(own, CONTROL_ENABLED), 0.0, 0.0);
    CHECK_NEAR(own_value(own, CONTROL_FEET_GRID), 0.0, 0.0);
}

int main(void)
{
    RUN(the_word_pressed_is_the_word_set_on_every_dial);
    RUN(a_drag_lays_nothing_out);
    RUN(a_double_click_is_still_the_default);
    RUN(keys_lay_words_out_walk_pick_and_leave_them);
    RUN(a_click_elsewhere_leaves_them_and_counts);
    own_desk_close(own);
    return tests_end();
}

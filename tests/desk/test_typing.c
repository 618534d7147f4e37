// SPDX-License-Identifier: ISC
/* Values typed into a dial. */
#include "../help/check.h"
#include "fresh_desk.h"

static void escape_leaves_a_value_as_it_was(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    const float before = own_value(own, CONTROL_LOOSENESS);
    own_type(own, "3");
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), (double)before, 0.0);
    CHECK(!own->model.view.is_typing);
    CHECK_INT(own->writes, 0);
}

static void what_is_typed_can_be_taken_back(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "29");
    own_key(own, PANE_KEY_BACKSPACE, 0);
    own_type(own, "0");
    CHECK_TEXT(own->model.view.typed, "20");
    for (int i = 0; i < 5; ++i) {
        own_key(own, PANE_KEY_BACKSPACE, 0);
    }
    CHECK_TEXT(own->model.view.typed, "");
    own_type(own, "7 ms");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), 7.0, 0.0);
}

static void a_ratio_can_be_typed_as_one(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_SWING_RATIO);
    own_type(own, "3:2");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_SWING_RATIO), 1.5, 1e-6);
}

static void what_cannot_be_taken_is_said_and_stays_to_be_changed(void)
{
    static const char* const typed[] = {"3xyz", "9x", "5000", "-1"};
    for (int i = 0; i < 4; ++i) {
        fresh();
        focus(TARGET_DIAL, CONTROL_LOOSENESS);
        own_type(own, typed[i]);
        own_key(own, PANE_KEY_ENTER, 0);
        check_case("%s", typed[i]);
        CHECK_INT(own->writes, 0);
        CHECK(own->model.view.is_typing);
        CHECK_TEXT(own->model.view.typed, typed[i]);
        CHECK(strstr(own->model.view.refused, typed[i]));
        CHECK(strstr(own->model.view.refused, "0 to 30 ms"));
    }
    own_key(own, PANE_KEY_BACKSPACE, 0);
    CHECK_TEXT(own->model.view.refused, "");
    own_key(own, PANE_KEY_BACKSPACE, 0);
    own_type(own, "12");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), 12.0, 0.0);
    CHECK(!own->model.view.is_typing);
}

static void nothing_typed_is_nothing_set(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "3");
    own_key(own, PANE_KEY_BACKSPACE, 0);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK(!own->model.view.is_typing);
    CHECK_INT(own->writes, 0);
}

static void more_than_there_is_room_for_is_left_out(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    for (int i = 0; i < 200; ++i) {
        own_type(own, "1");
    }
    CHECK_INT(strlen(own->model.view.typed), TYPED_ROOM - 1);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_INT(own->writes, 0);
    CHECK(*own->model.view.refused);
}

static void clicking_elsewhere_ends_typing_without_a_change(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    const float before = own_value(own, CONTROL_LOOSENESS);
    own_type(own, "3");
    own_click(own, (TargetId){TARGET_TAB, PANEL_RHYTHM});
    CHECK(!own->model.view.is_typing);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), (double)before, 0.0);
}

int main(void)
{
    RUN(escape_leaves_a_value_as_it_was);
    RUN(what_is_typed_can_be_taken_back);
    RUN(a_ratio_can_be_typed_as_one);
    RUN(what_cannot_be_taken_is_said_and_stays_to_be_changed);
    RUN(nothing_typed_is_nothing_set);
    RUN(more_than_there_is_room_for_is_left_out);
    RUN(clicking_elsewhere_ends_typing_without_a_change);
    own_desk_close(own);
    return tests_end();
}

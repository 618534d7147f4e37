// SPDX-License-Identifier: ISC
/* test_triggers.c - a control that is on for a moment: by key, mouse and Enter, long enough
   for every host, and back by itself. */
#include "../help/check.h"
#include "fresh_desk.h"

static const TargetId fill_now = {TARGET_DIAL, CONTROL_FILL_NOW};

static void after(const double seconds)
{
    controller_tick(&own->model, own->model.now + seconds);
}

static void check_on_and_back(const int writes)
{
    CHECK_INT(own->writes, writes + 1);
    CHECK_INT(own->port, PORT_FIRST_CONTROL + CONTROL_FILL_NOW);
    CHECK_NEAR(own->value, 1.0, 0.0);
    after(0.19); /* a block of 8192 frames at 44.1 kHz lasts 0.186 s */
    CHECK_INT(own->writes, writes + 1);
    after(0.2);
    CHECK_INT(own->writes, writes + 2);
    CHECK_NEAR(own->value, 0.0, 0.0);
    after(5.0);
    CHECK_INT(own->writes, writes + 2);
    CHECK_INT(own->held, 0);
}

static void n_asks_for_a_fill_and_the_port_goes_back(void)
{
    fresh();
    const int writes = own->writes;
    own_key(own, 'n', 0);
    check_on_and_back(writes);
    own_key(own, 'n', 0);
    check_on_and_back(writes + 2);
}

static void a_click_and_enter_do_the_same(void)
{
    fresh();
    own_click(own, (TargetId){TARGET_TAB, PANEL_FILLS});
    int writes = own->writes;
    own_click(own, fill_now);
    check_on_and_back(writes);
    writes = own->writes;
    own_key(own, PANE_KEY_ENTER, 0);
    check_on_and_back(writes);
}

/* Nothing else turns it: it would stay on. */
static void wheel_and_arrows_leave_it_alone(void)
{
    fresh();
    own_click(own, (TargetId){TARGET_TAB, PANEL_FILLS});
    own_click(own, fill_now);
    after(1.0);
    const int writes = own->writes;
    own_key(own, PANE_KEY_UP, 0);
    own_key(own, PANE_KEY_END, 0);
    own_key(own, PANE_KEY_DELETE, 0);
    own_key(own, '1', 0);
    Target target;
    CHECK(own_find(own, fill_now, &target));
    const PaneEvent wheel = {
        .kind = PANE_SCROLL, .scroll = 1.0, .x = middle_x(&target), .y = middle_y(&target)};
    controller_input(&own->model, &wheel);
    CHECK_NEAR(own_value(own, CONTROL_FILL_NOW), 0.0, 0.0);
    CHECK_INT(own->writes, writes + 1); /* key 1 is the right hand */
}

/* What the host turns is the host's to put back. */
static void a_host_s_own_trigger_is_left_to_it(void)
{
    fresh();
    const int writes = own->writes;
    own_say(own, CONTROL_FILL_NOW, 1.0f);
    after(9.0);
    CHECK_INT(own->writes, writes);
}

static void a_window_that_closes_leaves_none_on(void)
{
    fresh();
    own_key(own, 'n', 0);
    const int writes = own->writes;
    controller_close(&own->model);
    CHECK_INT(own->writes, writes + 1);
    CHECK_NEAR(own->value, 0.0, 0.0);
    bank_free(own->bank);
    uri_table_free(own->table);
    free(own);
    own = NULL;
}

int main(void)
{
    RUN(n_asks_for_a_fill_and_the_port_goes_back);
    RUN(a_click_and_enter_do_the_same);
    RUN(wheel_and_arrows_leave_it_alone);
    RUN(a_host_s_own_trigger_is_left_to_it);
    RUN(a_window_that_closes_leaves_none_on);
    return tests_end();
}

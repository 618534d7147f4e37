// SPDX-License-Identifier: ISC
/* Windows come and go at any moment, several at once, in hosts that offer much or
   nothing; each part in a process of its own, which an X error would end. */
#include "rig.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WINDOWS = 3 };

static const RigOffer usual = {.features = RIG_ALL};

/* ---- Several */

static const RigOffer places[WINDOWS] = {
    {.features = RIG_ALL},
    {.features = RIG_ALL, .x = 980},
    {.features = RIG_ALL, .y = 600},
};

static bool is_same(Rig* const rig)
{
    cairo_surface_t* const got = rig_picture(rig);
    cairo_surface_t* const want = rig_wanted(rig);
    const bool same = got && rig_difference(got, want, 0) == 0;
    cairo_surface_destroy(want);
    cairo_surface_destroy(got);
    return same;
}

static bool is_right(Rig* const rig)
{
    return CHECK(rig_waits(rig, is_same));
}

static bool three(void)
{
    static Rig rigs[WINDOWS];
    bool held = true;
    for (int i = 0; held && i < WINDOWS; ++i) {
        held = rig_open(&rigs[i], &places[i]);
        if (held) { /* each plays another groove */
            rig_tell_control(&rigs[i], CONTROL_GROOVE, (float)(i + 2));
        }
    }
    for (int turn = 0; held && turn < 10; ++turn) {
        for (int i = 0; held && i < WINDOWS; ++i) {
            held = CHECK(rig_rest(&rigs[i], 0.01));
        }
    }
    for (int i = 0; held && i < WINDOWS; ++i) {
        held = is_right(&rigs[i]);
    }
    rig_close(&rigs[1]); /* not in the order they came */
    held = held && CHECK(rig_rest(&rigs[0], 0.05)) && CHECK(rig_rest(&rigs[2], 0.05)) &&
           is_right(&rigs[0]) && is_right(&rigs[2]);
    rig_close(&rigs[0]);
    held = held && CHECK(rig_rest(&rigs[2], 0.05)) && is_right(&rigs[2]);
    rig_close(&rigs[2]);
    return held;
}

static void three_windows_of_three_plugins_show_each_its_own(void)
{
    CHECK_INT(apart(three), 1);
}

/* ---- Closing */

static bool unseen(void)
{
    Rig rig;
    const bool held = rig_open(&rig, &usual);
    rig_close(&rig); /* before the first idle */
    return held;
}

static bool tool(const char* const words[])
{
    return CHECK_INT(run_program(words), 0);
}

static bool has_written(Rig* const rig)
{
    return rig->write_count > 0 && rig->writes[rig->write_count - 1].did == RIG_WROTE;
}

static bool has_let_go(Rig* const rig)
{
    return rig->write_count > 0 && rig->writes[rig->write_count - 1].did == RIG_LET_GO;
}

/* Takes hold of a dial and moves it up by some pixels. */
static bool begin_drag(Rig* const rig, const Control control)
{
    int x = 0;
    int y = 0;
    char left[16];
    char top[16];
    if (!CHECK(rig_rest(rig, 0.05))) {
        return false;
    }
    rig_find(rig, (TargetId){TARGET_DIAL, (int)control}, &x, &y);
    snprintf(left, sizeof left, "%d", x);
    snprintf(top, sizeof top, "%d", y);
    return tool((const char* const[]){"xdotool", "mousemove", left, top, "mousedown", "1",
                                      "mousemove_relative", "--", "0", "-20", NULL}) &&
           CHECK(rig_waits(rig, has_written));
}

static bool held_fast(void)
{
    Rig rig;
    const bool held = rig_open(&rig, &usual) && begin_drag(&rig, CONTROL_LEVEL);
    rig_close(&rig);
    tool((const char* const[]){"xdotool", "mouseup", "1", NULL});
    return held;
}

static bool orphaned(void)
{
    Rig rig;
    bool held = rig_open(&rig, &usual) && CHECK(rig_rest(&rig, 0.05));
    if (held) {
        XDestroyWindow(rig.display, rig.parent);
        XSync(rig.display, False);
        rig_tell(&rig, PORT_FIRST_CONTROL + CONTROL_GROOVE, 9.0f);
        held = CHECK(rig_ends(&rig)) && CHECK(!rig_idle(&rig));
        rig_tell(&rig, PORT_FIRST_CONTROL + CONTROL_GROOVE, 8.0f);
    }
    rig_close(&rig);
    return held;
}

static bool orphaned_unseen(void)
{
    Rig rig;
    const bool held = rig_open(&rig, &usual);
    if (held) {
        XDestroyWindow(rig.display, rig.parent);
        XSync(rig.display, False);
    }
    rig_close(&rig);
    return held;
}

/* As a client of the server may that kills what hangs. */
static bool cut_off(void)
{
    Rig rig;
    bool held = rig_open(&rig, &usual) && CHECK(rig_rest(&rig, 0.05));
    if (held) {
        XKillClient(rig.display, (Window)rig.widget);
        XSync(rig.display, False);
        rig_tell(&rig, PORT_FIRST_CONTROL + CONTROL_GROOVE, 9.0f);
        held = CHECK(rig_ends(&rig)) && CHECK(!rig_idle(&rig));
        rig_tell(&rig, PORT_FIRST_CONTROL + CONTROL_GROOVE, 8.0f);
        rig_close_window(&rig);
        held = held && CHECK(XSync(rig.display, False)) && CHECK(rig_open_window(&rig)) &&
               CHECK(rig_rest(&rig, 0.1)); /* and opens again */
    }
    rig_close(&rig);
    return held;
}

static void a_window_may_be_closed_at_any_moment(void)
{
    CHECK_INT(apart(unseen), 1);
    CHECK_INT(apart(held_fast), 1);
    CHECK_INT(apart(orphaned), 1);
    CHECK_INT(apart(orphaned_unseen), 1);
    CHECK_INT(apart(cut_off), 1);
}

/* A window of its own, asked to close as window managers ask: ICCCM 4.2.8.1. */
static bool asked(void)
{
    Rig rig;
    const RigOffer apart_from_all = {.features = RIG_LOG};
    bool held = rig_open(&rig, &apart_from_all) && CHECK(rig_rest(&rig, 0.05));
    if (held) {
        XEvent event = {.xclient = {.type = ClientMessage,
                                    .window = (Window)rig.widget,
                                    .message_type = XInternAtom(rig.display, "WM_PROTOCOLS", False),
                                    .format = 32}};
        event.xclient.data.l[0] = (long)XInternAtom(rig.display, "WM_DELETE_WINDOW", False);
        XSendEvent(rig.display, (Window)rig.widget, False, NoEventMask, &event);
        XSync(rig.display, False);
        held = CHECK(rig_ends(&rig));
    }
    rig_close(&rig);
    return held;
}

static void a_window_asked_to_close_says_so_to_its_host(void)
{
    CHECK_INT(apart(asked), 1);
}

/* ---- Hosts */

static bool bare(void)
{
    Rig rig;
    const RigOffer nothing = {0};
    bool held = rig_open(&rig, &nothing) && CHECK(rig_rest(&rig, 0.1)) && is_right(&rig) &&
                begin_drag(&rig, CONTROL_LEVEL);
    for (int i = 0; held && i < rig.write_count; ++i) {
        held = CHECK_INT(rig.writes[i].did, RIG_WROTE) &&
               CHECK_INT(rig.writes[i].port, PORT_FIRST_CONTROL + CONTROL_LEVEL);
    }
    held = held && CHECK_INT(rig.asked_width, 0);
    tool((const char* const[]){"xdotool", "mouseup", "1", NULL});
    rig_close(&rig);
    return held;
}

static void a_host_without_a_single_extra_gets_a_window_that_works(void)
{
    CHECK_INT(apart(bare), 1);
}

/* LV2's ui:touch: begin, values, end.  The value goes up with the pointer. */
static bool touched(void)
{
    Rig rig;
    bool held = rig_open(&rig, &usual) && begin_drag(&rig, CONTROL_LEVEL) &&
                tool((const char* const[]){"xdotool", "mouseup", "1", NULL}) &&
                CHECK(rig_waits(&rig, has_let_go));
    const int last = rig.write_count - 1;
    held = held && CHECK(last >= 2) && CHECK_INT(rig.writes[0].did, RIG_HELD) &&
           CHECK_INT(rig.writes[last].did, RIG_LET_GO);
    float before = control_rows[CONTROL_LEVEL].normal;
    for (int i = 0; held && i <= last; ++i) {
        held = CHECK_INT(rig.writes[i].port, PORT_FIRST_CONTROL + CONTROL_LEVEL);
        if (held && i > 0 && i < last) {
            held = CHECK_INT(rig.writes[i].did, RIG_WROTE) && CHECK(rig.writes[i].value > before);
            before = rig.writes[i].value;
        }
    }
    held = held && CHECK_NEAR(host_get(rig.plugin, "level"), before, 0);
    rig_close(&rig);
    return held;
}

static void a_drag_is_a_touch_from_its_beginning_to_its_end(void)
{
    CHECK_INT(apart(touched), 1);
}

/* As jalv 1.6.6 does now and then that closes in full swing: its handle is nothing then. */
static bool told_when_gone(void)
{
    Rig rig;
    const float value = 1.0f;
    const bool held = rig_open(&rig, &usual);
    if (held) {
        rig_close_window(&rig);
        rig.descriptor->port_event(NULL, PORT_FIRST_CONTROL, sizeof value, 0, &value);
    }
    rig_close(&rig);
    return held;
}

static void a_port_told_to_a_window_that_is_gone_does_no_harm(void)
{
    CHECK_INT(apart(told_when_gone), 1);
}

static bool unheard(void)
{
    Rig rig;
    bool held = rig_prepare(&rig, &usual) && CHECK(!rig.display) && CHECK(!rig_open_window(&rig)) &&
                CHECK(strstr(rig.said, "display"));
    rig_close(&rig);
    return held;
}

static void without_a_display_there_is_no_window_and_the_log_says_why(void)
{
    CHECK_INT(apart(unheard), 1);
}

int main(void)
{
    child_guard(NULL);
    unsetenv("DISPLAY");
    RUN(without_a_display_there_is_no_window_and_the_log_says_why);
    if (xvfb_open()) {
        RUN(three_windows_of_three_plugins_show_each_its_own);
        RUN(a_window_may_be_closed_at_any_moment);
        RUN(a_window_asked_to_close_says_so_to_its_host);
        RUN(a_host_without_a_single_extra_gets_a_window_that_works);
        RUN(a_port_told_to_a_window_that_is_gone_does_no_harm);
        RUN(a_drag_is_a_touch_from_its_beginning_to_its_end);
        xvfb_end();
    }
    return tests_end();
}

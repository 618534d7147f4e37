// SPDX-License-Identifier: ISC
/* A pane does its host no harm: a test for each fault of Debian 12's Pugl and of
   Xlib that ui/pane/pane.c cures (the second is in test_cycles.c).  Seen from outside: by a second X connection, by
   GLX itself.  tests/pane/cures.sh takes each cure out and
   looks whether its test then fails; it gives a test's number as argument. */
#include "host.h"
#include "xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* ---- 1: the window is there */

static bool other_clients_see_it(void)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    Pane* const pane = host_open(&host, 300, 200);
    /* An X error ends this process, as it would a host. */
    XWindowAttributes seen = {0};
    bool held = pane && CHECK(XGetWindowAttributes(host.display, pane_window(pane), &seen));
    held = held && CHECK_INT(seen.width, 300) && CHECK_INT(seen.height, 200) &&
           CHECK_INT(seen.map_state, IsViewable) && CHECK_INT(host.early, 0);
    pane_close(pane);
    host_end(&host);
    return held;
}

static void another_client_sees_the_window_as_soon_as_it_is_open(void)
{
    for (int i = 0; i < 6; ++i) {
        CHECK_INT(apart(other_clients_see_it), 1);
    }
}

/* ---- 3: the host's own drawing */

static bool it_stays_current(void)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    host_draws(&host);
    bool held = CHECK(host.context) && CHECK(host_still_draws(&host));
    Pane* const pane = host_open(&host, 300, 200);
    uint32_t* const picture = host_picture(300, 200, 0);
    held = held && CHECK(host_still_draws(&host));
    pane_upload(pane, PANE_PLAIN, (const unsigned char*)picture, 300, 200, 1200, (PaneRect){0});
    held = held && CHECK(host_still_draws(&host));
    pane_poll(pane);
    held = held && CHECK(host_still_draws(&host));
    pane_close(pane);
    held = held && CHECK(host_still_draws(&host)) && CHECK(glGetString(GL_VERSION));
    free(picture);
    host_end(&host);
    return held;
}

static bool none_stays_none(void)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    Pane* const pane = host_open(&host, 300, 200);
    bool held = CHECK(host_still_draws(&host));
    host_settle(&host, pane);
    held = CHECK(host_still_draws(&host)) && held;
    pane_close(pane);
    held = CHECK(host_still_draws(&host)) && held;
    host_end(&host);
    return held;
}

static void the_hosts_own_drawing_goes_on_undisturbed(void)
{
    CHECK_INT(apart(it_stays_current), 1);
    CHECK_INT(apart(none_stays_none), 1);
}

/* ---- 4: the parent goes first */

static bool it_tells(const bool poll, const bool dirty)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    Pane* const pane = host_open(&host, 300, 200);
    host_settle(&host, pane);
    XDestroyWindow(host.display, host.parent);
    XSync(host.display, False);
    const PaneQuad quad = {.place = {0, 0, 9, 9}, .layer = PANE_COLOUR, .alpha = 1};
    pane_show(pane, &quad, dirty);
    bool held = !poll || (CHECK(host_wait_for_the_end(pane)) && CHECK(!pane_poll(pane)));
    held = held && CHECK(!poll || !pane_take_focus(pane));
    pane_resize(pane, 10, 10);
    pane_close(pane);
    /* The host's connection is whole, and its errors are its own again. */
    held = held && CHECK(XSync(host.display, False));
    host_end(&host);
    return held;
}

static bool it_tells_when_polled(void)
{
    return it_tells(true, true);
}

static bool it_tells_at_rest(void)
{
    return it_tells(true, false);
}

static bool it_closes_unpolled(void)
{
    return it_tells(false, true);
}

static void a_parent_destroyed_first_ends_the_pane_and_not_the_host(void)
{
    CHECK_INT(apart(it_tells_when_polled), 1);
    CHECK_INT(apart(it_tells_at_rest), 1);
    CHECK_INT(apart(it_closes_unpolled), 1);
}

/* ---- 6: the pane's connection is broken, as any client of the server may */

/* As GTK's: Xlib's own manual says that one that returns ends the process. */
static int host_exits(Display* const display)
{
    (void)display;
    _exit(1);
}

static bool it_outlives_its_connection(const bool poll, const bool dirty)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    XSetIOErrorHandler(host_exits);
    Pane* const pane = host_open(&host, 300, 200);
    Pane* const other = host_open(&host, 100, 50);
    host_settle(&host, pane);
    XKillClient(host.display, pane_window(pane));
    XSync(host.display, False);
    const PaneQuad quad = {.place = {0, 0, 9, 9}, .layer = PANE_COLOUR, .alpha = 1};
    pane_show(pane, &quad, dirty);
    bool held = !poll || (CHECK(host_wait_for_the_end(pane)) && CHECK(!pane_poll(pane)));
    held = held && CHECK(!poll || !pane_take_focus(pane));
    pane_resize(pane, 10, 10);
    uint32_t* const picture = host_picture(300, 200, 0);
    held = CHECK(!poll || !pane_upload(pane, PANE_PLAIN, (const unsigned char*)picture, 300, 200,
                                       1200, (PaneRect){0})) &&
           held;
    free(picture);
    pane_close(pane);
    /* The host and its other windows go on, and its handler is its own again. */
    held = held && CHECK(XSync(host.display, False)) && CHECK(host_settle(&host, other)) &&
           CHECK(XSetIOErrorHandler(NULL) == host_exits);
    pane_close(other);
    host_end(&host);
    return held;
}

static bool cut_when_polled(void)
{
    return it_outlives_its_connection(true, true);
}

static bool cut_at_rest(void)
{
    return it_outlives_its_connection(true, false);
}

static bool cut_unpolled(void)
{
    return it_outlives_its_connection(false, true);
}

static void a_connection_cut_by_another_client_ends_the_pane_and_not_the_host(void)
{
    CHECK_INT(apart(cut_when_polled), 1);
    CHECK_INT(apart(cut_at_rest), 1);
    CHECK_INT(apart(cut_unpolled), 1);
}

/* ---- 5: no display, no GLX, no parent */

static char reason[256];

static bool it_is_refused(const uintptr_t parent, const char* const because)
{
    const PaneRequest request = {.parent = parent, .width = 300, .height = 200};
    Pane* const pane = pane_open(&request, reason);
    const bool held = CHECK(!pane) && CHECK(strstr(reason, because));
    if (!held) {
        printf("# said: %s\n", reason);
    }
    return held;
}

static bool no_display(void)
{
    unsetenv("DISPLAY");
    const bool unset = it_is_refused(0, "DISPLAY");
    setenv("DISPLAY", ":4711", 1);
    return it_is_refused(0, ":4711") && unset && CHECK_NEAR(pane_display_scale(), 1, 0);
}

static bool no_glx(void)
{
    return it_is_refused(0, "GLX");
}

static bool no_parent(void)
{
    return it_is_refused(0x7654321, "0x7654321");
}

static void without_a_display_or_a_parent_the_reason_is_told(void)
{
    CHECK_INT(apart(no_display), 1);
    CHECK_INT(apart(no_parent), 1);
}

static void without_glx_the_reason_is_told(void)
{
    CHECK_INT(apart(no_glx), 1);
}

/* ---- and several at once */

static bool three_live(void)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    Pane* panes[3];
    bool held = true;
    for (int i = 0; i < 3; ++i) {
        panes[i] = i == 1 ? host_open_apart(&host, 101 + i, 50) : host_open(&host, 101 + i, 50);
        XMoveWindow(host.display, pane_window(panes[i]), 150 * i, i == 1 ? 500 : 0);
        XSync(host.display, False);
        uint32_t* const picture = host_picture(101 + i, 50, 80 * i);
        held = held && panes[i] &&
               CHECK(pane_upload(panes[i], PANE_PLAIN, (const unsigned char*)picture, 101 + i, 50,
                                 4 * (101 + i), (PaneRect){0}));
        free(picture);
    }
    for (int i = 0; held && i < 3; ++i) {
        host_settle(&host, panes[i]);
        held = CHECK_INT(host_strangers(&host, panes[i], (PaneRect){0, 0, 101 + i, 50}, 80 * i), 0);
        pane_close(panes[i]);
    }
    host_end(&host);
    return held;
}

static void three_panes_live_in_one_process(void)
{
    CHECK_INT(apart(three_live), 1);
}

/* ---- */

typedef struct {
    const char* name;
    void (*test)(void);
    const char* without;
} Row;

#define ROW(test, without)                                                                         \
    {                                                                                              \
#test, test, without                                                                       \
    }

static const Row ROWS[] = {
    ROW(another_client_sees_the_window_as_soon_as_it_is_open, NULL),
    ROW(the_hosts_own_drawing_goes_on_undisturbed, NULL),
    ROW(a_parent_destroyed_first_ends_the_pane_and_not_the_host, NULL),
    ROW(without_a_display_or_a_parent_the_reason_is_told, NULL),
    ROW(without_glx_the_reason_is_told, "GLX"),
    ROW(three_panes_live_in_one_process, NULL),
    ROW(a_connection_cut_by_another_client_ends_the_pane_and_not_the_host, NULL),
};
enum { ROW_COUNT = sizeof ROWS / sizeof *ROWS };

/* test_run takes a function without arguments. */
static const Row* now;

static void run_row(void)
{
    if (xvfb_here(now->without)) {
        now->test();
        xvfb_end();
    }
}

int main(const int count, char** const arguments)
{
    const int only = count > 1 ? atoi(arguments[1]) : 0;
    child_guard(NULL);
    for (int i = 0; i < ROW_COUNT; ++i) {
        now = &ROWS[i];
        if (!only || only == i + 1) {
            test_run(now->name, run_row);
        }
    }
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* What the mouse and the keys do arrives.  They are moved by xdotool, through the
   X server's XTEST extension, as a person's would be. */
#include "input.h"

#include <X11/Xatom.h>
#include <X11/keysym.h>
#include <string.h>

static bool click(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    TOOL("mousemove", "123", "45", "click", "1", "keydown", "shift", "click", "3", "keyup",
         "shift");
    const PaneEvent* const press = wait_for(&stage, PANE_PRESS);
    bool held = press && wait_for(&stage, PANE_RELEASE) && CHECK_NEAR(press->x, 123, 0) &&
                CHECK_NEAR(press->y, 45, 0) && CHECK_INT(press->button, 1) &&
                CHECK_INT(press->modifiers, 0);
    const PaneEvent* const last = host_wait(&stage.host, stage.pane, PANE_RELEASE, 2);
    held =
        held && CHECK(last) && CHECK_INT(last->button, 3) && CHECK_INT(last->modifiers, PANE_SHIFT);
    end(&stage);
    return held;
}

static void a_click_arrives_with_its_place_button_and_modifiers(void)
{
    CHECK_INT(apart(click), 1);
}

static bool drag(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    TOOL("mousedown", "1", "mousemove", "400", "300");
    const PaneEvent* const motion = wait_for(&stage, PANE_MOTION);
    TOOL("mouseup", "1");
    const PaneEvent* const release = wait_for(&stage, PANE_RELEASE);
    const bool held = release && motion && CHECK_NEAR(motion->x, 400, 0) &&
                      CHECK_NEAR(motion->y, 300, 0) && CHECK_NEAR(release->x, 400, 0) &&
                      wait_for(&stage, PANE_LEAVE);
    end(&stage);
    return held;
}

static void a_drag_goes_on_outside_and_leaving_is_told(void)
{
    CHECK_INT(apart(drag), 1);
}

static bool wheel(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    TOOL("mousemove", "77", "88", "click", "4");
    const PaneEvent* const up = wait_for(&stage, PANE_SCROLL);
    bool held =
        up && CHECK_NEAR(up->scroll, 1, 0) && CHECK_NEAR(up->x, 77, 0) && CHECK_NEAR(up->y, 88, 0);
    host_forget(&stage.host);
    TOOL("keydown", "ctrl", "click", "5", "keyup", "ctrl", "click", "6");
    const PaneEvent* const down = wait_for(&stage, PANE_SCROLL);
    held =
        held && down && CHECK_NEAR(down->scroll, -1, 0) && CHECK_INT(down->modifiers, PANE_CONTROL);
    end(&stage);
    return held;
}

static void a_wheel_scrolls_where_the_pointer_is(void)
{
    CHECK_INT(apart(wheel), 1);
}

typedef struct {
    const char* press; /* as xdotool calls it */
    uint32_t key, text, modifiers;
} Row;

static const Row ROWS[] = {
    {"a", 'a', 'a', 0},
    {"shift+a", 'a', 'A', PANE_SHIFT},
    {"7", '7', '7', 0},
    {"minus", '-', '-', 0},
    {"space", ' ', ' ', 0},
    {"ctrl+z", 'z', 0, PANE_CONTROL},
    {"ctrl+h", 'h', 0, PANE_CONTROL},
    {"ctrl+BackSpace", PANE_KEY_BACKSPACE, 0, PANE_CONTROL},
    {"U0151", 0x151, 0x151, 0},
    {"alt+c", 'c', 0, PANE_ALT},
    {"super+c", 'c', 0, PANE_SUPER},
    {"eacute", 0xe9, 0xe9, 0},
    {"Up", PANE_KEY_UP, 0, 0},
    {"Down", PANE_KEY_DOWN, 0, 0},
    {"shift+Left", PANE_KEY_LEFT, 0, PANE_SHIFT},
    {"Right", PANE_KEY_RIGHT, 0, 0},
    {"Prior", PANE_KEY_PAGE_UP, 0, 0},
    {"Next", PANE_KEY_PAGE_DOWN, 0, 0},
    {"Home", PANE_KEY_HOME, 0, 0},
    {"End", PANE_KEY_END, 0, 0},
    {"Insert", PANE_KEY_INSERT, 0, 0},
    {"Return", PANE_KEY_ENTER, 0, 0},
    {"KP_Enter", PANE_KEY_ENTER, 0, 0},
    {"Escape", PANE_KEY_ESCAPE, 0, 0},
    {"Tab", PANE_KEY_TAB, 0, 0},
    {"shift+Tab", PANE_KEY_TAB, 0, PANE_SHIFT},
    {"BackSpace", PANE_KEY_BACKSPACE, 0, 0},
    {"Delete", PANE_KEY_DELETE, 0, 0},
    {"F1", PANE_KEY_F1, 0, 0},
    {"F12", PANE_KEY_F12, 0, 0},
    {"KP_Left", PANE_KEY_LEFT, 0, 0},
};

/* Two keys of another layout on key codes that this one leaves free: Latin-1, and
   beyond it as a Unicode keysym (X11 protocol, appendix A). */
static void change_layout(const Host* const host)
{
    KeySym symbols[] = {XK_eacute, 0x1000151};
    int first = 0;
    int last = 0;
    XDisplayKeycodes(host->display, &first, &last);
    XChangeKeyboardMapping(host->display, last - 1, 1, symbols, 2);
    XSync(host->display, False);
}

static bool keys(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    TOOL("key", "z"); /* so that the pane knows the layout before */
    CHECK(wait_for(&stage, PANE_KEY));
    change_layout(&stage.host);
    bool held = true;
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; ++i) {
        const Row* const row = &ROWS[i];
        check_case("%s", row->press);
        host_forget(&stage.host);
        TOOL("key", row->press);
        const PaneEvent* const event = wait_for(&stage, PANE_KEY);
        host_settle(&stage.host, stage.pane);
        held = (event && CHECK_INT(event->key, row->key) && CHECK_INT(event->text, row->text) &&
                CHECK_INT(event->modifiers, row->modifiers) && CHECK_INT(stage.host.count, 1)) &&
               held;
    }
    end(&stage);
    return held;
}

static void every_key_arrives_once_under_its_name(void)
{
    CHECK_INT(apart(keys), 1);
}

static bool in_order(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    TOOL("key", "a", "click", "1", "key", "b");
    host_settle(&stage.host, stage.pane);
    const PaneEventKind want[] = {PANE_KEY, PANE_PRESS, PANE_RELEASE, PANE_KEY};
    bool held = CHECK_INT(stage.host.count, 4);
    for (int i = 0; held && i < 4; ++i) {
        held = CHECK_INT(stage.host.events[i].kind, want[i]);
    }
    end(&stage);
    return held;
}

static void keys_and_clicks_arrive_in_their_order(void)
{
    CHECK_INT(apart(in_order), 1);
}

/* X counts milliseconds; the pane is polled once, long after both. */
static bool times(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    TOOL("key", "a", "sleep", "0.4", "key", "b");
    host_settle(&stage.host, stage.pane);
    const PaneEvent* const events = stage.host.events;
    const bool held =
        CHECK_INT(stage.host.count, 2) && CHECK(events[1].seconds - events[0].seconds >= 0.399);
    end(&stage);
    return held;
}

static void a_key_says_when_it_was_struck(void)
{
    CHECK_INT(apart(times), 1);
}

static bool focus_goes(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    XSetInputFocus(stage.host.display, stage.host.parent, RevertToNone, CurrentTime);
    XSync(stage.host.display, False);
    bool held = wait_for(&stage, PANE_FOCUS_OUT);
    XUnmapWindow(stage.host.display, stage.host.parent);
    XSync(stage.host.display, False);
    held = CHECK(!pane_take_focus(stage.pane)) && held;
    end(&stage);
    return held;
}

static void focus_is_told_and_not_taken_while_unseen(void)
{
    CHECK_INT(apart(focus_goes), 1);
}

/* ICCCM 4.2.8.1: how a window manager asks a window to close. */
static bool asked_to_close(void)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    Pane* const pane = host_open_apart(&host, 300, 200);
    XEvent ask = {.xclient = {.type = ClientMessage,
                              .window = pane_window(pane),
                              .message_type = 0x1fffffff, /* no atom of anybody's */
                              .format = 32}};
    XSendEvent(host.display, pane_window(pane), False, NoEventMask, &ask);
    XSync(host.display, False);
    bool held = CHECK(host_settle(&host, pane));
    ask.xclient.message_type = XInternAtom(host.display, "WM_PROTOCOLS", False);
    ask.xclient.data.l[0] = (long)XInternAtom(host.display, "WM_DELETE_WINDOW", False);
    XSendEvent(host.display, pane_window(pane), False, NoEventMask, &ask);
    XSync(host.display, False);
    held = CHECK(host_wait_for_the_end(pane)) && held;
    held = CHECK_INT(host.events[host.count - 1].kind, PANE_CLOSE) && held;
    held = CHECK(!pane_poll(pane)) && held;
    pane_close(pane);
    host_end(&host);
    return held;
}

static void a_window_of_its_own_can_be_closed_and_other_messages_do_no_harm(void)
{
    CHECK_INT(apart(asked_to_close), 1);
}

static bool close_it(void* const handle, const PaneEvent* const event)
{
    Pane** const pane = handle;
    (void)event;
    pane_close(*pane);
    *pane = NULL;
    return false;
}

static bool closed_within(void)
{
    Pane* pane = NULL;
    char why[256];
    const PaneRequest request = {.width = 90, .height = 60, .event = close_it, .handle = &pane};
    pane = pane_open(&request, why);
    Pane* const same = pane; /* its first event is the size */
    return CHECK(same) && CHECK(!pane_poll(same)) && CHECK(!pane);
}

static void a_pane_may_be_closed_within_an_event(void)
{
    CHECK_INT(apart(closed_within), 1);
}

/* The resource that desktops set for 144 dots an inch, 1.5 times 96. */
static bool scaled(void)
{
    Host host;
    if (!host_start(&host)) {
        return false;
    }
    bool held = CHECK_NEAR(pane_display_scale(), 1, 0);
    const char* const resources = "*background: grey\nXft.dpi:\t144\n";
    XChangeProperty(host.display, DefaultRootWindow(host.display), XA_RESOURCE_MANAGER, XA_STRING,
                    8, PropModeReplace, (const unsigned char*)resources, (int)strlen(resources));
    XSync(host.display, False);
    Pane* const pane = host_open(&host, 30, 20);
    held = CHECK_NEAR(pane_display_scale(), 1.5, 0) && CHECK_NEAR(pane_scale(pane), 1.5, 0) && held;
    pane_close(pane);
    host_end(&host);
    return held;
}

static void the_scale_is_that_of_the_x_resources(void)
{
    CHECK_INT(apart(scaled), 1);
}

static const Test TESTS[] = {
    TEST(a_click_arrives_with_its_place_button_and_modifiers),
    TEST(a_drag_goes_on_outside_and_leaving_is_told),
    TEST(a_wheel_scrolls_where_the_pointer_is),
    TEST(every_key_arrives_once_under_its_name),
    TEST(keys_and_clicks_arrive_in_their_order),
    TEST(a_key_says_when_it_was_struck),
    TEST(focus_is_told_and_not_taken_while_unseen),
    TEST(a_window_of_its_own_can_be_closed_and_other_messages_do_no_harm),
    TEST(a_pane_may_be_closed_within_an_event),
    TEST(the_scale_is_that_of_the_x_resources),
};

int main(const int count, char** const arguments)
{
    return input_tests(count, arguments, TESTS, (int)(sizeof TESTS / sizeof *TESTS));
}

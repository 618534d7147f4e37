// SPDX-License-Identifier: ISC
/* Keys that the window has no use for go to its host, those it uses and those that the
   host sent don't. */
#include "input.h"

#include <X11/keysym.h>

/* What the host's own connection has got, of keys: how many, and the last of a kind. */
static int host_keys(const Host* const host, const int type, XKeyEvent* const last)
{
    XEvent event;
    int count = 0;
    XSync(host->display, False);
    while (XCheckTypedEvent(host->display, type, &event)) {
        *last = event.xkey;
        ++count;
    }
    return count;
}

/* Presses as xdotool calls it, with or without use for the pane; whether the host's
   window got so many presses and as many releases, the last of them this key. */
static bool goes_back(Stage* const stage, const char* const press, const bool leaves,
                      const int want, const KeySym symbol, const unsigned state)
{
    XKeyEvent down = {0};
    XKeyEvent up = {0};
    stage->host.leaves_keys = leaves;
    TOOL("key", press);
    host_settle(&stage->host, stage->pane);
    check_case("%s %s", press, leaves ? "left" : "used");
    bool held = CHECK_INT(host_keys(&stage->host, KeyPress, &down), want) &&
                CHECK_INT(host_keys(&stage->host, KeyRelease, &up), want);
    if (held && want) {
        const KeyCode code = XKeysymToKeycode(stage->host.display, symbol);
        held = CHECK_INT(down.window, stage->host.parent) && CHECK_INT(down.keycode, code) &&
               CHECK_INT(down.state, state) && CHECK_INT(down.x, 107) && CHECK_INT(down.y, 53) &&
               CHECK_INT(up.window, stage->host.parent);
    }
    return held;
}

/* The pane stands 7, 3 from the parent's corner, the pointer at 100, 50 of the pane. */
static bool returned(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    XMoveWindow(stage.host.display, pane_window(stage.pane), 7, 3);
    XSync(stage.host.display, False);
    TOOL("mousemove", "107", "53");
    const bool held = goes_back(&stage, "space", true, 1, XK_space, 0) &&
                      goes_back(&stage, "space", false, 0, 0, 0) &&
                      /* Control itself goes as well: it is nothing to the pane */
                      goes_back(&stage, "ctrl+s", true, 2, XK_s, ControlMask) &&
                      goes_back(&stage, "Up", false, 0, 0, 0) &&
                      goes_back(&stage, "Up", true, 1, XK_Up, 0) &&
                      goes_back(&stage, "XF86AudioPlay", true, 1, 0x1008ff14, 0);
    end(&stage);
    return held;
}

static void a_key_without_use_goes_to_the_host_and_a_used_one_does_not(void)
{
    CHECK_INT(apart(returned), 1);
}

/* As hosts do that hand their own keys on: it would go round and round. */
static bool sent_here(void)
{
    Stage stage;
    if (!begin(&stage)) {
        return false;
    }
    XKeyEvent none = {0};
    XEvent event = {.xkey = {.type = KeyPress,
                             .window = pane_window(stage.pane),
                             .root = DefaultRootWindow(stage.host.display),
                             .keycode = XKeysymToKeycode(stage.host.display, XK_space),
                             .same_screen = True}};
    stage.host.leaves_keys = true;
    XSendEvent(stage.host.display, pane_window(stage.pane), False, NoEventMask, &event);
    event.xkey.type = KeyRelease;
    XSendEvent(stage.host.display, pane_window(stage.pane), False, NoEventMask, &event);
    XSync(stage.host.display, False);
    const PaneEvent* const told = wait_for(&stage, PANE_KEY);
    host_settle(&stage.host, stage.pane);
    const bool held = told && CHECK_INT(told->key, ' ') &&
                      CHECK_INT(host_keys(&stage.host, KeyPress, &none), 0) &&
                      CHECK_INT(host_keys(&stage.host, KeyRelease, &none), 0);
    end(&stage);
    return held;
}

static void a_key_that_the_host_sent_is_not_sent_back(void)
{
    CHECK_INT(apart(sent_here), 1);
}

/* Its parent belongs to the window manager, who has no use for keys. */
static bool of_its_own(void)
{
    Stage stage = {0};
    if (!host_start(&stage.host)) {
        return false;
    }
    stage.pane = host_open_apart(&stage.host, 300, 200);
    stage.host.leaves_keys = true;
    XKeyEvent none = {0};
    host_settle(&stage.host, stage.pane);
    bool held = CHECK(pane_take_focus(stage.pane)) &&
                CHECK(host_wait(&stage.host, stage.pane, PANE_FOCUS_IN, 1)) &&
                TOOL("key", "space") && wait_for(&stage, PANE_KEY) && TOOL("key", "Escape");
    held = CHECK(host_settle(&stage.host, stage.pane)) && held; /* Esc doesn't close it */
    held = CHECK_INT(host_keys(&stage.host, KeyPress, &none), 0) && held;
    end(&stage);
    return held;
}

static void a_window_of_its_own_keeps_its_keys_and_its_life(void)
{
    CHECK_INT(apart(of_its_own), 1);
}

static const Test TESTS[] = {
    TEST(a_key_without_use_goes_to_the_host_and_a_used_one_does_not),
    TEST(a_key_that_the_host_sent_is_not_sent_back),
    TEST(a_window_of_its_own_keeps_its_keys_and_its_life),
};

int main(const int count, char** const arguments)
{
    return input_tests(count, arguments, TESTS, (int)(sizeof TESTS / sizeof *TESTS));
}

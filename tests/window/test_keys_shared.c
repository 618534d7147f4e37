// SPDX-License-Identifier: ISC
/* Keys between window and host: after a click they come to the window, and what it
   has no use for is on the host's own connection, pressed and released. */
#include "rig.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include <X11/keysym.h>
#include <stdio.h>

enum { SECONDS_MAX = 30 };

static const RigOffer usual = {.features = RIG_ALL};

static bool tool(const char* const words[])
{
    return CHECK_INT(run_program(words), 0);
}

/* A click on the ground, left of the groove's name. */
static bool begin(Rig* const rig)
{
    return rig_open(rig, &usual) && CHECK(rig_rest(rig, 0.05)) &&
           tool((const char* const[]){"xdotool", "mousemove", "8", "60", "click", "1", NULL}) &&
           CHECK(rig_waits(rig, rig_has_keys));
}

/* Presses and releases of the key that the host got since last time. */
static int got(Rig* const rig, const KeySym symbol)
{
    const KeyCode code = XKeysymToKeycode(rig->display, symbol);
    XEvent event;
    int count = 0;
    XSync(rig->display, False);
    while (XCheckTypedEvent(rig->display, KeyPress, &event) ||
           XCheckTypedEvent(rig->display, KeyRelease, &event)) {
        count += event.xkey.keycode == code && event.xkey.window == rig->parent;
    }
    return count;
}

static bool press(Rig* const rig, const char* const key)
{
    return tool((const char* const[]){"xdotool", "key", key, NULL}) && CHECK(rig_rest(rig, 0.1));
}

typedef struct {
    const char* key; /* as xdotool calls it */
    KeySym symbol;
    bool is_hosts;
} Row;

static const Row rows[] = {
    {"space", XK_space, true},
    {"ctrl+s", XK_s, true},
    {"ctrl+f", XK_f, true},
    {"alt+1", XK_1, true},
    {"super+Up", XK_Up, true},
    {"F5", XK_F5, true},
    {"Escape", XK_Escape, true},
    {"1", XK_1, false},
    {"Tab", XK_Tab, false},
    {"f", XK_f, false},
    {"space", XK_space, false}, /* in the list's field */
    {"Escape", XK_Escape, false} /* what was looked for */,
    {"ctrl+s", XK_s, true},
    {"Escape", XK_Escape, false} /* the list */,
    {"space", XK_space, true},
};

static bool shared(void)
{
    Rig rig;
    bool held = begin(&rig);
    for (size_t i = 0; held && i < sizeof rows / sizeof *rows; ++i) {
        check_case("key %zu, %s", i, rows[i].key);
        held = press(&rig, rows[i].key) &&
               CHECK_INT(got(&rig, rows[i].symbol), rows[i].is_hosts ? 2 : 0);
    }
    held = held && CHECK_NEAR(host_get(rig.plugin, "right_hand"), 0.0, 0.0); /* by 1, not Alt+1 */
    rig_close(&rig);
    return held;
}

static void after_a_click_the_host_still_gets_its_keys(void)
{
    CHECK_INT(apart(shared), 1);
}

int main(void)
{
    child_guard(SECONDS_MAX, NULL);
    if (xvfb_start(NULL)) {
        RUN(after_a_click_the_host_still_gets_its_keys);
        xvfb_end();
    }
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* Keys between window and host: after a click they come to the window, and what it
   has no use for is on the host's own connection, pressed and released. */
#include "rig.h"

#include "../help/check.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include <X11/keysym.h>
#include <stdio.h>

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

/* Presses and releases of a key that the host got. */
static struct {
    KeyCode code;
    int count;
} got;

static bool got_both(Rig* const rig)
{
    XEvent event;
    XSync(rig->display, False);
    while (XCheckTypedEvent(rig->display, KeyPress, &event) ||
           XCheckTypedEvent(rig->display, KeyRelease, &event)) {
        got.count += event.xkey.keycode == got.code && event.xkey.window == rig->parent;
    }
    return got.count >= 2;
}

/* How many of a key the host gets of a press, which ought to be both or none. */
static int press(Rig* const rig, const char* const key, const KeySym symbol, const bool is_hosts)
{
    got.code = XKeysymToKeycode(rig->display, symbol);
    got.count = 0;
    if (!tool((const char* const[]){"xdotool", "key", key, NULL}) ||
        (is_hosts && !CHECK(rig_waits(rig, got_both))) || !CHECK(rig_rest(rig, 0.1))) {
        return -1;
    }
    got_both(rig);
    return got.count;
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
        const Row* const row = &rows[i];
        held = CHECK_INT(press(&rig, row->key, row->symbol, row->is_hosts), row->is_hosts ? 2 : 0);
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
    child_guard(NULL);
    if (xvfb_open()) {
        RUN(after_a_click_the_host_still_gets_its_keys);
        xvfb_end();
    }
    return tests_end();
}

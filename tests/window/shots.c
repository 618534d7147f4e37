// SPDX-License-Identifier: ISC
/* shots FOLDER - pictures of the window for the README: the built plugin, its window
   and the transport rolling, as they are on the screen. */
#include "rig.h"

#include "../live/child.h"
#include "../pane/xvfb.h"

#include <stdio.h>
#include <stdlib.h>

enum { RATE = 60 };

#define TOOL(...) run_program((const char* const[]){"xdotool", __VA_ARGS__, NULL})

static void click(Rig* const rig, const TargetId id)
{
    int x;
    int y;
    char left[16];
    char top[16];
    rig_find(rig, id, &x, &y);
    snprintf(left, sizeof left, "%d", x);
    snprintf(top, sizeof top, "%d", y);
    TOOL("mousemove", left, top, "click", "1");
    rig_play(rig, 0.2, RATE);
    TOOL("mousemove", "1999", "1199");
    rig_play(rig, 0.2, RATE);
}

/* The keys with the feet's card, as in a window that is in use. */
static void settle(Rig* const rig)
{
    click(rig, (TargetId){TARGET_TAB, PANEL_FEEL});
    TOOL("key", "shift+Tab", "shift+Tab", "shift+Tab");
}

static void play(Rig* const rig)
{
    rig_roll(rig, 1, 126.0f, 1.0f);
    rig_play(rig, 1.0, RATE);
}

/* The host's colours, then dark, then light. */
static void play_light(Rig* const rig)
{
    click(rig, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    rig->mirror.view.panel = PANEL_OUTPUT; /* it is told nothing of clicks */
    click(rig, (TargetId){TARGET_THEME, 0});
    click(rig, (TargetId){TARGET_THEME, 0});
    settle(rig);
    play(rig);
}

static void play_list(Rig* const rig)
{
    play(rig);
    TOOL("key", "f", "g", "a", "l", "l", "o", "p", "Down", "Down");
    rig_play(rig, 1.0, RATE);
}

static void practise(Rig* const rig)
{
    click(rig, (TargetId){TARGET_TAB, PANEL_PRACTICE});
    rig_tell_control(rig, CONTROL_TEMPO, 92.0f);
    rig_tell_control(rig, CONTROL_LADDER_STEP, 4.0f);
    rig_tell_control(rig, CONTROL_CLICK, 2.0f);
    rig_tell_control(rig, CONTROL_GAP_REST, 1.0f);
    rig_tell_control(rig, CONTROL_CLOCK, 1.0f);
    rig_play(rig, 3.6, RATE);
}

/* Down the rows; the one that was walked to waits for its line. */
static void vary(Rig* const rig)
{
    play(rig);
    TOOL("key", "v");
    rig_play(rig, 1.0, RATE);
    TOOL("key", "Down", "Down", "Down", "Down", "Down", "Down");
    rig_play(rig, 3.0, RATE);
    TOOL("key", "Down");
    rig_play(rig, 0.5, RATE);
}

static const struct {
    const char* name;
    float scale;
    void (*play)(Rig* rig);
} shots[] = {
    {"window-dark", 1.0f, play},         {"window-light", 1.0f, play_light},
    {"window-dark-2x", 2.0f, play},      {"window-list", 1.0f, play_list},
    {"window-practice", 1.0f, practise}, {"window-vary", 1.0f, vary},
};

static bool take(const int number, const char* const folder)
{
    Rig rig;
    char path[4096];
    const RigOffer offer = {.features = RIG_ALL, .scale = shots[number].scale};
    bool good = rig_open(&rig, &offer) && rig_play(&rig, 0.3, RATE);
    if (good) {
        settle(&rig);
        shots[number].play(&rig);
        cairo_surface_t* const picture = rig_picture(&rig);
        snprintf(path, sizeof path, "%s/%s.png", folder, shots[number].name);
        good = picture && cairo_surface_write_to_png(picture, path) == CAIRO_STATUS_SUCCESS;
        cairo_surface_destroy(picture);
    }
    printf("%s: %s\n", path, good ? "made" : "can't be made");
    rig_close(&rig);
    return good;
}

int main(const int count, char** const arguments)
{
    const int all = sizeof shots / sizeof *shots;
    int made = 0;
    child_guard(NULL);
    if (count == 2 && xvfb_open()) {
        while (made < all && take(made, arguments[1])) {
            ++made;
        }
        xvfb_end();
    }
    return made == all ? 0 : 1;
}

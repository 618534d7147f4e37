// SPDX-License-Identifier: ISC
/* The window shows what it was told: a screenshot, taken by another X connection,
   against the picture of a desk of the test's own that was told the same. */
#include "rig.h"

#include "../help/check.h"
#include "../help/wait.h"
#include "../live/child.h"
#include "../pane/xvfb.h"

#include "../../ui/scene/screen.h"

#include <X11/Xatom.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const RigOffer usual = {.features = RIG_ALL};

/* Quads have whole pixels and no soft edges: both sides of each playhead, 320 pixels
   high together, may differ, and corners of what is lit. */
enum { EDGES = 700, SLACK = 24 };

static void keep_both(cairo_surface_t* const got, cairo_surface_t* const want)
{
    cairo_surface_write_to_png(got, FOURLIMB_BUILD "/tests/window/got.png");
    cairo_surface_write_to_png(want, FOURLIMB_BUILD "/tests/window/want.png");
    printf("# see got.png and want.png beside the test program\n");
}

static int difference(Rig* const rig, const int slack, const bool keep)
{
    cairo_surface_t* const got = rig_picture(rig);
    cairo_surface_t* const want = rig_wanted(rig);
    const int differ = got ? rig_difference(got, want, slack) : -1;
    if (got && keep) {
        keep_both(got, want);
    }
    cairo_surface_destroy(want);
    cairo_surface_destroy(got);
    return differ;
}

/* What was done to the window takes its time to arrive. */
static bool shows_what_it_should(Rig* const rig, const int pixels, const int slack)
{
    Wait wait = wait_until("the window shows what it should");
    int differ = difference(rig, slack, false);
    while ((differ < 0 || differ > pixels) && rig_idle(rig) && wait_goes_on(&wait)) {
        differ = difference(rig, slack, false);
    }
    if (!CHECK(differ >= 0) || !CHECK_NEAR(differ, 0, pixels)) {
        difference(rig, slack, true);
        return false;
    }
    return true;
}

static int colours_of(cairo_surface_t* const picture)
{
    const uint32_t* const pixels =
        (const uint32_t*)(const void*)cairo_image_surface_get_data(picture);
    uint32_t seen[64];
    int count = 0;
    for (int i = 0; i < FIRST_WIDTH * FIRST_HEIGHT && count < 64; ++i) {
        int known = 0;
        while (known < count && seen[known] != pixels[i]) {
            ++known;
        }
        if (known == count) {
            seen[count++] = pixels[i];
        }
    }
    return count;
}

static bool before_a_word(void)
{
    Rig rig;
    bool held = rig_open(&rig, &usual) && shows_what_it_should(&rig, 0, 0);
    cairo_surface_t* const picture = held ? rig_picture(&rig) : NULL;
    held = held && CHECK(picture) && CHECK_INT(colours_of(picture), 64);
    if (picture) {
        cairo_surface_destroy(picture);
    }
    rig_close(&rig);
    return held;
}

static void a_new_window_shows_the_whole_picture_to_the_pixel(void)
{
    CHECK_INT(apart(before_a_word), 1);
}

/* Stopped; the plugin has told everything. */
static bool standing(void)
{
    Rig rig;
    bool held = rig_open(&rig, &usual) && CHECK(rig_play(&rig, 0.5, 60));
    held = held && CHECK(rig.gets > 0) && CHECK(rig.mirror.view.has_place) &&
           shows_what_it_should(&rig, EDGES, SLACK);
    rig_close(&rig);
    return held;
}

static void what_the_plugin_tells_is_shown(void)
{
    CHECK_INT(apart(standing), 1);
}

/* Half a second without news the place stands still, so both pictures are of the
   same moment; 120 BPM and 1.02 s put it just behind a beat. */
static bool rolling(void)
{
    Rig rig;
    Moving moving[MOVING_MAX];
    bool held = rig_open(&rig, &usual);
    if (held) {
        rig_tell_control(&rig, CONTROL_LOOSENESS, 0.0f);
        held = CHECK(rig_play(&rig, 0.2, 60));
        rig_roll(&rig, 4, 120.0f, 1.0f);
        held = held && CHECK(rig_play(&rig, 1.02, 60)) && CHECK(rig_rest(&rig, 0.7)) &&
               shows_what_it_should(&rig, EDGES, SLACK);
        const int count = screen_moving(&rig.mirror.view, moving);
        held = held && CHECK(count > 3) && CHECK(moving[0].is_lit);
    }
    rig_close(&rig);
    return held;
}

static void playhead_and_lit_strokes_are_where_the_scene_has_them(void)
{
    CHECK_INT(apart(rolling), 1);
}

static bool run_tool(const char* const words[])
{
    return CHECK_INT(run_program(words), 0);
}

/* The mouse and the keys of the X server: a tab, then the list of grooves. */
static bool use_hands(Rig* const rig, const int x, const int y)
{
    char left[16];
    char top[16];
    snprintf(left, sizeof left, "%d", x);
    snprintf(top, sizeof top, "%d", y);
    return run_tool((const char* const[]){"xdotool", "mousemove", left, top, "click", "1", NULL}) &&
           CHECK(rig_waits(rig, rig_has_keys)) &&
           run_tool((const char* const[]){"xdotool", "mousemove", "1990", "1190", "key", "g", "f",
                                          "o", "g", NULL});
}

/* The same, told to the mirror. */
static void tell_mirror(Rig* const rig, const int x, const int y)
{
    const PaneEvent events[] = {
        {.kind = PANE_FOCUS_IN},
        {.kind = PANE_PRESS, .x = x, .y = y, .button = 1},
        {.kind = PANE_RELEASE, .x = x, .y = y, .button = 1},
        {.kind = PANE_LEAVE},
        {.kind = PANE_KEY, .key = 'g', .text = 'g'},
        {.kind = PANE_KEY, .key = 'f', .text = 'f'},
        {.kind = PANE_KEY, .key = 'o', .text = 'o'},
        {.kind = PANE_KEY, .key = 'g', .text = 'g'},
    };
    for (size_t i = 0; i < sizeof events / sizeof *events; ++i) {
        controller_input(&rig->mirror, &events[i]);
    }
}

static bool by_hand(void)
{
    Rig rig;
    bool held = rig_open(&rig, &usual) && CHECK(rig_play(&rig, 0.5, 60));
    if (held) {
        int x;
        int y;
        rig_find(&rig, (TargetId){TARGET_TAB, PANEL_RHYTHM}, &x, &y);
        held = use_hands(&rig, x, y);
        tell_mirror(&rig, x, y);
        held =
            held && CHECK(rig.mirror.view.list.is_open) && shows_what_it_should(&rig, EDGES, SLACK);
    }
    rig_close(&rig);
    return held;
}

static void mouse_and_keys_change_the_picture_as_they_should(void)
{
    CHECK_INT(apart(by_hand), 1);
}

/* ---- Anything in any order */

/* The same numbers every time: an LCG, constants of Numerical Recipes (from memory). */
static uint32_t next_random(uint32_t* const state)
{
    return *state = *state * 1664525U + 1013904223U;
}

static void tell_garbage(Rig* const rig, uint32_t* const random)
{
    union {
        LV2_Atom atom;
        uint32_t words[32];
    } message;
    for (int i = 0; i < 32; ++i) {
        message.words[i] = next_random(random) >> (next_random(random) >> 27);
    }
    const uint32_t port = next_random(random) >> 25;
    const uint32_t protocol =
        next_random(random) & 1U ? rig->uris.atom_eventTransfer : next_random(random) >> 30;
    rig->descriptor->port_event(rig->ui, port, next_random(random) >> 26, protocol,
                                next_random(random) >> 29 ? (const void*)&message : NULL);
}

static void tell_controls(Rig* const rig, const int first, const int by)
{
    for (int i = 0, control = first; i < CONTROL_COUNT; ++i) {
        const ControlRow* const row = &control_rows[control];
        rig_tell(rig, (uint32_t)(PORT_FIRST_CONTROL + control),
                 control == CONTROL_GROOVE ? 7.0f : row->most);
        control = (control + by) % CONTROL_COUNT;
    }
}

static bool any_order(void)
{
    Rig rig;
    uint32_t random = 4711;
    bool held = rig_open(&rig, &usual);
    for (int i = 0; held && i < 20000; ++i) {
        tell_garbage(&rig, &random);
        held = i % 2000 != 0 || CHECK(rig_idle(&rig));
    }
    if (held) { /* 5 and the number of controls have no common factor */
        CHECK(CONTROL_COUNT % 5 != 0);
        tell_controls(&rig, CONTROL_COUNT - 1, 5);
        for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
            rig_tell(&rig, PORT_FIRST_READOUT + i, 7.0f);
        }
        held = CHECK(rig_rest(&rig, 0.1)) && shows_what_it_should(&rig, EDGES, SLACK);
    }
    rig_close(&rig);
    return held;
}

static void port_events_may_be_anything_in_any_order(void)
{
    CHECK_INT(apart(any_order), 1);
}

/* ---- Hosts that offer more */

static bool twice_as_large(void)
{
    Rig rig;
    XWindowAttributes seen = {0};
    const RigOffer offer = {.features = RIG_ALL, .scale = 2.0f};
    bool held = rig_open(&rig, &offer) && shows_what_it_should(&rig, 0, 0) &&
                CHECK(XGetWindowAttributes(rig.display, (Window)rig.widget, &seen));
    held = held && CHECK_INT(seen.width, 1920) && CHECK_INT(seen.height, 1080) &&
           CHECK_INT(rig.asked_width, 1920) && CHECK_INT(rig.asked_height, 1080);
    rig_close(&rig);
    return held;
}

static void a_scale_of_two_is_a_window_twice_as_large_and_as_crisp(void)
{
    CHECK_INT(apart(twice_as_large), 1);
}

/* As desktops tell it: Xft.dpi, 96 is 1. */
static bool by_resources(void)
{
    static const char resources[] = "Xft.dpi:\t144\n";
    Rig rig;
    Display* const display = XOpenDisplay(NULL);
    const Window root = display ? DefaultRootWindow(display) : None;
    bool held = CHECK(display);
    if (held) {
        XChangeProperty(display, root, XA_RESOURCE_MANAGER, XA_STRING, 8, PropModeReplace,
                        (const unsigned char*)resources, sizeof resources - 1);
        XSync(display, False);
        held = rig_open(&rig, &usual) && CHECK_INT(rig.asked_width, 1440) &&
               CHECK_INT(rig.asked_height, 810);
        rig_close(&rig);
        XDeleteProperty(display, root, XA_RESOURCE_MANAGER);
        XCloseDisplay(display);
    }
    return held;
}

static void without_a_scale_told_the_displays_resources_say_it(void)
{
    CHECK_INT(apart(by_resources), 1);
}

/* Its first pixel is ground. */
static uint32_t first_pixel(Rig* const rig)
{
    cairo_surface_t* const picture = rig_picture(rig);
    const uint32_t* const pixels =
        picture ? (const uint32_t*)(const void*)cairo_image_surface_get_data(picture) : NULL;
    const uint32_t pixel = pixels ? pixels[FIRST_WIDTH + 1] & 0xffffffU : 0;
    cairo_surface_destroy(picture);
    return pixel;
}

static bool is_painted(Rig* const rig)
{
    return first_pixel(rig) != 0; /* black until then */
}

static bool coloured(void)
{
    Rig rig;
    const RigOffer offer = {
        .features = RIG_ALL, .has_colours = true, .background = 0x1b2e4dffU, .text = 0xf0f0e0ffU};
    const bool held = rig_open(&rig, &offer) && CHECK(rig_waits(&rig, is_painted)) &&
                      CHECK_INT(first_pixel(&rig), 0x1b2e4d);
    rig_close(&rig);
    return held;
}

static void the_hosts_colours_are_the_windows(void)
{
    CHECK_INT(apart(coloured), 1);
}

int main(void)
{
    child_guard(NULL);
    if (xvfb_open()) {
        RUN(a_new_window_shows_the_whole_picture_to_the_pixel);
        RUN(what_the_plugin_tells_is_shown);
        RUN(playhead_and_lit_strokes_are_where_the_scene_has_them);
        RUN(mouse_and_keys_change_the_picture_as_they_should);
        RUN(port_events_may_be_anything_in_any_order);
        RUN(a_scale_of_two_is_a_window_twice_as_large_and_as_crisp);
        RUN(without_a_scale_told_the_displays_resources_say_it);
        RUN(the_hosts_colours_are_the_windows);
        xvfb_end();
    }
    return tests_end();
}

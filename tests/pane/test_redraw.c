// SPDX-License-Identifier: ISC
/* When a pane draws, and that drawing in parts is as good as drawing all. */
#include "scene.h"
#include "shown.h"
#include "xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool at_rest(void)
{
    Scene scene;
    if (!scene_begin(&scene, 120, 80)) {
        return false;
    }
    PaneQuad quad = {.place = {50, 10, 4, 60}, .layer = PANE_COLOUR, .red = 1, .alpha = 1};
    pane_show(scene.pane, &quad, 1);
    host_settle(&scene.host, scene.pane); /* the server's last word on the window came */
    int before = shown_count;
    for (int i = 0; i < 50; ++i) {
        pane_show(scene.pane, &quad, 1); /* again what is shown */
        pane_poll(scene.pane);
    }
    bool held = CHECK_INT(shown_count - before, 0);
    before = shown_count;
    for (int i = 0; i < 10; ++i) {
        ++quad.place.x;
        pane_show(scene.pane, &quad, 1);
        pane_poll(scene.pane);
    }
    held = CHECK_INT(shown_count - before, 10) && held;
    scene_end(&scene);
    return held;
}

static void nothing_is_drawn_while_nothing_changes(void)
{
    CHECK_INT(apart(at_rest), 1);
}

/* What is drawn in parts is what is drawn whole: after a walk of quads and changes
   of the picture, an expose of all of it changes nothing. */
static uint32_t* whole_again(Scene* const scene)
{
    XClearArea(scene->host.display, pane_window(scene->pane), 0, 0, 0, 0, True);
    host_settle(&scene->host, scene->pane);
    return host_photo(&scene->host, scene->pane, scene->width, scene->height);
}

static void step(const Scene* const scene, const int i)
{
    const int x = i * 37 % 90 - 5;
    const int y = i * 23 % 60 - 5;
    const PaneQuad quads[] = {
        {.place = {x, y, 9, 14}, .layer = PANE_LIT, .source = {x + 5, y + 5, 9, 14}},
        {.place = {y, x, 3, 40}, .layer = PANE_COLOUR, .red = 1, .alpha = 0.3F},
        {.place = {40, 30, 20, 10}, .layer = PANE_COLOUR, .green = 1, .alpha = 0.7F},
    };
    pane_show(scene->pane, quads, i % 4);
    if (i % 5 == 0) {
        scene_put(scene, i % 2, i, (PaneRect){y, x, 20, 20});
    }
    pane_poll(scene->pane);
}

static bool no_trace(void)
{
    Scene scene;
    if (!scene_begin(&scene, 90, 60)) {
        return false;
    }
    scene_put(&scene, PANE_LIT, 60, (PaneRect){0});
    bool held = true;
    for (int i = 0; held && i < 60; ++i) {
        step(&scene, i);
        if (i % 6 == 5) {
            uint32_t* const parts = host_photo(&scene.host, scene.pane, 90, 60);
            uint32_t* const whole = whole_again(&scene);
            check_case("after %d steps", i);
            held = CHECK(!memcmp(parts, whole, sizeof *parts * 90 * 60));
            free(parts);
            free(whole);
        }
    }
    scene_end(&scene);
    return held;
}

static void what_moved_leaves_no_trace(void)
{
    CHECK_INT(apart(no_trace), 1);
}

static bool uncovered(void)
{
    Scene scene;
    if (!scene_begin(&scene, 120, 80)) {
        return false;
    }
    Display* const display = scene.host.display;
    const Window lid = XCreateSimpleWindow(display, scene.host.parent, 0, 0, 60, 60, 0, 0, 0xff00);
    XMapRaised(display, lid);
    host_settle(&scene.host, scene.pane);
    const int before = shown_count;
    XDestroyWindow(display, lid);
    host_settle(&scene.host, scene.pane);
    const bool held = CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 120, 80}, 0), 0) &&
                      CHECK_INT(shown_count - before, 1);
    scene_end(&scene);
    return held;
}

static void what_was_covered_is_painted_again_once(void)
{
    CHECK_INT(apart(uncovered), 1);
}

static bool larger(void)
{
    Scene scene;
    if (!scene_begin(&scene, 120, 80)) {
        return false;
    }
    host_forget(&scene.host);
    pane_resize(scene.pane, 201, 133);
    const PaneEvent* const event = host_wait(&scene.host, scene.pane, PANE_RESIZE, 1);
    bool held = CHECK(event) && CHECK_INT(event->width, 201) && CHECK_INT(event->height, 133);
    /* Until there is a new picture: the old one as it was, black beyond it. */
    held = held && CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 120, 80}, 0), 0) &&
           CHECK_INT(host_pixel(&scene.host, scene.pane, 150, 100), 0);
    scene.width = 201;
    scene.height = 133;
    scene_put(&scene, PANE_PLAIN, 5, (PaneRect){0});
    pane_poll(scene.pane);
    held = held && CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 201, 133}, 5), 0);
    scene_end(&scene);
    return held;
}

static void after_a_resize_the_picture_is_crisp(void)
{
    CHECK_INT(apart(larger), 1);
}

static void all(void)
{
    RUN(nothing_is_drawn_while_nothing_changes);
    RUN(what_moved_leaves_no_trace);
    RUN(what_was_covered_is_painted_again_once);
    RUN(after_a_resize_the_picture_is_crisp);
}

int main(void)
{
    child_guard(NULL);
    if (xvfb_open()) {
        all();
        printf("# the same where only swaps show\n");
        shown_by_swaps_only = true;
        all();
        xvfb_end();
    }
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* What is shown is what was painted: read back by a second X connection
   (XGetImage) and held against the formula the picture was made by. */
#include "host.h"
#include "xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <dlfcn.h>
#include <stdlib.h>

enum { SECONDS_MAX = 30 };

/* This one is found before libGL's, also by Pugl. */
static int swaps;

__attribute__((visibility("default"))) void glXSwapBuffers(Display* const display,
                                                           const GLXDrawable drawable)
{
    void* const library = dlopen("libGL.so.1", RTLD_LAZY);
    void (*const real)(Display*, GLXDrawable) =
        (void (*)(Display*, GLXDrawable))(uintptr_t)dlsym(library, "glXSwapBuffers");
    ++swaps;
    real(display, drawable);
    dlclose(library);
}

typedef struct {
    Host host;
    Pane* pane;
    int width, height;
} Scene;

static void put(const Scene* const scene, const int layer, const int seed, const PaneRect dirty)
{
    uint32_t* const picture = host_picture(scene->width, scene->height, seed);
    CHECK(pane_upload(scene->pane, layer, (const unsigned char*)picture, scene->width,
                      scene->height, 4 * scene->width, dirty));
    free(picture);
}

/* A pane with a picture of seed 0 on the screen. */
static bool begin(Scene* const scene, const int width, const int height)
{
    *scene = (Scene){.width = width, .height = height};
    if (!host_start(&scene->host)) {
        return false;
    }
    scene->pane = host_open(&scene->host, width, height);
    if (!scene->pane) {
        return false;
    }
    put(scene, PANE_PLAIN, 0, (PaneRect){0});
    return CHECK(host_poll(scene->pane, 50));
}

static void end(Scene* const scene)
{
    pane_close(scene->pane);
    host_end(&scene->host);
}

static int strangers(const Scene* const scene, const PaneRect rect, const int seed)
{
    return host_strangers(&scene->host, scene->pane, rect, seed);
}

static bool odd_sizes(void)
{
    const int sizes[][2] = {{1, 1}, {37, 23}, {64, 64}, {333, 7}, {511, 301}};
    bool held = true;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; ++i) {
        Scene scene;
        check_case("%d x %d", sizes[i][0], sizes[i][1]);
        held = held && begin(&scene, sizes[i][0], sizes[i][1]) &&
               CHECK_INT(strangers(&scene, (PaneRect){0, 0, scene.width, scene.height}, 0), 0);
        end(&scene);
    }
    return held;
}

static void a_picture_is_shown_pixel_by_pixel_at_any_size(void)
{
    CHECK_INT(apart(odd_sizes), 1);
}

static bool part_changes(void)
{
    Scene scene;
    if (!begin(&scene, 101, 67)) {
        return false;
    }
    put(&scene, PANE_PLAIN, 90, (PaneRect){-5, 30, 25, 1000});
    pane_poll(scene.pane);
    const bool held = CHECK_INT(strangers(&scene, (PaneRect){0, 30, 20, 37}, 90), 0) &&
                      CHECK_INT(strangers(&scene, (PaneRect){0, 0, 101, 30}, 0), 0) &&
                      CHECK_INT(strangers(&scene, (PaneRect){20, 0, 81, 67}, 0), 0);
    end(&scene);
    return held;
}

static void a_dirty_part_changes_and_the_rest_stays(void)
{
    CHECK_INT(apart(part_changes), 1);
}

/* Wider rows than the picture, as Cairo has them. */
static bool strided(void)
{
    Scene scene;
    if (!begin(&scene, 45, 31)) {
        return false;
    }
    uint32_t* const wide = host_picture(60, 31, 33);
    pane_upload(scene.pane, PANE_PLAIN, (const unsigned char*)wide, 45, 31, 60 * 4,
                (PaneRect){0, 0, 45, 31});
    free(wide);
    pane_poll(scene.pane);
    const bool held = CHECK_INT(strangers(&scene, (PaneRect){0, 0, 45, 31}, 33), 0);
    end(&scene);
    return held;
}

static void rows_may_be_longer_than_the_picture_is_wide(void)
{
    CHECK_INT(apart(strided), 1);
}

static bool over_it(void)
{
    Scene scene;
    if (!begin(&scene, 120, 80)) {
        return false;
    }
    put(&scene, PANE_LIT, 60, (PaneRect){0});
    const PaneQuad quads[] = {
        {.place = {10, 10, 20, 20}, .layer = PANE_LIT, .source = {10, 10, 20, 20}},
        {.place = {50, 10, 4, 60}, .layer = PANE_COLOUR, .red = 1, .green = 0.2F, .alpha = 1},
        {.place = {80, 10, 20, 20}, .layer = PANE_COLOUR, .blue = 1, .alpha = 0.5F},
    };
    pane_show(scene.pane, quads, 3);
    pane_poll(scene.pane);
    const Host* const host = &scene.host;
    bool held = CHECK_INT(strangers(&scene, (PaneRect){10, 10, 20, 20}, 60), 0) &&
                CHECK_INT(strangers(&scene, (PaneRect){0, 0, 10, 80}, 0), 0) &&
                CHECK_INT(strangers(&scene, (PaneRect){30, 0, 20, 80}, 0), 0) &&
                CHECK_INT(strangers(&scene, (PaneRect){54, 0, 26, 80}, 0), 0) &&
                CHECK_INT(host_pixel(host, scene.pane, 50, 10), 0xff3300) &&
                CHECK_INT(host_pixel(host, scene.pane, 53, 69), 0xff3300);
    /* Half of blue over half of what is there, to a rounding. */
    const uint32_t under = host_colour(90, 20, 0);
    const uint32_t mixed = host_pixel(host, scene.pane, 90, 20);
    held = held && CHECK_NEAR(mixed >> 16, (under >> 16) / 2.0, 1) &&
           CHECK_NEAR(mixed >> 8 & 255, (under >> 8 & 255) / 2.0, 1) &&
           CHECK_NEAR(mixed & 255, ((under & 255) + 255) / 2.0, 1);
    pane_show(scene.pane, NULL, 0);
    pane_poll(scene.pane);
    held = held && CHECK_INT(strangers(&scene, (PaneRect){0, 0, 120, 80}, 0), 0);
    end(&scene);
    return held;
}

static void quads_lie_over_the_picture_and_go_again(void)
{
    CHECK_INT(apart(over_it), 1);
}

/* Premultiplied: colour 0x40 with alpha 0x80 adds 0x40 to half of what is there. */
static bool see_through(void)
{
    Scene scene;
    if (!begin(&scene, 16, 16)) {
        return false;
    }
    const uint32_t half[] = {0x80400000U};
    pane_upload(scene.pane, PANE_LIT, (const unsigned char*)half, 1, 1, 4, (PaneRect){0});
    const PaneQuad quad = {.place = {5, 6, 1, 1}, .layer = PANE_LIT, .source = {0, 0, 1, 1}};
    pane_show(scene.pane, &quad, 1);
    pane_poll(scene.pane);
    const uint32_t under = host_colour(5, 6, 0);
    const uint32_t mixed = host_pixel(&scene.host, scene.pane, 5, 6);
    const bool held = CHECK_NEAR(mixed >> 16, 0x40 + (under >> 16) * 127 / 255.0, 1) &&
                      CHECK_NEAR(mixed >> 8 & 255, (under >> 8 & 255) * 127 / 255.0, 1);
    end(&scene);
    return held;
}

static void the_lit_layer_may_be_seen_through(void)
{
    CHECK_INT(apart(see_through), 1);
}

static bool at_rest(void)
{
    Scene scene;
    if (!begin(&scene, 120, 80)) {
        return false;
    }
    PaneQuad quad = {.place = {50, 10, 4, 60}, .layer = PANE_COLOUR, .red = 1, .alpha = 1};
    pane_show(scene.pane, &quad, 1);
    pane_poll(scene.pane);
    int before = swaps;
    for (int i = 0; i < 50; ++i) {
        pane_show(scene.pane, &quad, 1); /* again what is shown */
        pane_poll(scene.pane);
    }
    bool held = CHECK_INT(swaps - before, 0);
    before = swaps;
    for (int i = 0; i < 10; ++i) {
        ++quad.place.x;
        pane_show(scene.pane, &quad, 1);
        pane_poll(scene.pane);
    }
    held = CHECK_INT(swaps - before, 10) && held;
    end(&scene);
    return held;
}

static void nothing_is_drawn_while_nothing_changes(void)
{
    CHECK_INT(apart(at_rest), 1);
}

static bool uncovered(void)
{
    Scene scene;
    if (!begin(&scene, 120, 80)) {
        return false;
    }
    Display* const display = scene.host.display;
    const Window lid = XCreateSimpleWindow(display, scene.host.parent, 0, 0, 60, 60, 0, 0, 0xff00);
    XMapRaised(display, lid);
    XSync(display, False);
    host_poll(scene.pane, 20);
    const int before = swaps;
    XDestroyWindow(display, lid);
    XSync(display, False);
    host_poll(scene.pane, 50);
    const bool held = CHECK_INT(strangers(&scene, (PaneRect){0, 0, 120, 80}, 0), 0) &&
                      CHECK_INT(swaps - before, 1);
    end(&scene);
    return held;
}

static void what_was_covered_is_painted_again_once(void)
{
    CHECK_INT(apart(uncovered), 1);
}

static bool larger(void)
{
    Scene scene;
    if (!begin(&scene, 120, 80)) {
        return false;
    }
    host_forget(&scene.host);
    pane_resize(scene.pane, 201, 133);
    const PaneEvent* const event = host_wait(&scene.host, scene.pane, PANE_RESIZE);
    bool held = CHECK(event) && CHECK_INT(event->width, 201) && CHECK_INT(event->height, 133);
    /* Until there is a new picture: the old one as it was, black beyond it. */
    held = held && CHECK_INT(strangers(&scene, (PaneRect){0, 0, 120, 80}, 0), 0) &&
           CHECK_INT(host_pixel(&scene.host, scene.pane, 150, 100), 0);
    scene.width = 201;
    scene.height = 133;
    put(&scene, PANE_PLAIN, 5, (PaneRect){0});
    pane_poll(scene.pane);
    held = held && CHECK_INT(strangers(&scene, (PaneRect){0, 0, 201, 133}, 5), 0);
    end(&scene);
    return held;
}

static void after_a_resize_the_picture_is_crisp(void)
{
    CHECK_INT(apart(larger), 1);
}

static bool too_large(void)
{
    Scene scene;
    if (!begin(&scene, 40, 40)) {
        return false;
    }
    const unsigned char none[4] = {0};
    const int most = pane_largest(scene.pane);
    bool held = CHECK(most >= 2048) &&
                CHECK(!pane_upload(scene.pane, PANE_PLAIN, none, most + 1, 1, 4 * (most + 1),
                                   (PaneRect){0})) &&
                CHECK(!pane_upload(scene.pane, PANE_PLAIN, none, 0, 1, 4, (PaneRect){0})) &&
                CHECK(!pane_upload(scene.pane, PANE_LAYERS, none, 1, 1, 4, (PaneRect){0}));
    pane_poll(scene.pane);
    held = held && CHECK_INT(strangers(&scene, (PaneRect){0, 0, 40, 40}, 0), 0);
    end(&scene);
    return held;
}

static void a_picture_too_large_is_refused_and_the_old_one_stays(void)
{
    CHECK_INT(apart(too_large), 1);
}

static void all(void)
{
    RUN(a_picture_is_shown_pixel_by_pixel_at_any_size);
    RUN(a_dirty_part_changes_and_the_rest_stays);
    RUN(rows_may_be_longer_than_the_picture_is_wide);
    RUN(quads_lie_over_the_picture_and_go_again);
    RUN(the_lit_layer_may_be_seen_through);
    RUN(nothing_is_drawn_while_nothing_changes);
    RUN(what_was_covered_is_painted_again_once);
    RUN(after_a_resize_the_picture_is_crisp);
    RUN(a_picture_too_large_is_refused_and_the_old_one_stays);
}

int main(void)
{
    child_guard(SECONDS_MAX, NULL);
    if (xvfb_start(NULL)) {
        all();
        xvfb_end();
    }
    return tests_end();
}

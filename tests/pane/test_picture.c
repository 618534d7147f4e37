// SPDX-License-Identifier: ISC
/* What is shown is what was painted: read back by a second X connection
   (XGetImage) and held against the formula the picture was made by. */
#include "scene.h"
#include "shown.h"
#include "xvfb.h"

#include "../help/check.h"
#include "../live/child.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool odd_sizes(void)
{
    const int sizes[][2] = {{1, 1}, {37, 23}, {64, 64}, {333, 7}, {511, 301}};
    bool held = true;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; ++i) {
        Scene scene;
        check_case("%d x %d", sizes[i][0], sizes[i][1]);
        held =
            held && scene_begin(&scene, sizes[i][0], sizes[i][1]) &&
            CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, scene.width, scene.height}, 0), 0);
        scene_end(&scene);
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
    if (!scene_begin(&scene, 101, 67)) {
        return false;
    }
    scene_put(&scene, PANE_PLAIN, 90, (PaneRect){-5, 30, 25, 1000});
    pane_poll(scene.pane);
    const bool held = CHECK_INT(scene_strangers(&scene, (PaneRect){0, 30, 20, 37}, 90), 0) &&
                      CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 101, 30}, 0), 0) &&
                      CHECK_INT(scene_strangers(&scene, (PaneRect){20, 0, 81, 67}, 0), 0);
    scene_end(&scene);
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
    if (!scene_begin(&scene, 45, 31)) {
        return false;
    }
    uint32_t* const wide = host_picture(60, 31, 33);
    pane_upload(scene.pane, PANE_PLAIN, (const unsigned char*)wide, 45, 31, 60 * 4,
                (PaneRect){0, 0, 45, 31});
    free(wide);
    pane_poll(scene.pane);
    const bool held = CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 45, 31}, 33), 0);
    scene_end(&scene);
    return held;
}

static void rows_may_be_longer_than_the_picture_is_wide(void)
{
    CHECK_INT(apart(strided), 1);
}

static bool over_it(void)
{
    Scene scene;
    if (!scene_begin(&scene, 120, 80)) {
        return false;
    }
    scene_put(&scene, PANE_LIT, 60, (PaneRect){0});
    const PaneQuad quads[] = {
        {.place = {10, 10, 20, 20}, .layer = PANE_LIT, .source = {10, 10, 20, 20}},
        {.place = {50, 10, 4, 60}, .layer = PANE_COLOUR, .red = 1, .green = 0.2F, .alpha = 1},
        {.place = {80, 10, 20, 20}, .layer = PANE_COLOUR, .blue = 1, .alpha = 0.5F},
    };
    pane_show(scene.pane, quads, 3);
    pane_poll(scene.pane);
    const Host* const host = &scene.host;
    bool held = CHECK_INT(scene_strangers(&scene, (PaneRect){10, 10, 20, 20}, 60), 0) &&
                CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 10, 80}, 0), 0) &&
                CHECK_INT(scene_strangers(&scene, (PaneRect){30, 0, 20, 80}, 0), 0) &&
                CHECK_INT(scene_strangers(&scene, (PaneRect){54, 0, 26, 80}, 0), 0) &&
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
    held = held && CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 120, 80}, 0), 0);
    scene_end(&scene);
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
    if (!scene_begin(&scene, 16, 16)) {
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
    scene_end(&scene);
    return held;
}

static void the_lit_layer_may_be_seen_through(void)
{
    CHECK_INT(apart(see_through), 1);
}

static bool too_large(void)
{
    Scene scene;
    if (!scene_begin(&scene, 40, 40)) {
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
    held = held && CHECK_INT(scene_strangers(&scene, (PaneRect){0, 0, 40, 40}, 0), 0);
    scene_end(&scene);
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
    RUN(a_picture_too_large_is_refused_and_the_old_one_stays);
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

// SPDX-License-Identifier: ISC
/* The window's states against pictures that a person has looked at, kept in
   tests/scene/golden; `make goldens` draws them anew, for when a change is meant.
   A picture that differs is left in build/differs, to be looked at beside its own. */
#include "../help/check.h"
#include "compare.h"
#include "stage.h"

#include <pango/pangocairo.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define GOLDEN FOURLIMB_SOURCE "/tests/scene/golden"

/* The golden pictures were drawn with this (package fonts-dejavu-core). */
static const char* const golden_font = "DejaVu Sans";

static const char* font_here(char* const name, const size_t room)
{
    PangoContext* const context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    PangoFontDescription* const sans = pango_font_description_from_string("Sans 12");
    PangoFont* const font = pango_context_load_font(context, sans);
    PangoFontDescription* const found = font ? pango_font_describe(font) : NULL;
    snprintf(name, room, "%s", found ? pango_font_description_get_family(found) : "none");
    if (found) {
        pango_font_description_free(found);
        g_object_unref(font);
    }
    pango_font_description_free(sans);
    g_object_unref(context);
    return name;
}

static void keep(cairo_surface_t* const picture, const char* const name)
{
    char path[4096];
    mkdir(FOURLIMB_BUILD "/differs", 0777);
    snprintf(path, sizeof path, FOURLIMB_BUILD "/differs/%s.png", name);
    cairo_surface_write_to_png(picture, path);
    printf("# it is kept as %s\n", path);
}

static void check_golden(const StageScene* const scene)
{
    char path[4096];
    char font[256];
    snprintf(path, sizeof path, GOLDEN "/%s.png", scene->name);
    cairo_surface_t* const loaded = cairo_image_surface_create_from_png(path);
    cairo_surface_t* const drawn = stage_draw(scene);
    check_case("%s", scene->name);
    if (CHECK_INT(cairo_surface_status(loaded), CAIRO_STATUS_SUCCESS)) {
        const Compared found = compare_pictures(drawn, loaded);
        check_case("%s, font %s, Cairo %s, Pango %s", scene->name, font_here(font, sizeof font),
                   cairo_version_string(), pango_version_string());
        CHECK(found.same_size);
        if (!CHECK_INT(found.tiles, 0)) {
            printf("# most differs at %d, %d: %d pixels of a tile, %d in all\n", found.x, found.y,
                   found.worst, found.pixels);
            keep(drawn, scene->name);
        }
    }
    cairo_surface_destroy(drawn);
    cairo_surface_destroy(loaded);
}

static void the_font_is_that_of_the_golden_pictures(void)
{
    char font[256];
    if (!CHECK_TEXT(font_here(font, sizeof font), golden_font)) {
        printf("# \"Sans\" is %s here, so pictures differ without a fault: install the package\n"
               "# fonts-dejavu-core, or see to it that fontconfig prefers it\n",
               font);
    }
}

static void every_state_looks_as_it_was_looked_at(void)
{
    for (int i = 0; i < stage_scene_count; ++i) {
        check_golden(&stage_scenes[i]);
    }
}

static void a_scene_is_drawn_the_same_twice(void)
{
    cairo_surface_t* const first = stage_draw(stage_scene("playing-dark"));
    cairo_surface_t* const second = stage_draw(stage_scene("playing-dark"));
    CHECK_INT(compare_pictures(first, second).pixels, 0);
    cairo_surface_destroy(first);
    cairo_surface_destroy(second);
}

/* ---- The comparison itself */

static void check_found(Stage* const stage, cairo_surface_t* const before)
{
    cairo_surface_t* const after = stage_picture(stage);
    CHECK(!compare_alike(compare_pictures(before, after)));
    cairo_surface_destroy(after);
}

/* Each stroke of the bar shown, moved by a twelfth of a quarter: 10 pixels. */
static void a_stroke_that_moved_is_found(void)
{
    Stage* const stage = stage_play(stage_scene("playing-dark"));
    cairo_surface_t* const before = stage_picture(stage);
    View* const view = &stage->model.view;
    SeenBar* const bar = &view->bars[view_shown(view) - view_phrase(view)];
    for (uint32_t i = 0; i < bar->count; ++i) {
        check_case("stroke %u", i);
        bar->strokes[i].felt += (int32_t)(TICKS_PER_QUARTER / 12);
        check_found(stage, before);
        bar->strokes[i].felt -= (int32_t)(TICKS_PER_QUARTER / 12);
    }
    CHECK(bar->count > 10);
    cairo_surface_destroy(before);
    stage_end(stage);
}

static void a_word_that_changed_is_found(void)
{
    Stage* const stage = stage_play(stage_scene("playing-dark"));
    cairo_surface_t* const before = stage_picture(stage);
    View* const view = &stage->model.view;
    Entry* const grooves = stage->model.entries[ENTRY_GROOVE];
    const char* const label = grooves[0].label;
    grooves[0].label = "Lower Stetion";
    check_found(stage, before);
    grooves[0].label = label;
    view->panel = PANEL_PRACTICE;
    check_found(stage, before);
    view->panel = PANEL_FEEL;
    view->values[CONTROL_LOOSENESS] = 19.0f; /* one figure, one pixel of its rule */
    check_found(stage, before);
    view->values[CONTROL_LOOSENESS] = 18.0f;
    cairo_surface_t* const after = stage_picture(stage);
    CHECK_INT(compare_pictures(before, after).pixels, 0);
    cairo_surface_destroy(after);
    cairo_surface_destroy(before);
    stage_end(stage);
}

/* Shades as another rasteriser gives them pass, and nothing darker. */
static void other_shades_pass(void)
{
    cairo_surface_t* const before = stage_draw(stage_scene("playing-light"));
    cairo_surface_t* const after = stage_draw(stage_scene("playing-light"));
    unsigned char* const bytes = cairo_image_surface_get_data(after);
    const int size = cairo_image_surface_get_stride(after) * cairo_image_surface_get_height(after);
    for (int i = 0; i < size; ++i) {
        const int by = i % 7 ? 0 : i % 2 ? 30 : -30;
        const int value = bytes[i] + by;
        bytes[i] = (unsigned char)(value < 0 ? 0 : value > 255 ? 255 : value);
    }
    CHECK(compare_alike(compare_pictures(before, after)));
    for (int i = 0; i < size; ++i) {
        const int value = bytes[i] - 80;
        bytes[i] = (unsigned char)(value < 0 ? 0 : value);
    }
    CHECK(!compare_alike(compare_pictures(before, after)));
    cairo_surface_destroy(after);
    cairo_surface_destroy(before);
}

static void a_picture_of_another_size_is_found(void)
{
    cairo_surface_t* const a = stage_draw(stage_scene("playing-dark"));
    cairo_surface_t* const b = stage_draw(stage_scene("least"));
    CHECK(!compare_alike(compare_pictures(a, b)));
    cairo_surface_destroy(b);
    cairo_surface_destroy(a);
}

int main(void)
{
    RUN(the_font_is_that_of_the_golden_pictures);
    RUN(every_state_looks_as_it_was_looked_at);
    RUN(a_scene_is_drawn_the_same_twice);
    RUN(a_stroke_that_moved_is_found);
    RUN(a_word_that_changed_is_found);
    RUN(other_shades_pass);
    RUN(a_picture_of_another_size_is_found);
    return tests_end();
}

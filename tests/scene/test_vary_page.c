// SPDX-License-Identifier: ISC
/* The page of variations as it is drawn: strokes stand under the staff's, as pixels of the
   picture say, names and reasons are read whole, and the playhead crosses what sounds. */
#include "../../plugin/engine/varied/variation.h"
#include "../../ui/scene/vary_page.h"
#include "../../ui/scene/vary_row.h"
#include "../help/check.h"
#include "compare.h"
#include "scenes.h"

#include <math.h>
#include <stdio.h>

/* ---- Under the staff */

static bool is_ink(cairo_surface_t* const picture, const int x, const int y)
{
    return (compare_pixel(picture, x, y) & 255U) > 200U; /* the dark palette's, at its blue */
}

enum { COLUMNS_MAX = 128 };

/* Middles of the upright strokes that cross a line of pixels between two places. */
static int columns_at(cairo_surface_t* const picture, const int y, const double from,
                      const double to, double middles[COLUMNS_MAX])
{
    int count = 0;
    for (int x = (int)from; x < (int)to; ++x) {
        int wide = 0;
        while (x + wide < (int)to && is_ink(picture, x + wide, y)) {
            ++wide;
        }
        if (wide && count < COLUMNS_MAX) {
            middles[count++] = x + wide / 2.0;
        }
        x += wide;
    }
    return count;
}

/* Without feel what is felt is what is written. */
static Stage* stiff(const char* const feet, const int width, const int height)
{
    Stage* const stage = stage_play(stage_scene("nothing-said"));
    controller_resize(&stage->model, width, height, 1.0);
    scenes_pick(stage, CONTROL_LOOSENESS, 0);
    scenes_pick(stage, CONTROL_LIBERTY, 0);
    scenes_pick(stage, CONTROL_CLICK, 0);
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, feet));
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Lower Station"));
    stage_run(stage, 0.1);
    stage_roll(stage, 1, 0.12f, 0.0f); /* the playhead hides no stroke */
    stage_run(stage, 0.3);
    stage_key(stage, 'v');
    stage_run(stage, 0.6);
    return stage;
}

static void check_under(const char* const feet, const int width, const int height)
{
    double staff[COLUMNS_MAX], row[COLUMNS_MAX];
    Stage* const stage = stiff(feet, width, height);
    const Geometry g = geometry_of(&stage->model.view);
    const RowPlaces columns = vary_place_columns(&g, &stage->model.view);
    const VaryPlaces places = vary_place_of(&g);
    const Box box = vary_place_row(&places, 0);
    cairo_surface_t* const picture = stage_picture(stage);
    /* over the right foot's heads, and over the row's line, where accents and others reach */
    const int y_staff = (int)(g.line[RIGHT_FOOT] - 10.0 * g.scale);
    const int y_row = (int)(floor(box.y + box.height / 2.0) - 4.0);
    const double from = columns.from - 3.0, to = columns.to - 3.0;
    const int count = columns_at(picture, y_staff, from, to, staff);
    check_case("%s in %d by %d", feet, width, height);
    CHECK(count > 4);
    CHECK_INT(columns_at(picture, y_row, from, to, row), count);
    for (int i = 0; i < count; ++i) {
        CHECK_NEAR(row[i], staff[i], 1.01);
    }
    cairo_surface_destroy(picture);
    stage_end(stage);
}

static void strokes_stand_under_the_staffs(void)
{
    check_under("Gallop", 960, 540);
    check_under("Sixteenths", 960, 540);
    check_under("Herta over the bar", 960, 540);
    check_under("Gallop", 720, 420);
    check_under("Sixteenths", 1600, 1000);
}

/* ---- Words */

static const char* const pages[] = {"vary", "vary-waits-least", "vary-waits-large",
                                    "vary-twelve-eight", "vary-seven-eight-least"};

/* The least that names are drawn in, where they stand in bold because they play; in a small
   window in no bold type. */
static void names_are_read_whole(void)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    for (size_t i = 0; i < sizeof pages / sizeof *pages; ++i) {
        Stage* const stage = stage_play(stage_scene(pages[i]));
        const Geometry g = geometry_of(&stage->model.view);
        const RowPlaces columns = vary_place_columns(&g, &stage->model.view);
        for (uint32_t number = 0; number < VARIATION_COUNT; ++number) {
            check_case("%s, %s", pages[i], variation_words(number));
            CHECK(ink_width(cairo, (Type){11.0, !g.compact, ALIGN_LEFT, palette_dark.ink},
                            variation_words(number)) <= columns.name_room);
        }
        stage_end(stage);
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

static void reasons_are_read_whole(void)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 8, 8);
    cairo_t* const cairo = cairo_create(surface);
    for (size_t i = 0; i < sizeof pages / sizeof *pages; ++i) {
        Stage* const stage = stage_play(stage_scene(pages[i]));
        const Geometry g = geometry_of(&stage->model.view);
        const RowPlaces columns = vary_place_columns(&g, &stage->model.view);
        const Type type = {12.0, false, ALIGN_LEFT, palette_dark.ink};
        for (int reason = 1; reason < VARY_REASONS; ++reason) {
            check_case("%s, %s", pages[i], variation_reason((VaryReason)reason));
            CHECK(ink_width(cairo, type, variation_reason((VaryReason)reason)) <=
                  columns.to - columns.from);
        }
        stage_end(stage);
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

static void a_row_that_is_not_offered_says_why(void)
{
    char text[VARY_HELP_ROOM];
    Stage* const stage = stage_play(stage_scene("vary-not-offered"));
    const View* const view = &stage->model.view;
    vary_page_help(view, view->vary.cursor, text);
    CHECK_TEXT(text, "Not offered, filled in: runs of singles have no gaps");
    stage_end(stage);
}

/* ---- What sounds */

static void the_playhead_crosses_the_row_that_sounds(void)
{
    Moving moving[MOVING_MAX];
    Stage* const stage = stage_play(stage_scene("vary-waits"));
    const View* const view = &stage->model.view;
    const Geometry g = geometry_of(view);
    const VaryPlaces places = vary_place_of(&g);
    const Box row = vary_place_row(&places, VARIATION_LATER - view->vary.first);
    const int count = screen_moving(view, moving);
    double staff = 0.0, crossed = 0.0;
    for (int i = 0; i < count; ++i) {
        const Box box = moving[i].box;
        const bool is_head = !moving[i].is_lit;
        staff = is_head && box.y < g.line[0] ? box.x : staff;
        crossed =
            is_head && box.y >= row.y && box.y + box.height <= row.y + row.height ? box.x : crossed;
    }
    CHECK(staff > 0.0);
    CHECK_NEAR(crossed, staff, 0.001);
    stage_end(stage);
}

int main(void)
{
    RUN(strokes_stand_under_the_staffs);
    RUN(names_are_read_whole);
    RUN(reasons_are_read_whole);
    RUN(a_row_that_is_not_offered_says_why);
    RUN(the_playhead_crosses_the_row_that_sounds);
    return tests_end();
}

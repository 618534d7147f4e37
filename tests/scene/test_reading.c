// SPDX-License-Identifier: ISC
/* The reading view is read from a drum stool.  How large a letter must be is that of ISO
   9241-303 (2011): a capital's height of 16 minutes of arc at the least.  Two metres and 96
   dots an inch are ours: about where a screen stands beside a kit, and what most are. */
#include "../../ui/scene/reading.h"
#include "../../ui/scene/screen.h"
#include "../help/check.h"
#include "stage.h"

#include <math.h>
#include <pango/pangocairo.h>

static const double pi = 3.141592653589793;
static const double away_mm = 2000.0;
static const double dot_mm = 25.4 / 96.0;

static const double least_minutes = 16.0;

static double minutes_of(const double dots)
{
    return 2.0 * atan(dots * dot_mm / 2.0 / away_mm) * 180.0 / pi * 60.0;
}

/* The ink of a capital or a figure, in pixels, as it is drawn. */
static double height_of(const double size, const char* const letter)
{
    PangoContext* const context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    PangoLayout* const layout = pango_layout_new(context);
    PangoFontDescription* const font = pango_font_description_from_string("Sans");
    PangoRectangle ink;
    pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_layout_set_text(layout, letter, -1);
    pango_layout_get_extents(layout, &ink, NULL);
    pango_font_description_free(font);
    g_object_unref(layout);
    g_object_unref(context);
    return (double)ink.height / PANGO_SCALE;
}

static Geometry geometry_at(const double width, const double height)
{
    static View view;
    view.reads = true;
    view.width = width;
    view.height = height;
    return geometry_of(&view);
}

/* By hand: 2 m times the tangent of 16/60 of a degree is 9.31 mm, 35.2 dots of 0.2646 mm. */
static void sixteen_minutes_are_thirty_five_dots_at_two_metres(void)
{
    CHECK_NEAR(minutes_of(35.18), 16.0, 0.01);
}

static void every_role_is_legible_at_two_metres(void)
{
    const Geometry g = geometry_at(1280.0, 760.0);
    for (int role = 0; role < READING_ASIDE; ++role) {
        const double high = height_of(reading_size(&g, (ReadingRole)role), "H");
        check_case("role %d: %.1f dots, %.1f minutes", role, high, minutes_of(high));
        CHECK(minutes_of(high) >= least_minutes);
    }
}

static void counts_have_figures_of_thirty_five_dots(void)
{
    const Geometry g = geometry_at(1280.0, 760.0);
    for (int pair = 0; pair < 2; ++pair) {
        for (char figure = '1'; figure <= '9'; ++figure) {
            const char text[] = {figure, '\0'};
            check_case("pair %d, %s", pair, text);
            CHECK(height_of(g.count_size[pair], text) >= 35.0);
        }
    }
}

/* As the concept has it: nothing in the view is smaller than 22 at this size. */
static void what_is_said_aside_is_no_smaller_than_twenty_two(void)
{
    const Geometry g = geometry_at(1280.0, 760.0);
    CHECK(reading_size(&g, READING_ASIDE) >= 22.0);
}

/* The one role that needn't be read from there; where a window is tall it can be. */
static void voices_named_in_the_staff_are_legible_where_there_is_height(void)
{
    const Geometry g = geometry_at(1280.0, 1600.0);
    const double high = height_of(reading_size(&g, READING_ASIDE), "H");
    check_case("%.1f dots, %.1f minutes", high, minutes_of(high));
    CHECK(minutes_of(high) >= least_minutes);
}

static void type_grows_with_the_window(void)
{
    static const double sizes[][2] = {
        {720, 420}, {960, 540}, {1280, 760}, {1920, 1080}, {3840, 2160}};
    const Geometry full = geometry_at(1280.0, 760.0);
    for (int i = 0; i < 5; ++i) {
        const double times = fmin(sizes[i][0] / 1280.0, sizes[i][1] / 760.0);
        const Geometry g = geometry_at(sizes[i][0], sizes[i][1]);
        for (int role = 0; role < READING_ASIDE; ++role) {
            check_case("%g by %g, role %d", sizes[i][0], sizes[i][1], role);
            CHECK_NEAR(reading_size(&g, (ReadingRole)role),
                       times * reading_size(&full, (ReadingRole)role), 1e-9);
        }
    }
}

/* ---- Nothing clips, no band is empty */

enum { SHAPES = 12 };
static const int shapes[SHAPES][2] = {{720, 420},   {960, 540},   {1280, 760},  {1600, 1000},
                                      {1920, 1080}, {2560, 1440}, {3440, 1440}, {3840, 2160},
                                      {720, 1280},  {900, 1400},  {1080, 1920}, {1600, 1600}};

/* Rows or columns of the ground alone, the most of them together. */
static int longest_empty(cairo_surface_t* const picture, const bool rows)
{
    const int width = cairo_image_surface_get_width(picture);
    const int height = cairo_image_surface_get_height(picture);
    const int stride = cairo_image_surface_get_stride(picture);
    const unsigned char* const data = cairo_image_surface_get_data(picture);
    int longest = 0, now = 0;
    for (int i = 0; i < (rows ? height : width); ++i) {
        bool is_empty = true;
        for (int j = 0; is_empty && j < (rows ? width : height); ++j) {
            const int x = rows ? j : i, y = rows ? i : j;
            const uint32_t* const at = (const uint32_t*)(const void*)(data + y * stride) + x;
            is_empty = (*at & 0xFFFFFFU) == 0x14181AU; /* palette_dark's ground */
        }
        now = is_empty ? now + 1 : 0;
        longest = now > longest ? now : longest;
    }
    return longest;
}

static void no_band_of_a_window_is_empty(void)
{
    for (int i = 0; i < SHAPES; ++i) {
        Stage* const stage = stage_play(stage_scene("reading"));
        controller_resize(&stage->model, shapes[i][0], shapes[i][1], 1.0);
        cairo_surface_t* const picture = stage_picture(stage);
        cairo_surface_flush(picture);
        check_case("%d by %d", shapes[i][0], shapes[i][1]);
        CHECK(longest_empty(picture, true) < shapes[i][1] / 14);
        CHECK(longest_empty(picture, false) < shapes[i][0] / 14);
        cairo_surface_destroy(picture);
        stage_end(stage);
    }
}

/* At every size from the least on, what tells where stands in the window, row under row. */
static void everything_stands_in_the_window_in_its_order(void)
{
    for (int width = 720; width <= 3840; width += 60) {
        for (int height = 420; height <= 2160; height += 60) {
            const Geometry g = geometry_at(width, height);
            const ReadingPlaces places = reading_places(&g);
            const double rows[] = {places.rule[0], g.count_hands,   g.row_top[0],    g.line[0],
                                   g.line[1],      g.row_bottom[1], g.count_feet,    g.row_top[2],
                                   g.line[2],      g.line[3],       g.row_bottom[3], g.turns,
                                   places.rule[1], places.name.y,   g.height};
            check_case("%d by %d", width, height);
            for (size_t i = 1; i < sizeof rows / sizeof *rows; ++i) {
                CHECK(rows[i] > rows[i - 1]);
            }
            CHECK(places.groove_room > 200.0 * g.unit);
            CHECK(g.labels < g.staff && g.staff < g.beat_1 && g.right < g.width);
            const Box last = reading_bar(&g, 15, 16);
            CHECK(last.x + last.width <= g.right + 0.001);
        }
    }
}

/* ---- In and out */

static void d_opens_it_and_d_or_esc_goes_back(void)
{
    Stage* const stage = stage_play(stage_scene("playing-dark"));
    const View* const view = &stage->model.view;
    stage_key(stage, 'd');
    CHECK(view->reads);
    stage_key(stage, 'd');
    CHECK(!view->reads);
    stage_key(stage, 'd');
    stage_key(stage, PANE_KEY_ESCAPE);
    CHECK(!view->reads);
    stage_end(stage);
}

static void a_double_click_goes_back_and_one_click_does_not(void)
{
    Stage* const stage = stage_play(stage_scene("reading"));
    stage_click(stage, (TargetId){TARGET_READING, 0});
    CHECK(stage->model.view.reads);
    stage_click(stage, (TargetId){TARGET_READING, 0});
    CHECK(!stage->model.view.reads);
    stage_end(stage);
}

/* What a key opens is seen. */
static void pages_and_states_that_a_key_opens_end_it(void)
{
    static const struct {
        uint32_t key;
        Panel panel;
    } rows[] = {{'e', PANEL_EDIT}, {'o', PANEL_OUTPUT}, {'p', PANEL_RHYTHM}};
    for (int i = 0; i < 3; ++i) {
        Stage* const stage = stage_play(stage_scene("reading"));
        stage_key(stage, rows[i].key);
        check_case("%c", (int)rows[i].key);
        CHECK(!stage->model.view.reads);
        CHECK_INT(stage->model.view.panel, rows[i].panel);
        cairo_surface_destroy(stage_picture(stage));
        stage_end(stage);
    }
}

/* The list is seen, and the view is back once it is closed. */
static void a_list_opens_over_it(void)
{
    Stage* const stage = stage_play(stage_scene("reading"));
    stage_key(stage, 'f');
    const Geometry listed = geometry_of(&stage->model.view);
    CHECK(listed.list && !listed.reads);
    stage_key(stage, PANE_KEY_ESCAPE);
    const Geometry g = geometry_of(&stage->model.view);
    CHECK(g.reads);
    stage_end(stage);
}

int main(void)
{
    RUN(sixteen_minutes_are_thirty_five_dots_at_two_metres);
    RUN(every_role_is_legible_at_two_metres);
    RUN(counts_have_figures_of_thirty_five_dots);
    RUN(what_is_said_aside_is_no_smaller_than_twenty_two);
    RUN(voices_named_in_the_staff_are_legible_where_there_is_height);
    RUN(type_grows_with_the_window);
    RUN(no_band_of_a_window_is_empty);
    RUN(everything_stands_in_the_window_in_its_order);
    RUN(d_opens_it_and_d_or_esc_goes_back);
    RUN(a_double_click_goes_back_and_one_click_does_not);
    RUN(pages_and_states_that_a_key_opens_end_it);
    RUN(a_list_opens_over_it);
    return tests_end();
}

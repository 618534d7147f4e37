// SPDX-License-Identifier: ISC
/* Every text of every state, as it is drawn, on what it stands on: 4.5 to 1 or more by the
   contrast ratio of W3C's Web Content Accessibility Guidelines 2.1 (1.4.3), computed here by
   itself.  In both of the window's own themes and in a host's. */
#include "../help/check.h"
#include "stage.h"

#include <math.h>
#include <pango/pangocairo.h>
#include <stdio.h>
#include <string.h>

static const double least = 4.5;

/* Relative luminance: WCAG 2.1, "Dfn: relative luminance". */
static double linear(const double channel)
{
    return channel <= 0.03928 ? channel / 12.92 : pow((channel + 0.055) / 1.055, 2.4);
}

static double luminance(const double red, const double green, const double blue)
{
    return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

static double of_pixel(const uint32_t pixel)
{
    return luminance((pixel >> 16 & 255U) / 255.0, (pixel >> 8 & 255U) / 255.0,
                     (pixel & 255U) / 255.0);
}

static struct {
    int count;
    double worst;
    char text[80]; /* of the worst */
} seen;

/* The pixel that most of a box has: what the words stand on, whatever lines cross it. */
static uint32_t ground_of(cairo_surface_t* const surface, const int x, const int y, const int width,
                          const int height)
{
    const int stride = cairo_image_surface_get_stride(surface);
    const unsigned char* const data = cairo_image_surface_get_data(surface);
    uint32_t now = 0;
    int lead = 0; /* Boyer and Moore's majority vote, 1981 */
    for (int j = y; j < y + height && j < cairo_image_surface_get_height(surface); ++j) {
        for (int i = x; i < x + width && i < cairo_image_surface_get_width(surface); ++i) {
            uint32_t pixel = 0;
            if (i >= 0 && j >= 0) {
                memcpy(&pixel, data + j * stride + 4 * i, sizeof pixel);
                pixel &= 0xFFFFFFU;
                lead += pixel == now ? 1 : -1;
                now = lead < 0 ? pixel : now;
                lead = lead < 0 ? 1 : lead;
            }
        }
    }
    return now;
}

/* In the place of Pango's: notes, and draws nothing, so that no word is another's ground. */
void pango_cairo_show_layout(cairo_t* const cairo, PangoLayout* const layout)
{
    PangoRectangle ink;
    double x = 0.0, y = 0.0, red = 0.0, green = 0.0, blue = 0.0, alpha = 0.0;
    pango_layout_get_pixel_extents(layout, &ink, NULL);
    cairo_get_current_point(cairo, &x, &y);
    cairo_user_to_device(cairo, &x, &y);
    cairo_surface_t* const surface = cairo_get_target(cairo);
    if (ink.width <= 0 || cairo_pattern_get_rgba(cairo_get_source(cairo), &red, &green, &blue,
                                                 &alpha) != CAIRO_STATUS_SUCCESS) {
        return;
    }
    cairo_surface_flush(surface);
    const double ground =
        of_pixel(ground_of(surface, (int)x + ink.x, (int)y + ink.y, ink.width, ink.height));
    const double words = luminance(red, green, blue);
    const double high = fmax(ground, words) + 0.05;
    const double low = fmin(ground, words) + 0.05;
    ++seen.count;
    if (high / low < seen.worst) {
        seen.worst = high / low;
        snprintf(seen.text, sizeof seen.text, "%s", pango_layout_get_text(layout));
    }
}

static void draw(const View* const view, const bool lit)
{
    cairo_surface_t* const surface = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)ceil(view->width), (int)ceil(view->height));
    cairo_t* const cairo = cairo_create(surface);
    seen.count = 0;
    seen.worst = 21.0;
    screen_draw(cairo, view, lit);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

/* Grey on grey as some hosts have it. */
static const Colour host_ground = GREY(0.36);
static const Colour host_text = GREY(0.80);

static double worst[3]; /* of each theme */

static void check_themes(Stage* const stage, const char* const name)
{
    const Palette palettes[] = {palette_dark, palette_light,
                                palette_around(host_ground, host_text)};
    for (int theme = 0; theme < 3; ++theme) {
        stage->model.view.palette = palettes[theme];
        for (int lit = 0; lit < 2; ++lit) {
            draw(&stage->model.view, lit);
            check_case("%s, theme %d, lit %d: %.2f of \"%s\"", name, theme, lit, seen.worst,
                       seen.text);
            CHECK(seen.worst >= least);
            worst[theme] = fmin(worst[theme], seen.worst);
        }
    }
}

static void every_text_stands_out_from_what_it_stands_on(void)
{
    worst[0] = worst[1] = worst[2] = 21.0;
    for (int i = 0; i < stage_scene_count; ++i) {
        Stage* const stage = stage_play(&stage_scenes[i]);
        check_themes(stage, stage_scenes[i].name);
        stage_end(stage);
    }
    printf("# the least: dark %.2f, light %.2f, a host's %.2f\n", worst[0], worst[1], worst[2]);
}

/* On each panel, with each of its targets under the pointer. */
static void so_does_what_is_pointed_at(void)
{
    for (int panel = 0; panel < PANEL_COUNT; ++panel) {
        Stage* const stage = stage_play(stage_scene("playing-dark"));
        TargetList targets;
        if (panel == PANEL_SHORTLIST) { /* it has no tab */
            stage_key(stage, 'j');
        } else {
            stage_click(stage, (TargetId){TARGET_TAB, panel});
        }
        const Geometry g = geometry_of(&stage->model.view);
        targets_of(&stage->model.view, &g, &targets);
        for (int i = 0; i < targets.count; ++i) {
            stage->model.view.hover = stage->model.view.focus = targets.targets[i].id;
            check_themes(stage, "pointed at");
        }
        stage_end(stage);
    }
}

int main(void)
{
    RUN(every_text_stands_out_from_what_it_stands_on);
    RUN(so_does_what_is_pointed_at);
    return tests_end();
}

// SPDX-License-Identifier: ISC
#include "picture_plot.h"

#include "../data/tsv.h"

#include <math.h>

static const char* const source =
    "Bands: Groove MIDI Dataset (Gillick, Roberts, Engel, Eck, Bamman, ICML 2019, CC BY 4.0), "
    "10 to 90 %, as in tests/data/drummers.tsv.";

void picture_plot_ink(cairo_t* const cairo, const PictureInk ink)
{
    static const int inks[][3] = {
        [PICTURE_BLACK] = {26, 26, 26},    [PICTURE_GREY] = {107, 107, 107},
        [PICTURE_LIGHT] = {222, 222, 222}, [PICTURE_BAND] = {204, 220, 204},
        [PICTURE_BLUE] = {0, 90, 180},     [PICTURE_ORANGE] = {204, 90, 0}};
    cairo_set_source_rgb(cairo, inks[ink][0] / 255.0, inks[ink][1] / 255.0, inks[ink][2] / 255.0);
}

void picture_plot_text(cairo_t* const cairo, const double x, const double y,
                       const PictureAlign align, const PictureInk ink, const char* const words)
{
    cairo_text_extents_t extents;
    cairo_text_extents(cairo, words, &extents);
    picture_plot_ink(cairo, ink);
    cairo_move_to(cairo, x - extents.x_advance * (int)align / 2.0, y);
    cairo_show_text(cairo, words);
    cairo_new_path(cairo);
}

cairo_t* picture_plot_page(const int width, const int height, const char* const title,
                           const char* const caption)
{
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t* const cairo = cairo_create(surface);
    cairo_surface_destroy(surface);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    cairo_set_line_width(cairo, 1.0);
    cairo_select_font_face(cairo, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
    cairo_set_font_size(cairo, 17.0);
    picture_plot_text(cairo, 24, 32, PICTURE_LEFT, PICTURE_BLACK, title);
    cairo_select_font_face(cairo, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, 13.0);
    picture_plot_text(cairo, 24, height - 36, PICTURE_LEFT, PICTURE_BLACK, caption);
    picture_plot_text(cairo, 24, height - 16, PICTURE_LEFT, PICTURE_BLACK, source);
    return cairo;
}

bool picture_plot_save(cairo_t* const page, const char* const folder, const char* const name)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/feel-%s.png", folder, name);
    const bool is_written =
        cairo_surface_write_to_png(cairo_get_target(page), path) == CAIRO_STATUS_SUCCESS;
    if (!is_written) {
        fprintf(stderr, "picture: %s can't be written\n", path);
    }
    cairo_destroy(page);
    return is_written;
}

static double number_of(const Tsv* const tsv, const int field)
{
    return *tsv->fields[field] ? tsv_number(tsv, field) : (double)NAN;
}

PictureBand picture_plot_band(const char* const table, const char* const statistic,
                              const char* const of)
{
    PictureBand band = {(double)NAN, (double)NAN, (double)NAN};
    Tsv tsv = tsv_open("drummers.tsv");
    while (tsv_next(&tsv)) {
        if (tsv.count == 6 && !strcmp(tsv.fields[0], table) && !strcmp(tsv.fields[1], statistic) &&
            !strcmp(tsv.fields[2], of)) {
            band = (PictureBand){number_of(&tsv, 3), number_of(&tsv, 4), number_of(&tsv, 5)};
        }
    }
    return band;
}

double picture_plot_x(const PicturePlot* const plot, const double x)
{
    return plot->left + (x - plot->x_from) / (plot->x_to - plot->x_from) * plot->width;
}

double picture_plot_y(const PicturePlot* const plot, const double y)
{
    return plot->top + (plot->y_to - y) / (plot->y_to - plot->y_from) * plot->height;
}

void picture_plot_frame(const PicturePlot* const plot, const char* const title,
                        const char* const unit, const double step)
{
    picture_plot_text(plot->cairo, plot->left, plot->top - 9, PICTURE_LEFT, PICTURE_BLACK, title);
    for (double y = ceil(plot->y_from / step) * step; y <= plot->y_to; y += step) {
        char label[64];
        const double at = floor(picture_plot_y(plot, y)) + 0.5;
        snprintf(label, sizeof label, plot->y_from < 0.0 && y != 0.0 ? "%+g %s" : "%g %s", y, unit);
        picture_plot_text(plot->cairo, plot->left - 8, at + 4, PICTURE_RIGHT, PICTURE_GREY, label);
        picture_plot_ink(plot->cairo, y == 0.0 ? PICTURE_GREY : PICTURE_LIGHT);
        cairo_move_to(plot->cairo, plot->left, at);
        cairo_rel_line_to(plot->cairo, plot->width, 0);
        cairo_stroke(plot->cairo);
    }
    picture_plot_ink(plot->cairo, PICTURE_GREY);
    cairo_rectangle(plot->cairo, plot->left, plot->top, plot->width, plot->height);
    cairo_stroke(plot->cairo);
}

void picture_plot_places(const PicturePlot* const plot)
{
    static const char* const names[] = {"1", "e", "and", "a", "2", "e", "and", "a",
                                        "3", "e", "and", "a", "4", "e", "and", "a"};
    for (int place = 0; place < 16; ++place) {
        picture_plot_text(plot->cairo, picture_plot_x(plot, place + 1),
                          plot->top + plot->height + 17, PICTURE_MIDDLE,
                          place % 4 ? PICTURE_GREY : PICTURE_BLACK, names[place]);
    }
}

void picture_plot_box(const PicturePlot* const plot, const double x, const double half_width,
                      const PictureBand* const band)
{
    const double left = picture_plot_x(plot, x - half_width);
    const double width = picture_plot_x(plot, x + half_width) - left;
    if (!isnan(band->p10)) {
        const double top = picture_plot_y(plot, band->p90);
        picture_plot_ink(plot->cairo, PICTURE_BAND);
        cairo_rectangle(plot->cairo, left, top, width, picture_plot_y(plot, band->p10) - top);
        cairo_fill(plot->cairo);
    }
    if (isnan(band->p50)) {
        return;
    }
    picture_plot_ink(plot->cairo, PICTURE_GREY);
    cairo_move_to(plot->cairo, left, floor(picture_plot_y(plot, band->p50)) + 0.5);
    cairo_rel_line_to(plot->cairo, width, 0);
    cairo_stroke(plot->cairo);
}

void picture_plot_mark(const PicturePlot* const plot, const double x, const double y,
                       const int take)
{
    static const PictureInk inks[] = {PICTURE_BLACK, PICTURE_BLUE, PICTURE_ORANGE};
    const double left = picture_plot_x(plot, x);
    const double top = picture_plot_y(plot, fmin(fmax(y, plot->y_from), plot->y_to));
    picture_plot_ink(plot->cairo, inks[take]);
    if (take == 0) {
        cairo_arc(plot->cairo, left, top, 4.0, 0.0, 6.2832);
    } else if (take == 1) {
        cairo_rectangle(plot->cairo, left - 3.5, top - 3.5, 7, 7);
    } else {
        cairo_move_to(plot->cairo, left, top - 5);
        cairo_rel_line_to(plot->cairo, 5, 9);
        cairo_rel_line_to(plot->cairo, -10, 0);
        cairo_close_path(plot->cairo);
    }
    cairo_fill(plot->cairo);
}

void picture_plot_legend(cairo_t* const cairo, const double x, const double y,
                         const char* const word, const char* const names[3])
{
    char words[64];
    const PicturePlot plot = {cairo, x, y - 12, 520, 16, 0.0, 520.0, 0.0, 16.0};
    const PictureBand box = {1.0, 8.0, 15.0};
    for (int take = 0; take < 3; ++take) {
        snprintf(words, sizeof words, "%s %s", word, names[take]);
        picture_plot_mark(&plot, 6 + 92 * take, 7, take);
        picture_plot_text(cairo, x + 16 + 92 * take, y, PICTURE_LEFT, PICTURE_BLACK, words);
    }
    picture_plot_box(&plot, 290, 8, &box);
    picture_plot_text(cairo, x + 304, y, PICTURE_LEFT, PICTURE_BLACK,
                      "drummers: 10 to 90 %, line: middle");
}

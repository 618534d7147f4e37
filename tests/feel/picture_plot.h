// SPDX-License-Identifier: ISC
/* picture_plot.h - pages and axes of the pictures that "make feel" draws, by Cairo. */
#pragma once

#include <cairo.h>
#include <stdbool.h>

/* What drummers do, from tests/data/drummers.tsv: percentiles; not a number where the table has
   none. */
typedef struct {
    double p10, p50, p90;
} PictureBand;

typedef struct {
    cairo_t* cairo;
    double left, top, width, height;   /* pixels */
    double x_from, x_to, y_from, y_to; /* what the axes go over */
} PicturePlot;

typedef enum { PICTURE_LEFT, PICTURE_MIDDLE, PICTURE_RIGHT } PictureAlign;
typedef enum {
    PICTURE_BLACK,
    PICTURE_GREY,
    PICTURE_LIGHT,
    PICTURE_BAND,
    PICTURE_BLUE,
    PICTURE_ORANGE
} PictureInk;

/* A white page with a title on top and, below, a line on what is seen and the tables' source;
   picture_plot_save writes and ends it. */
cairo_t* picture_plot_page(int width, int height, const char* title, const char* caption);
bool picture_plot_save(cairo_t* page, const char* folder, const char* name);

PictureBand picture_plot_band(const char* table, const char* statistic, const char* of);

void picture_plot_ink(cairo_t* cairo, PictureInk ink);
void picture_plot_text(cairo_t* cairo, double x, double y, PictureAlign align, PictureInk ink,
                       const char* words);

double picture_plot_x(const PicturePlot* plot, double x);
double picture_plot_y(const PicturePlot* plot, double y);

/* A frame with a title, lines at every `step` of the upright axis, and its unit. */
void picture_plot_frame(const PicturePlot* plot, const char* title, const char* unit, double step);

/* The sixteenths of a bar along the level axis, 1 to 16. */
void picture_plot_places(const PicturePlot* plot);

/* A band as a box with a line at its middle, around a place of the level axis. */
void picture_plot_box(const PicturePlot* plot, double x, double half_width,
                      const PictureBand* band);

/* The mark of a take, 0 to 2: told apart by shape as well as by colour.  What lies beyond the
   frame is put on its edge. */
void picture_plot_mark(const PicturePlot* plot, double x, double y, int take);

/* What the marks and the boxes mean, in one line: "word name" for each. */
void picture_plot_legend(cairo_t* cairo, double x, double y, const char* word,
                         const char* const names[3]);

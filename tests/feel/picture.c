// SPDX-License-Identifier: ISC
/* picture.c - draws how far strokes are off the grid over 64 bars of the default
   groove, at looseness 0 and at the default, from MIDI files read as CSV.
   Usage: picture OUT.png STRAIGHT.csv LOOSE.csv    (made by midicsv) */
#include <cairo.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WIDTH = 1200, HEIGHT = 520, LEFT = 90, TOP = 50, PANEL = 190, GAP = 40 };

static const double ticks_per_quarter = 10080.0;
static const double most_ms = 45.0;

typedef struct {
    cairo_t* cairo;
    double top; /* of the panel */
    double quarters;
    double ms_per_tick;
} Panel;

static double x_of(const Panel* const panel, const double tick)
{
    return LEFT + tick / ticks_per_quarter / panel->quarters * (WIDTH - LEFT - 20);
}

static double y_of(const Panel* const panel, const double ms)
{
    return panel->top + PANEL / 2.0 + ms / most_ms * PANEL / 2.0;
}

static void text(const Panel* const panel, const double x, const double y, const char* const words)
{
    cairo_set_source_rgb(panel->cairo, 0.1, 0.1, 0.1);
    cairo_move_to(panel->cairo, x, y);
    cairo_show_text(panel->cairo, words);
}

static void draw_frame(const Panel* const panel, const char* const title)
{
    text(panel, LEFT, panel->top - 8, title);
    for (int ms = -40; ms <= 40; ms += 20) {
        char label[32];
        snprintf(label, sizeof label, ms ? "%+d ms" : "click", ms);
        text(panel, 20, y_of(panel, ms) + 4, label);
        cairo_set_source_rgb(panel->cairo, ms ? 0.85 : 0.5, ms ? 0.85 : 0.5, ms ? 0.85 : 0.5);
        cairo_move_to(panel->cairo, LEFT, y_of(panel, ms));
        cairo_line_to(panel->cairo, WIDTH - 20, y_of(panel, ms));
        cairo_stroke(panel->cairo);
    }
}

/* Kick as discs, hats as crosses: told apart by shape. */
static void draw_stroke(const Panel* const panel, const double tick, const int key)
{
    const double grid = ticks_per_quarter / 4.0;
    const double off = tick - floor(tick / grid + 0.5) * grid;
    const double x = x_of(panel, tick);
    const double y = y_of(panel, off * panel->ms_per_tick);
    cairo_set_source_rgb(panel->cairo, 0.1, 0.1, 0.1);
    if (key == 36) {
        cairo_arc(panel->cairo, x, y, 2.2, 0.0, 6.2832);
        cairo_fill(panel->cairo);
    } else if (key == 46 || key == 42) {
        cairo_move_to(panel->cairo, x - 2.5, y - 2.5);
        cairo_rel_line_to(panel->cairo, 5, 5);
        cairo_move_to(panel->cairo, x - 2.5, y + 2.5);
        cairo_rel_line_to(panel->cairo, 5, -5);
        cairo_stroke(panel->cairo);
    }
}

static int draw_file(Panel panel, const char* const path, const char* const title)
{
    char line[256];
    FILE* const file = fopen(path, "r");
    if (!file) {
        perror(path);
        return 1;
    }
    draw_frame(&panel, title);
    while (fgets(line, sizeof line, file)) {
        double tick = 0.0, tempo = 0.0;
        int key = 0;
        if (sscanf(line, "%*d, %lf, Tempo, %lf", &tick, &tempo) == 2) {
            panel.ms_per_tick = tempo / 1000.0 / ticks_per_quarter;
        } else if (sscanf(line, "%*d, %lf, Note_on_c, %*d, %d", &tick, &key) == 2) {
            draw_stroke(&panel, tick, key);
        }
    }
    fclose(file);
    return 0;
}

int main(const int count, char** const arguments)
{
    if (count != 4) {
        fprintf(stderr, "usage: picture OUT.png STRAIGHT.csv LOOSE.csv\n");
        return 1;
    }
    cairo_surface_t* const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
    cairo_t* const cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    cairo_set_font_size(cairo, 13.0);
    cairo_set_line_width(cairo, 1.0);
    Panel panel = {cairo, TOP, 256.0, 0.0};
    int status = draw_file(panel, arguments[2],
                           "64 bars at looseness 0: strokes off the click "
                           "(x hats, disc kicks); below the line is late");
    panel.top += PANEL + GAP;
    status |= draw_file(panel, arguments[3], "The same 64 bars at the default looseness, take 1");
    if (cairo_surface_write_to_png(surface, arguments[1]) != CAIRO_STATUS_SUCCESS) {
        fprintf(stderr, "picture: %s can't be written\n", arguments[1]);
        status = 1;
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return status;
}

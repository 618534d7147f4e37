// SPDX-License-Identifier: ISC
/* Offsets of 64 bars against the grid, a row for each limb, and beside it the spread of every
   eight bars in the drummers' band. */
#include "picture.h"
#include "picture_say.h"

enum { PARTS = WINDOW_BARS / 8, PART_SLOTS = 8 * 16 };
static const char* const titles[WINDOW_LIMBS] = {"Kick", "Snare", "Hat"};
static const char* const names[WINDOW_LIMBS] = {"kick", "snare", "cymbal"};

/* One limb in eight bars, as the tables ask it. */
typedef struct {
    double mean, sd;
} PictureSpread;

static PictureSpread part_of(const Window* const ms, const WindowLimb limb, const int part)
{
    double x[PART_SLOTS];
    int count = 0;
    for (int slot = part * PART_SLOTS; slot < (part + 1) * PART_SLOTS; ++slot) {
        x[count] = ms->value[limb][slot];
        count += !isnan(x[count]);
    }
    return (PictureSpread){mean_of(x, count), sd_of(x, count)};
}

static void draw_bars(const PicturePlot* const plot)
{
    for (int bar = 0; bar <= WINDOW_BARS; bar += 8) {
        char label[16];
        const double x = floor(picture_plot_x(plot, bar)) + 0.5;
        picture_plot_ink(plot->cairo, PICTURE_LIGHT);
        cairo_move_to(plot->cairo, x, plot->top);
        cairo_rel_line_to(plot->cairo, 0, plot->height);
        cairo_stroke(plot->cairo);
        snprintf(label, sizeof label, "bar %d", bar + 1);
        picture_plot_text(plot->cairo, x, plot->top + plot->height + 17, PICTURE_LEFT, PICTURE_GREY,
                          bar < WINDOW_BARS ? label : "");
    }
}

static void draw_stripe(const PicturePlot* const plot, const double from, const double low,
                        const double high)
{
    const double left = picture_plot_x(plot, from), top = picture_plot_y(plot, high);
    picture_plot_ink(plot->cairo, PICTURE_BAND);
    cairo_rectangle(plot->cairo, left, top, picture_plot_x(plot, from + 8) - left,
                    picture_plot_y(plot, low) - top);
    cairo_fill(plot->cairo);
}

static void draw_line(const PicturePlot* const plot, const double from, const double y)
{
    picture_plot_ink(plot->cairo, PICTURE_ORANGE);
    cairo_set_line_width(plot->cairo, 1.6);
    cairo_move_to(plot->cairo, picture_plot_x(plot, from), picture_plot_y(plot, y));
    cairo_line_to(plot->cairo, picture_plot_x(plot, from + 8), picture_plot_y(plot, y));
    cairo_stroke(plot->cairo);
    cairo_set_line_width(plot->cairo, 1.0);
}

static void draw_strokes(const PicturePlot* const plot, const Window* const ms,
                         const WindowLimb limb)
{
    const Row row = window_row(ms, limb);
    picture_plot_ink(plot->cairo, PICTURE_BLACK);
    for (int i = 0; i < row.count; ++i) {
        const double most = fmin(fmax(row.x[i], plot->y_from), plot->y_to);
        cairo_arc(plot->cairo, picture_plot_x(plot, row.slot[i] / 16.0), picture_plot_y(plot, most),
                  1.9, 0.0, 6.2832);
        cairo_fill(plot->cairo);
    }
}

static void draw_limb(cairo_t* const page, const Window* const ms, const WindowLimb limb,
                      const double top)
{
    const PicturePlot wide = {page, 100, top, 980, 190, 0.0, WINDOW_BARS, -70.0, 70.0};
    const PicturePlot slim = {page, 1170, top, 200, 190, 0.4, PARTS + 0.6, 0.0, 40.0};
    const PictureBand band = picture_plot_band("timing", "offset sd", names[limb]);
    PictureSpread parts[PARTS];
    for (int i = 0; i < PARTS; ++i) {
        parts[i] = part_of(ms, limb, i);
        draw_stripe(&wide, 8 * i, parts[i].mean + band.p10, parts[i].mean + band.p90);
        draw_stripe(&wide, 8 * i, parts[i].mean - band.p90, parts[i].mean - band.p10);
    }
    picture_plot_box(&slim, PARTS / 2.0 + 0.5, PARTS / 2.0 + 0.1, &band);
    picture_plot_frame(&wide, titles[limb], "ms", 20.0);
    picture_plot_frame(&slim, "Spread (sd) of each eight bars", "ms", 10.0);
    draw_bars(&wide);
    draw_strokes(&wide, ms, limb);
    printf("spread %-8s", names[limb]);
    picture_say_band(&band, 2);
    for (int i = 0; i < PARTS; ++i) {
        char label[16];
        draw_line(&wide, 8 * i, parts[i].mean + parts[i].sd);
        draw_line(&wide, 8 * i, parts[i].mean - parts[i].sd);
        picture_plot_mark(&slim, i + 1, parts[i].sd, 2);
        snprintf(label, sizeof label, "%d", i + 1);
        picture_plot_text(page, picture_plot_x(&slim, i + 1), top + 190 + 17, PICTURE_MIDDLE,
                          PICTURE_GREY, label);
        picture_say(parts[i].sd, 2);
    }
    printf("\n");
}

bool picture_offsets(const char* const folder, const PictureTake* const take)
{
    cairo_t* const page = picture_plot_page(
        1400, 850,
        "How far strokes are off the click: 64 bars of \"Left Luggage\", take 1, all dials at "
        "first",
        "Dots: strokes, + is late. Lines: mean, plus and minus the spread (standard deviation), "
        "of eight bars; green: where these lines are for drummers.");
    printf(
        "\nSpread of offsets against the click, ms (standard deviation, of each eight bars of take "
        "1)\n"
        "       limb           p10      p50      p90        1-8     9-16    17-24    25-32    "
        "33-40    41-48    49-56    57-64\n");
    draw_limb(page, &take->ms, CYMBAL_LIMB, 80);
    draw_limb(page, &take->ms, SNARE_LIMB, 80 + 240);
    draw_limb(page, &take->ms, KICK_LIMB, 80 + 480);
    return picture_plot_save(page, folder, "offsets");
}

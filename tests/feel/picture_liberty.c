// SPDX-License-Identifier: ISC
/* Eight bars at three liberties, a row for each limb; and how alike neighbouring bars are. */
#include "picture.h"
#include "picture_bars.h"
#include "picture_say.h"

enum { ROWS = 4, ROW_HEIGHT = 30, SHOWN_SLOTS = 8 * 16 };
static const struct {
    int limb;
    const char* name;
} rows[ROWS] = {
    {PICTURE_CRASH, "crash"}, {CYMBAL_LIMB, "hat"}, {SNARE_LIMB, "snare"}, {KICK_LIMB, "kick"}};

static void draw_cross(cairo_t* const cairo, const double x, const double y)
{
    picture_plot_ink(cairo, PICTURE_BLUE);
    cairo_move_to(cairo, x - 3.5, y - 3.5);
    cairo_rel_line_to(cairo, 7, 7);
    cairo_move_to(cairo, x - 3.5, y + 3.5);
    cairo_rel_line_to(cairo, 7, -7);
    cairo_stroke(cairo);
}

/* An open hat has a little ring above it, as in notation. */
static void draw_open(cairo_t* const cairo, const double x, const double y, const bool is_written)
{
    picture_plot_ink(cairo, is_written ? PICTURE_BLACK : PICTURE_ORANGE);
    cairo_arc(cairo, x, y - 10, 2.4, 0.0, 6.2832);
    cairo_stroke(cairo);
}

static void draw_stroke(cairo_t* const cairo, const double x, const double y,
                        const PictureChange change, const int velocity)
{
    if (change == PICTURE_REST) {
        return;
    }
    if (change == PICTURE_LEFT_OUT) {
        draw_cross(cairo, x, y);
        return;
    }
    picture_plot_ink(cairo, change == PICTURE_ADDED ? PICTURE_ORANGE : PICTURE_BLACK);
    cairo_arc(cairo, x, y, 1.6 + 3.0 * velocity / 127.0, 0.0, 6.2832);
    if (change == PICTURE_ADDED) {
        cairo_stroke(cairo);
    } else {
        cairo_fill(cairo);
    }
}

static void draw_lines(const PicturePlot* const plot)
{
    for (int bar = 0; bar < SHOWN_SLOTS / 16; ++bar) {
        char label[16];
        snprintf(label, sizeof label, "bar %d", bar + 1);
        picture_plot_text(plot->cairo, picture_plot_x(plot, 16 * bar - 0.5),
                          plot->top + plot->height + 17, PICTURE_LEFT, PICTURE_GREY, label);
    }
    for (int beat = 0; beat <= SHOWN_SLOTS / 4; ++beat) {
        const double x = floor(picture_plot_x(plot, 4 * beat - 0.5)) + 0.5;
        picture_plot_ink(plot->cairo, beat % 4 ? PICTURE_LIGHT : PICTURE_GREY);
        cairo_move_to(plot->cairo, x, plot->top);
        cairo_rel_line_to(plot->cairo, 0, plot->height);
        cairo_stroke(plot->cairo);
    }
    for (int row = 0; row < ROWS; ++row) {
        const double y = floor(picture_plot_y(plot, row)) + 0.5;
        picture_plot_text(plot->cairo, plot->left - 14, y + 4, PICTURE_RIGHT, PICTURE_BLACK,
                          rows[row].name);
        picture_plot_ink(plot->cairo, PICTURE_LIGHT);
        cairo_move_to(plot->cairo, plot->left, y);
        cairo_rel_line_to(plot->cairo, plot->width, 0);
        cairo_stroke(plot->cairo);
    }
}

static void draw_system(cairo_t* const page, const PictureTake* const written,
                        const PictureTake* const take, const double top, const char* const title)
{
    const PicturePlot plot = {
        page, 90, top, 1280, ROWS * ROW_HEIGHT, -0.5, SHOWN_SLOTS - 0.5, ROWS - 0.5, -0.5};
    picture_plot_text(page, plot.left, top - 9, PICTURE_LEFT, PICTURE_BLACK, title);
    draw_lines(&plot);
    for (int row = 0; row < ROWS; ++row) {
        const int limb = rows[row].limb;
        for (int slot = 0; slot < SHOWN_SLOTS; ++slot) {
            const PictureChange change = picture_bars_change(written, take, limb, slot);
            const double x = picture_plot_x(&plot, slot), y = picture_plot_y(&plot, row);
            draw_stroke(page, x, y, change, take->struck[limb][slot]);
            if (picture_bars_is_open(take->key[limb][slot])) {
                draw_open(page, x, y, change == PICTURE_STRUCK);
            }
        }
    }
}

/* A row of the tables for a part of the bar. */
typedef struct {
    PicturePart part;
    const char* name;
    const char* of;
} PictureAsked;

static void draw_share(const PicturePlot* const plot, const int column,
                       const PictureAsked* const asked, const PictureBand* const band,
                       const double got[PICTURE_LIBERTIES], const char* const what)
{
    printf("%-9s %-9s", what, asked->name);
    picture_plot_box(plot, column, 0.4, band);
    picture_plot_text(plot->cairo, picture_plot_x(plot, column), plot->top + plot->height + 17,
                      PICTURE_MIDDLE, PICTURE_BLACK, asked->name);
    picture_say_band(band, 3);
    for (int i = 0; i < PICTURE_LIBERTIES; ++i) {
        if (!isnan(got[i])) {
            picture_plot_mark(plot, column + 0.22 * (i - 1), got[i], i);
        }
        picture_say(got[i], 3);
    }
    printf("\n");
}

static void draw_likeness(cairo_t* const page, const PictureTake takes[PICTURE_LIBERTIES])
{
    static const PictureAsked asked[] = {{PICTURE_ALL, "all", "all"},
                                         {PICTURE_KICK, "kick", "kick"},
                                         {PICTURE_GHOSTS, "ghosts", "ghosts"},
                                         {PICTURE_SNARE, "snare", "snare"},
                                         {PICTURE_CYMBAL, "hat", "cymbal"}};
    const PicturePlot plot = {page, 90, 640, 570, 200, 0.4, 5.6, 0.0, 1.0};
    picture_plot_frame(&plot, "Likeness of neighbouring bars: strokes in both / in either", "",
                       0.2);
    for (int i = 0; i < 5; ++i) {
        const PictureBand band =
            picture_plot_band("liberty-likeness", "Jaccard, one bar on", asked[i].of);
        double got[PICTURE_LIBERTIES];
        for (int take = 0; take < PICTURE_LIBERTIES; ++take) {
            got[take] = picture_bars_likeness(&takes[take], asked[i].part);
        }
        draw_share(&plot, i + 1, &asked[i], &band, got, "likeness");
    }
}

static void draw_absent(cairo_t* const page, const PictureTake takes[PICTURE_LIBERTIES])
{
    static const PictureAsked asked[] = {{PICTURE_KICK, "kick", "kick"},
                                         {PICTURE_GHOSTS, "ghosts", "snare ghost"},
                                         {PICTURE_SNARE, "snare", "snare"},
                                         {PICTURE_BACKBEAT, "backbeat", "snare on the backbeat"},
                                         {PICTURE_CYMBAL, "hat", "hat or ride"}};
    const PicturePlot plot = {page, 780, 640, 590, 200, 0.4, 5.6, 0.0, 0.8};
    picture_plot_frame(&plot,
                       "Share of a bar's strokes that the next bar lacks (drummers: all together)",
                       "", 0.2);
    for (int i = 0; i < 5; ++i) {
        const PictureBand band = picture_plot_band(
            "liberty-strokes", "absent in the next bar, all strokes together", asked[i].of);
        double got[PICTURE_LIBERTIES];
        for (int take = 0; take < PICTURE_LIBERTIES; ++take) {
            got[take] = picture_bars_absent(&takes[take], asked[i].part);
        }
        draw_share(&plot, i + 1, &asked[i], &band, got, "absent");
    }
}

static void draw_key(cairo_t* const page, const double x, const double y)
{
    draw_stroke(page, x, y - 4, PICTURE_STRUCK, 90);
    picture_plot_text(page, x + 12, y, PICTURE_LEFT, PICTURE_BLACK,
                      "as written, the larger the louder");
    draw_stroke(page, x + 262, y - 4, PICTURE_ADDED, 90);
    picture_plot_text(page, x + 274, y, PICTURE_LEFT, PICTURE_BLACK, "added");
    draw_cross(page, x + 342, y - 4);
    picture_plot_text(page, x + 354, y, PICTURE_LEFT, PICTURE_BLACK, "left out");
    draw_open(page, x + 436, y + 6, true);
    picture_plot_text(page, x + 448, y, PICTURE_LEFT, PICTURE_BLACK, "open hat");
}

bool picture_liberty(const char* const folder, const PictureTake takes[PICTURE_LIBERTIES],
                     const char* const dial)
{
    char at_first[64];
    snprintf(at_first, sizeof at_first, "Liberty %s: as the dial is at first", dial);
    const char* const titles[] = {"Liberty 0: as written", at_first, "Liberty 100"};
    cairo_t* const page = picture_plot_page(
        1400, 940, "Eight bars of \"Left Luggage\" at three liberties, take 1",
        "Below: all 64 bars. Drummers' takes are improvised: read their bands as the far end of "
        "what a drummer does with one groove.");
    draw_key(page, 850, 32);
    printf("\nEight bars of \"Left Luggage\", take 1: o struck, g soft, + added, - left out, ^ "
           "opened, v closed\n");
    for (int i = 0; i < PICTURE_LIBERTIES; ++i) {
        printf("%s\n", titles[i]);
        draw_system(page, &takes[0], &takes[i], 80 + 175 * i, titles[i]);
        picture_bars_print(&takes[0], &takes[i]);
    }
    picture_plot_legend(page, 850, 602, "liberty", (const char* const[]){"0", dial, "100"});
    printf("\nNeighbouring bars of 64: likeness (strokes in both / in either), and the share that "
           "the next bar lacks\n"
           "          of             p10      p50      p90       at 0 at first   at 100\n");
    draw_likeness(page, takes);
    draw_absent(page, takes);
    return picture_plot_save(page, folder, "liberty");
}

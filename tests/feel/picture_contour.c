// SPDX-License-Identifier: ISC
/* The loudness contour: three takes' mean velocities at each sixteenth.  The cymbal's bands are
   by place; of snare and kick the tables have those of soft, normal and accented strokes. */
#include "picture.h"
#include "picture_say.h"

static const char* const names[WINDOW_LIMBS] = {"kick", "snare", "cymbal"};

static void draw_marks(const PicturePlot* const plot, const int place,
                       const PicturePlaces takes[PICTURE_TAKES])
{
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        if (takes[take].has[place]) {
            picture_plot_mark(plot, place + 1 + 0.24 * (take - 1), takes[take].mean[place], take);
        }
        picture_say(takes[take].has[place] ? takes[take].mean[place] : NOTHING, 2);
    }
    printf("\n");
}

static void draw_cymbal(cairo_t* const page, const PictureTake takes[PICTURE_TAKES],
                        const double left, const char* const title)
{
    const PicturePlot plot = {page, left, 100, 570, 300, 0.4, 16.6, -50.0, 50.0};
    const char* const stream = picture_take_stream(&takes[0]);
    PicturePlaces places[PICTURE_TAKES];
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        places[take] = picture_take_places(&takes[take].velocity, CYMBAL_LIMB);
    }
    picture_plot_frame(&plot, title, "", 10.0);
    picture_plot_places(&plot);
    for (int place = 0; place < 16; ++place) {
        char statistic[32];
        snprintf(statistic, sizeof statistic, "place %d", place + 1);
        const PictureBand band =
            picture_plot_band("loudness-by-place", statistic, stream ? stream : "");
        printf("contour cymbal %-10s %2d", stream ? stream : "-", place + 1);
        picture_say_band(&band, 2);
        picture_plot_box(&plot, place + 1, 0.42, &band);
        draw_marks(&plot, place, places);
    }
}

static void draw_levels(const PicturePlot* const plot, const WindowLimb limb)
{
    static const char* const levels[] = {"ghosts", "normal", "accents"};
    for (int i = 0; i < 3; ++i) {
        char statistic[32];
        snprintf(statistic, sizeof statistic, "%s: mean", levels[i]);
        const PictureBand band = picture_plot_band("loudness", statistic, names[limb]);
        const double x = 18.5 + 2.2 * i;
        picture_plot_box(plot, x, 0.8, &band);
        picture_plot_text(plot->cairo, picture_plot_x(plot, x), plot->top + plot->height + 17,
                          PICTURE_MIDDLE, PICTURE_BLACK, levels[i]);
        printf("levels  %-6s %-10s  -", names[limb], levels[i]);
        picture_say_band(&band, 2);
        printf("\n");
    }
}

static const PictureBand none = {NOTHING, NOTHING, NOTHING};

static void draw_drum(cairo_t* const page, const PictureTake takes[PICTURE_TAKES],
                      const WindowLimb limb, const double left, const char* const title)
{
    const PicturePlot plot = {page, left, 490, 570, 300, 0.4, 24.2, 0.0, 127.0};
    PicturePlaces places[PICTURE_TAKES];
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        places[take] = picture_take_levels(&takes[take].velocity, limb);
    }
    picture_plot_frame(&plot, title, "", 20.0);
    picture_plot_places(&plot);
    draw_levels(&plot, limb);
    for (int place = 0; place < 16; ++place) {
        printf("contour %-6s -          %2d", names[limb], place + 1);
        picture_say_band(&none, 2);
        draw_marks(&plot, place, places);
    }
}

bool picture_contour(const char* const folder, const PictureTake eighths[PICTURE_TAKES],
                     const PictureTake sixteenths[PICTURE_TAKES])
{
    cairo_t* const page = picture_plot_page(
        1400, 890, "Loudness: mean MIDI velocity of each sixteenth of the bar, three takes",
        "64 bars, all dials at first, accents and ghosts as written; places with 8 strokes or "
        "more. "
        "Ghosts, normal, accents: means of drummers' takes.");
    picture_plot_legend(page, 850, 62, "take", (const char* const[]){"1", "2", "3"});
    printf("\nLoudness: mean velocity at each sixteenth, of the cymbal less its mean; - : none, or "
           "too few\n"
           "        limb   hat keeps place   p10      p50      p90     take 1   take 2   take 3\n");
    draw_cymbal(page, eighths, 70, "Hat, eighths (\"Left Luggage\"): velocity less its mean");
    draw_cymbal(page, sixteenths, 770, "Hat, sixteenths (other hands): velocity less its mean");
    draw_drum(page, eighths, SNARE_LIMB, 70, "Snare (\"Left Luggage\"): velocity");
    draw_drum(page, eighths, KICK_LIMB, 770, "Kick (\"Left Luggage\"): velocity");
    return picture_plot_save(page, folder, "contour");
}

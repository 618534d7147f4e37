// SPDX-License-Identifier: ISC
/* Habits of the places: three takes' mean offsets at each sixteenth, in the drummers' bands. */
#include "picture.h"
#include "picture_say.h"

static const char* const names[WINDOW_LIMBS] = {"kick", "snare", "cymbal"};

static void draw_place(const PicturePlot* const plot, const WindowLimb limb, const int place,
                       const PicturePlaces takes[PICTURE_TAKES])
{
    char statistic[32];
    snprintf(statistic, sizeof statistic, "place %d", place + 1);
    const PictureBand band = picture_plot_band("timing-by-place", statistic, names[limb]);
    printf("habit  %-6s %2d", names[limb], place + 1);
    picture_say_band(&band, 2);
    picture_plot_box(plot, place + 1, 0.42, &band);
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        if (takes[take].has[place]) {
            picture_plot_mark(plot, place + 1 + 0.24 * (take - 1), takes[take].mean[place], take);
        }
        picture_say(takes[take].has[place] ? takes[take].mean[place] : NOTHING, 2);
    }
    printf("\n");
}

static void draw_limb(cairo_t* const page, const PictureTake takes[PICTURE_TAKES],
                      const WindowLimb limb, const double top, const char* const title)
{
    const PicturePlot plot = {page, 100, top, 1270, 200, 0.4, 16.6, -30.0, 30.0};
    PicturePlaces places[PICTURE_TAKES];
    for (int take = 0; take < PICTURE_TAKES; ++take) {
        places[take] = picture_take_places(&takes[take].ms, limb);
    }
    picture_plot_frame(&plot, title, "ms", 10.0);
    picture_plot_places(&plot);
    for (int place = 0; place < 16; ++place) {
        draw_place(&plot, limb, place, places);
    }
}

bool picture_habits(const char* const folder, const PictureTake eighths[PICTURE_TAKES],
                    const PictureTake sixteenths[PICTURE_TAKES])
{
    cairo_t* const page = picture_plot_page(
        1400, 880, "Habits: where each limb puts each sixteenth of the bar, three takes",
        "A take's mean offset at the place less its mean of the limb; + is late. 64 bars, all "
        "dials "
        "at first; places with 8 strokes or more.");
    picture_plot_legend(page, 850, 62, "take", (const char* const[]){"1", "2", "3"});
    printf("\nHabits: mean offset at each sixteenth less the limb's mean, ms; - : too few strokes\n"
           "       limb  place   p10      p50      p90     take 1   take 2   take 3\n");
    draw_limb(page, sixteenths, CYMBAL_LIMB, 90,
              "Hat, sixteenths (\"Left Luggage\" with the hands \"Sixteenth hats, one hand\")");
    draw_limb(page, eighths, SNARE_LIMB, 90 + 250, "Snare (\"Left Luggage\")");
    draw_limb(page, eighths, KICK_LIMB, 90 + 500, "Kick (\"Left Luggage\")");
    return picture_plot_save(page, folder, "habits");
}

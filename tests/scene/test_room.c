// SPDX-License-Identifier: ISC
/* Nothing that is struck on a downbeat hides under a bar line, and no height of a large
   window stays empty. */
#include "../help/check.h"
#include "compare.h"
#include "scenes.h"

#include <math.h>
#include <string.h>

static const int sizes[][2] = {{720, 420}, {860, 530},   {960, 540},  {1280, 760},
                               {860, 900}, {1600, 1000}, {3840, 2160}};
enum { SIZES = sizeof sizes / sizeof *sizes };

static int changed(cairo_surface_t* const a, cairo_surface_t* const b, const Box box)
{
    int count = 0;
    for (int y = (int)box.y; y < (int)(box.y + box.height); ++y) {
        for (int x = (int)box.x; x < (int)(box.x + box.width); ++x) {
            count += compare_pixel(a, x, y) != compare_pixel(b, x, y);
        }
    }
    return count;
}

/* The strokes of a bar that are written on a tick, all of one loudness and on time. */
static void even_out(SeenBar* const bar)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < bar->count; ++i) {
        SeenStroke stroke = bar->strokes[i];
        stroke.felt = stroke.written;
        stroke.velocity = 90;
        stroke.level = LEVEL_NORMAL;
        if (!stroke.is_grace) {
            bar->strokes[kept++] = stroke;
        }
    }
    bar->count = kept;
}

/* What a picture loses where the strokes on a tick are taken out. */
static int lost_without(Stage* const stage, const int64_t tick, const Box box)
{
    SeenBar* const bar = &stage->model.view.bars[0];
    const SeenBar kept = *bar;
    cairo_surface_t* const with = stage_picture(stage);
    uint32_t count = 0;
    for (uint32_t i = 0; i < kept.count; ++i) {
        if (kept.strokes[i].written != tick) {
            bar->strokes[count++] = kept.strokes[i];
        }
    }
    bar->count = count;
    cairo_surface_t* const without = stage_picture(stage);
    const int lost = changed(with, without, box);
    cairo_surface_destroy(with);
    cairo_surface_destroy(without);
    *bar = kept;
    return lost;
}

/* A kick and a hat on one and on three are the same signs: as much of them is seen, but for the
   mark under the one where the feet start again. */
static void a_downbeat_is_seen_as_well_as_any_beat(void)
{
    for (int i = 0; i < SIZES; ++i) {
        Stage* const stage = stage_play(stage_scene("standing"));
        scenes_pick(stage, CONTROL_LIBERTY, 0);
        scenes_pick(stage, CONTROL_CRASH, 1);
        stage_run(stage, 1.0);
        controller_resize(&stage->model, sizes[i][0], sizes[i][1], 1.0);
        stage->model.view.now_tick = 1.5 * TICKS_PER_QUARTER; /* out of the way */
        even_out(&stage->model.view.bars[0]);
        const Box all = {0.0, 0.0, sizes[i][0], sizes[i][1]};
        const int one = lost_without(stage, 0, all);
        const int three = lost_without(stage, 2 * TICKS_PER_QUARTER, all);
        check_case("%d by %d: one %d, three %d", sizes[i][0], sizes[i][1], one, three);
        const Geometry g = geometry_of(&stage->model.view);
        CHECK(geometry_clear(&g) > 1.25 * 3.0 * 1.7 * g.scale); /* a head's half width */
        CHECK(three > 40 && one > 0.85 * three);
        stage_end(stage);
    }
}

static bool is_empty_row(cairo_surface_t* const picture, const int y, const int width)
{
    const uint32_t first = compare_pixel(picture, 2, y);
    for (int x = 3; x < width - 2; ++x) {
        if (compare_pixel(picture, x, y) != first) {
            return false;
        }
    }
    return true;
}

/* The highest band without a mark. */
static void no_band_stays_empty(void)
{
    for (int i = 0; i < SIZES; ++i) {
        Stage* const stage = stage_play(stage_scene("playing-dark"));
        controller_resize(&stage->model, sizes[i][0], sizes[i][1], 1.0);
        cairo_surface_t* const picture = stage_picture(stage);
        int band = 0, most = 0;
        for (int y = 0; y < sizes[i][1]; ++y) {
            band = is_empty_row(picture, y, sizes[i][0]) ? band + 1 : 0;
            most = band > most ? band : most;
        }
        check_case("%d by %d", sizes[i][0], sizes[i][1]);
        CHECK(most <= 0.06 * sizes[i][1]);
        cairo_surface_destroy(picture);
        stage_end(stage);
    }
}

int main(void)
{
    RUN(a_downbeat_is_seen_as_well_as_any_beat);
    RUN(no_band_stays_empty);
    return tests_end();
}

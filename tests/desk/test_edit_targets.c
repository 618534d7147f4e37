// SPDX-License-Identifier: ISC
/* What a hand has to hit while a figure is edited: on every grid, in every meter, swung or
   not, in windows of every size each step of a row is 16 pixels wide and tall or more,
   and every step is on some page.  16 is ours; 24 is what success criterion 2.5.8 of WCAG 2.2
   asks of targets that stand alone, and what straight steps have wherever a page can be
   turned.  Asked of the desk's own pointing, pixel by pixel. */
#include "../../ui/desk/hit_test.h"
#include "../help/check.h"
#include "own_desk.h"

static OwnDesk* own;
static View* view;

static const double least = 16.0;
static const double least_straight = 24.0;

static const struct {
    int width, height;
} sizes[] = {{480, 300}, {720, 420},   {859, 529},  {860, 530},
             {960, 540}, {1600, 1000}, {3840, 2160}};
enum { SIZES = sizeof sizes / sizeof *sizes };

static const double ratios[] = {1.0, 1.5, 2.0, 3.0};
enum { RATIOS = sizeof ratios / sizeof *ratios };

/* Real pixels of a logical one; a window under the least is drawn smaller as a whole. */
static double pixel(void)
{
    return own->model.fit.scale < 1.0 ? 1.0 : own->model.fit.scale;
}

/* The narrowest step that is whole on the page, in logical pixels; notes which were seen. */
static double narrowest(const SeenBar* const bar, const double step, bool* const seen)
{
    const Geometry g = geometry_of(view);
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double hair = 0.25 / pixel();
    const double end = g.beat_1 + space.beat * fmin(space.seen, space.beats - space.first);
    double narrow = 1e9;
    double from = -1.0; /* nothing of the first is left of the page */
    int32_t before = -1;
    for (double x = g.beat_1; x < end && x < g.right; x += hair) {
        const int32_t tick = hit_test_hover(&own->model, bar, x);
        if (tick != before) {
            narrow = from >= 0.0 && x - from < narrow ? x - from : narrow;
            from = before >= 0 ? x : -1.0;
            before = tick;
        }
        seen[(int)(tick / step + 0.5)] = true;
    }
    return narrow + hair;
}

static void check_bar(const Meter meter, const int grid, const double ratio)
{
    static SeenBar bar;
    static bool seen[16 * 64];
    bar.meter = meter;
    view->edit.grid = grid;
    view->edit.swing = (Swing){figure_grid_bends(grid, 1) ? ratio : 1.0, TICKS_PER_QUARTER};
    memset(seen, 0, sizeof seen);
    const double step = (double)TICKS_PER_QUARTER / grid;
    const int steps = (int)ceil((double)meter_bar_ticks(meter) / step - 0.001);
    double narrow = 1e9;
    for (int at = 0; at < steps; ++at) {
        if (!seen[at]) {
            view->edit.cursor = (int32_t)(at * step);
            narrow = fmin(narrow, narrowest(&bar, step, seen));
            CHECK(seen[at]); /* the cursor's page has its step */
        }
    }
    CHECK(narrow >= (view->edit.swing.ratio > 1.0 ? least : least_straight) ||
          narrow > 1e8); /* no step but the first */
}

static void every_step_is_wide_enough_to_hit(void)
{
    static const int beats[] = {1, 2, 3, 4, 5, 7, 9, 12, 15};
    for (int size = 0; size < SIZES; ++size) {
        controller_resize(&own->model, sizes[size].width, sizes[size].height, 1.0);
        for (int unit = 1; unit <= 16; unit *= 2) {
            for (int i = 0; i < 9; ++i) {
                for (int grid = 1; grid <= EDIT_BUFFER_GRID_MAX; ++grid) {
                    const int ratio = (i + grid + unit) % RATIOS;
                    check_case("%d by %d, %d/%d, grid %d, swing %g", sizes[size].width,
                               sizes[size].height, beats[i], unit, grid, ratios[ratio]);
                    check_bar((Meter){beats[i], unit}, grid, ratios[ratio]);
                }
            }
        }
    }
}

static void rows_of_the_edited_pair_are_tall_and_the_others_fold(void)
{
    for (int size = 0; size < SIZES; ++size) {
        controller_resize(&own->model, sizes[size].width, sizes[size].height, 1.0);
        for (int pair = 0; pair < 2; ++pair) {
            view->edit.pair = (LimbPair)pair;
            const Geometry g = geometry_of(view);
            check_case("%d by %d, pair %d", sizes[size].width, sizes[size].height, pair);
            for (int limb = 2 * pair; limb < 2 * pair + 2; ++limb) {
                const Box row = geometry_row(&g, limb);
                CHECK(row.height >= 3.0 * least);
                CHECK(g.line[limb] > row.y && g.line[limb] < row.y + row.height);
                CHECK(row.height > 2.0 * geometry_row(&g, 3 - limb).height);
            }
        }
    }
}

/* The concept's measure, at the window's first size. */
static void at_first_the_edited_pair_has_192_pixels_or_more_and_a_sixteenth_36_by_70(void)
{
    controller_resize(&own->model, FIRST_WIDTH, FIRST_HEIGHT, 1.0);
    view->edit.grid = 4;
    view->edit.cursor = 0;
    view->edit.swing.ratio = 1.0;
    for (int pair = 0; pair < 2; ++pair) {
        view->edit.pair = (LimbPair)pair;
        check_case("pair %d", pair);
        const Geometry g = geometry_of(view);
        const double top = pair == PAIR_FEET ? g.row_bottom[LEFT_HAND] : g.top + 4.0;
        CHECK(g.row_bottom[2 * pair + 1] - top >= 192.0 - 4.0);
        CHECK(geometry_bar(&g, (Meter){4.0, 4}).beat / 4.0 >= 36.0);
        CHECK(geometry_row(&g, 2 * pair).height >= 70.0);
        CHECK(geometry_row(&g, 2 * pair + 1).height >= 70.0);
    }
}

int main(void)
{
    own = own_desk_open();
    view = &own->model.view;
    view->panel = PANEL_EDIT;
    RUN(every_step_is_wide_enough_to_hit);
    RUN(rows_of_the_edited_pair_are_tall_and_the_others_fold);
    RUN(at_first_the_edited_pair_has_192_pixels_or_more_and_a_sixteenth_36_by_70);
    own_desk_close(own);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* What stands over the feet between two beats, on every grid: syllables as they are taught
   (common practice, no source), numbers where nobody has syllables, and dots only for the
   32nds between and for numbers of two digits that have no room. */
#include "../help/check.h"
#include "scenes.h"
#include "shown_text.h"

#include <math.h>
#include <stdlib.h>

static int by_x(const void* const a, const void* const b)
{
    const double d = ((const ShownText*)a)->box.x - ((const ShownText*)b)->box.x;
    return d < 0.0 ? -1 : d > 0.0;
}

/* The texts whose middles lie between two ticks of the bar, in the lane of the feet. */
static void said_between(const View* const view, const int64_t from, const int64_t to,
                         char text[256])
{
    const Geometry g = geometry_of(view);
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const BarSpace space = geometry_bar(&g, bar->meter);
    const double left = geometry_tick(&g, space, (double)from) + 2.0;
    const double right = geometry_tick(&g, space, (double)to) - 2.0;
    qsort(shown.texts, (size_t)shown.count, sizeof *shown.texts, by_x);
    *text = '\0';
    for (int i = 0; i < shown.count; ++i) {
        const Box box = shown.texts[i].box;
        const double middle = box.x + box.width / 2.0;
        const double y = box.y + box.height / 2.0;
        if (middle > left && middle < right && y < g.count_feet + 2.0 &&
            y > g.count_feet - g.said_size[PAIR_FEET]) {
            const size_t length = strlen(text);
            snprintf(text + length, 256 - length, "%s%s", length ? " " : "", shown.texts[i].text);
        }
    }
}

static Stage* on_grid(const int grid, const int width, const int height)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    controller_resize(&stage->model, width, height, 1.0);
    scenes_pick(stage, CONTROL_FEET_GRID, grid);
    scenes_play(stage);
    shown_draw(&stage->model.view);
    return stage;
}

#define DOT "\xC2\xB7"

static void every_grid_has_syllables_or_numbers(void)
{
    static const char* const want[] = {
        [1] = "",
        [2] = "&",
        [3] = "trip let",
        [4] = "e & a",
        [5] = "2 3 4 5",
        [6] = "trip let & trip let",
        [7] = "2 3 4 5 6 7",
        [8] = DOT " e " DOT " & " DOT " a " DOT,
        [9] = "2 3 4 5 6 7 8 9",
        [10] = "2 3 4 5 6 7 8 9 10",
        [11] = "2 3 4 5 6 7 8 9 10 11",
        [12] = DOT " trip " DOT " let " DOT " & " DOT " trip " DOT " let " DOT,
    };
    for (int grid = 1; grid <= 12; ++grid) {
        char text[256];
        Stage* const stage = on_grid(grid, 2600, 540);
        said_between(&stage->model.view, TICKS_PER_QUARTER, 2 * TICKS_PER_QUARTER, text);
        check_case("grid %d", grid);
        CHECK_TEXT(text, want[grid]);
        stage_end(stage);
    }
}

static void where_there_is_less_room_sixes_have_numbers_and_two_digits_a_dot(void)
{
    static const struct {
        int grid;
        const char* want;
    } rows[] = {{5, "2 3 4 5"},
                {6, "2 3 4 5 6"},
                {7, "2 3 4 5 6 7"},
                {9, "2 3 4 5 6 7 8 9"},
                {11, "2 3 4 5 6 7 8 9 " DOT " " DOT}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        char text[256];
        Stage* const stage = on_grid(rows[i].grid, 960, 540);
        said_between(&stage->model.view, TICKS_PER_QUARTER, 2 * TICKS_PER_QUARTER, text);
        check_case("grid %d", rows[i].grid);
        CHECK_TEXT(text, rows[i].want);
        stage_end(stage);
    }
}

/* Seven to a quarter in 6/8: two eighths are a group, whose middle lies between 4 and 5. */
static void a_group_over_two_beats_is_numbered_through(void)
{
    char text[256];
    Stage* const stage = stage_play(stage_scene("odd-groups-over-eighths"));
    controller_resize(&stage->model, 1280, 760, 1.0);
    shown_draw(&stage->model.view);
    said_between(&stage->model.view, 0, TICKS_PER_QUARTER / 2, text);
    CHECK_TEXT(text, "2 3 " DOT);
    said_between(&stage->model.view, TICKS_PER_QUARTER / 2, TICKS_PER_QUARTER, text);
    CHECK_TEXT(text, DOT " 6 7");
    stage_end(stage);
}

int main(void)
{
    RUN(every_grid_has_syllables_or_numbers);
    RUN(where_there_is_less_room_sixes_have_numbers_and_two_digits_a_dot);
    RUN(a_group_over_two_beats_is_numbered_through);
    return tests_end();
}

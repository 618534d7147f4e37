// SPDX-License-Identifier: ISC
/* Of more than eight bars eight are drawn, the one that plays among them, and the others are
   told of in words.  A simile is held against the strokes that the plugin tells. */
#include "../../ui/scene/far.h"
#include "../help/check.h"
#include "scenes.h"
#include "shown_text.h"

#include <stdio.h>
#include <string.h>

static void eight_bars_are_near_and_the_one_that_plays_is_one_of_them(void)
{
    for (int bars = 1; bars <= FORM_BARS_MAX; ++bars) {
        for (int now = 0; now < bars; ++now) {
            int near = 0;
            for (int bar = 0; bar < bars; ++bar) {
                near += !geometry_is_far(bar, bars, now);
            }
            check_case("bar %d of %d", now + 1, bars);
            CHECK_INT(near, bars < 8 ? bars : 8);
            CHECK(!geometry_is_far(now, bars, now));
        }
    }
}

static bool has_similar(const Stage* const stage, const int bar)
{
    const SeenBar* const seen = view_bar(&stage->model.view, bar);
    return seen && far_is_simile(&stage->model.view, seen);
}

/* Lower Station is AAABAAAB twice, its fill in bar 16: presets/grooves.ttl. */
static void sixteen_bars_are_eight_drawn_and_eight_in_words(void)
{
    Stage* const stage = stage_play(stage_scene("sixteen-bars"));
    shown_draw(&stage->model.view);
    for (int bar = 8; bar < 16; ++bar) {
        char number[16];
        snprintf(number, sizeof number, "%d", bar + 1);
        check_case("bar %s", number);
        CHECK(shown_times(number) >= 1);
        CHECK_INT(has_similar(stage, bar), bar != 15);
    }
    CHECK_INT(shown_times("bar 8"), 1);
    CHECK_INT(shown_times("bar 9"), 0);
    stage_end(stage);
}

/* Its name where it has room, else how long it is; what is pointed at says the name too. */
static void a_far_bars_fill_is_named_whole_or_by_its_length(void)
{
    static const int widths[] = {720, 960, 1280, 1600, 1920};
    for (int i = 0; i < 5; ++i) {
        Stage* const stage = stage_play(stage_scene("sixteen-bars"));
        controller_resize(&stage->model, widths[i], widths[i] * 9 / 16 + 15, 1.0);
        shown_draw(&stage->model.view);
        check_case("%d wide", widths[i]);
        for (int text = 0; text < shown.count; ++text) {
            CHECK(!shown.texts[text].is_cut ||
                  strncmp(shown.texts[text].text, "Last beat", 9) != 0);
        }
        CHECK_INT(shown_times("Last beat down the toms") + shown_times("fill, 1 beat") +
                      shown_times("fill"),
                  1);
        CHECK(widths[i] < 1600 || shown_times("Last beat down the toms") == 1);
        stage_point(stage, (TargetId){TARGET_BAR, 15});
        shown_draw(&stage->model.view);
        bool is_said = false;
        for (int text = 0; text < shown.count; ++text) {
            is_said =
                is_said || !strncmp(shown.texts[text].text, "Fill: Last beat down the toms", 29);
        }
        CHECK(is_said);
        stage_end(stage);
    }
}

static bool same_strokes(const SeenBar* const a, const SeenBar* const b)
{
    bool same = a->count == b->count;
    for (uint32_t i = 0; same && i < a->count; ++i) {
        same = a->strokes[i].written == b->strokes[i].written &&
               a->strokes[i].limb == b->strokes[i].limb &&
               a->strokes[i].voice == b->strokes[i].voice;
    }
    return same;
}

static void check_similes(const View* const view, int* const similes, int* const others)
{
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        const SeenBar* first = NULL;
        for (int k = 0; k < i && bar && !first; ++k) {
            const SeenBar* const other = view_bar(view, view_phrase(view) + k);
            first = other && other->part == bar->part ? other : NULL;
        }
        if (!bar || !first) {
            CHECK(!bar || !far_is_simile(view, bar));
            continue;
        }
        const bool is = far_is_simile(view, bar);
        check_case("bar %d of groove %d", i + 1, (int)bar->groove);
        CHECK(!is || same_strokes(first, bar));
        *similes += is;
        *others += !same_strokes(first, bar);
    }
}

/* No crash and no liberty: then all that is struck is written. */
static void where_a_simile_stands_the_same_is_struck(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    const View* const view = &stage->model.view;
    uint32_t random = 16;
    int similes = 0, others = 0;
    scenes_pick(stage, CONTROL_CRASH, 1);
    scenes_pick(stage, CONTROL_LIBERTY, 0);
    scenes_pick(stage, CONTROL_PHRASE_BARS, 16);
    for (int i = 0; i < 60; ++i) {
        random = random * 1664525U + 1013904223U; /* Numerical Recipes, quick generator */
        const Shelf* const grooves = &view->shelves[ENTRY_GROOVE];
        scenes_pick(stage, CONTROL_GROOVE,
                    grooves->entries[(random >> 8) % (uint32_t)grooves->count].id);
        scenes_pick(stage, CONTROL_REALIGN, (int)((random >> 4) % 3));
        scenes_pick(stage, CONTROL_FEET_CYCLE, random >> 31 ? (int)(random >> 12) % 12 : 0);
        stage_run(stage, 1.5);
        check_similes(view, &similes, &others);
    }
    CHECK(similes > 200 && others > 100);
    stage_end(stage);
}

/* Of a figure of four bars each fourth is the same; where it starts again within a bar is told
   of its first alone, so that its others can't be told from each other by that. */
static void of_a_figure_of_four_bars_each_fourth_is_the_same(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    View* const view = &stage->model.view;
    scenes_pick(stage, CONTROL_PHRASE_BARS, 8);
    stage_run(stage, 1.5);
    Figure four;
    for (int i = 0; i < view->shelves[ENTRY_HANDS].count; ++i) {
        Entry* const entry = &stage->model.entries[ENTRY_HANDS][i];
        if (entry->id == (int32_t)view->bars[0].hands && entry->figure) {
            four = *entry->figure;
            four.bars = 4;
            entry->figure = &four;
        }
    }
    for (int bar = 0; bar < 8; ++bar) {
        view->bars[bar].part = 0;
        view->bars[bar].fill = view->bars[bar].hands_turns.count = 0;
        view->bars[bar].feet = view->bars[0].feet;
        view->bars[bar].feet_step = view->bars[0].feet_step;
        view->bars[bar].feet_turns = view->bars[0].feet_turns;
        check_case("bar %d", bar + 1);
        CHECK_INT(far_is_simile(view, &view->bars[bar]), bar == 4);
    }
    stage_end(stage);
}

/* The first click brings a far bar near: the second is still of that bar. */
static void a_double_click_on_a_far_bar_loops_it(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    scenes_pick(stage, CONTROL_PHRASE_BARS, 16);
    stage_run(stage, 1.5);
    TargetList targets;
    const Geometry g = geometry_of(&stage->model.view);
    targets_of(&stage->model.view, &g, &targets);
    const Target* const bar = targets_find(&targets, (TargetId){TARGET_BAR, 12});
    if (CHECK(bar)) {
        PaneEvent event = {
            .kind = PANE_PRESS, .x = bar->box.x + 20.0, .y = bar->box.y + 8.0, .button = 1};
        for (int click = 0; click < 2; ++click) {
            event.kind = PANE_PRESS;
            controller_input(&stage->model, &event);
            event.kind = PANE_RELEASE;
            controller_input(&stage->model, &event);
        }
        CHECK_INT(stage->model.view.looked_at, 12);
        CHECK_NEAR(stage->model.view.values[CONTROL_LOOP_BAR], 13.0, 0.0);
    }
    stage_end(stage);
}

int main(void)
{
    RUN(eight_bars_are_near_and_the_one_that_plays_is_one_of_them);
    RUN(sixteen_bars_are_eight_drawn_and_eight_in_words);
    RUN(a_far_bars_fill_is_named_whole_or_by_its_length);
    RUN(where_a_simile_stands_the_same_is_struck);
    RUN(of_a_figure_of_four_bars_each_fourth_is_the_same);
    RUN(a_double_click_on_a_far_bar_loops_it);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* The staircase of the Practice page against what the plugin tells a host: the tempo of its
   readout is on the rung that plays, what it says comes next on the one after. */
#include "../../ui/scene/practice.h"
#include "../desk/chance.h"
#include "../help/check.h"
#include "scenes.h"
#include "shown_text.h"

#include <math.h>

static void climb(Stage* const stage)
{
    scenes_pick(stage, CONTROL_CLOCK, 1);
    scenes_pick(stage, CONTROL_PHRASE_BARS, 1);
    stage_run(stage, 0.1);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_PRACTICE});
}

static const StageScene scene = {"practised", 960, 540, 1.0, climb};

static int check_rungs(const Stage* const stage)
{
    Rungs rungs;
    const View* const view = &stage->model.view;
    const Geometry g = geometry_of(view);
    practice_rungs(view, practice_places(&g).room, &rungs);
    const double tempo = (double)view->readouts[READOUT_TEMPO_NOW];
    if (CHECK(rungs.now >= 0 && rungs.now < rungs.count)) {
        CHECK_NEAR(rungs.tempo[rungs.now], tempo, 0.001);
    }
    for (int i = 1; i < rungs.count; ++i) {
        CHECK(rungs.tempo[i] > rungs.tempo[i - 1]);
    }
    const bool has_next = view->place.ladder_bars > 0 && rungs.now + 1 < rungs.count;
    if (has_next) {
        CHECK_NEAR(rungs.tempo[rungs.now + 1], view->place.next_tempo, 0.001);
    }
    return has_next ? rungs.now : 0;
}

static void the_rung_that_plays_has_the_tempo_that_is_told(void)
{
    Chance state = {11};
    int highest = 0;
    for (int i = 0; i < 60; ++i) {
        Stage* const stage = stage_play(&scene);
        const int from = 100 + (int)chance(&state, 180);
        const int step = (int)chance(&state, 21);
        const int every = 1 + (int)chance(&state, 2);
        const int top = 120 + (int)chance(&state, 180);
        scenes_pick(stage, CONTROL_LADDER_STEP, step);
        scenes_pick(stage, CONTROL_LADDER_EVERY, every);
        scenes_pick(stage, CONTROL_LADDER_TOP, top);
        scenes_pick(stage, CONTROL_TEMPO, from);
        stage_run(stage, 0.5 + chance(&state, 80) / 10.0);
        check_case("%d: from %d by %g every %d to %d", i, from, (double)step, every, top);
        const int now = check_rungs(stage);
        highest = now > highest ? now : highest;
        stage_end(stage);
    }
    CHECK(highest >= 2); /* a staircase was climbed */
}

static bool is_said(Stage* const stage, const char* const words)
{
    shown_draw(&stage->model.view);
    return shown_times(words) > 0;
}

static void where_it_stands_and_where_it_goes_are_written(void)
{
    char text[32];
    static const char* const scenes[] = {"ladder", "ladder-least"};
    for (int i = 0; i < 2; ++i) {
        Stage* const stage = stage_play(stage_scene(scenes[i]));
        const View* const view = &stage->model.view;
        check_case("%s", scenes[i]);
        CHECK(view->place.ladder_bars > 0);
        snprintf(text, sizeof text, "%g", (double)view->readouts[READOUT_TEMPO_NOW]);
        CHECK(is_said(stage, text));
        snprintf(text, sizeof text, "%g", view->place.next_tempo);
        CHECK(is_said(stage, text));
        CHECK(is_said(stage, "160"));
        stage_end(stage);
    }
}

static void where_there_is_no_ladder_it_says_so(void)
{
    Stage* const stage = stage_play(stage_scene("ladder"));
    scenes_pick(stage, CONTROL_LADDER_STEP, 0);
    stage_run(stage, 0.5);
    CHECK(is_said(stage, "steady"));
    scenes_pick(stage, CONTROL_LADDER_STEP, 4);
    scenes_pick(stage, CONTROL_CLOCK, 0);
    stage_run(stage, 0.5);
    CHECK(is_said(stage, "needs own clock"));
    stage_end(stage);
}

int main(void)
{
    RUN(the_rung_that_plays_has_the_tempo_that_is_told);
    RUN(where_it_stands_and_where_it_goes_are_written);
    RUN(where_there_is_no_ladder_it_says_so);
    return tests_end();
}

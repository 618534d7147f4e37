// SPDX-License-Identifier: ISC
/* States of the window's own options, and of liberty. */
#include "../../ui/desk/options.h"
#include "scenes.h"

/* What the player does besides what is written. */
void scenes_liberty(Stage* const stage)
{
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Left Luggage"));
    scenes_pick(stage, CONTROL_LIBERTY, 100);
    stage_run(stage, 0.1);
    stage_roll(stage, 1, 0.0f, 1.0f);
    stage_run(stage, 1.2);
    stage_point(stage, (TargetId){TARGET_DIAL, CONTROL_LIBERTY});
}

void scenes_liberty_light(Stage* const stage)
{
    stage->model.view.theme = THEME_LIGHT;
    stage->model.view.palette = palette_light;
    scenes_liberty(stage);
}

void scenes_left_handed(Stage* const stage)
{
    scenes_play(stage);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    if (stage->model.view.width < 860.0) {
        stage_click(stage, (TargetId){TARGET_PAGE, 0});
    }
    stage_click(stage, (TargetId){TARGET_OPTION, OPTION_HANDED});
}

void scenes_larger(Stage* const stage)
{
    options_take(&stage->model, THEME_DARK, false, 1.5, true);
    scenes_play(stage);
}

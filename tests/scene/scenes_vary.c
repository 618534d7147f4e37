// SPDX-License-Identifier: ISC
/* States of the page of variations, and of the shortlist. */
#include "../../plugin/engine/groove/settings.h"
#include "../../plugin/engine/varied/variation.h"
#include "scenes.h"

/* Gallops under the first groove's hands. */
static void open(Stage* const stage)
{
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, "Gallop"));
    scenes_play(stage);
    stage_key(stage, 'v');
    stage_run(stage, 0.6);
}

static void walk(Stage* const stage, const int rows)
{
    for (int i = 0; i < rows; ++i) {
        stage_key(stage, PANE_KEY_DOWN);
    }
    stage_run(stage, 0.05);
}

void scenes_vary(Stage* const stage)
{
    open(stage);
}

void scenes_vary_light(Stage* const stage)
{
    stage->model.view.theme = THEME_LIGHT;
    stage->model.view.palette = palette_light;
    open(stage);
}

/* The fourth row plays, and the keys are on it. */
void scenes_vary_walks(Stage* const stage)
{
    open(stage);
    walk(stage, VARIATION_LATER);
    stage_run(stage, 2.5);
}

/* At the end of the phrase, while another row plays. */
void scenes_vary_waits(Stage* const stage)
{
    open(stage);
    walk(stage, VARIATION_LATER);
    stage_run(stage, 2.0);
    scenes_pick(stage, CONTROL_CHANGE_AT, CHANGE_AT_PHRASE);
    walk(stage, VARIATION_DOUBLED - VARIATION_LATER);
    stage_run(stage, 0.3);
}

void scenes_vary_not_offered(Stage* const stage)
{
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, "Sixteenths"));
    scenes_play(stage);
    stage_key(stage, 'v');
    stage_run(stage, 0.6);
    walk(stage, VARIATION_FILLED);
}

void scenes_vary_deep(Stage* const stage)
{
    open(stage);
    walk(stage, VARIATION_THREES);
    stage_run(stage, 2.0);
    stage_key(stage, PANE_KEY_RIGHT);
    walk(stage, VARIATION_DOUBLED);
    stage_run(stage, 0.5);
}

void scenes_vary_seven_eight(Stage* const stage)
{
    stage->beats_per_bar = 7.0f;
    stage->beat_unit = 8;
    stage->tempo = 180.0f;
    open(stage);
    walk(stage, VARIATION_EARLIER);
    stage_run(stage, 2.0);
}

void scenes_vary_twelve_eight(Stage* const stage)
{
    stage->beats_per_bar = 12.0f;
    stage->beat_unit = 8;
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Counterweight"));
    stage_run(stage, 0.1);
    stage_roll(stage, 0, 0.0f, 1.0f);
    stage_run(stage, 1.2);
    stage_key(stage, 'v');
    stage_run(stage, 0.6);
}

/* ---- What is kept */

static void shift(Stage* const stage, const uint32_t key)
{
    controller_input(&stage->model,
                     &(PaneEvent){.kind = PANE_KEY, .key = key, .modifiers = PANE_SHIFT});
}

/* So many rows, one after the other, each kept. */
static void keep(Stage* const stage, const int count)
{
    open(stage);
    for (int i = 0; i < count; ++i) {
        walk(stage, 1);
        stage_key(stage, 's');
        stage_run(stage, 0.4);
    }
}

void scenes_vary_kept(Stage* const stage)
{
    keep(stage, 6);
    stage_run(stage, 1.5);
}

/* The third waits for the phrase's end, while the first plays. */
void scenes_shortlist(Stage* const stage)
{
    keep(stage, 6);
    shift(stage, '1');
    stage_run(stage, 2.5);
    scenes_pick(stage, CONTROL_CHANGE_AT, CHANGE_AT_PHRASE);
    shift(stage, '3');
    stage_key(stage, 'j');
    stage_run(stage, 0.8);
}

void scenes_shortlist_light(Stage* const stage)
{
    stage->model.view.theme = THEME_LIGHT;
    stage->model.view.palette = palette_light;
    scenes_shortlist(stage);
}

void scenes_shortlist_empty(Stage* const stage)
{
    open(stage);
    stage_key(stage, 'j');
    stage_run(stage, 0.3);
}

void scenes_shortlist_full(Stage* const stage)
{
    keep(stage, 16);
    shift(stage, '0');
    stage_key(stage, 'j');
    stage_run(stage, 0.8);
}

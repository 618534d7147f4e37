// SPDX-License-Identifier: ISC
/* States in which the window names what isn't as usual: other figures than the groove's own,
   another meter, what waits, what is the user's own. */
#include "../../plugin/engine/groove/settings.h"
#include "scenes.h"

/* Feet and hands picked for one groove stay with the next. */
void scenes_kept(Stage* const stage)
{
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, "Sixteenths"));
    scenes_pick(stage, CONTROL_HANDS, scenes_named(stage, ENTRY_HANDS, "Eighth hats"));
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Weighbridge"));
    stage_run(stage, 0.1);
    stage_roll(stage, 1, 0.0f, 1.0f);
    stage_run(stage, 1.2);
}

/* A groove of seven eighths in a host's four: it starts again in each bar. */
void scenes_other_meter(Stage* const stage)
{
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Winter Timetable"));
    stage_run(stage, 0.1);
    stage_roll(stage, 1, 0.0f, 1.0f);
    stage_run(stage, 1.2);
}

/* Another groove waits for the phrase's end. */
void scenes_groove_waits(Stage* const stage)
{
    scenes_pick(stage, CONTROL_CHANGE_AT, CHANGE_AT_PHRASE);
    scenes_play(stage);
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Weighbridge"));
    stage_run(stage, 1.0);
}

/* The feet are the user's own and changed; the list stands at them. */
void scenes_own(Stage* const stage)
{
    scenes_play(stage);
    const int32_t feet = view_playing(&stage->model.view, ENTRY_FEET);
    for (int i = 0; i < stage->model.view.shelves[ENTRY_FEET].count; ++i) {
        Entry* const entry = &stage->model.entries[ENTRY_FEET][i];
        entry->is_own = entry->id == feet;
    }
    stage->model.entries[ENTRY_GROOVE][0].is_own = true;
    stage->model.view.drafted[FIGURE_FEET] = feet;
}

void scenes_own_list(Stage* const stage)
{
    scenes_own(stage);
    scenes_pick(stage, CONTROL_FEET, view_playing(&stage->model.view, ENTRY_FEET));
    stage_key(stage, 'f');
}

/* Fives in the hands, elevens in the feet. */
void scenes_odd_groups(Stage* const stage)
{
    scenes_pick(stage, CONTROL_HANDS_GRID, 5);
    scenes_pick(stage, CONTROL_FEET_GRID, 11);
    scenes_play(stage);
}

/* Fives and sevens to a quarter where the beat is an eighth. */
void scenes_groups_over_eighths(Stage* const stage)
{
    stage->beats_per_bar = 6.0f;
    stage->beat_unit = 8;
    scenes_pick(stage, CONTROL_HANDS_GRID, 5);
    scenes_pick(stage, CONTROL_FEET_GRID, 7);
    scenes_play(stage);
}

/* A dial of thirteen words, all of them laid out. */
void scenes_words(Stage* const stage)
{
    scenes_play(stage);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_RHYTHM});
    if (geometry_of(&stage->model.view).compact) {
        stage_click(stage, (TargetId){TARGET_PAGE, 0});
    }
    stage_click(stage, (TargetId){TARGET_DIAL, CONTROL_FEET_GRID});
}

/* Names as people give them to figures of their own. */
void scenes_long_names(Stage* const stage)
{
    scenes_play(stage);
    for (int shelf = ENTRY_HANDS; shelf <= ENTRY_FEET; ++shelf) {
        const int32_t id = view_playing(&stage->model.view, (EntryKind)shelf);
        for (int i = 0; i < stage->model.view.shelves[shelf].count; ++i) {
            Entry* const entry = &stage->model.entries[shelf][i];
            if (entry->id == id) {
                entry->label = shelf == ENTRY_HANDS
                                   ? "Hands of the third verse, as rehearsed on the quay in March"
                                   : "Salzfunikularzwischenstationsvorplatzgeplauder";
            }
        }
    }
    stage->model.entries[ENTRY_GROOVE][0].label =
        "The long way home from the salt pans, second version with the bridge";
}

/* ---- The reading view */

void scenes_reading(Stage* const stage)
{
    scenes_play(stage);
    stage_key(stage, 'd');
}

void scenes_reading_light(Stage* const stage)
{
    scenes_light(stage);
    stage_key(stage, 'd');
}

void scenes_reading_waits(Stage* const stage)
{
    scenes_change_waits(stage);
    stage_key(stage, 'd');
}

void scenes_reading_twelve_eight(Stage* const stage)
{
    scenes_twelve_eight(stage);
    stage_key(stage, 'd');
}

/* Sixteen bars, the limbs' numbers past what anybody plays. */
void scenes_reading_long(Stage* const stage)
{
    stage->tempo = 300.0f;
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, "Sixteenths"));
    scenes_pick(stage, CONTROL_PHRASE_BARS, 16);
    scenes_play(stage);
    stage_key(stage, 'd');
}

/* Halfway up: a bar to a phrase, a phrase to a rung. */
void scenes_ladder(Stage* const stage)
{
    scenes_pick(stage, CONTROL_CLOCK, 1);
    scenes_pick(stage, CONTROL_TEMPO, 128);
    scenes_pick(stage, CONTROL_LADDER_STEP, 4);
    scenes_pick(stage, CONTROL_LADDER_EVERY, 1);
    scenes_pick(stage, CONTROL_LADDER_TOP, 160);
    scenes_pick(stage, CONTROL_PHRASE_BARS, 1);
    stage_run(stage, 0.1);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_PRACTICE});
    stage_run(stage, 8.0);
}

/* The fastest grooves first. */
void scenes_sorted_list(Stage* const stage)
{
    scenes_play(stage);
    stage_key(stage, 'g');
    stage_click(stage, (TargetId){TARGET_HEAD, LIST_BY_TEMPO});
    stage_click(stage, (TargetId){TARGET_HEAD, LIST_BY_TEMPO});
}

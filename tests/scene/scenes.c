// SPDX-License-Identifier: ISC
/* The states that the golden pictures hold. */
#include "../../plugin/engine/groove/settings.h"
#include "scenes.h"

#include <string.h>

void scenes_pick(Stage* const stage, const Control control, const int id)
{
    char why[HOST_WHY_ROOM];
    const float value = (float)id;
    host_set(stage->host, control_rows[control].symbol, value, why);
    incoming_port_event(&stage->model, (uint32_t)(PORT_FIRST_CONTROL + control), sizeof value, 0,
                        &value);
}

/* The entry of a shelf with this name. */
int scenes_named(const Stage* const stage, const EntryKind shelf, const char* const name)
{
    const Shelf* const entries = &stage->model.view.shelves[shelf];
    for (int i = 0; i < entries->count; ++i) {
        if (!strcmp(entries->entries[i].label, name)) {
            return entries->entries[i].id;
        }
    }
    return 0;
}

void scenes_play(Stage* const stage)
{
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "Lower Station"));
    stage_run(stage, 0.1);
    stage_roll(stage, 1, 0.0f, 1.0f);
    stage_run(stage, 1.2);
}

void scenes_light(Stage* const stage)
{
    stage->model.view.theme = THEME_LIGHT;
    stage->model.view.palette = palette_light;
    scenes_play(stage);
}

static void play_too_fast(Stage* const stage)
{
    stage->tempo = 300.0f;
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, "Sixteenths"));
    scenes_play(stage);
}

static void play_feet_list(Stage* const stage)
{
    scenes_play(stage);
    stage_key(stage, 'f');
    stage_text(stage, "gallop");
    stage_key(stage, PANE_KEY_DOWN);
    stage_run(stage, 0.1);
}

static void play_groove_list(Stage* const stage)
{
    scenes_light(stage);
    stage_key(stage, 'g');
    stage_key(stage, PANE_KEY_DOWN);
    stage_run(stage, 0.5);
}

static void play_practice(Stage* const stage)
{
    scenes_pick(stage, CONTROL_CLOCK, 1);
    scenes_pick(stage, CONTROL_TEMPO, 92);
    scenes_pick(stage, CONTROL_LADDER_STEP, 4);
    scenes_pick(stage, CONTROL_CLICK, 2);
    stage_run(stage, 0.1);
    stage_key(stage, '6');
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_PRACTICE});
    stage_run(stage, 1.0);
    stage_click(stage, (TargetId){TARGET_DIAL, CONTROL_LADDER_STEP});
    stage_text(stage, "6");
}

static void play_rolling_feet(Stage* const stage)
{
    scenes_pick(stage, CONTROL_REALIGN, 0);
    scenes_pick(stage, CONTROL_FEET_CYCLE, 3);
    scenes_pick(stage, CONTROL_FEET_GRID, 4);
    scenes_play(stage);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_RHYTHM});
}

static void play_seven_eight(Stage* const stage)
{
    stage->beats_per_bar = 7.0f;
    stage->beat_unit = 8;
    scenes_play(stage);
}

static void play_long(Stage* const stage)
{
    scenes_pick(stage, CONTROL_PHRASE_BARS, 16);
    scenes_play(stage);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_OUTPUT});
}

static void play_off(Stage* const stage)
{
    scenes_play(stage);
    stage_key(stage, PANE_KEY_TAB);
    stage_click(stage, (TargetId){TARGET_DIAL, CONTROL_ENABLED});
    stage_run(stage, 0.1);
}

static void play_edit(Stage* const stage)
{
    scenes_play(stage);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_EDIT});
    stage_click(stage, (TargetId){TARGET_ROW, LEFT_FOOT});
    stage_run(stage, 0.3);
    stage_point(stage, (TargetId){TARGET_ROW, RIGHT_FOOT});
    stage_run(stage, 0.3);
}

static void stand(Stage* const stage)
{
    stage_run(stage, 0.2);
}

/* The last bar, half of it the groove's. */
static void stand_at_fill(Stage* const stage)
{
    scenes_pick(stage, CONTROL_FILL_BEATS, 2);
    scenes_pick(stage, CONTROL_PHRASE_BARS, 4);
    stand(stage);
    stage_click(stage, (TargetId){TARGET_BAR, 3});
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_FILLS});
    stage_run(stage, 0.3);
}

static void nothing_said(Stage* const stage)
{
    (void)stage;
}

static void gone(Stage* const stage)
{
    scenes_pick(stage, CONTROL_FEET, 1900);
    stage_run(stage, 0.3);
    stage_key(stage, 'f');
    stage_text(stage, "zzz");
}

/* A figure that the bank lost since the session was saved. */
static void missing(Stage* const stage)
{
    scenes_pick(stage, CONTROL_FEET, 1900);
    scenes_play(stage);
}

static void play_meter(Stage* const stage, const char* const groove, const float beats,
                       const int32_t unit)
{
    stage->beats_per_bar = beats;
    stage->beat_unit = unit;
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, groove));
    stage_run(stage, 0.1);
    stage_roll(stage, 0, 0.0f, 1.0f);
    stage_run(stage, 1.2);
}

static void play_five_four(Stage* const stage)
{
    play_meter(stage, "Brine Stair", 5.0f, 4);
}

void scenes_twelve_eight(Stage* const stage)
{
    play_meter(stage, "Counterweight", 12.0f, 8);
    stage_click(stage, (TargetId){TARGET_DIAL, CONTROL_LEFT_HAND});
    stage_run(stage, 0.1);
}

static void play_with_losses(Stage* const stage)
{
    scenes_play(stage);
    stage->model.view.dropped = 12;
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_PRACTICE});
}

/* A change that waits, far from the list: at the end of the phrase. */
void scenes_change_waits(Stage* const stage)
{
    scenes_pick(stage, CONTROL_CHANGE_AT, CHANGE_AT_PHRASE);
    scenes_play(stage);
    scenes_pick(stage, CONTROL_FEET, scenes_named(stage, ENTRY_FEET, "Sixteenths"));
    scenes_pick(stage, CONTROL_TURNAROUND, -1);
    scenes_pick(stage, CONTROL_LOOP_BAR, 3);
    stage_run(stage, 1.0);
    stage_point(stage, (TargetId){TARGET_BAR, 3});
}

static void play_turnaround_list(Stage* const stage)
{
    scenes_play(stage);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_FILLS});
    stage_click(stage, (TargetId){TARGET_CARD, ENTRY_TURNAROUND});
    stage_key(stage, PANE_KEY_DOWN);
    stage_key(stage, PANE_KEY_DOWN);
    stage_key(stage, PANE_KEY_DOWN);
    stage_run(stage, 0.1);
}

static void play_second_row(Stage* const stage)
{
    play_rolling_feet(stage);
    stage_click(stage, (TargetId){TARGET_PAGE, 0});
}

static void play_keys(Stage* const stage)
{
    scenes_play(stage);
    stage_key(stage, 'k');
}

/* A groove with a feel of its own, and what that does. */
static void play_dial_says(Stage* const stage)
{
    scenes_pick(stage, CONTROL_GROOVE, scenes_named(stage, ENTRY_GROOVE, "The Clerk's Stamp"));
    stage_run(stage, 0.1);
    stage_roll(stage, 1, 0.0f, 1.0f);
    stage_run(stage, 1.2);
    stage_point(stage, (TargetId){TARGET_DIAL, CONTROL_LOOSENESS});
}

static void play_dial_says_least(Stage* const stage)
{
    scenes_play(stage);
    stage_point(stage, (TargetId){TARGET_DIAL, CONTROL_PUSH_SNARE});
}

/* By keys, while another bar plays. */
static void play_edit_by_keys(Stage* const stage)
{
    scenes_play(stage);
    stage_key(stage, 'e');
    stage_key(stage, PANE_KEY_TAB);
    for (int i = 0; i < 5; ++i) {
        stage_key(stage, PANE_KEY_RIGHT);
    }
    stage_key(stage, 'o');
    stage_run(stage, 2.2);
}

/* Steps too narrow for a whole bar: its second page. */
static void play_edit_page(Stage* const stage)
{
    scenes_play(stage);
    stage->model.view.edit.grid = 12;
    stage_key(stage, 'e');
    stage_key(stage, PANE_KEY_PAGE_DOWN);
    stage_run(stage, 0.1);
}

/* Into a folder whose name is long. */
static void play_asked(Stage* const stage)
{
    scenes_play(stage);
    stage->model.view.asked = (Asking){
        .is_open = true,
        .folder = "/somewhere/with a long name/and folders in it/that go on and on/until the line "
                  "has no room/for all of them/by far/and further/Music"};
}

const StageScene stage_scenes[] = {
    {"playing-dark", 960, 540, 1.0, scenes_play},
    {"playing-light", 960, 540, 1.0, scenes_light},
    {"playing-dark-2x", 1920, 1080, 2.0, scenes_play},
    {"least", 720, 420, 1.0, scenes_play},
    {"under-least", 480, 300, 1.0, scenes_play},
    {"large", 1280, 760, 1.0, scenes_play},
    {"liberty", 960, 540, 1.0, scenes_liberty},
    {"liberty-light", 960, 540, 1.0, scenes_liberty_light},
    {"dial-says", 960, 540, 1.0, play_dial_says},
    {"dial-says-least", 720, 420, 1.0, play_dial_says_least},
    {"feet-list", 960, 540, 1.0, play_feet_list},
    {"feet-list-least", 720, 420, 1.0, play_feet_list},
    {"groove-list-light", 960, 540, 1.0, play_groove_list},
    {"sorted-list", 960, 540, 1.0, scenes_sorted_list},
    {"sorted-list-least", 720, 420, 1.0, scenes_sorted_list},
    {"past-the-record", 960, 540, 1.0, play_too_fast},
    {"practice", 960, 540, 1.0, play_practice},
    {"ladder", 960, 540, 1.0, scenes_ladder},
    {"ladder-least", 720, 420, 1.0, scenes_ladder},
    {"rolling-feet", 960, 540, 1.0, play_rolling_feet},
    {"seven-eight", 960, 540, 1.0, play_seven_eight},
    {"sixteen-bars", 960, 540, 1.0, play_long},
    {"edit", 960, 540, 1.0, play_edit},
    {"off", 960, 540, 1.0, play_off},
    {"standing", 960, 540, 1.0, stand},
    {"nothing-said", 960, 540, 1.0, nothing_said},
    {"gone", 960, 540, 1.0, gone},
    {"missing", 960, 540, 1.0, missing},
    {"five-four", 960, 540, 1.0, play_five_four},
    {"twelve-eight", 960, 540, 1.0, scenes_twelve_eight},
    {"losses-least", 720, 420, 1.0, play_with_losses},
    {"change-waits", 960, 540, 1.0, scenes_change_waits},
    {"narrow", 860, 530, 1.0, play_rolling_feet},
    {"narrow-feet-list", 860, 530, 1.0, play_feet_list},
    {"low", 960, 500, 1.0, scenes_play},
    {"second-row-least", 720, 420, 1.0, play_second_row},
    {"turnaround-list", 960, 540, 1.0, play_turnaround_list},
    {"fill", 960, 540, 1.0, stand_at_fill},
    {"fill-least", 720, 420, 1.0, stand_at_fill},
    {"edit-least", 720, 420, 1.0, play_edit},
    {"long-names", 960, 540, 1.0, scenes_long_names},
    {"long-names-least", 720, 420, 1.0, scenes_long_names},
    {"large-list-light", 1280, 760, 1.0, play_groove_list},
    {"kept", 960, 540, 1.0, scenes_kept},
    {"kept-least", 720, 420, 1.0, scenes_kept},
    {"other-meter", 960, 540, 1.0, scenes_other_meter},
    {"groove-waits", 960, 540, 1.0, scenes_groove_waits},
    {"groove-waits-least", 720, 420, 1.0, scenes_groove_waits},
    {"own", 960, 540, 1.0, scenes_own},
    {"own-least", 720, 420, 1.0, scenes_own},
    {"own-list", 960, 540, 1.0, scenes_own_list},
    {"odd-groups", 960, 540, 1.0, scenes_odd_groups},
    {"odd-groups-over-eighths", 960, 540, 1.0, scenes_groups_over_eighths},
    {"words", 960, 540, 1.0, scenes_words},
    {"words-least", 720, 420, 1.0, scenes_words},
    {"keys", 960, 540, 1.0, play_keys},
    {"keys-least", 720, 420, 1.0, play_keys},
    {"left-handed", 960, 540, 1.0, scenes_left_handed},
    {"left-handed-least", 720, 420, 1.0, scenes_left_handed},
    {"larger-still", 1280, 760, 1.0, scenes_larger},
    {"edit-page", 960, 540, 1.0, play_edit_page},
    {"edit-page-least", 720, 420, 1.0, play_edit_page},
    {"asked", 960, 540, 1.0, play_asked},
    {"asked-least", 720, 420, 1.0, play_asked},
    {"edit-by-keys", 960, 540, 1.0, play_edit_by_keys},
    {"edit-by-keys-least", 720, 420, 1.0, play_edit_by_keys},
    {"vary", 960, 540, 1.0, scenes_vary},
    {"vary-light", 960, 540, 1.0, scenes_vary_light},
    {"vary-walks", 960, 540, 1.0, scenes_vary_walks},
    {"vary-waits", 960, 540, 1.0, scenes_vary_waits},
    {"vary-waits-least", 720, 420, 1.0, scenes_vary_waits},
    {"vary-waits-large", 1600, 1000, 1.0, scenes_vary_waits},
    {"vary-not-offered", 960, 540, 1.0, scenes_vary_not_offered},
    {"vary-deep", 960, 540, 1.0, scenes_vary_deep},
    {"vary-seven-eight", 960, 540, 1.0, scenes_vary_seven_eight},
    {"vary-seven-eight-least", 720, 420, 1.0, scenes_vary_seven_eight},
    {"vary-kept", 960, 540, 1.0, scenes_vary_kept},
    {"vary-kept-least", 720, 420, 1.0, scenes_vary_kept},
    {"shortlist", 960, 540, 1.0, scenes_shortlist},
    {"shortlist-light", 960, 540, 1.0, scenes_shortlist_light},
    {"shortlist-least", 720, 420, 1.0, scenes_shortlist},
    {"shortlist-large", 1600, 1000, 1.0, scenes_shortlist},
    {"shortlist-empty", 960, 540, 1.0, scenes_shortlist_empty},
    {"shortlist-full", 960, 540, 1.0, scenes_shortlist_full},
    {"vary-twelve-eight", 960, 540, 1.0, scenes_vary_twelve_eight},
    {"reading", 1280, 760, 1.0, scenes_reading},
    {"reading-least", 720, 420, 1.0, scenes_reading},
    {"reading-4k", 3840, 2160, 1.0, scenes_reading},
    {"reading-light", 1280, 760, 1.0, scenes_reading_light},
    {"reading-waits", 1280, 760, 1.0, scenes_reading_waits},
    {"reading-twelve-eight", 1280, 760, 1.0, scenes_reading_twelve_eight},
    {"reading-long", 1280, 760, 1.0, scenes_reading_long},
    {"reading-tall", 900, 1400, 1.0, scenes_reading},
    {"reading-wide", 1900, 600, 1.0, scenes_reading},
};

const int stage_scene_count = sizeof stage_scenes / sizeof *stage_scenes;

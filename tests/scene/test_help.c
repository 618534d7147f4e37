// SPDX-License-Identifier: ISC
/* The window explains itself: a list's own help over the pointer's, and why a cell does
   nothing where it does nothing.  What a control does without another is what the engine's
   rules say (DEVELOPERS.md, selection.c, click.c), looked at by hand. */
#include "../../ui/scene/dial.h"
#include "../../ui/desk/asking.h"
#include "../help/check.h"
#include "shown_text.h"

static Stage* stage;
static View* view;

static void begin(const char* const scene)
{
    stage = stage_play(stage_scene(scene));
    view = &stage->model.view;
}

static bool stands(const char* const words)
{
    bool is = false;
    shown_draw(view);
    for (int i = 0; i < shown.count; ++i) {
        is = is || strstr(shown.texts[i].text, words);
    }
    return is;
}

static void a_lists_help_is_over_the_pointers(void)
{
    static const TargetId places[] = {{TARGET_DIAL, CONTROL_ENABLED},
                                      {TARGET_DIAL, CONTROL_CLOCK},
                                      {TARGET_CARD, ENTRY_GROOVE},
                                      {TARGET_LIST_ROW, 3},
                                      {TARGET_NONE, 0}};
    begin("feet-list");
    for (int i = 0; i < 5; ++i) {
        view->hover = places[i];
        check_case("list, place %d", i);
        CHECK(stands("Enter: keep it"));
    }
    stage_end(stage);
    begin("keys");
    for (int i = 0; i < 5; ++i) {
        view->hover = places[i];
        check_case("keys, place %d", i);
        CHECK(stands("Esc or K: back"));
    }
    stage_end(stage);
}

/* Its name is cut in its row. */
static void what_is_kept_is_told_whole_where_it_is_pointed_at(void)
{
    begin("shortlist");
    view->edit.note[0] = '\0';
    view->hover = (TargetId){TARGET_KEPT, 0};
    CHECK(stands("1, thinned, Gallop, Lower Station: Lower Station, feet: Gallop, thinned."));
    view->hover = (TargetId){TARGET_KEPT, 7};
    CHECK(stands("Plays what is kept here"));
    stage_end(stage);
}

static void the_pointers_help_is_over_that_of_the_focus(void)
{
    begin("playing-dark");
    view->focus = (TargetId){TARGET_TAB, PANEL_FEEL};
    CHECK(stands("P goes to the next page"));
    view->hover = (TargetId){TARGET_BAR, 1};
    CHECK(stands("loops this bar"));
    stage_end(stage);
}

/* ---- Cells without use */

typedef struct {
    Control control;
    Panel panel;
    const char* why;
} Unused;

static void set(const Control control, const float value)
{
    view->values[control] = value;
}

static void check_unused(const Unused* const row, const bool is_unused)
{
    view->panel = row->panel;
    view->page = dial_of(row->control)->row;
    view->hover = (TargetId){TARGET_NONE, 0};
    check_case("control %d, %s", (int)row->control, is_unused ? "without use" : "of use");
    CHECK_INT(stands(row->why), is_unused);
    view->hover = (TargetId){TARGET_DIAL, (int)row->control};
    CHECK_INT(stands("Does nothing now"), is_unused);
}

/* Alone on its panel, so that nothing else says the same. */
static void each_cell_without_use_says_why(void)
{
    static const Unused of_clock = {CONTROL_COUNT_IN, PANEL_PRACTICE, "needs own clock"};
    static const Unused of_ladder = {CONTROL_LADDER_TOP, PANEL_PRACTICE, "no ladder"};
    static const Unused of_fills = {CONTROL_FILL_BEATS, PANEL_FILLS, "no fill"};
    static const Unused of_click = {CONTROL_CLICK_LEVEL, PANEL_PRACTICE, "click is off"};
    static const Unused of_channel = {CONTROL_CLICK_CHANNEL, PANEL_OUTPUT, "click is off"};
    static const Unused of_count = {CONTROL_GAP_REST, PANEL_PRACTICE, "not in count-in"};
    static const Unused of_gap = {CONTROL_GAP_PLAY, PANEL_PRACTICE, "never rests"};
    static const Unused of_swing = {CONTROL_SWING_GRID, PANEL_FEEL, "no swing set"};
    begin("playing-dark");
    set(CONTROL_CLOCK, 0.0f);
    check_unused(&of_clock, true);
    set(CONTROL_CLOCK, 1.0f);
    check_unused(&of_clock, false);
    set(CONTROL_LADDER_STEP, 0.0f);
    check_unused(&of_ladder, true);
    set(CONTROL_LADDER_STEP, 2.0f);
    check_unused(&of_ladder, false);
    set(CONTROL_TURNAROUND, -1.0f);
    check_unused(&of_fills, true);
    set(CONTROL_TURNAROUND, 0.0f);
    check_unused(&of_fills, false);
    set(CONTROL_CLICK, 0.0f);
    check_unused(&of_click, true);
    check_unused(&of_channel, true);
    set(CONTROL_CLICK, 1.0f);
    check_unused(&of_click, false);
    check_unused(&of_channel, false);
    check_unused(&of_count, true);
    set(CONTROL_CLICK, 2.0f);
    check_unused(&of_count, false);
    set(CONTROL_GAP_REST, 0.0f);
    check_unused(&of_gap, true);
    set(CONTROL_GAP_REST, 2.0f);
    check_unused(&of_gap, false);
    set(CONTROL_SWING_RATIO, 1.0f);
    check_unused(&of_swing, true);
    set(CONTROL_SWING_RATIO, 2.0f);
    check_unused(&of_swing, false);
    stage_end(stage);
}

static int times_standing(const char* const words)
{
    shown_draw(view);
    return shown_times(words);
}

/* Nothing of the user's goes without a word that can be read: in windows of every size, also
   over a list. */
static void what_is_asked_can_be_read_everywhere(void)
{
    static const int sizes[][2] = {{720, 420}, {960, 540}, {1600, 1000}};
    for (int i = 0; i < 6; ++i) {
        begin("playing-dark");
        controller_resize(&stage->model, sizes[i / 2][0], sizes[i / 2][1], 1.0);
        if (i % 2) {
            stage_key(stage, 'f');
        }
        asking_delete(&stage->model, ENTRY_FEET, 1000, "Spit");
        check_case("%d by %d, list %d", sizes[i / 2][0], sizes[i / 2][1], i % 2);
        CHECK_INT(times_standing("Delete \"Spit\"?  Its file stays, its name ending in .deleted.   "
                                 "Enter: delete.  Esc: not"),
                  1);
        stage_end(stage);
    }
}

static void buttons_of_an_edit_say_what_is_missing(void)
{
    begin("playing-dark");
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_EDIT});
    CHECK_INT(times_standing("no edit"), 4); /* undo, redo, save, drop */
    stage_click(stage, (TargetId){TARGET_ROW, LEFT_FOOT});
    CHECK_INT(times_standing("no edit"), 0);
    CHECK_INT(times_standing("1 back"), 1);
    CHECK_INT(times_standing("none undone"), 1);
    stage_key(stage, 'z');
    CHECK_INT(times_standing("as it began"), 1);
    CHECK_INT(times_standing("1 on"), 1);
    stage_end(stage);
}

/* ---- The list of keys */

static void a_key_pressed_while_keys_are_listed_works_and_its_line_is_told(void)
{
    begin("keys");
    const KeyList* const keys = &view->keys;
    CHECK_INT(keys->lit, 0);
    stage_key(stage, '5');
    CHECK(keys->is_open);
    CHECK(view->values[CONTROL_CLICK] > 1.5f);
    CHECK(keys->lit > 0 && !strcmp(keys->lines[keys->lit - 1].keys, "5"));
    stage_key(stage, PANE_KEY_PAGE_DOWN);
    CHECK(keys->first > 0);
    stage_key(stage, 'k');
    stage_key(stage, 'k');
    CHECK_INT(keys->lit, 0);
    CHECK_INT(keys->first, 0);
    stage_end(stage);
}

/* Page by page all of them are read, whole. */
static void every_key_is_read_in_pages(void)
{
    static const char* const scenes[] = {"keys", "keys-least"};
    for (int i = 0; i < 2; ++i) {
        begin(scenes[i]);
        static bool is_read[KEY_LINES_MAX];
        memset(is_read, 0, sizeof is_read);
        for (int page = 0; page < 12; ++page) {
            shown_draw(view);
            for (int line = 0; line < view->keys.count; ++line) {
                is_read[line] = is_read[line] || shown_times(view->keys.lines[line].words);
            }
            stage_key(stage, PANE_KEY_PAGE_DOWN);
        }
        for (int line = 0; line < view->keys.count; ++line) {
            check_case("%s, %s", scenes[i], view->keys.lines[line].words);
            CHECK(is_read[line]);
        }
        stage_end(stage);
    }
}

int main(void)
{
    RUN(a_lists_help_is_over_the_pointers);
    RUN(what_is_kept_is_told_whole_where_it_is_pointed_at);
    RUN(the_pointers_help_is_over_that_of_the_focus);
    RUN(each_cell_without_use_says_why);
    RUN(what_is_asked_can_be_read_everywhere);
    RUN(buttons_of_an_edit_say_what_is_missing);
    RUN(a_key_pressed_while_keys_are_listed_works_and_its_line_is_told);
    RUN(every_key_is_read_in_pages);
    return tests_end();
}

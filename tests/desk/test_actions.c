// SPDX-License-Identifier: ISC
/* The table of actions: the README says what it says, each row's keys do something where
   the row says, and no other key does anything. */
#include "../../ui/desk/actions.h"
#include "../../ui/scene/keys.h"
#include "../help/check.h"
#include "fresh_desk.h"

/* ---- The README */

static void readme_line(const Action* const action, char line[256])
{
    char keys[KEYS_ROOM];
    const bool is_anywhere = action->scope == SCOPE_WINDOW;
    actions_keys(action, keys);
    snprintf(line, 256, "| %s | %s%s%s |\n", keys, is_anywhere ? "" : actions_scope(action->scope),
             is_anywhere ? "" : ": ", action->help);
}

static void the_readmes_table_of_keys_is_the_table_of_actions(void)
{
    FILE* const readme = fopen(FOURLIMB_SOURCE "/README.md", "r");
    char line[4096] = "";
    char wanted[256];
    if (!CHECK(readme)) {
        return;
    }
    while (strcmp(line, "| key | does |\n") != 0 && fgets(line, sizeof line, readme)) {
    }
    CHECK_TEXT(line, "| key | does |\n");
    CHECK(fgets(line, sizeof line, readme) != NULL); /* the rule under it */
    const Action* action = NULL;
    for (int row = 0; (action = actions_row(row)); ++row) {
        readme_line(action, wanted);
        line[0] = '\0';
        CHECK(fgets(line, sizeof line, readme) != NULL);
        check_case("row %d", row);
        CHECK_TEXT(line, wanted);
    }
    CHECK(fgets(line, sizeof line, readme) && line[0] != '|');
    fclose(readme);
}

/* ---- Each scope, as it can be */

static int files;

static void write_file(void* const handle, const bool straight)
{
    (void)handle;
    files += straight ? 100 : 1;
}

static void complete(void* const handle, char folder[FOLDER_ROOM], char found[FOLDERS_ROOM])
{
    (void)handle;
    (void)folder;
    snprintf(found, FOLDERS_ROOM, "one  two");
}

static void write_handout(void* const handle)
{
    (void)handle;
    files += 10000;
}

/* One change that can be taken back, and one that can be made again. */
static void edit(void)
{
    EditPiece* const piece = &own->model.editor.pieces[FIGURE_FEET];
    const Library* const library = bank_library(own->bank);
    const Figure* const figure = &library->figures[FIGURE_FEET][0];
    const uint8_t limb = figure->strokes[0].limb;
    const int64_t tick = figure->strokes[0].tick;
    own->model.editor.kind = FIGURE_FEET;
    piece->info = bank_info(own->bank, ENTRY_FEET, figure->id);
    edit_buffer_begin(&piece->buffer, figure);
    CHECK(edit_buffer_cycle(&piece->buffer, limb, tick));
    CHECK(edit_buffer_cycle(&piece->buffer, limb, tick));
    CHECK(edit_buffer_undo(&piece->buffer));
    piece->is_open = true;
}

/* Three bars of the bank's first figure of feet. */
static void show_bars(void)
{
    View* const view = &own->model.view;
    view->has_place = true;
    view->place.phrase_bars = 3;
    for (int bar = 0; bar < 3; ++bar) {
        view->has_bar[bar] = true;
        view->bars[bar].bar = bar;
        view->bars[bar].in_phrase = (uint32_t)bar;
        view->bars[bar].phrase_bars = 3;
        view->bars[bar].meter = (Meter){4.0, 4};
        view->bars[bar].feet = bank_library(own->bank)->figures[FIGURE_FEET][0].id;
    }
}

static float middle_entry(void)
{
    const Shelf* const feet = &own->model.view.shelves[ENTRY_FEET];
    return (float)feet->entries[feet->count / 2].id;
}

/* Something is to be changed by each key: nothing is at an end, or as at first. */
static void enter(const Scope scope)
{
    fresh();
    own->model.output.write_file = write_file;
    own->model.output.complete = complete;
    own->model.output.write_handout = write_handout;
    View* const view = &own->model.view;
    switch (scope) {
    case SCOPE_WINDOW:
        edit();
        own_say(own, CONTROL_RIGHT_HAND, 0.0f);
        own_say(own, CONTROL_LEFT_FOOT, 0.0f);
        own_say(own, CONTROL_FEET, middle_entry());
        focus(TARGET_DIAL, CONTROL_LEFT_HAND);
        break;
    case SCOPE_STATE:
        own_key(own, 'p', 0);
        own_key(own, 'o', 0);
        break;
    case SCOPE_DIAL:
    case SCOPE_VALUE:
        own_say(own, CONTROL_TOUCH, 40.0f);
        focus(TARGET_DIAL, CONTROL_TOUCH);
        break;
    case SCOPE_SWITCH:
        focus(TARGET_DIAL, CONTROL_ENABLED);
        break;
    case SCOPE_CARD:
        own_say(own, CONTROL_FEET, middle_entry());
        focus(TARGET_CARD, ENTRY_FEET);
        break;
    case SCOPE_ITEM:
        focus(TARGET_EDIT, EDIT_GRID);
        break;
    case SCOPE_ROW:
        show_bars();
        own_key(own, 'e', 0);
        own_key(own, PANE_KEY_PAGE_DOWN, 0);
        view->edit.cursor = 2 * TICKS_PER_QUARTER;
        view->edit.note[0] = '\0';
        break;
    case SCOPE_OPTION:
        focus(TARGET_OPTION, OPTION_TEXT);
        break;
    case SCOPE_OTHER:
        focus(TARGET_TAB, PANEL_RHYTHM);
        break;
    case SCOPE_WORDS:
        view->panel = PANEL_RHYTHM;
        focus(TARGET_DIAL, CONTROL_FEET_GRID);
        own_key(own, PANE_KEY_ENTER, 0);
        own_key(own, PANE_KEY_RIGHT, 0);
        break;
    case SCOPE_VARY:
        show_bars();
        own_key(own, 'v', 0);
        for (int i = 0; i < 12; ++i) {
            own_key(own, PANE_KEY_DOWN, 0);
        }
        own->model.view.edit.note[0] = '\0';
        break;
    case SCOPE_KEPT:
        own_key(own, 'j', 0);
        own_key(own, PANE_KEY_DOWN, 0);
        own->model.view.edit.note[0] = '\0';
        break;
    case SCOPE_DRAG:
        own_press(own, (TargetId){TARGET_DIAL, CONTROL_TOUCH}, 0);
        break;
    case SCOPE_TYPING:
        focus(TARGET_DIAL, CONTROL_TOUCH);
        own_type(own, "3");
        break;
    case SCOPE_LIST:
        own_say(own, CONTROL_FEET, middle_entry());
        own_key(own, 'f', 0);
        own_type(own, "e");
        own_key(own, PANE_KEY_RIGHT, 0); /* sorted by a column */
        view->list.selected = view->list.count / 2;
        break;
    case SCOPE_KEYS:
        own_key(own, 'k', 0);
        view->keys.first = 5;
        break;
    case SCOPE_ASKED:
        own_key(own, 'w', 0);
        own_type(own, "/tmp");
        break;
    case SCOPE_READING:
        own_key(own, 'd', 0);
        break;
    case SCOPE_COUNT:
        break;
    }
    check_case("%s", actions_scope(scope));
    CHECK(actions_apply(&own->model, scope));
}

/* All that can be told of what a key did. */
typedef struct {
    View view;
    int writes;
    int said;
    int files;
} Trace;

static Trace* trace(void)
{
    Trace* const kept = calloc(1, sizeof *kept);
    if (!kept) {
        exit(2);
    }
    memcpy(&kept->view, &own->model.view, sizeof kept->view);
    kept->writes = own->writes;
    kept->said = own->said;
    kept->files = files;
    return kept;
}

static bool has_changed(Trace* const before)
{
    Trace* const after = trace();
    const bool is_same = !memcmp(&before->view, &after->view, sizeof before->view) &&
                         before->writes == after->writes && before->said == after->said &&
                         before->files == after->files;
    free(before);
    free(after);
    return !is_same;
}

/* A key as a person would strike it. */
static uint32_t struck(const uint32_t key)
{
    return key == KEY_LETTERS ? 'e' : key == KEY_FIGURES ? '7' : key;
}

static void each_rows_keys_do_something_where_it_says(void)
{
    const Action* action = NULL;
    for (int row = 0; (action = actions_row(row)); ++row) {
        char keys[KEYS_ROOM];
        actions_keys(action, keys);
        CHECK(*action->help && *keys);
        for (int i = 0; i < ACTION_KEYS_MAX && action->keys[i].key; ++i) {
            enter(action->scope);
            Trace* const before = trace();
            check_case("%s, %s, key %d", actions_scope(action->scope), keys, i);
            CHECK(own_key(own, struck(action->keys[i].key),
                          action->shift == WITH_SHIFT ? PANE_SHIFT : 0));
            CHECK(has_changed(before));
        }
    }
}

/* What each row says, where another row's words could be true as well. */
static void a_rows_keys_do_what_it_says(void)
{
    enter(SCOPE_WINDOW);
    files = 0;
    own_key(own, 'w', 0);
    CHECK_INT(files, 0); /* it asks first, once */
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_INT(files, 1);
    own_key(own, 'w', PANE_SHIFT);
    CHECK_INT(files, 101);
    const int undo = own->model.editor.pieces[own->model.editor.kind].buffer.undo;
    own_key(own, 'z', 0);
    CHECK_INT(own->model.editor.pieces[own->model.editor.kind].buffer.undo, undo - 1);
    own_key(own, 'y', 0);
    CHECK_INT(own->model.editor.pieces[own->model.editor.kind].buffer.undo, undo);
    own_key(own, PANE_KEY_TAB, 0);
    own_key(own, PANE_KEY_TAB, PANE_SHIFT); /* to the first of the group that it left */
    CHECK(view_target_same(own->model.view.focus, (TargetId){TARGET_DIAL, CONTROL_RIGHT_HAND}));
    own_key(own, PANE_KEY_RIGHT, 0);
    CHECK(view_target_same(own->model.view.focus, (TargetId){TARGET_DIAL, CONTROL_LEFT_HAND}));
}

/* ---- No other key */

static bool is_in_table(const uint32_t key, const uint32_t modifiers)
{
    const Action* action = NULL;
    const ShiftKey other = modifiers & PANE_SHIFT ? NO_SHIFT : WITH_SHIFT;
    for (int row = 0; (action = actions_row(row)); ++row) {
        for (int i = 0; actions_apply(&own->model, action->scope) && i < ACTION_KEYS_MAX; ++i) {
            const uint32_t own_key = action->keys[i].key;
            const bool is_figure = (key >= '0' && key <= '9') || key == '-' || key == '.';
            if (action->shift != other && own_key &&
                (own_key == key || (own_key == KEY_FIGURES && is_figure) ||
                 (own_key == KEY_LETTERS && key < PANE_KEY_UP))) {
                return true;
            }
        }
    }
    return false;
}

static void check_key(const Scope scope, const uint32_t key, const uint32_t modifiers)
{
    const bool types = scope == SCOPE_LIST || scope == SCOPE_TYPING || scope == SCOPE_ASKED;
    if (!is_in_table(key, modifiers)) {
        Trace* const before = trace();
        check_case("%s, key %x, modifiers %x", actions_scope(scope), key, modifiers);
        CHECK_INT(own_key(own, key, modifiers), types && key < PANE_KEY_F1);
        CHECK(!has_changed(before));
    }
}

static void no_key_outside_the_table_does_anything(void)
{
    for (int scope = 0; scope < SCOPE_COUNT; ++scope) {
        enter((Scope)scope);
        for (uint32_t shift = 0; shift <= PANE_SHIFT; ++shift) {
            for (uint32_t key = ' '; key < 256; ++key) {
                check_key((Scope)scope, key, shift);
            }
            for (uint32_t key = PANE_KEY_UP; key <= PANE_KEY_F12; ++key) {
                check_key((Scope)scope, key, shift);
            }
        }
    }
}

int main(void)
{
    RUN(the_readmes_table_of_keys_is_the_table_of_actions);
    RUN(each_rows_keys_do_something_where_it_says);
    RUN(a_rows_keys_do_what_it_says);
    RUN(no_key_outside_the_table_does_anything);
    own_desk_close(own);
    return tests_end();
}

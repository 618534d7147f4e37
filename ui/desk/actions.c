// SPDX-License-Identifier: ISC
#include "actions.h"

#include "../pane/pane.h"
#include "../scene/dial.h"

#include <stddef.h>
#include <stdio.h>

#define UP_DOWN(up, down)                                                                          \
    {PANE_KEY_UP, up},                                                                             \
    {                                                                                              \
        PANE_KEY_DOWN, down                                                                        \
    }
#define PAGES(up, down)                                                                            \
    {PANE_KEY_PAGE_UP, up},                                                                        \
    {                                                                                              \
        PANE_KEY_PAGE_DOWN, down                                                                   \
    }
#define ENDS(up, down)                                                                             \
    {PANE_KEY_HOME, up},                                                                           \
    {                                                                                              \
        PANE_KEY_END, down                                                                         \
    }
#define ENTER                                                                                      \
    {                                                                                              \
        PANE_KEY_ENTER, 0                                                                          \
    }

static const Action rows[] = {
    {SCOPE_WINDOW,
     NO_SHIFT,
     {{'1', CONTROL_RIGHT_HAND},
      {'2', CONTROL_LEFT_HAND},
      {'3', CONTROL_RIGHT_FOOT},
      {'4', CONTROL_LEFT_FOOT}},
     "right, left hand, right, left foot on/off",
     effects_turn},
    {SCOPE_WINDOW, NO_SHIFT, {{'5', CONTROL_CLICK}}, "the click on or off", effects_turn},
    {SCOPE_WINDOW,
     NO_SHIFT,
     {{'6', HANDS_ALONE}, {'7', FEET_ALONE}, {'0', EVERYTHING}},
     "hands alone, feet alone, everything",
     effects_hear_only},
    {SCOPE_WINDOW, NO_SHIFT, {{'s', 0}}, "keep what is selected", effects_keep},
    {SCOPE_WINDOW,
     WITH_SHIFT,
     {{'s', 0}},
     "drop the kept that plays; then put it back",
     effects_drop_kept},
    {SCOPE_WINDOW,
     WITH_SHIFT,
     {{'1', 1}, {'2', 2}, {'3', 3}, {'4', 4}},
     "play what is kept; again: what is picked",
     effects_play_kept},
    {SCOPE_WINDOW,
     WITH_SHIFT,
     {{'5', 5}, {'6', 6}, {'7', 7}, {'8', 8}},
     "likewise",
     effects_play_kept},
    {SCOPE_WINDOW, WITH_SHIFT, {{'0', 0}}, "the other eight kept", effects_other_kept},
    {SCOPE_WINDOW, ANY_SHIFT, {{'r', 0}}, "name what is kept and plays", effects_name_kept},
    {SCOPE_WINDOW, ANY_SHIFT, {{'x', 0}}, "swap the two kept that played last", effects_swap_kept},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{'a', 0}},
     "what plays as a folder for a bandmate",
     effects_hand_out},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{'f', ENTRY_FEET}, {'h', ENTRY_HANDS}, {'g', ENTRY_GROOVE}},
     "the list of feet, hands, grooves",
     effects_open_list},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{PANE_KEY_BACKSPACE, 0}},
     "hands, feet, fill as the groove has them",
     effects_put_all_back},
    {SCOPE_WINDOW, ANY_SHIFT, {{'c', CONTROL_CLOCK}}, "the host's clock or its own", effects_turn},
    {SCOPE_WINDOW, ANY_SHIFT, {{'t', 0}}, "to the tempo: type it, or tap it with T", effects_tap},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{'n', CONTROL_FILL_NOW}},
     "a fill now: it ends on the next bar line",
     effects_trigger},
    {SCOPE_WINDOW, ANY_SHIFT, {{'l', 0}}, "loop this bar, or the phrase again", effects_loop_shown},
    {SCOPE_WINDOW, ANY_SHIFT, {{'p', 1}}, "the next page", effects_next_panel},
    {SCOPE_WINDOW, ANY_SHIFT, {{'o', PANEL_OUTPUT}}, "output, and back", effects_open_panel},
    {SCOPE_WINDOW, ANY_SHIFT, {{'e', 0}}, "edit by keys; then hands, fill, feet", effects_edit},
    {SCOPE_WINDOW, ANY_SHIFT, {{'j', 0}}, "the shortlist, and back", effects_shortlist},
    {SCOPE_WINDOW, ANY_SHIFT, {{'v', 0}}, "what else the feet could do", effects_vary},
    {SCOPE_WINDOW, ANY_SHIFT, {{'z', EDIT_UNDO}}, "take back what was edited", effects_do_item},
    {SCOPE_WINDOW, ANY_SHIFT, {{'y', EDIT_REDO}}, "make it again", effects_do_item},
    {SCOPE_WINDOW,
     NO_SHIFT,
     {{'w', 0}},
     "the phrase as a MIDI file; asks where once",
     effects_write_phrase},
    {SCOPE_WINDOW, WITH_SHIFT, {{'w', 0}}, "the same straight, on the grid", effects_write_phrase},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{'u', 0}},
     "all that plays as your groove; asks",
     effects_save_groove},
    {SCOPE_WINDOW, ANY_SHIFT, {{'d', 0}}, "read from a distance, and back", effects_read},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{'k', 0}, {'?', 0}},
     "the list of keys, and away again",
     effects_show_keys},
    {SCOPE_WINDOW, NO_SHIFT, {{PANE_KEY_TAB, 1}}, "to the next group", effects_go_to_group},
    {SCOPE_WINDOW, WITH_SHIFT, {{PANE_KEY_TAB, -1}}, "to the group before", effects_go_to_group},
    {SCOPE_WINDOW,
     ANY_SHIFT,
     {{PANE_KEY_LEFT, -1}, {PANE_KEY_RIGHT, 1}},
     "to what is beside it in its group",
     effects_go_within},

    {SCOPE_STATE, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "back to the page", effects_leave_panel},

    {SCOPE_DIAL, ANY_SHIFT, {UP_DOWN(1, -1)}, "a step; with Shift a finer one", effects_step},
    {SCOPE_DIAL, ANY_SHIFT, {PAGES(10, -10)}, "ten steps", effects_step},
    {SCOPE_DIAL, ANY_SHIFT, {ENDS(0, 1)}, "the least and the most", effects_go_to_end},
    {SCOPE_DIAL, ANY_SHIFT, {{PANE_KEY_DELETE, 0}}, "back to its default", effects_go_back},
    {SCOPE_SWITCH, ANY_SHIFT, {ENTER}, "on or off, the next word, or all words", effects_go_round},
    {SCOPE_VALUE, ANY_SHIFT, {{KEY_FIGURES, 0}}, "type it", effects_type_more},
    {SCOPE_CARD, ANY_SHIFT, {ENTER}, "open its list", effects_use_focused},
    {SCOPE_CARD, ANY_SHIFT, {UP_DOWN(-1, 1)}, "the one before or after", effects_walk_card},
    {SCOPE_CARD, ANY_SHIFT, {PAGES(-1, 1)}, "the family before or after", effects_walk_families},
    {SCOPE_CARD, ANY_SHIFT, {{PANE_KEY_DELETE, 0}}, "back to its default", effects_go_back},
    {SCOPE_ITEM, ANY_SHIFT, {ENTER}, "do it, or type the name", effects_use_focused},
    {SCOPE_ITEM, ANY_SHIFT, {UP_DOWN(1, -1)}, "a step", effects_step_item},
    {SCOPE_ROW,
     NO_SHIFT,
     {{PANE_KEY_LEFT, -1}, {PANE_KEY_RIGHT, 1}},
     "a step back or on",
     effects_go_step},
    {SCOPE_ROW,
     WITH_SHIFT,
     {{PANE_KEY_LEFT, -1}, {PANE_KEY_RIGHT, 1}},
     "move its stroke",
     effects_move_stroke},
    {SCOPE_ROW, ANY_SHIFT, {ENDS(0, 1)}, "the first and the last step", effects_go_end},
    {SCOPE_ROW, ANY_SHIFT, {UP_DOWN(1, -1)}, "louder, softer, none", effects_louder},
    {SCOPE_ROW,
     ANY_SHIFT,
     {{'o', LEVEL_ACCENT}, {'g', LEVEL_GHOST}, {'f', LEVEL_FLAM}, {'d', LEVEL_DRAG}},
     "accent, ghost, flam, drag, or normal",
     effects_level},
    {SCOPE_ROW, ANY_SHIFT, {ENTER}, "what a click does", effects_cycle_level},
    {SCOPE_ROW,
     NO_SHIFT,
     {{PANE_KEY_DELETE, 0}, {PANE_KEY_BACKSPACE, 0}},
     "no stroke",
     effects_clear_step},
    {SCOPE_ROW, WITH_SHIFT, {{PANE_KEY_DELETE, 0}}, "delete your own figure; asks", effects_delete},
    {SCOPE_ROW, ANY_SHIFT, {{'v', 0}}, "another voice; Shift: before", effects_next_voice},
    {SCOPE_ROW, ANY_SHIFT, {PAGES(-1, 1)}, "the bar before or after", effects_turn_page},
    {SCOPE_ROW, ANY_SHIFT, {{'s', 0}}, "save all that you changed", effects_save_edits},
    {SCOPE_ROW, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "done: the page turns again", effects_leave_row},
    {SCOPE_OPTION, ANY_SHIFT, {UP_DOWN(1, -1)}, "the next, or the one before", effects_step_option},
    {SCOPE_OTHER, ANY_SHIFT, {ENTER}, "open it, loop it, change it", effects_use_focused},
    {SCOPE_VARY, ANY_SHIFT, {UP_DOWN(-1, 1)}, "hear the row before or after", effects_vary_walk},
    {SCOPE_VARY, ANY_SHIFT, {PAGES(-1, 1)}, "a page back or on", effects_vary_pages},
    {SCOPE_VARY,
     ANY_SHIFT,
     {ENDS(-VARY_ROWS_MAX, VARY_ROWS_MAX)},
     "the first and the last",
     effects_vary_walk},
    {SCOPE_VARY,
     ANY_SHIFT,
     {{PANE_KEY_LEFT, 0}, {PANE_KEY_RIGHT, 0}},
     "to the second variation, and back",
     effects_vary_deepen},
    {SCOPE_VARY, ANY_SHIFT, {ENTER}, "keep it as your own feet", effects_vary_keep},
    {SCOPE_VARY, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "as chosen", effects_vary_leave},
    {SCOPE_KEPT,
     ANY_SHIFT,
     {UP_DOWN(-1, 1)},
     "hear the kept before or after",
     effects_shortlist_walk},
    {SCOPE_KEPT, ANY_SHIFT, {ENTER}, "play it", effects_use_focused},
    {SCOPE_KEPT, ANY_SHIFT, {{'r', true}}, "name it", effects_name_kept},
    {SCOPE_WORDS, ANY_SHIFT, {ENTER}, "pick it", effects_use_focused},
    {SCOPE_WORDS, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "leave it as it was", effects_leave_words},
    {SCOPE_DRAG, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "put it back", effects_put_back},

    {SCOPE_TYPING, ANY_SHIFT, {{KEY_LETTERS, 0}}, "type on", effects_type_more},
    {SCOPE_TYPING, ANY_SHIFT, {{PANE_KEY_BACKSPACE, 0}}, "one letter back", effects_type_less},
    {SCOPE_TYPING, ANY_SHIFT, {ENTER}, "set it, or say why it can't be", effects_keep_typed},
    {SCOPE_TYPING, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "leave it as it was", effects_leave_typed},

    {SCOPE_LIST,
     ANY_SHIFT,
     {{KEY_LETTERS, 0}},
     "look for words, a grid, under 7, at 180, 7/8",
     effects_find_more},
    {SCOPE_LIST, ANY_SHIFT, {{PANE_KEY_BACKSPACE, 0}}, "one letter back", effects_find_less},
    {SCOPE_LIST, ANY_SHIFT, {UP_DOWN(-1, 1)}, "hear the one before or after", effects_walk},
    {SCOPE_LIST, ANY_SHIFT, {PAGES(-1, 1)}, "a page back or on", effects_walk_pages},
    {SCOPE_LIST,
     ANY_SHIFT,
     {ENDS(-LIST_ROWS_MAX, LIST_ROWS_MAX)},
     "the first and the last",
     effects_walk},
    {SCOPE_LIST,
     ANY_SHIFT,
     {{PANE_KEY_LEFT, -1}, {PANE_KEY_RIGHT, 1}},
     "sort by the column before or after",
     effects_sort},
    {SCOPE_LIST, ANY_SHIFT, {{PANE_KEY_TAB, 0}}, "sort the other way round", effects_sort_round},
    {SCOPE_LIST,
     ANY_SHIFT,
     {{PANE_KEY_DELETE, 0}},
     "delete what is your own; asks",
     effects_delete},
    {SCOPE_LIST, ANY_SHIFT, {{PANE_KEY_ENTER, true}}, "keep what is heard", effects_close_list},
    {SCOPE_LIST,
     ANY_SHIFT,
     {{PANE_KEY_ESCAPE, 0}},
     "all names; then what played before",
     effects_leave_list},

    {SCOPE_KEYS, ANY_SHIFT, {UP_DOWN(-1, 1)}, "a line back or on", effects_scroll},
    {SCOPE_KEYS, ANY_SHIFT, {PAGES(-1, 1)}, "a page back or on", effects_scroll_pages},
    {SCOPE_KEYS, ANY_SHIFT, {{PANE_KEY_ESCAPE, true}}, "close it", effects_close_list},

    {SCOPE_ASKED, ANY_SHIFT, {{KEY_LETTERS, 0}}, "type on", effects_ask_more},
    {SCOPE_ASKED, ANY_SHIFT, {{PANE_KEY_BACKSPACE, 0}}, "one letter back", effects_ask_less},
    {SCOPE_ASKED, ANY_SHIFT, {{PANE_KEY_TAB, 0}}, "complete a folder's name", effects_ask_complete},
    {SCOPE_ASKED, ANY_SHIFT, {ENTER}, "yes: write, save or delete it", effects_ask_yes},
    {SCOPE_ASKED, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "no: leave all as it is", effects_ask_no},

    {SCOPE_READING, ANY_SHIFT, {{PANE_KEY_ESCAPE, 0}}, "back to the window", effects_read},
};
enum { ROWS = sizeof rows / sizeof *rows };

const Action* actions_row(const int row)
{
    return row >= 0 && row < ROWS ? &rows[row] : NULL;
}

/* ---- Where keys have their meaning */

static bool is_focused(const View* const view, const Scope scope)
{
    const TargetKind kind = view->focus.kind;
    const bool is_dial = kind == TARGET_DIAL;
    const DialKind dial = is_dial ? dial_of((Control)view->focus.index)->kind : DIAL_PICK;
    switch (scope) {
    case SCOPE_DIAL:
        return (is_dial && dial != DIAL_TRIGGER) || kind == TARGET_CLICK;
    case SCOPE_SWITCH:
        return dial == DIAL_SWITCH || dial == DIAL_CHOICE || dial == DIAL_TRIGGER ||
               kind == TARGET_CLICK ||
               (dial == DIAL_VALUE && dial_of((Control)view->focus.index)->form == FORM_WORDS);
    case SCOPE_VALUE:
        return dial == DIAL_VALUE;
    case SCOPE_WORDS:
        return view->is_choosing && kind == TARGET_WORD;
    case SCOPE_VARY:
        return kind == TARGET_VARY;
    case SCOPE_KEPT:
        return kind == TARGET_KEPT;
    case SCOPE_CARD:
        return kind == TARGET_CARD;
    case SCOPE_ITEM:
        return kind == TARGET_EDIT;
    case SCOPE_ROW:
        return kind == TARGET_ROW;
    case SCOPE_OPTION:
        return kind == TARGET_THEME || kind == TARGET_OPTION;
    case SCOPE_OTHER:
        return kind == TARGET_TAB || kind == TARGET_PAGE || kind == TARGET_SHOW ||
               kind == TARGET_BAR || kind == TARGET_THEME || kind == TARGET_OPTION;
    case SCOPE_WINDOW:
        return true;
    case SCOPE_STATE:
        return page_rows[view->panel].group == PAGES_STATE;
    case SCOPE_DRAG:
        return view->pressed.kind == TARGET_DIAL;
    case SCOPE_TYPING:
    case SCOPE_LIST:
    case SCOPE_KEYS:
    case SCOPE_ASKED:
    case SCOPE_READING:
    case SCOPE_COUNT:
        break;
    }
    return false;
}

bool actions_apply(const Model* const model, const Scope scope)
{
    const View* const view = &model->view;
    return view->asked.is_open  ? scope == SCOPE_ASKED
           : view->list.is_open ? scope == SCOPE_LIST
           : view->is_typing    ? scope == SCOPE_TYPING
           : view->keys.is_open ? scope == SCOPE_KEYS || scope == SCOPE_WINDOW
           : view->reads        ? scope == SCOPE_READING || scope == SCOPE_WINDOW
                                : is_focused(view, scope);
}

/* ---- In words */

const char* actions_scope(const Scope scope)
{
    static const char* const words[SCOPE_COUNT] = {
        [SCOPE_WINDOW] = "anywhere",
        [SCOPE_STATE] = "in Edit or Output",
        [SCOPE_DIAL] = "on a dial",
        [SCOPE_SWITCH] = "on a switch or words",
        [SCOPE_VALUE] = "on a value",
        [SCOPE_CARD] = "on a name that has a list",
        [SCOPE_ITEM] = "on an item of Edit",
        [SCOPE_ROW] = "in a row that is edited",
        [SCOPE_OPTION] = "on an option of the window",
        [SCOPE_OTHER] = "on a tab, a bar, an option",
        [SCOPE_VARY] = "on a row of Vary",
        [SCOPE_KEPT] = "on what is kept",
        [SCOPE_WORDS] = "on a word of a dial",
        [SCOPE_DRAG] = "while a dial is dragged",
        [SCOPE_TYPING] = "while you type",
        [SCOPE_LIST] = "in a list",
        [SCOPE_KEYS] = "in the list of keys",
        [SCOPE_ASKED] = "when you are asked",
        [SCOPE_READING] = "in the view from a distance",
    };
    return words[scope];
}

static void key_words(const uint32_t key, char text[KEYS_ROOM])
{
    static const struct {
        uint32_t key;
        const char* word;
    } words[] = {
        {PANE_KEY_UP, "Up"},           {PANE_KEY_DOWN, "Down"},
        {PANE_KEY_LEFT, "Left"},       {PANE_KEY_RIGHT, "Right"},
        {PANE_KEY_PAGE_UP, "Page Up"}, {PANE_KEY_PAGE_DOWN, "Page Down"},
        {PANE_KEY_HOME, "Home"},       {PANE_KEY_END, "End"},
        {PANE_KEY_ENTER, "Enter"},     {PANE_KEY_ESCAPE, "Esc"},
        {PANE_KEY_TAB, "Tab"},         {PANE_KEY_BACKSPACE, "Backspace"},
        {PANE_KEY_DELETE, "Delete"},   {KEY_FIGURES, "figures"},
        {KEY_LETTERS, "letters"},
    };
    const bool is_letter = key >= 'a' && key <= 'z';
    snprintf(text, KEYS_ROOM, "%c", (char)(is_letter ? key - 'a' + 'A' : key));
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        if (words[i].key == key) {
            snprintf(text, KEYS_ROOM, "%s", words[i].word);
        }
    }
}

/* As many keys as a row has room for, one after the other, with Shift: too long to be listed. */
static bool is_run(const Action* const action)
{
    bool is = action->shift == WITH_SHIFT;
    for (int i = 1; i < ACTION_KEYS_MAX; ++i) {
        is = is && action->keys[i].key == action->keys[i - 1].key + 1;
    }
    return is;
}

void actions_keys(const Action* const action, char text[KEYS_ROOM])
{
    size_t length = 0;
    char ends[2][KEYS_ROOM];
    if (is_run(action)) { /* of digits */
        key_words(action->keys[0].key, ends[0]);
        key_words(action->keys[ACTION_KEYS_MAX - 1].key, ends[1]);
        snprintf(text, KEYS_ROOM, "Shift+%.8s to Shift+%.8s", ends[0], ends[1]);
        return;
    }
    for (int i = 0; i < ACTION_KEYS_MAX && action->keys[i].key; ++i) {
        char key[KEYS_ROOM];
        key_words(action->keys[i].key, key);
        const int added = snprintf(text + length, KEYS_ROOM - length, "%s%s%s", i ? ", " : "",
                                   action->shift == WITH_SHIFT ? "Shift+" : "", key);
        length += (size_t)added;
    }
}

void actions_list(KeyList* const list)
{
    list->count = 0;
    for (int row = 0; row < ROWS; ++row) {
        if (!row || rows[row].scope != rows[row - 1].scope) {
            list->lines[list->count++] =
                (KeyLine){.words = actions_scope(rows[row].scope), .row = -1};
        }
        KeyLine* const line = &list->lines[list->count++];
        line->words = rows[row].help;
        line->row = row;
        actions_keys(&rows[row], line->keys);
    }
}
_Static_assert(ROWS + SCOPE_COUNT <= KEY_LINES_MAX, "each row has a line, each scope a heading");

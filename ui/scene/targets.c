// SPDX-License-Identifier: ISC
#include "targets.h"

#include "dial.h"
#include "handed.h"
#include "picked.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static void add(TargetList* const list, const TargetKind kind, const int index, const Group group,
                const Box box)
{
    if (list->count < TARGETS_MAX) {
        list->targets[list->count++] = (Target){{kind, index}, group, box};
    }
}

/* That something isn't the groove's own. */
static void add_changed(const View* const view, const TopRow* const top, TargetList* const list)
{
    char words[PICKED_ROOM];
    const Entry* const groove = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    picked_words(view, words);
    if (*words && groove) {
        add(list, TARGET_PUT_BACK, ENTRY_KINDS, GROUP_NONE,
            geometry_changed(top, groove->label, strlen(words)));
    }
}

static void add_top(const View* const view, const Geometry* const g, TargetList* const list)
{
    const TopRow top = geometry_top(g);
    add(list, TARGET_DIAL, CONTROL_ENABLED, GROUP_TOP, top.enabled);
    add(list, TARGET_CARD, ENTRY_GROOVE, GROUP_TOP, top.groove);
    add_changed(view, &top, list);
    if (top.change_at.width > 0.0) {
        add(list, TARGET_DIAL, CONTROL_CHANGE_AT, GROUP_TOP, top.change_at);
    }
    add(list, TARGET_DIAL, CONTROL_CLOCK, GROUP_TOP, top.clock);
    add(list, TARGET_DIAL, CONTROL_TEMPO, GROUP_TOP, top.tempo);
}

/* The card's foot says what comes, or which fill plays. */
static bool has_other_foot(const View* const view, const EntryKind shelf)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    return view->place.waiting || (bar->fill && (shelf == ENTRY_HANDS || bar->fill_feet));
}

static void add_card(const View* const view, const Geometry* const g, const EntryKind shelf,
                     TargetList* const list)
{
    const bool is_feet = shelf == ENTRY_FEET;
    const CardPlaces card = geometry_card(g, is_feet ? PAIR_FEET : PAIR_HANDS);
    add(list, TARGET_CARD, (int)shelf, is_feet ? GROUP_FEET : GROUP_HANDS, card.box);
    add(list, TARGET_CARD_UP, (int)shelf, GROUP_NONE, card.up);
    add(list, TARGET_CARD_DOWN, (int)shelf, GROUP_NONE, card.down);
    const bool is_folded = geometry_folds(g, is_feet ? RIGHT_FOOT : RIGHT_HAND);
    if (picked_here(view, shelf) && !has_other_foot(view, shelf) && !is_folded) {
        add(list, TARGET_PUT_BACK, (int)shelf, GROUP_NONE, card.put_back);
    }
}

static void add_limbs(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        add(list, TARGET_DIAL, (int)handed_switch(view, limb), GROUP_LIMBS,
            geometry_label(g, limb).box);
    }
    if (g->low || g->list) {
        return; /* its row isn't there */
    }
    add(list, TARGET_CLICK, 0, GROUP_LIMBS, geometry_label(g, LIMB_COUNT).box);
}

static void add_bars(const View* const view, const Geometry* const g, TargetList* const list)
{
    const int bars = view_phrase_bars(view);
    const int now = (int)floor_mod(view_shown(view) - view_phrase(view), bars);
    for (int bar = 0; bar < bars; ++bar) {
        add(list, TARGET_BAR, bar, GROUP_BARS, geometry_bar_box(g, bar, bars, now));
    }
}

static void add_tabs(const Geometry* const g, TargetList* const list)
{
    for (int panel = 0; panel < PANEL_COUNT; ++panel) {
        add(list, TARGET_TAB, panel, GROUP_TABS, geometry_tab(g, panel));
    }
    if (g->compact) {
        add(list, TARGET_PAGE, 0, GROUP_TABS, geometry_page(g));
    }
}

/* The dial of the panel that stands in a cell; CONTROL_COUNT if none does. */
static int control_in(const Panel panel, const int column, const int row)
{
    int control = 0;
    for (; control < CONTROL_COUNT; ++control) {
        const Dial* const dial = dial_of((Control)control);
        if (dial->panel == (int)panel && dial->column == column && dial->row == row) {
            break;
        }
    }
    return control;
}

static void add_cell(const View* const view, const Geometry* const g, const int column,
                     const int row, TargetList* const list)
{
    const int control = control_in(view->panel, column, row);
    const Box box = geometry_cell(g, view->page, column, row);
    if (control == CONTROL_COUNT || box.y < 0.0) {
        return;
    }
    if (dial_of((Control)control)->kind == DIAL_PICK) {
        const int shelf = control == CONTROL_KIT ? ENTRY_KIT : ENTRY_TURNAROUND;
        add(list, TARGET_CARD, shelf, GROUP_PANEL, box);
    } else {
        add(list, TARGET_DIAL, control, GROUP_PANEL, box);
    }
}

static void add_panel(const View* const view, const Geometry* const g, TargetList* const list)
{
    if (view->is_choosing && dial_of(view->choosing)->panel == (int)view->panel) {
        for (int word = 0; word < targets_choice_words(view->choosing); ++word) {
            add(list, TARGET_WORD, word, GROUP_PANEL, geometry_word(g, word));
        }
        return;
    }
    for (int i = 0; i < 14; ++i) {
        add_cell(view, g, i % 7, i / 7, list);
    }
    if (g->compact && view->panel == PANEL_RHYTHM && view->page == 0) {
        add(list, TARGET_DIAL, CONTROL_CHANGE_AT, GROUP_PANEL, geometry_cell(g, view->page, 4, 0));
        list->targets[list->count - 1].box.width *= 2.1;
    }
    if (view->panel == PANEL_OUTPUT && geometry_cell(g, view->page, 0, 1).y > 0.0) {
        const Box box = geometry_cell(g, view->page, 0, 1);
        add(list, TARGET_THEME, 0, GROUP_PANEL, (Box){box.x, box.y, 1.9 * box.width, box.height});
        add(list, TARGET_EDIT, EDIT_FILE, GROUP_PANEL, geometry_cell(g, view->page, 2, 1));
        add(list, TARGET_EDIT, EDIT_LEARN, GROUP_PANEL, geometry_cell(g, view->page, 3, 1));
        for (int item = 0; item < OPTION_ITEMS; ++item) {
            add(list, TARGET_OPTION, item, GROUP_PANEL, geometry_cell(g, view->page, 4 + item, 1));
        }
    }
}

/* Where what changes a figure stands: column, row, columns wide. */
typedef struct {
    EditItem item;
    int column;
    int row;
    int wide;
} EditCell;

static const EditCell edit_cells[] = {
    {EDIT_PAIR, 0, 0, 1}, {EDIT_GRID, 1, 0, 1}, {EDIT_LENGTH, 2, 0, 1}, {EDIT_ROLLS, 3, 0, 1},
    {EDIT_UNDO, 4, 0, 1}, {EDIT_REDO, 5, 0, 1}, {EDIT_PAGE, 6, 0, 1},   {EDIT_NAME, 0, 1, 3},
    {EDIT_SAVE, 3, 1, 1}, {EDIT_DROP, 4, 1, 1},
};

static void add_edit(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (size_t i = 0; i < sizeof edit_cells / sizeof *edit_cells; ++i) {
        const EditCell place = edit_cells[i];
        Box box = geometry_cell(g, view->page, place.column, place.row);
        if (box.y > 0.0) {
            const Box last = geometry_cell(g, view->page, place.column + place.wide - 1, place.row);
            box.width = last.x + last.width - box.x;
            add(list, TARGET_EDIT, (int)place.item, GROUP_PANEL, box);
        }
    }
    for (int limb = 0; limb < 2; ++limb) {
        const int row = 2 * (int)view->edit.pair + limb;
        add(list, TARGET_ROW, row, limb ? GROUP_ROW_LEFT : GROUP_ROW, geometry_row(g, row));
    }
}

static void add_list(const View* const view, const Geometry* const g, TargetList* const list)
{
    add(list, TARGET_LIST, 0, GROUP_NONE, g->list_box);
    if (g->keys) {
        return;
    }
    add(list, TARGET_FIND, 0, GROUP_LIST, geometry_find(g));
    const int lines = geometry_list_rows(g);
    for (int i = 0; i < lines && view->list.first + i < view->list.count; ++i) {
        const int line = view->list.first + i;
        if (!view->list.rows[line].is_heading) {
            add(list, TARGET_LIST_ROW, line, GROUP_LIST, geometry_list_row(g, i));
        }
    }
}

void targets_of(const View* const view, const Geometry* const g, TargetList* const list)
{
    list->count = 0;
    if (g->reads) {
        add(list, TARGET_READING, 0, GROUP_NONE, (Box){0.0, 0.0, g->width, g->height});
        return;
    }
    add_top(view, g, list);
    if (!g->list && !geometry_covers(g)) {
        add_card(view, g, ENTRY_HANDS, list);
        add_card(view, g, ENTRY_FEET, list);
    }
    if (!geometry_covers(g)) {
        add_limbs(view, g, list);
    }
    if (!g->keys && !g->list) {
        add_bars(view, g, list);
    }
    if (!g->list && !g->keys) {
        add_tabs(g, list);
        add_panel(view, g, list);
        if (view->panel == PANEL_EDIT) {
            add_edit(view, g, list);
        }
    } else {
        add_list(view, g, list);
    }
}

const Target* targets_at(const TargetList* const list, const double x, const double y)
{
    for (int i = list->count - 1; i >= 0; --i) {
        const Box box = list->targets[i].box;
        if (x >= box.x && x < box.x + box.width && y >= box.y && y < box.y + box.height) {
            return &list->targets[i];
        }
    }
    return NULL;
}

const Target* targets_find(const TargetList* const list, const TargetId id)
{
    for (int i = 0; i < list->count; ++i) {
        if (view_target_same(list->targets[i].id, id)) {
            return &list->targets[i];
        }
    }
    return NULL;
}

int targets_choice_words(const Control control)
{
    return (int)(control_rows[control].most - control_rows[control].least) + 1;
}

/* Words are as wide as their letters ask, roughly, so that all fit. */
double targets_choice_edge(const Box box, const Control control, const int word)
{
    const Dial* const dial = dial_of(control);
    double before = 0.0;
    double all = 0.0;
    for (int i = 0; i < targets_choice_words(control); ++i) {
        const double wide = 2.4 + (double)strlen(dial->words[i]);
        before += i < word ? wide : 0.0;
        all += wide;
    }
    return box.x + box.width * before / all;
}

int targets_choice_at(const Target* const target, const Control control, const double x)
{
    int word = 0;
    while (word + 1 < targets_choice_words(control) &&
           x >= targets_choice_edge(target->box, control, word + 1)) {
        ++word;
    }
    return word;
}

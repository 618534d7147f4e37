// SPDX-License-Identifier: ISC
/* Pages of dials, and the states that are laid out as they are. */
#include "cells.h"

#include "dial.h"
#include "target_choice.h"

int cells_control(const Panel panel, const int column, const int row)
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

bool cells_have_rows(const Panel panel)
{
    const bool is_state = page_rows[panel].group == PAGES_STATE && panel != PANEL_SHORTLIST;
    bool has = is_state || panel == PANEL_PRACTICE;
    for (int column = 0; !has && column < 7; ++column) {
        has = cells_control(panel, column, 1) < CONTROL_COUNT;
    }
    return has;
}

int cells_row(const View* const view)
{
    return cells_have_rows(view->panel) ? view->page : 0;
}

static void add_cell(const View* const view, const Geometry* const g, const int column,
                     const int row, TargetList* const list)
{
    const int control = cells_control(view->panel, column, row);
    const Box box = geometry_cell(g, cells_row(view), column, row);
    if (control == CONTROL_COUNT || box.y < 0.0) {
        return;
    }
    if (dial_of((Control)control)->kind == DIAL_PICK) {
        const int shelf = control == CONTROL_KIT ? ENTRY_KIT : ENTRY_TURNAROUND;
        target_list_add(list, TARGET_CARD, shelf, GROUP_PANEL, box);
    } else {
        target_list_add(list, TARGET_DIAL, control, GROUP_PANEL, box);
    }
}

static bool lays_out_words(const View* const view)
{
    return view->is_choosing && dial_of(view->choosing)->panel == (int)view->panel;
}

void cells_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    if (lays_out_words(view)) {
        for (int word = 0; word < target_choice_words(view->choosing); ++word) {
            target_list_add(list, TARGET_WORD, word, GROUP_PANEL, geometry_word(g, word));
        }
        return;
    }
    for (int i = 0; i < 14; ++i) {
        add_cell(view, g, i % 7, i / 7, list);
    }
    if (g->compact && view->panel == PANEL_RHYTHM && view->page == 0) {
        target_list_add(list, TARGET_DIAL, CONTROL_CHANGE_AT, GROUP_PANEL,
                        geometry_cell(g, view->page, 4, 0));
        list->targets[list->count - 1].box.width *= 2.1;
    }
}

void cells_output_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    cells_targets(view, g, list);
    if (!lays_out_words(view) && geometry_cell(g, view->page, 0, 1).y > 0.0) {
        const Box box = geometry_cell(g, view->page, 0, 1);
        target_list_add(list, TARGET_THEME, 0, GROUP_PANEL,
                        (Box){box.x, box.y, 1.9 * box.width, box.height});
        target_list_add(list, TARGET_EDIT, EDIT_FILE, GROUP_PANEL,
                        geometry_cell(g, view->page, 2, 1));
        target_list_add(list, TARGET_EDIT, EDIT_LEARN, GROUP_PANEL,
                        geometry_cell(g, view->page, 3, 1));
        for (int item = 0; item < OPTION_ITEMS; ++item) {
            target_list_add(list, TARGET_OPTION, item, GROUP_PANEL,
                            geometry_cell(g, view->page, 4 + item, 1));
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
    {EDIT_SAVE, 3, 1, 1}, {EDIT_DROP, 4, 1, 1}, {EDIT_GROOVE, 5, 1, 1}, {EDIT_DELETE, 6, 1, 1},
};

void cells_edit_targets(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (size_t i = 0; i < sizeof edit_cells / sizeof *edit_cells; ++i) {
        const EditCell place = edit_cells[i];
        Box box = geometry_cell(g, view->page, place.column, place.row);
        if (box.y > 0.0) {
            const Box last = geometry_cell(g, view->page, place.column + place.wide - 1, place.row);
            box.width = last.x + last.width - box.x;
            target_list_add(list, TARGET_EDIT, (int)place.item, GROUP_PANEL, box);
        }
    }
    for (int limb = 0; limb < 2; ++limb) {
        const int row = 2 * (int)view->edit.pair + limb;
        target_list_add(list, TARGET_ROW, row, limb ? GROUP_ROW_LEFT : GROUP_ROW,
                        geometry_row(g, row));
    }
}

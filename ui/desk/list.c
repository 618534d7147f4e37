// SPDX-License-Identifier: ISC
#include "list.h"

#include "../../plugin/bank/utf8.h"
#include "../../plugin/engine/groove/foot_load.h"
#include "../scene/handed.h"
#include "../scene/keys.h"
#include "grades.h"
#include "list_fill.h"
#include "list_sort.h"

#include <pango/pango.h>
#include <stdlib.h>
#include <string.h>

static int line_of(const Model* const model, const int32_t id)
{
    const List* const list = &model->view.list;
    const Entry* const entry = view_entry(&model->view, list->shelf, id);
    for (int i = 0; entry && i < list->count; ++i) {
        if (!list->rows[i].is_heading &&
            &model->view.shelves[list->shelf].entries[list->rows[i].entry] == entry) {
            return i;
        }
    }
    return -1;
}

int list_rows_seen(const Model* const model)
{
    const Geometry g = geometry_of(&model->view);
    const int rows = g.keys ? keys_seen(&g) : geometry_list_rows(&g);
    return rows > 1 ? rows : 1;
}

static void keep_in_sight(Model* const model)
{
    List* const list = &model->view.list;
    const int seen = list_rows_seen(model);
    if (list->selected >= 0 && list->selected < list->first + 1) {
        list->first = list->selected - 1; /* with its heading */
    }
    if (list->selected >= list->first + seen) {
        list->first = list->selected - seen + 1;
    }
    list_scroll(model, 0);
}

/* What a feet figure asks: the engine's own foot_load, run to its end */

static Demand demand_of(const Model* const model, const int32_t id)
{
    Demand demand = {.is_known = false};
    float values[CONTROL_COUNT];
    memcpy(values, model->view.values, sizeof values);
    values[CONTROL_FEET] = (float)id;
    const Settings settings = settings_from_controls(values);
    const SeenBar* const bar = view_bar(&model->view, view_shown(&model->view));
    const double tempo = model_tempo(model);
    Varied* const varied = calloc(1, sizeof *varied);
    Selection selection = selection_make(model_library(model), &settings, tempo);
    FootLoad* const foot_load = calloc(1, sizeof *foot_load);
    selection.varied = varied;
    if (foot_load && varied && selection.groove) {
        foot_load_all(foot_load, &selection, bar ? bar->meter : selection.groove->meter, tempo);
        for (int foot = 0; foot < FOOT_LOAD_FEET; ++foot) {
            const FootDemand found = foot_load->found[foot];
            demand.feet[foot] = (FootRate){found.rate, found.gap_ms};
        }
        demand.is_known = true;
    }
    free(foot_load);
    free(varied);
    return demand;
}

/* Of a line, in a list of feet. */
static Demand asked_by(const Model* const model, const int line, Playability* const room)
{
    Demand demand;
    const Shelf* const shelf = &model->view.shelves[ENTRY_FEET];
    return list_fill_demand(model, line, room, &demand)
               ? demand
               : demand_of(model, shelf->entries[model->view.list.rows[line].entry].id);
}

/* What a line asks of a foot, for columns that sort by it. */
static double* rates_of(const Model* const model)
{
    const List* const list = &model->view.list;
    const ListColumn column = list->orders[list->shelf].column;
    const bool is_wanted = column == LIST_BY_RIGHT || column == LIST_BY_LEFT;
    const size_t foot = (size_t)handed_limb(&model->view, column == LIST_BY_LEFT);
    double* const rates = is_wanted ? calloc((size_t)list->count + 1, sizeof *rates) : NULL;
    Playability* const room = rates && model->snapshot ? malloc(sizeof *room) : NULL;
    for (int line = 0; room && line < list->count; ++line) {
        if (!list->rows[line].is_heading) {
            rates[line] = asked_by(model, line, room).feet[foot].rate;
        }
    }
    free(room);
    return rates;
}

static void sort(Model* const model)
{
    double* const rates = rates_of(model);
    list_sort(model, rates);
    free(rates);
}

static void fill(Model* const model)
{
    List* const list = &model->view.list;
    grades_shelf(model, list->shelf);
    list_fill(model);
    sort(model);
    list->selected = line_of(model, (int32_t)model->view.values[kind_controls[list->shelf]]);
    list->first = 0;
    keep_in_sight(model);
}

/* What was typed is looked for: walking begins at the best of it, not at what plays. */
static void fill_typed(Model* const model)
{
    List* const list = &model->view.list;
    fill(model);
    if (*list->find && list->selected > 1) {
        list->selected = -1;
        list->first = 0;
        list_scroll(model, 0);
    }
}

void list_open(Model* const model, const EntryKind shelf)
{
    List* const list = &model->view.list;
    model_stop_typing(model);
    model->view.keys.is_open = false;
    list->is_open = true;
    list->shelf = shelf;
    list->find[0] = '\0';
    list->began_with = (int32_t)model->view.values[kind_controls[shelf]];
    list->playing = list->began_with;
    fill(model);
    model->is_dirty = true;
}

void list_refresh(Model* const model)
{
    const int first = model->view.list.first;
    if (model->view.list.is_open) {
        fill(model);
        model->view.list.first = first;
        keep_in_sight(model);
    }
}

void list_close(Model* const model, const bool keep)
{
    List* const list = &model->view.list;
    if (list->is_open && !keep) {
        model_nudge(model, kind_controls[list->shelf], (float)list->began_with);
    }
    list->is_open = false;
    model->view.keys.is_open = false;
    model->view.hover = (TargetId){TARGET_NONE, 0};
    model->is_dirty = true;
}

void list_scroll(Model* const model, const int rows)
{
    View* const view = &model->view;
    int* const first = view->keys.is_open ? &view->keys.first : &view->list.first;
    const int count = view->keys.is_open ? view->keys.count : view->list.count;
    const int most = count - list_rows_seen(model);
    const int wanted = *first + rows > most ? most : *first + rows;
    *first = wanted < 0 ? 0 : wanted;
    list_measure(model);
    model->is_dirty = true;
}

void list_choose(Model* const model, const int row)
{
    List* const list = &model->view.list;
    if (row < 0 || row >= list->count || list->rows[row].is_heading) {
        return;
    }
    list->selected = row;
    const Entry* const entry = &model->view.shelves[list->shelf].entries[list->rows[row].entry];
    model_nudge(model, kind_controls[list->shelf], (float)entry->id);
    model->is_dirty = true;
    keep_in_sight(model);
}

static void sort_again(Model* const model)
{
    fill(model);
    model->is_dirty = true;
}

void list_sort_at(Model* const model, const ListColumn column)
{
    list_sort_choose(model, column);
    sort_again(model);
}

void list_sort_by(Model* const model, const int by)
{
    List* const list = &model->view.list;
    list->orders[list->shelf] = (ListOrder){list_sort_next(model, by), false};
    sort_again(model);
}

void list_sort_round(Model* const model)
{
    list_sort_turn(model);
    sort_again(model);
}

/* The nearest entry at or beyond a line, in a direction; -1 if there is none. */
static int entry_from(const List* const list, int row, const int by)
{
    while (row >= 0 && row < list->count && list->rows[row].is_heading) {
        row += by;
    }
    return row >= 0 && row < list->count ? row : -1;
}

void list_walk(Model* const model, const int by)
{
    const List* const list = &model->view.list;
    int to = list->selected < 0 ? (by > 0 ? 0 : list->count - 1) : list->selected + by;
    to = to < 0 ? 0 : to >= list->count ? list->count - 1 : to;
    int row = entry_from(list, to, by > 0 ? 1 : -1);
    if (row < 0) {
        row = entry_from(list, to, by > 0 ? -1 : 1);
    }
    list_choose(model, row);
}

void list_find_more(Model* const model, const uint32_t text)
{
    char* const find = model->view.list.find;
    char letter[8] = "";
    const size_t length = strlen(find);
    const int bytes = g_unichar_to_utf8(text, letter);
    if (g_unichar_isprint(text) && length + (size_t)bytes < FIND_ROOM) {
        memcpy(find + length, letter, (size_t)bytes);
        find[length + (size_t)bytes] = '\0';
        fill_typed(model);
        model->is_dirty = true;
    }
}

void list_find_less(Model* const model)
{
    char* const find = model->view.list.find;
    const size_t length = strlen(find);
    find[utf8_cut(find, length, length ? length - 1 : 0)] = '\0';
    fill_typed(model);
    model->is_dirty = true;
}

void list_find_all(Model* const model)
{
    model->view.list.find[0] = '\0';
    fill(model);
    model->is_dirty = true;
}

void list_measure(Model* const model)
{
    const List* const list = &model->view.list;
    const int seen = list_rows_seen(model);
    if (list_fill_is_old(model)) {
        list_refresh(model); /* comes back here */
        return;
    }
    if (!list->is_open || !model->snapshot || list->shelf != ENTRY_FEET) {
        return;
    }
    Playability* const room = malloc(sizeof *room); /* too large for a stack */
    for (int row = list->first; row < list->first + seen && row < list->count; ++row) {
        if (room && !list->rows[row].is_heading) {
            model->view.demands[row] = asked_by(model, row, room);
        }
    }
    free(room);
}

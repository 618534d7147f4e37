// SPDX-License-Identifier: ISC
/* The open list: finding, walking and hearing. */
#include "moves.h"

#include <pango/pango.h>
#include <stdlib.h>
#include <string.h>

/* True if the letters stand in the text, whatever their case, in any script. */
static bool has_letters(const char* const text, const char* const letters)
{
    char* const folded = g_utf8_casefold(text, -1);
    char* const wanted = g_utf8_casefold(letters, -1);
    const bool found = strstr(folded, wanted) != NULL;
    g_free(folded);
    g_free(wanted);
    return found;
}

static void add_line(List* const list, const bool is_heading, const int entry)
{
    if (list->count < LIST_ROWS_MAX) {
        list->rows[list->count++] = (ListRow){is_heading, entry};
    }
}

static int line_of(const Desk* const desk, const int32_t id)
{
    const List* const list = &desk->view.list;
    for (int i = 0; i < list->count; ++i) {
        if (!list->rows[i].is_heading &&
            desk->view.shelves[list->shelf].entries[list->rows[i].entry].id == id) {
            return i;
        }
    }
    return -1;
}

static int rows_seen(const Desk* const desk)
{
    const Geometry g = geometry_of(&desk->view);
    const int rows = geometry_list_rows(&g);
    return rows > 1 ? rows : 1;
}

static void keep_in_sight(Desk* const desk)
{
    List* const list = &desk->view.list;
    const int seen = rows_seen(desk);
    if (list->selected >= 0 && list->selected < list->first + 1) {
        list->first = list->selected - 1; /* with its heading */
    }
    if (list->selected >= list->first + seen) {
        list->first = list->selected - seen + 1;
    }
    list_scroll(desk, 0);
}

/* The lines whose name or family has the letters typed so far. */
static void fill(Desk* const desk)
{
    List* const list = &desk->view.list;
    const Shelf* const shelf = &desk->view.shelves[list->shelf];
    const char* family = NULL;
    list->count = 0;
    for (int i = 0; i < shelf->count; ++i) {
        const Entry* const entry = &shelf->entries[i];
        if (!has_letters(entry->label, list->find) && !has_letters(entry->family, list->find)) {
            continue;
        }
        if (*entry->family && (!family || strcmp(entry->family, family) != 0)) {
            add_line(list, true, i);
        }
        family = entry->family;
        add_line(list, false, i);
    }
    list->selected = line_of(desk, (int32_t)desk->view.values[shelf_control(list->shelf)]);
    list->first = 0;
    keep_in_sight(desk);
}

void list_open(Desk* const desk, const ShelfKind shelf)
{
    List* const list = &desk->view.list;
    desk_end_typing(desk, false);
    list->is_open = true;
    list->shelf = shelf;
    list->find[0] = '\0';
    list->began_with = (int32_t)desk->view.values[shelf_control(shelf)];
    list->playing = list->began_with;
    fill(desk);
    desk->is_dirty = true;
}

void list_refresh(Desk* const desk)
{
    const int first = desk->view.list.first;
    if (desk->view.list.is_open) {
        fill(desk);
        desk->view.list.first = first;
        keep_in_sight(desk);
    }
}

void list_close(Desk* const desk, const bool keep)
{
    List* const list = &desk->view.list;
    if (!keep) {
        desk_nudge(desk, shelf_control(list->shelf), (float)list->began_with);
    }
    list->is_open = false;
    desk->view.hover = (TargetId){TARGET_NONE, 0};
    desk->is_dirty = true;
}

void list_scroll(Desk* const desk, const int rows)
{
    List* const list = &desk->view.list;
    const int most = list->count - rows_seen(desk);
    list->first += rows;
    list->first = list->first > most ? most : list->first;
    list->first = list->first < 0 ? 0 : list->first;
    list_measure(desk);
    desk->is_dirty = true;
}

void list_choose(Desk* const desk, const int row)
{
    List* const list = &desk->view.list;
    if (row < 0 || row >= list->count || list->rows[row].is_heading) {
        return;
    }
    list->selected = row;
    const Entry* const entry = &desk->view.shelves[list->shelf].entries[list->rows[row].entry];
    desk_nudge(desk, shelf_control(list->shelf), (float)entry->id);
    desk->is_dirty = true;
    keep_in_sight(desk);
}

/* The nearest entry at or beyond a line, in a direction; -1 if there is none. */
static int entry_from(const List* const list, int row, const int by)
{
    while (row >= 0 && row < list->count && list->rows[row].is_heading) {
        row += by;
    }
    return row >= 0 && row < list->count ? row : -1;
}

static void walk(Desk* const desk, const int by)
{
    const List* const list = &desk->view.list;
    int to = list->selected < 0 ? (by > 0 ? 0 : list->count - 1) : list->selected + by;
    to = to < 0 ? 0 : to >= list->count ? list->count - 1 : to;
    int row = entry_from(list, to, by > 0 ? 1 : -1);
    if (row < 0) {
        row = entry_from(list, to, by > 0 ? -1 : 1);
    }
    list_choose(desk, row);
}

static void find_more(Desk* const desk, const uint32_t text)
{
    char* const find = desk->view.list.find;
    char letter[8] = "";
    const size_t length = strlen(find);
    const int bytes = g_unichar_to_utf8(text, letter);
    if (g_unichar_isprint(text) && length + (size_t)bytes < FIND_ROOM) {
        memcpy(find + length, letter, (size_t)bytes);
        find[length + (size_t)bytes] = '\0';
        fill(desk);
        desk->is_dirty = true;
    }
}

static void find_less(Desk* const desk)
{
    char* const find = desk->view.list.find;
    size_t length = strlen(find);
    while (length > 0 && ((unsigned char)find[length - 1] & 0xC0U) == 0x80U) {
        --length;
    }
    find[length > 0 ? length - 1 : 0] = '\0';
    fill(desk);
    desk->is_dirty = true;
}

static void escape(Desk* const desk)
{
    if (*desk->view.list.find) {
        desk->view.list.find[0] = '\0';
        fill(desk);
        desk->is_dirty = true;
    } else {
        list_close(desk, false);
    }
}

bool list_key(Desk* const desk, const PaneEvent* const event)
{
    const int page = rows_seen(desk) - 1;
    const int count = desk->view.list.count;
    switch (event->key) {
    case PANE_KEY_UP:
        walk(desk, -1);
        break;
    case PANE_KEY_DOWN:
        walk(desk, 1);
        break;
    case PANE_KEY_PAGE_UP:
        walk(desk, -page);
        break;
    case PANE_KEY_PAGE_DOWN:
        walk(desk, page);
        break;
    case PANE_KEY_HOME:
        walk(desk, -count);
        break;
    case PANE_KEY_END:
        walk(desk, count);
        break;
    case PANE_KEY_ENTER:
        list_close(desk, true);
        break;
    case PANE_KEY_ESCAPE:
        escape(desk);
        break;
    case PANE_KEY_BACKSPACE:
        find_less(desk);
        break;
    default:
        if (event->text >= ' ') {
            find_more(desk, event->text);
        }
        break;
    }
    return event->key < PANE_KEY_F1;
}

/* ---- What a feet figure asks: the engine's own foot_load, run to its end */

static Demand demand_of(const Desk* const desk, const int32_t id)
{
    Demand demand = {.is_known = false};
    float values[CONTROL_COUNT];
    memcpy(values, desk->view.values, sizeof values);
    values[CONTROL_FEET] = (float)id;
    const Settings settings = settings_from_controls(values);
    const SeenBar* const bar = view_bar(&desk->view, view_shown(&desk->view));
    const double told = (double)desk->view.readouts[READOUT_TEMPO_NOW];
    const double tempo = told > 0.0 ? told : 120.0;
    const Selection selection = selection_make(bank_library(desk->bank), &settings, tempo);
    FootLoad* const foot_load = calloc(1, sizeof *foot_load);
    if (foot_load && selection.groove) {
        foot_load_start(foot_load, &selection, bar ? bar->meter : selection.groove->meter, tempo);
        while (foot_load->at < foot_load->end) {
            foot_load_step(foot_load, tempo);
        }
        memcpy(demand.feet, foot_load->found, sizeof demand.feet);
        demand.is_known = true;
    }
    free(foot_load);
    return demand;
}

void list_measure(Desk* const desk)
{
    const List* const list = &desk->view.list;
    const int seen = rows_seen(desk);
    if (!desk->bank || list->shelf != SHELF_FEET) {
        return;
    }
    for (int row = list->first; row < list->first + seen && row < list->count; ++row) {
        if (!list->rows[row].is_heading) {
            const Shelf* const shelf = &desk->view.shelves[SHELF_FEET];
            desk->view.demands[row] = demand_of(desk, shelf->entries[list->rows[row].entry].id);
        }
    }
}

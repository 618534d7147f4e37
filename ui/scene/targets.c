// SPDX-License-Identifier: ISC
#include "targets.h"

#include "cells.h"
#include "handed.h"
#include "picked.h"
#include "practice.h"
#include "shortlist.h"
#include "vary_page.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* That something isn't the groove's own. */
static void add_changed(const View* const view, const TopRow* const top, TargetList* const list)
{
    char words[PICKED_ROOM];
    const Entry* const groove = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    picked_words(view, words);
    if (*words && groove) {
        target_list_add(list, TARGET_PUT_BACK, ENTRY_KINDS, GROUP_NONE,
                        geometry_changed(top, groove->label, strlen(words)));
    }
}

static void add_top(const View* const view, const Geometry* const g, TargetList* const list)
{
    const TopRow top = geometry_top(g);
    target_list_add(list, TARGET_DIAL, CONTROL_ENABLED, GROUP_TOP, top.enabled);
    target_list_add(list, TARGET_CARD, ENTRY_GROOVE, GROUP_TOP, top.groove);
    add_changed(view, &top, list);
    if (top.change_at.width > 0.0) {
        target_list_add(list, TARGET_DIAL, CONTROL_CHANGE_AT, GROUP_TOP, top.change_at);
    }
    target_list_add(list, TARGET_DIAL, CONTROL_CLOCK, GROUP_TOP, top.clock);
    target_list_add(list, TARGET_DIAL, CONTROL_TEMPO, GROUP_TOP, top.tempo);
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
    target_list_add(list, TARGET_CARD, (int)shelf, is_feet ? GROUP_FEET : GROUP_HANDS, card.box);
    target_list_add(list, TARGET_CARD_UP, (int)shelf, GROUP_NONE, card.up);
    target_list_add(list, TARGET_CARD_DOWN, (int)shelf, GROUP_NONE, card.down);
    const bool is_folded = geometry_folds(g, is_feet ? RIGHT_FOOT : RIGHT_HAND);
    if (picked_here(view, shelf) && !has_other_foot(view, shelf) && !is_folded) {
        target_list_add(list, TARGET_PUT_BACK, (int)shelf, GROUP_NONE, card.put_back);
    }
}

static void add_limbs(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        target_list_add(list, TARGET_DIAL, (int)handed_switch(view, limb), GROUP_LIMBS,
                        geometry_label(g, limb).box);
    }
    if (g->low || g->list) {
        return; /* its row isn't there */
    }
    target_list_add(list, TARGET_CLICK, 0, GROUP_LIMBS, geometry_label(g, LIMB_COUNT).box);
}

static void add_bars(const View* const view, const Geometry* const g, TargetList* const list)
{
    const int bars = view_phrase_bars(view);
    const int now = (int)floor_mod(view_shown(view) - view_phrase(view), bars);
    for (int bar = 0; bar < bars; ++bar) {
        target_list_add(list, TARGET_BAR, bar, GROUP_BARS, geometry_bar_box(g, bar, bars, now));
    }
}

/* Pages, then what takes their place, as they stand. */
static void add_tabs(const View* const view, const Geometry* const g, TargetList* const list)
{
    for (int panel = 0; panel < PANEL_COUNT; ++panel) {
        if (page_rows[panel].group != PAGES_STATE || *page_rows[panel].key) {
            target_list_add(list, TARGET_TAB, panel, GROUP_TABS, geometry_tab(g, (Panel)panel));
        }
    }
    for (int item = 0; item < SHOW_ITEMS; ++item) {
        target_list_add(list, TARGET_SHOW, item, GROUP_TABS, geometry_show(g, (ShowItem)item));
    }
    if (g->compact && cells_have_rows(view->panel)) {
        target_list_add(list, TARGET_PAGE, 0, GROUP_TABS, geometry_page(g));
    }
}

static void add_list(const View* const view, const Geometry* const g, TargetList* const list)
{
    target_list_add(list, TARGET_LIST, 0, GROUP_NONE, g->list_box);
    if (g->keys) {
        return;
    }
    for (int column = 0; column < LIST_COLUMNS; ++column) {
        const Box head = geometry_head(g, view->list.shelf, (ListColumn)column);
        if (head.width > 0.0) {
            target_list_add(list, TARGET_HEAD, column, GROUP_NONE, head);
        }
    }
    target_list_add(list, TARGET_FIND, 0, GROUP_LIST, geometry_find(g));
    const int lines = geometry_list_rows(g);
    for (int i = 0; i < lines && view->list.first + i < view->list.count; ++i) {
        const int line = view->list.first + i;
        if (!view->list.rows[line].is_heading) {
            target_list_add(list, TARGET_LIST_ROW, line, GROUP_LIST, geometry_list_row(g, i));
        }
    }
}

#define PAGE_TARGETS(name, words, group, key, bars, targets, draw) targets,
static TargetsOf* const page_targets[PANEL_COUNT] = {PAGE_ROWS(PAGE_TARGETS)};
#undef PAGE_TARGETS

void targets_of(const View* const view, const Geometry* const g, TargetList* const list)
{
    list->count = 0;
    if (g->reads) {
        target_list_add(list, TARGET_READING, 0, GROUP_NONE, (Box){0.0, 0.0, g->width, g->height});
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
    if (g->kept) {
        shortlist_targets(view, g, list);
    } else if (!g->list && !g->keys) {
        add_tabs(view, g, list);
        if (page_rows[view->panel].bars) {
            add_bars(view, g, list);
        }
        page_targets[view->panel](view, g, list);
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

// SPDX-License-Identifier: ISC
#include "view.h"

#include <stddef.h>

bool view_target_same(const TargetId a, const TargetId b)
{
    return a.kind == b.kind && a.index == b.index;
}

int view_phrase_bars(const View* const view)
{
    return view->place.phrase_bars ? (int)view->place.phrase_bars : 1;
}

int64_t view_phrase(const View* const view)
{
    return view->place.phrase;
}

const SeenBar* view_bar(const View* const view, const int64_t bar)
{
    const int64_t slot = bar - view->place.phrase;
    return slot >= 0 && slot < SEEN_BARS && view->has_bar[slot] ? &view->bars[slot] : NULL;
}

int64_t view_shown(const View* const view)
{
    const int last = view_phrase_bars(view) - 1;
    if ((!view->place.rolling || view->held) && view->looked_at >= 0) {
        return view_phrase(view) + (view->looked_at < last ? view->looked_at : last);
    }
    return view->place.bar < 0 ? 0 : view->place.bar;
}

const SeenBar* view_next(const View* const view)
{
    const int64_t shown = view_shown(view);
    return view_bar(view, view->place.loops && view->place.rolling ? shown : shown + 1);
}

static const Entry* with_id(const Shelf* const shelf, const int32_t id)
{
    for (int i = 0; i < shelf->count; ++i) {
        if (shelf->entries[i].id == id) {
            return &shelf->entries[i];
        }
    }
    return NULL;
}

const Entry* view_entry(const View* const view, const EntryKind kind, const int32_t id)
{
    const Shelf* const shelf = &view->shelves[kind];
    const Entry* const entry = with_id(shelf, id);
    for (uint32_t i = 0; !entry && i < shelf->left.count; ++i) {
        if ((int32_t)shelf->left.rows[i].id == id) {
            return with_id(shelf, (int32_t)shelf->left.rows[i].by);
        }
    }
    return entry;
}

static bool is_drafted(const View* const view, const FigureKind kind, const Figure* const figure)
{
    return figure && view->drafted[kind] && (int32_t)figure->id == view->drafted[kind];
}

bool view_is_edited(const View* const view, const EntryKind shelf, const Entry* const entry)
{
    if (shelf < (EntryKind)FIGURE_KINDS) {
        return is_drafted(view, (FigureKind)shelf, entry->figure);
    }
    const Groove* const groove = entry->groove;
    bool is = groove && is_drafted(view, FIGURE_TURNAROUND, groove->turnaround);
    for (uint32_t bar = 0; groove && bar < groove->form_bars; ++bar) {
        const Part* const part = &groove->parts[groove->form[bar]];
        is = is || is_drafted(view, FIGURE_HANDS, part->hands) ||
             is_drafted(view, FIGURE_FEET, part->feet);
    }
    return is;
}

int32_t view_playing(const View* const view, const EntryKind shelf)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const List* const list = &view->list;
    if (shelf == ENTRY_TURNAROUND && list->is_open && list->shelf == shelf && view->place.waiting) {
        return list->playing; /* a bar tells of what is played in it alone */
    }
    if (bar && shelf == ENTRY_GROOVE) {
        return (int32_t)bar->groove;
    }
    if (bar && (shelf == ENTRY_HANDS || shelf == ENTRY_FEET)) {
        return (int32_t)(shelf == ENTRY_HANDS ? bar->hands : bar->feet);
    }
    return (int32_t)view->values[kind_controls[shelf]];
}

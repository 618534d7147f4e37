// SPDX-License-Identifier: ISC
#include "coming.h"

#include "../../plugin/engine/varied/variation.h"
#include "picked.h"

#include <stddef.h>
#include <stdio.h>

const SeenBar* coming_bar(const View* const view)
{
    const int64_t after = view->place.change_tick > 0 ? 1 : 0;
    const SeenBar* const bar = view_bar(view, view->place.change_bar + after);
    return view->place.waiting && bar && bar->is_coming ? bar : NULL;
}

/* A bar that plays what sounds now, if there is one of this letter and groove: bars of one
   letter differ by what changed alone. */
static const SeenBar* to_compare(const View* const view, const SeenBar* const then)
{
    const SeenBar* const shown = view_bar(view, view_shown(view));
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        if (bar && !bar->is_coming && bar->groove == then->groove && bar->part == then->part) {
            return bar;
        }
    }
    return shown && !shown->is_coming ? shown : NULL;
}

/* The fill that the phrase plays now; 0: none is told. */
static uint32_t fill_now(const View* const view)
{
    uint32_t fill = 0;
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        fill = bar && !bar->is_coming && bar->fill ? bar->fill : fill;
    }
    return fill;
}

/* A fill that was asked for and isn't played yet. */
static const Entry* fill_asked(const View* const view)
{
    const int32_t asked = (int32_t)view->values[CONTROL_TURNAROUND];
    const Entry* const entry = asked > 0 ? view_entry(view, ENTRY_TURNAROUND, asked) : NULL;
    return entry && (uint32_t)entry->id != fill_now(view) ? entry : NULL;
}

/* True if it isn't what plays now; another letter's own is no change. */
static bool is_new(const View* const view, const SeenBar* const now, const SeenBar* const then,
                   const EntryKind kind)
{
    const bool is_hands = kind == ENTRY_HANDS;
    const bool is_same = is_hands ? then->hands == now->hands : then->feet == now->feet;
    return !is_same && !(then->part != now->part && then->groove == now->groove &&
                         picked_is_own(view, then, kind) && picked_is_own(view, now, kind));
}

/* What is kept waits for its line. */
static bool is_kept(const View* const view, Coming* const coming)
{
    const int slot = (int)view->values[CONTROL_KEPT];
    if (slot < 1 || slot > KEPT_MAX || slot == view->kept.playing ||
        !view->kept.rows[slot - 1].is_there) {
        return false;
    }
    coming->what = "kept";
    coming->name = view->kept.rows[slot - 1].name;
    coming->slot = slot;
    return true;
}

const char* coming_varied(const View* const view)
{
    const int first = (int)view->values[CONTROL_VARIATION];
    const int then = (int)view->values[CONTROL_VARIATION_THEN];
    const int* const playing = view->vary.playing;
    const bool is_other = first != playing[0] || then != playing[1];
    return view->place.waiting && is_other
               ? variation_words((uint32_t)(then && then != playing[1] ? then : first))
               : NULL;
}

/* Other feet are made of those that go on. */
static bool is_varied(const View* const view, Coming* const coming)
{
    coming->name = coming_varied(view);
    coming->what = coming->name ? "feet" : coming->what;
    return coming->name;
}

/* What of the bar to come is other than now. */
static void compare(const View* const view, const SeenBar* const then, Coming* const coming)
{
    const SeenBar* const now = then ? to_compare(view, then) : NULL;
    const Entry* const fill = fill_asked(view);
    if (is_kept(view, coming)) {
        return;
    }
    if (now && then->groove != now->groove) {
        coming->what = "groove";
        coming->entry = view_entry(view, ENTRY_GROOVE, (int32_t)then->groove);
    } else if (now && is_new(view, now, then, ENTRY_HANDS)) {
        coming->what = "hands";
        coming->entry = then->hands ? view_entry(view, ENTRY_HANDS, (int32_t)then->hands) : NULL;
    } else if (now && is_new(view, now, then, ENTRY_FEET)) {
        coming->what = "feet";
        coming->entry = then->feet ? view_entry(view, ENTRY_FEET, (int32_t)then->feet) : NULL;
    } else if (fill || (now && view->values[CONTROL_TURNAROUND] < -0.5f && fill_now(view))) {
        coming->what = "fill";
        coming->entry = fill;
    } else if (!is_varied(view, coming) && now && then->phrase_bars != now->phrase_bars) {
        coming->what = "phrase";
    }
}

bool coming_of(const View* const view, Coming* const coming)
{
    const SeenPlace* const place = &view->place;
    *coming = (Coming){.what = "", .bar = 1, .beat = 1};
    if (!place->waiting) {
        return false;
    }
    const SeenBar* const bar = view_bar(view, place->change_bar);
    const int64_t from = place->change_bar - view_phrase(view);
    coming->bar = (int)floor_mod(from, view_phrase_bars(view)) + 1;
    if (bar) {
        coming->beat = (int)(place->change_tick / meter_beat_ticks(bar->meter)) + 1;
    }
    compare(view, coming_bar(view), coming);
    return true;
}

/* What has no name. */
static const char* unnamed(const Coming* const coming)
{
    return *coming->what == 'f' && coming->what[1] == 'i' ? "none"
           : *coming->what == 'p'                         ? "another length"
           : *coming->what                                ? "rest"
                                                          : "the same, laid out anew";
}

void coming_words(const Coming* const coming, char text[COMING_ROOM])
{
    const bool is_figure = *coming->what && *coming->what != 'g';
    if (coming->slot) {
        snprintf(text, COMING_ROOM, "next: %d %s", coming->slot, coming->name);
        return;
    }
    snprintf(text, COMING_ROOM, "next%s%s: %s", is_figure ? " " : "", is_figure ? coming->what : "",
             coming->name    ? coming->name
             : coming->entry ? coming->entry->label
                             : unnamed(coming));
}

void coming_brief(const Coming* const coming, char text[COMING_ROOM])
{
    if (coming->slot) {
        snprintf(text, COMING_ROOM, "kept %d", coming->slot);
        return;
    }
    snprintf(text, COMING_ROOM, "new%s%s", *coming->what ? " " : "", coming->what);
}

void coming_place(const Coming* const coming, char text[COMING_ROOM])
{
    if (coming->beat > 1) {
        snprintf(text, COMING_ROOM, ", bar %d, beat %d", coming->bar, coming->beat);
    } else {
        snprintf(text, COMING_ROOM, ", bar %d", coming->bar);
    }
}

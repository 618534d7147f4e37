// SPDX-License-Identifier: ISC
#include "picked.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

static const Groove* groove_of(const View* const view, const SeenBar* const bar)
{
    const Entry* const entry = bar ? view_entry(view, ENTRY_GROOVE, (int32_t)bar->groove) : NULL;
    return entry ? entry->groove : NULL;
}

/* The groove's own in this bar, 0 if that rests; the groove is known. */
static uint32_t own_id(const Groove* const groove, const SeenBar* const bar, const EntryKind kind)
{
    const Part* const part = &groove->parts[bar->part < PARTS_MAX ? bar->part : 0];
    const Figure* const figure = kind == ENTRY_HANDS  ? part->hands
                                 : kind == ENTRY_FEET ? part->feet
                                                      : groove->turnaround;
    return figure ? figure->id : 0;
}

bool picked_is_own(const View* const view, const SeenBar* const bar, const EntryKind kind)
{
    const Groove* const groove = groove_of(view, bar);
    const uint32_t plays = kind == ENTRY_HANDS  ? bar->hands
                           : kind == ENTRY_FEET ? bar->feet
                                                : bar->fill;
    return groove && plays == own_id(groove, bar, kind);
}

static bool is_other(const View* const view, const SeenBar* const bar, const EntryKind kind)
{
    return groove_of(view, bar) && !bar->is_coming && (kind != ENTRY_TURNAROUND || bar->fill) &&
           !picked_is_own(view, bar, kind);
}

const Entry* picked_own(const View* const view, const EntryKind kind)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Groove* const groove = groove_of(view, bar);
    const uint32_t id = groove ? own_id(groove, bar, kind) : 0;
    return id ? view_entry(view, kind, (int32_t)id) : NULL;
}

bool picked_here(const View* const view, const EntryKind kind)
{
    return is_other(view, view_bar(view, view_shown(view)), kind);
}

/* The fill was taken away: it is asked for, the groove has one, and no bar plays one. */
static bool is_without_fill(const View* const view)
{
    const Groove* groove = NULL;
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        if (!bar || bar->fill) {
            return false;
        }
        groove = bar->is_coming ? groove : groove_of(view, bar);
    }
    return groove && groove->turnaround && view->values[CONTROL_TURNAROUND] < -0.5f;
}

bool picked_in_phrase(const View* const view, const EntryKind kind)
{
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        if (is_other(view, view_bar(view, view_phrase(view) + i), kind)) {
            return true;
        }
    }
    return kind == ENTRY_TURNAROUND && is_without_fill(view);
}

void picked_words(const View* const view, char text[PICKED_ROOM])
{
    static const char* const words[FIGURE_KINDS] = {
        [FIGURE_HANDS] = "hands", [FIGURE_FEET] = "feet", [FIGURE_TURNAROUND] = "fill"};
    size_t length = 0;
    *text = '\0';
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (picked_in_phrase(view, (EntryKind)kind)) {
            snprintf(text + length, PICKED_ROOM - length, "%s%s", length ? ", " : "", words[kind]);
            length = strlen(text);
        }
    }
    if (length) {
        snprintf(text + length, PICKED_ROOM - length, " changed");
    }
}

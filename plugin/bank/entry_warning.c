// SPDX-License-Identifier: ISC
/* What is beyond a person's limits in an entry: the second half of entry_facts.h. */
#include "../engine/writing/play_entry.h"
#include "entry_facts.h"

#include <stdio.h>

static const double quarters_least = 32.0; /* long enough for every join to be met */

/* "the right foot is too fast"; false if it isn't at fault. */
static bool tell_fault(const Playability* const playability, const PlayStream stream,
                       const double tempo, char warning[ENTRY_WARNING_ROOM])
{
    static const char* const who[PLAY_STREAMS] = {"right hand is", "left hand is", "right foot is",
                                                  "left foot is",  "hands are",    "feet are"};
    const uint32_t faults = playability_faults(playability, stream);
    const PlayDemand* const found = &playability->found[stream];
    char what[64] = "";
    if (faults & PLAY_TORN) {
        snprintf(what, sizeof what, "on two voices at once");
    } else if (faults & PLAY_TOO_FAST) {
        snprintf(what, sizeof what, "too fast, with %.0f strokes in a second", found->rate);
    } else if (faults & PLAY_TOO_CLOSE && found->burst > playability->limits.burst[stream]) {
        snprintf(what, sizeof what, "too fast, with %u strokes in a row", found->burst);
    } else if (faults & PLAY_TOO_CLOSE) {
        snprintf(what, sizeof what, "too fast, with two strokes %.0f ms apart", found->closest_ms);
    } else if (faults & PLAY_TOO_FAR) {
        snprintf(what, sizeof what, "too far off, with %.0f ms for a way of %.0f",
                 found->worst.has_ms, found->worst.needs_ms);
    }
    snprintf(warning, ENTRY_WARNING_ROOM, "at %g the %s %s", tempo, who[stream], what);
    return *what;
}

/* A fill is played once, and what comes next is the groove's. */
static void play(const Bank* const bank, const EntryKind kind, const uint32_t index,
                 const double tempo, const PlayLimits* const limits, Playability* const room)
{
    const Library* const library = bank_library(bank);
    const double quarters = kind == ENTRY_TURNAROUND ? 0.001 : quarters_least;
    if (kind == ENTRY_GROOVE) {
        play_entry_groove(&library->grooves[index], tempo, quarters, limits, room);
    } else {
        play_entry_figure(&library->figures[kind][index], tempo, quarters, limits, room);
    }
}

/* Also where its range makes no sense: then a tempo to look at is missing. */
static bool range_is_wrong(const EntryInfo* const info, const double own,
                           char warning[ENTRY_WARNING_ROOM])
{
    if (info->tempo_low && info->tempo_high && info->tempo_low > info->tempo_high) {
        snprintf(warning, ENTRY_WARNING_ROOM, "its lowest tempo %d is above its highest %d",
                 info->tempo_low, info->tempo_high);
        return true;
    }
    if ((info->tempo_low && own > 0.0 && own < info->tempo_low) ||
        (info->tempo_high && own > info->tempo_high)) {
        snprintf(warning, ENTRY_WARNING_ROOM, "its own tempo %g is outside its range %d-%d", own,
                 info->tempo_low, info->tempo_high);
        return true;
    }
    return false;
}

void entry_warning(const Bank* const bank, const EntryKind kind, const uint32_t index,
                   const PlayLimits* const limits, Playability* const room,
                   char warning[ENTRY_WARNING_ROOM])
{
    const EntryInfo* const info = bank_entry(bank, kind, index);
    const bool is_groove = kind == ENTRY_GROOVE;
    const double own = is_groove ? bank_library(bank)->grooves[index].tempo : 0.0;
    const double tempo = info->tempo_high > 0 ? info->tempo_high : own;
    *warning = '\0';
    if (kind == ENTRY_KIT || range_is_wrong(info, own, warning) || !(tempo > 0.0)) {
        return;
    }
    play(bank, kind, index, tempo, limits, room);
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        if (tell_fault(room, (PlayStream)stream, tempo, warning)) {
            return;
        }
    }
    *warning = '\0';
}

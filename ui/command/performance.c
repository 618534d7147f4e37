// SPDX-License-Identifier: ISC
#include "performance.h"

#include "../../plugin/engine/settings.h"
#include "bundle.h"
#include "commands.h"

#include <stdio.h>
#include <string.h>

static bool set(Host* const host, const char* const symbol, const float value)
{
    char why[HOST_WHY_ROOM];
    if (!host_set(host, symbol, value, why)) {
        fprintf(stderr, "fourlimb: %s\n", why);
        return false;
    }
    return true;
}

/* A control that picks an entry, by the name that was typed, if any was. */
static bool set_entry(const Performance* const performance, const EntryKind kind,
                      const char* const symbol, const char* const asked)
{
    if (!asked) {
        return true;
    }
    const EntryInfo* const entry = bundle_entry(performance->bank, kind, asked);
    return entry && set(performance->host, symbol, (float)entry->id);
}

static bool set_turnaround(const Performance* const performance, const char* const asked)
{
    if (asked && !strcmp(asked, "none")) {
        return set(performance->host, "turnaround", (float)TURNAROUND_NONE);
    }
    return set_entry(performance, ENTRY_TURNAROUND, "turnaround", asked);
}

/* The section's own settings come last: they win. */
static bool set_controls(const Performance* const performance, const Section* const section)
{
    host_set_defaults(performance->host);
    bool good = set_entry(performance, ENTRY_GROOVE, "groove", section->groove) &&
                set_entry(performance, ENTRY_HANDS, "hands", section->hands) &&
                set_entry(performance, ENTRY_FEET, "feet", section->feet) &&
                set_entry(performance, ENTRY_KIT, "kit", section->kit) &&
                set_turnaround(performance, section->turnaround);
    for (int i = 0; good && i < section->setting_count; ++i) {
        good = set(performance->host, section->settings[i].symbol, section->settings[i].value);
    }
    return good;
}

/* The groove that the section's controls have picked, for tempo, meter, phrase
   and the marker's name; as the plugin does, the first for an unknown id. */
static const Groove* picked_groove(const Performance* const performance,
                                   const EntryInfo** const info)
{
    const Library* const library = bank_library(performance->bank);
    const uint32_t id = (uint32_t)host_get(performance->host, "groove");
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        if (library->grooves[i].id == id || i + 1 == library->groove_count) {
            const uint32_t index = library->grooves[i].id == id ? i : 0;
            *info = bank_entry(performance->bank, ENTRY_GROOVE, index);
            return &library->grooves[index];
        }
    }
    fprintf(stderr, "fourlimb: the bank holds no groove\n");
    return NULL;
}

bool performance_open(Performance* const performance, const char* const bundle)
{
    char folder[BUNDLE_PATH_ROOM];
    char why[HOST_WHY_ROOM];
    *performance = (Performance){.bank = NULL};
    if (!bundle_find(bundle, folder)) {
        return false;
    }
    performance->bank = bundle_bank(folder);
    performance->host = performance->bank ? host_open(folder, SONG_RATE, why) : NULL;
    if (performance->bank && !performance->host) {
        fprintf(stderr, "fourlimb: %s\n", why);
    }
    return performance->host;
}

void performance_close(Performance* const performance)
{
    song_free(&performance->song);
    host_close(performance->host);
    bank_free(performance->bank);
}

void performance_begin(Performance* const performance, const char* const title)
{
    song_free(&performance->song);
    song_begin(&performance->song, title);
}

int performance_play(Performance* const performance, const Section* const section,
                     SongSection* const told)
{
    const EntryInfo* info = NULL;
    if (!set_controls(performance, section)) {
        return ASKED_WRONGLY;
    }
    const Groove* const groove = picked_groove(performance, &info);
    if (!groove) {
        return FAILED;
    }
    const int phrase = (int)host_get(performance->host, "phrase_bars");
    *told = (SongSection){
        .label = info->label,
        .bars = section->bars,
        .phrase_bars = phrase > 0 ? phrase : (int)groove->form_bars,
        .tempo = section->tempo > 0.0 ? section->tempo : groove->tempo,
        .beats = section->beats ? section->beats : (int)groove->meter.beats_per_bar,
        .beat_unit = section->beats ? section->beat_unit : groove->meter.beat_unit,
    };
    song_play(&performance->song, performance->host, told);
    return DONE;
}

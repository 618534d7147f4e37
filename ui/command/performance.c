// SPDX-License-Identifier: ISC
#include "performance.h"

#include "../../plugin/engine/groove/settings.h"
#include "../file/timeline.h"
#include "bundle.h"
#include "commands.h"

#include <math.h>
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

/* A file has no moment at which it could be pressed. */
static bool is_no_trigger(const char* const symbol)
{
    const bool is = strcmp(symbol, control_rows[CONTROL_FILL_NOW].symbol) != 0;
    if (!is) {
        fprintf(stderr,
                "fourlimb: %s is pressed while it plays; here fill_every, fill_beats and "
                "--turnaround say where fills are\n",
                symbol);
    }
    return is;
}

static bool set_all(const Performance* const performance, const ControlSetting* const settings,
                    const int count)
{
    bool good = true;
    for (int i = 0; good && i < count; ++i) {
        good = is_no_trigger(settings[i].symbol) &&
               set(performance->host, settings[i].symbol, settings[i].value);
    }
    return good;
}

bool performance_set(const Performance* const performance, const Section* const section)
{
    host_set_defaults(performance->host);
    bool good = set_all(performance, section->preset_values, section->preset_count) &&
                set_entry(performance, ENTRY_GROOVE, "groove", section->groove) &&
                set_entry(performance, ENTRY_HANDS, "hands", section->hands) &&
                set_entry(performance, ENTRY_FEET, "feet", section->feet) &&
                set_entry(performance, ENTRY_KIT, "kit", section->kit) &&
                set_turnaround(performance, section->turnaround);
    return good && set_all(performance, section->settings, section->setting_count);
}

/* The groove that the section's controls have picked, for tempo, meter, phrase
   and the marker's name; as the plugin does, the first for an unknown id. */
static const Groove* picked_groove(const Performance* const performance,
                                   const EntryInfo** const info)
{
    const Library* const library = bank_library(performance->bank);
    const uint32_t id =
        library_id(library, ENTRY_GROOVE, (uint32_t)host_get(performance->host, "groove"));
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
    performance->host = performance->bank ? host_open(folder, TIMELINE_RATE, why) : NULL;
    if (performance->bank && !performance->host) {
        fprintf(stderr, "fourlimb: %s\n", why);
    }
    return performance->host;
}

void performance_close(Performance* const performance)
{
    reel_free(&performance->song);
    host_close(performance->host);
    bank_free(performance->bank);
}

void performance_begin(Performance* const performance, const char* const title)
{
    reel_free(&performance->song);
    reel_begin(&performance->song, performance->host, title);
}

static bool has_own_clock(const Performance* const performance)
{
    return host_get(performance->host, "clock") > 0.5f;
}

/* As asked; else the own clock's; else the preset's, or the groove's. */
static double first_tempo(const Performance* const performance, const Section* const section,
                          const Groove* const groove)
{
    if (section->tempo > 0.0) {
        return section->tempo;
    }
    return has_own_clock(performance) ? (double)host_get(performance->host, "tempo")
                                      : request_preset_value(section, "tempo", groove->tempo);
}

/* As a host would have to, rung after rung of the ladder on the own clock. */
static int add_rungs(Performance* const performance, Rendition* const played)
{
    const bool climbs = has_own_clock(performance);
    const double step = climbs ? (double)host_get(performance->host, "ladder_step") : 0.0;
    const double top = (double)host_get(performance->host, "ladder_top");
    ReelSection rung = played->first;
    const int rung_bars = step > 0.0
                              ? (int)host_get(performance->host, "ladder_every") * rung.phrase_bars
                              : rung.bars;
    if (!set(performance->host, "clock", 0.0f)) {
        return FAILED;
    }
    for (int left = played->first.bars; left > 0; left -= rung.bars) {
        rung.bars = left < rung_bars ? left : rung_bars;
        reel_add(&performance->song, &rung);
        played->last_tempo = rung.tempo;
        rung.first_bar += rung.bars;
        rung.count_in = 0;
        rung.goes_on = true;
        rung.tempo = fmax(rung.tempo, fmin(top, rung.tempo + step));
    }
    return DONE;
}

int performance_play(Performance* const performance, const Section* const section,
                     Rendition* const played)
{
    const EntryInfo* info = NULL;
    if (!performance_set(performance, section)) {
        return ASKED_WRONGLY;
    }
    const Groove* const groove = picked_groove(performance, &info);
    if (!groove) {
        return FAILED;
    }
    const int phrase = (int)host_get(performance->host, "phrase_bars");
    const Kit* const kit =
        library_kit(bank_library(performance->bank), (uint32_t)host_get(performance->host, "kit"));
    played->first = (ReelSection){
        .label = info->label,
        .bars = section->bars ? section->bars : PERFORMANCE_BARS,
        .count_in = (int)host_get(performance->host, "count_in"),
        .clicks = {kit ? kit->notes[VOICE_CLICK] : -1, kit ? kit->notes[VOICE_CLICK_ACCENT] : -1},
        .phrase_bars = phrase > 0 ? phrase : (int)groove->form_bars,
        .tempo = first_tempo(performance, section, groove),
        .beats = section->beats ? section->beats : (int)groove->meter.beats_per_bar,
        .beat_unit = section->beats ? section->beat_unit : groove->meter.beat_unit,
    };
    return add_rungs(performance, played);
}

// SPDX-License-Identifier: ISC
#include "../../plugin/bank/save.h"
#include "../../plugin/engine/settings.h"
#include "bundle.h"
#include "commands.h"
#include "song.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Everything that one rendering needs. */
typedef struct {
    Bank* bank;
    Host* host;
    Song song;
    SmfBytes file;
} Rendering;

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
static bool set_entry(const Rendering* const rendering, const EntryKind kind,
                      const char* const symbol, const char* const asked)
{
    if (!asked) {
        return true;
    }
    const EntryInfo* const entry = bundle_entry(rendering->bank, kind, asked);
    return entry && set(rendering->host, symbol, (float)entry->id);
}

static bool set_turnaround(const Rendering* const rendering, const char* const asked)
{
    if (asked && !strcmp(asked, "none")) {
        return set(rendering->host, "turnaround", (float)TURNAROUND_NONE);
    }
    return set_entry(rendering, ENTRY_TURNAROUND, "turnaround", asked);
}

/* The section's own settings come last: they win. */
static bool set_controls(const Rendering* const rendering, const Section* const section)
{
    host_set_defaults(rendering->host);
    bool good = set_entry(rendering, ENTRY_GROOVE, "groove", section->groove) &&
                set_entry(rendering, ENTRY_HANDS, "hands", section->hands) &&
                set_entry(rendering, ENTRY_FEET, "feet", section->feet) &&
                set_entry(rendering, ENTRY_KIT, "kit", section->kit) &&
                set_turnaround(rendering, section->turnaround);
    for (int i = 0; good && i < section->setting_count; ++i) {
        good = set(rendering->host, section->settings[i].symbol, section->settings[i].value);
    }
    return good;
}

/* The groove that the section's controls have picked, for tempo, meter, phrase
   and the marker's name; as the plugin does, the first for an unknown id. */
static const Groove* picked_groove(const Rendering* const rendering, const EntryInfo** const info)
{
    const Library* const library = bank_library(rendering->bank);
    const uint32_t id = (uint32_t)host_get(rendering->host, "groove");
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        if (library->grooves[i].id == id || i + 1 == library->groove_count) {
            const uint32_t index = library->grooves[i].id == id ? i : 0;
            *info = bank_entry(rendering->bank, ENTRY_GROOVE, index);
            return &library->grooves[index];
        }
    }
    fprintf(stderr, "fourlimb: the bank holds no groove\n");
    return NULL;
}

static int play_section(Rendering* const rendering, const Section* const section)
{
    const EntryInfo* info = NULL;
    if (!set_controls(rendering, section)) {
        return ASKED_WRONGLY;
    }
    const Groove* const groove = picked_groove(rendering, &info);
    if (!groove) {
        return FAILED;
    }
    const int phrase = (int)host_get(rendering->host, "phrase_bars");
    const SongSection whole = {
        .label = info->label,
        .bars = section->bars,
        .phrase_bars = phrase > 0 ? phrase : (int)groove->form_bars,
        .tempo = section->tempo > 0.0 ? section->tempo : groove->tempo,
        .beats = section->beats ? section->beats : (int)groove->meter.beats_per_bar,
        .beat_unit = section->beats ? section->beat_unit : groove->meter.beat_unit,
    };
    song_play(&rendering->song, rendering->host, &whole);
    printf("  %-28s %3d bars of %d/%d at %g\n", whole.label, whole.bars, whole.beats,
           whole.beat_unit, whole.tempo);
    return DONE;
}

static bool open_all(Rendering* const rendering, const Request* const request)
{
    char bundle[BUNDLE_PATH_ROOM];
    char why[HOST_WHY_ROOM];
    if (!bundle_find(request->bundle, bundle)) {
        return false;
    }
    rendering->bank = bundle_bank(bundle);
    rendering->host = rendering->bank ? host_open(bundle, SONG_RATE, why) : NULL;
    if (rendering->bank && !rendering->host) {
        fprintf(stderr, "fourlimb: %s\n", why);
    }
    return rendering->host;
}

static int play_all(Rendering* const rendering, const Request* const request)
{
    song_begin(&rendering->song, request->title ? request->title : "Fourlimb");
    for (int i = 0; i < request->section_count; ++i) {
        const int status = play_section(rendering, &request->sections[i]);
        if (status != DONE) {
            return status;
        }
    }
    if (!song_end(&rendering->song, &rendering->file)) {
        fprintf(stderr, "fourlimb: there is no memory for the file\n");
        return FAILED;
    }
    return DONE;
}

static bool save(const Rendering* const rendering, const Request* const request)
{
    char why[SAVE_WHY_ROOM];
    if (!save_file(request->out, rendering->file.bytes, rendering->file.size, request->force,
                   why)) {
        fprintf(stderr, "fourlimb: %s\n", why);
        return false;
    }
    printf("wrote %s: %u strokes in %d phrase%s\n", request->out, rendering->song.strokes,
           rendering->song.phrases, rendering->song.phrases == 1 ? "" : "s");
    return true;
}

int command_render(const Request* const request)
{
    if (!request->out || request->kind) {
        fprintf(stderr, "fourlimb: render needs --out FILE.mid; `fourlimb --help` has examples\n");
        return ASKED_WRONGLY;
    }
    Request whole = *request;
    if (!whole.section_count) {
        whole.sections[whole.section_count++] = (Section){.bars = 8};
    }
    Rendering rendering = {.bank = NULL};
    int status = open_all(&rendering, &whole) ? play_all(&rendering, &whole) : FAILED;
    if (status == DONE && !save(&rendering, &whole)) {
        status = FAILED;
    }
    song_free(&rendering.song);
    smf_free(&rendering.file);
    host_close(rendering.host);
    bank_free(rendering.bank);
    return status;
}

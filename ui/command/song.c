// SPDX-License-Identifier: ISC
#include "../../plugin/bank/songs.h"
#include "bundle.h"
#include "commands.h"
#include "outfile.h"
#include "performance.h"
#include "song_new.h"
#include "song_say.h"
#include "songfile.h"

#include <stdio.h>
#include <stdlib.h>

/* ---- A new plan */

static bool write_new(const Request* const request, const Bytes* const text)
{
    char why[SAVE_WHY_ROOM];
    if (!request->out) {
        return fwrite(text->bytes, 1, text->size, stdout) == text->size;
    }
    if (!outfile_save(request->out, text->bytes, text->size, request->force, why)) {
        fprintf(stderr, "fourlimb: %s\n", why);
        return false;
    }
    printf("wrote %s\n", request->out);
    return true;
}

/* The groove that it names until somebody chooses others: as asked, or the bank's first. */
static const EntryInfo* first_groove(const Bank* const bank, const Request* const request)
{
    const char* const asked = request_first(request)->groove;
    return asked                            ? bundle_entry(bank, ENTRY_GROOVE, asked)
           : bank_count(bank, ENTRY_GROOVE) ? bank_entry(bank, ENTRY_GROOVE, 0)
                                            : NULL;
}

static int begin_new(const Request* const request, const Bank* const bank)
{
    char why[SONG_NEW_WHY_ROOM] = "";
    Bytes text = {.bytes = NULL};
    const EntryInfo* const groove = first_groove(bank, request);
    if (!groove) {
        return ASKED_WRONGLY;
    }
    if (!song_new_text(request->plan_title, request->plan_sections, bank, groove->id, &text, why)) {
        fprintf(stderr, "fourlimb: --sections %s\n", why);
        return ASKED_WRONGLY;
    }
    const bool good = !text.failed && write_new(request, &text);
    bytes_free(&text);
    return good ? DONE : FAILED;
}

/* ---- A plan into a file */

static SongPlayed played_of(const Performance* const performance, const SongMap* const map)
{
    const Library* const library = bank_library(performance->bank);
    const Kit* const kit = library_kit(library, (uint32_t)host_get(performance->host, "kit"));
    SongPlayed played = {
        .map = map,
        .library = library,
        .clicks = {kit ? kit->notes[VOICE_CLICK] : -1, kit ? kit->notes[VOICE_CLICK_ACCENT] : -1},
        .count_in = (int)host_get(performance->host, "count_in")};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        played.controls[i] = host_get(performance->host, control_rows[i].symbol);
    }
    return played;
}

static int play(Performance* const performance, const Request* const request,
                const SongMap* const map)
{
    if (!performance_set(performance, request_first(request))) {
        return ASKED_WRONGLY;
    }
    performance_begin(performance, map->song->title);
    const SongPlayed played = played_of(performance, map);
    song_parts_add(&played, &performance->song);
    song_say_unheard(&played);
    return songfile_write(&performance->song, request->out, request->force, &request->wav, NULL)
               ? DONE
               : FAILED;
}

static int play_plan(const Request* const request, const SongMap* const map)
{
    Performance performance;
    const int status =
        performance_open(&performance, request->bundle) ? play(&performance, request, map) : FAILED;
    performance_close(&performance);
    return status;
}

/* ---- A plan */

static int take_plan(const Request* const request, const Bank* const bank, const Song* const song)
{
    SongMap* const map = malloc(sizeof *map);
    if (!map) {
        fprintf(stderr, "fourlimb: there is no memory for the song\n");
        return FAILED;
    }
    song_map_make(map, song, bank_library(bank));
    song_say_road(map, bank_library(bank));
    const int status = request->out ? play_plan(request, map) : DONE;
    free(map);
    return status;
}

/* The one song of a file; NULL, with messages, if it isn't right. */
static const Song* only_song(const Songs* const songs, const char* const path)
{
    for (size_t i = 0; i < songs->diagnostics.count; ++i) {
        fprintf(stderr, "fourlimb: %s\n", songs->diagnostics.texts[i]);
    }
    if (songs->failed) {
        fprintf(stderr, "fourlimb: there is no memory for the song\n");
    } else if (!songs->diagnostics.count && songs->met != 1) {
        fprintf(stderr, "fourlimb: %s: expected one fl:Song, but there %s\n", path,
                songs->met ? "are several" : "is none");
    }
    return songs->count == 1 && songs->met == 1 && !songs->diagnostics.count ? songs->songs : NULL;
}

static int read_plan(const Request* const request, const Bank* const bank)
{
    Songs songs;
    songs_read(&songs, bank, request->operand);
    const Song* const song = only_song(&songs, request->operand);
    const int status = song ? take_plan(request, bank, song) : FAILED;
    songs_free(&songs);
    return status;
}

/* What was asked for makes sense as a whole. */
static bool is_sensible(const Request* const request)
{
    const char* why = NULL;
    const bool is_new = request->plan_title || request->plan_sections;
    if (is_new && (!request->plan_title || !request->plan_sections || request->operand)) {
        why = "a new plan needs --new TITLE and --sections \"intro 4, verse 8\", and no file";
    } else if (!is_new && !request->operand) {
        why = "song needs a plan: fourlimb song PLAN.ttl; --new writes one to begin from";
    } else if (!is_new && request_first(request)->groove) {
        why = "--groove is for --new; what a song plays is in its plan";
    } else if (!is_new && request->out && songfile_kind(request->out) == SONGFILE_NONE) {
        why = "--out: expected a name that ends in .mid or .wav";
    }
    if (why) {
        fprintf(stderr, "fourlimb: %s\n", why);
    }
    return !why;
}

int command_song(const Request* const request)
{
    char folder[BUNDLE_PATH_ROOM];
    if (!is_sensible(request)) {
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, folder)) {
        return FAILED;
    }
    Bank* const bank = bundle_bank(folder);
    const int status = !bank                 ? FAILED
                       : request->plan_title ? begin_new(request, bank)
                                             : read_plan(request, bank);
    bank_free(bank);
    return status;
}

// SPDX-License-Identifier: ISC
/* fuzz_song.c - whatever a text has that is to be a song's plan: a song that is read is within its
   bounds and has no fault, each of its places has a tempo, a level and a meter that make sense, and
   what is told is UTF-8, and what is
   written of the song is read as the same song. */
#include "../../plugin/bank/songs.h"
#include "../../plugin/bank/write_song.h"
#include "../../plugin/engine/song/song_beats.h"
#include "../../plugin/engine/song/song_check.h"
#include "../../plugin/engine/song/song_road.h"
#include "../../plugin/engine/song/song_settings.h"
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

static const char grooves[] =
    "@prefix fl: <urn:fourlimb:terms#> .\n"
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
    "@prefix : <urn:test:> .\n"
    ":hat a fl:HandsFigure ; fl:id 1000 ; rdfs:label \"Hat\" ;\n"
    "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 2 ; fl:steps \"Oo\" ] .\n"
    ":turn a fl:Turnaround ; fl:id 1000 ; rdfs:label \"Turn\" ;\n"
    "\tfl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"oooo\" ] .\n"
    ":straight a fl:Groove ; fl:id 1000 ; rdfs:label \"Straight\" ; fl:beatsPerBar 4 ;\n"
    "\tfl:beatUnit 4 ; fl:tempo 120 ; fl:form \"A\" ; fl:turnaround :turn ;\n"
    "\tfl:part [ fl:letter \"A\" ; fl:hands :hat ] .\n"
    ":odd a fl:Groove ; fl:id 1001 ; rdfs:label \"Odd\" ; fl:beatsPerBar 7 ; fl:beatUnit 8 ;\n"
    "\tfl:tempo 160 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands :hat ] .\n";

static Bank* bank;
static SongMap map; /* too large for a stack */

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    bank = bank_open_session((BankSources){"/nowhere/at/all", NULL, NULL}, grooves);
    FUZZ_WANT(bank && bank_count(bank, ENTRY_GROOVE) == 2);
    return 0;
}

static void check_place(const int64_t tick)
{
    float values[CONTROL_COUNT];
    StrokeList list = {.count = 0};
    int64_t until = 0;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    song_settings_controls(&map, tick, values);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        FUZZ_WANT(values[i] >= control_rows[i].least && values[i] <= control_rows[i].most);
    }
    const double tempo = song_time_tempo(&map, tick);
    const double level = song_time_level(&map, tick);
    const SongStep step = song_time_step(&map, tick);
    FUZZ_WANT(tempo >= 4.0 && tempo <= 401.0 && level >= 1.0 && level <= 127.0);
    FUZZ_WANT(step.begin <= tick && step.end > tick && step.tempo >= 4.0 && step.tempo <= 401.0);
    song_beats_silent(&map, tick, &until);
    FUZZ_WANT(until > tick && until <= map.ticks);
    song_beats_put(&map, tick, tick + TICKS_PER_QUARTER / 4, &list);
    for (uint32_t i = 0; i < list.count; ++i) {
        FUZZ_WANT(list.strokes[i].limb < LIMB_COUNT && list.strokes[i].voice <= VOICE_CHOKE);
    }
}

static void check_row(const Song* const song, const uint32_t index)
{
    uint32_t which = 0;
    const SongRow* const row = &map.rows[index];
    FUZZ_WANT(song_check(&map, index, bank_library(bank), &which) == SONG_RIGHT);
    FUZZ_WANT(row->pass_bars >= 1 && row->pass_ticks >= 1 && row->meter_count >= 1);
    FUZZ_WANT(fuzz_is_utf8(song->sections[index].name) && *song->sections[index].name);
    FUZZ_WANT(song_road(&map, index).number <= song->section_count);
    const int64_t ticks = row->pass_ticks * song->sections[index].times;
    for (int i = 0; i < 16; ++i) {
        check_place(row->tick + ticks * i / 16);
    }
    check_place(row->tick + ticks - 1);
}

static void check_song(const Song* const song)
{
    FUZZ_WANT(fuzz_is_utf8(song->title) && *song->title);
    FUZZ_WANT(song->section_count >= 1 && song->section_count <= SONG_SECTIONS_MAX);
    song_map_make(&map, song, bank_library(bank));
    FUZZ_WANT(map.bars >= 1 && map.bars <= SONG_LONGEST);
    for (uint32_t i = 0; i < map.count; ++i) {
        check_row(song, i);
    }
}

/* Written again it is the same text: all that is written was read. */
static void check_written(const Song* const song)
{
    Songs again;
    char* const text = write_song(song, bank);
    FUZZ_WANT(text);
    songs_text(&again, bank, "/again", text, strlen(text));
    fuzz_want(again.count == 1 && !again.diagnostics.count,
              again.diagnostics.count ? again.diagnostics.texts[0] : "one song", __FILE__,
              __LINE__);
    char* const other = write_song(again.songs, bank);
    FUZZ_WANT(other && !strcmp(text, other));
    songs_free(&again);
    free(other);
    free(text);
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    Songs songs;
    songs_text(&songs, bank, "/text", (const char*)bytes, size);
    FUZZ_WANT(songs.count <= songs.met && !songs.failed);
    for (uint32_t i = 0; i < songs.count; ++i) {
        check_song(&songs.songs[i]);
        check_written(&songs.songs[i]);
    }
    FUZZ_WANT(songs.count == songs.met || songs.diagnostics.count);
    for (size_t i = 0; i < songs.diagnostics.count; ++i) {
        FUZZ_WANT(fuzz_is_utf8(songs.diagnostics.texts[i]));
    }
    songs_free(&songs);
    return 0;
}

// SPDX-License-Identifier: ISC
#include "song_new.h"

#include "../../plugin/bank/song_words.h"
#include "../../plugin/bank/write_song.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ITEM_ROOM = 128 };

static const char head[] =
    "# What the drums play in a song.  `fourlimb song THIS.ttl` says what is where,\n"
    "# `fourlimb song THIS.ttl --out song.mid` plays it.\n";

static const char tail[] =
    "\n# What a section may say besides, each before the full stop and ended by ;\n"
    "#\tfl:hands \"..\" ; fl:feet \"..\"   other figures than its groove's\n"
    "#\tfl:tempo 140 ; fl:tempoTo 152   from tempo to tempo\n"
    "#\tfl:ritardando 6 ; fl:ritardandoTo 80   its last beats slow down\n"
    "#\tfl:level 64 ; fl:levelTo 92   a crescendo, as MIDI velocity\n"
    "#\tfl:meter \"7/8 7/8 7/8 8/8\"   bar by bar\n"
    "#\tfl:crashStart true   a crash on its first beat\n"
    "#\tfl:ending \"fill 2\"   or \"stop 2\", \"choke 2\", \"hit 2\", \"let ring 2\"\n"
    "#\tfl:hits \"8:1 8:2&\" ; fl:stops \"8:1-\"   as bar:beat\n"
    "#\tfl:rests true   no drums at all\n"
    "# and fl:beats 2 in place of fl:bars for a pickup.\n";

static bool is_number(const char* const word, const long most, uint32_t* const number)
{
    char* end = NULL;
    const long value = *word >= '0' && *word <= '9' ? strtol(word, &end, 10) : 0;
    *number = (uint32_t)value;
    return end && !*end && value >= 1 && value <= most;
}

/* A further word of the name. */
static bool take_name(SongSection* const section, const char* const word)
{
    const size_t length = strlen(section->name);
    const int more = snprintf(section->name + length, sizeof section->name - length, "%s%s",
                              length ? " " : "", word);
    return length + (size_t)more < sizeof section->name;
}

/* What stands behind the bars. */
static bool take_more(SongSection* const section, const char* const word)
{
    char why[SONG_WORDS_ROOM];
    return *word == 'x' ? is_number(word + 1, SONG_TIMES_MAX, &section->times)
                        : song_words_meters(word, section, why);
}

/* "verse one 8 7/8 x2": the first number behind a word of the name is its bars. */
static bool take_section(char* const item, SongSection* const section)
{
    char* save = NULL;
    bool good = true;
    *section = song_section();
    section->bars = 0;
    for (char* word = strtok_r(item, " \t\n", &save); good && word;
         word = strtok_r(NULL, " \t\n", &save)) {
        uint32_t bars = 0;
        if (section->bars) {
            good = take_more(section, word);
        } else if (*section->name && is_number(word, SONG_BARS_MAX, &bars)) {
            section->bars = bars;
        } else {
            good = take_name(section, word);
        }
    }
    return good && *section->name && section->bars;
}

static bool refuse(char why[SONG_NEW_WHY_ROOM], const char* const item)
{
    snprintf(why, SONG_NEW_WHY_ROOM,
             "\"%.100s\": expected a name and its bars, such as \"verse 8\", \"turn 1 2/4\" or "
             "\"chorus 8 x2\"",
             item);
    return false;
}

static bool take_sections(const char* const typed, const uint32_t groove, Song* const song,
                          char why[SONG_NEW_WHY_ROOM])
{
    const char* at = typed;
    for (;;) {
        char item[ITEM_ROOM];
        char told[ITEM_ROOM];
        const size_t length = strcspn(at, ",");
        snprintf(item, sizeof item, "%.*s", (int)(length < ITEM_ROOM ? length : ITEM_ROOM - 1), at);
        snprintf(told, sizeof told, "%s", item + strspn(item, " "));
        SongSection* const section = &song->sections[song->section_count];
        if (song->section_count == SONG_SECTIONS_MAX || !take_section(item, section)) {
            return refuse(why, told);
        }
        song_put(section, CONTROL_GROOVE, (float)groove);
        ++song->section_count;
        if (!at[length]) {
            return true;
        }
        at += length + 1;
    }
}

static bool put(Bytes* const text, const Song* const song, const Bank* const bank)
{
    char* const plan = write_song(song, bank);
    const bool good = plan;
    if (good) {
        bytes_append(text, head, strlen(head));
        bytes_append(text, plan, strlen(plan));
        bytes_append(text, tail, strlen(tail));
    }
    free(plan);
    return good;
}

bool song_new_text(const char* const title, const char* const sections, const Bank* const bank,
                   const uint32_t groove, Bytes* const text, char why[SONG_NEW_WHY_ROOM])
{
    Song* const song = calloc(1, sizeof *song);
    bool good = false;
    if (!song) {
        snprintf(why, SONG_NEW_WHY_ROOM, "there is no memory for it");
    } else if (strlen(title) >= sizeof song->title) {
        snprintf(why, SONG_NEW_WHY_ROOM, "the title is longer than %d bytes", SONG_NAME_ROOM - 1);
    } else {
        snprintf(song->title, sizeof song->title, "%s", title);
        song->take = 1;
        good = take_sections(sections, groove, song, why) && put(text, song, bank);
    }
    free(song);
    return good;
}

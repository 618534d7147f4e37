// SPDX-License-Identifier: ISC
#include "compiled.h"
#include "entry_asked.h"
#include "names.h"
#include "read_song.h"
#include "song_words.h"
#include "utf8.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char* const section_terms[] = {
    "bars",       "beats",      "times",        "rests",    "groove",  "hands",
    "feet",       "rideOn",     "turnaround",   "controls", "meter",   "tempo",
    "tempoTo",    "ritardando", "ritardandoTo", "level",    "levelTo", "take",
    "crashStart", "ending",     "fill",         "hits",     "stops"};

/* ---- Words that aren't */

static void refuse_word(Subject* const subject, const char* const word,
                        const char* const* const terms, const int count, const char* const what)
{
    char all[400] = "";
    size_t length = 0;
    for (int i = 0; i < count && length < sizeof all; ++i) {
        length +=
            (size_t)snprintf(all + length, sizeof all - length, "%sfl:%s", i ? ", " : "", terms[i]);
    }
    field_wrong(subject, word, "is no word for %s; expected one of %s", what, all);
}

static int times_stated(const Subject* const subject, const SordNode* const property)
{
    int times = 0;
    SordIter* const found = turtle_find(subject->turtle, subject->subject, property, NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        ++times;
    }
    sord_iter_free(found);
    return times;
}

void read_section_words(Subject* const subject, const char* const* const terms, const int count,
                        const char* const what)
{
    const size_t prefix = strlen(FL_TERMS);
    SordIter* const found = turtle_find(subject->turtle, subject->subject, NULL, NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const property = sord_iter_get_node(found, SORD_PREDICATE);
        const char* const uri = (const char*)sord_node_get_string(property);
        if (!strncmp(uri, FL_TERMS, prefix) && name_index(terms, count, uri + prefix) < 0) {
            refuse_word(subject, uri + prefix, terms, count, what);
        }
    }
    sord_iter_free(found);
    for (int i = 0; i < count; ++i) {
        if (times_stated(subject, field_property(subject, terms[i])) > 1) {
            field_wrong(subject, terms[i], "is stated twice; one of them has to go");
        }
    }
}

void read_section_name(Subject* const subject, char name[SONG_NAME_ROOM])
{
    const char* const label = field_optional_text(subject, RDFS_NS "label");
    if (!label || !*label) {
        field_wrong(subject, NULL, "rdfs:label: is missing; expected a name in quotes");
    } else if (strlen(label) >= SONG_NAME_ROOM) {
        field_wrong(subject, NULL, "rdfs:label: is longer than %d bytes", SONG_NAME_ROOM - 1);
    } else {
        snprintf(name, SONG_NAME_ROOM, "%s", label);
        utf8_repair(name);
    }
}

/* ---- What it picks */

/* The id of what has this URI, though it left; 0 if nothing has. */
static uint32_t id_of_uri(const Bank* const bank, const EntryKind kind, const char* const uri)
{
    const Entries* const entries = bank_entries(bank, kind);
    for (uint32_t i = 0; i < entries->count; ++i) {
        if (!strcmp(entries->infos[i].uri, uri)) {
            return entries->infos[i].id;
        }
    }
    for (uint32_t i = 0; i < entries->left.count; ++i) {
        const Named* const left = &entries->left_by_uri[i];
        if (!strcmp(left->uri, uri)) {
            return entries->left.rows[left->index].id;
        }
    }
    return 0;
}

/* The id of what a property names, by URI, label or id; 0 if it isn't stated or, with a
   complaint, if nobody is called so. */
static uint32_t read_pick(Subject* const subject, const Bank* const bank, const char* const term,
                          const EntryKind kind)
{
    const SordNode* const node = field_node(subject, term, false);
    if (!node) {
        return 0;
    }
    const char* const asked = (const char*)sord_node_get_string(node);
    const bool is_text = sord_node_get_type(node) == SORD_LITERAL;
    const EntryInfo* const entry = is_text ? entry_asked(bank, kind, asked) : NULL;
    const uint32_t id = is_text ? (entry ? entry->id : 0) : id_of_uri(bank, kind, asked);
    if (!id) {
        char near[256];
        entry_asked_near(bank, kind, asked, near, sizeof near);
        field_wrong(subject, term, "there is no %s called \"%.100s\"%s; `fourlimb list` names all",
                    kind_rows[kind].word, is_text ? asked : turtle_name(subject->turtle, node),
                    is_text ? near : "");
    }
    return id;
}

static void put_pick(Subject* const subject, const Bank* const bank, const char* const term,
                     const EntryKind kind, SongSection* const section)
{
    const uint32_t id = read_pick(subject, bank, term, kind);
    if (id) {
        song_put(section, kind_controls[kind], (float)id);
    }
}

static void read_turnaround(Subject* const subject, const Bank* const bank,
                            SongSection* const section)
{
    const SordNode* const node = field_node(subject, "turnaround", false);
    if (node && !strcmp((const char*)sord_node_get_string(node), "none")) {
        song_put(section, CONTROL_TURNAROUND, (float)TURNAROUND_NONE);
    } else {
        put_pick(subject, bank, "turnaround", ENTRY_TURNAROUND, section);
    }
}

static void read_picks(Subject* const subject, const Bank* const bank, SongSection* const section)
{
    section->rests = field_boolean(subject, "rests");
    put_pick(subject, bank, "groove", ENTRY_GROOVE, section);
    put_pick(subject, bank, "hands", ENTRY_HANDS, section);
    put_pick(subject, bank, "feet", ENTRY_FEET, section);
    read_turnaround(subject, bank, section);
    section->fill = read_pick(subject, bank, "fill", ENTRY_TURNAROUND);
    if (!section->rests && !field_node(subject, "groove", false)) {
        field_wrong(subject, "groove",
                    "is missing; expected a groove, or fl:rests true where nothing is played");
    }
}

static void read_ride(Subject* const subject, SongSection* const section)
{
    const RideOn ride_on =
        field_node(subject, "rideOn", false) ? read_ride_on(subject) : RIDE_ON_AS_WRITTEN;
    if (ride_on) {
        song_put(section, CONTROL_RIDE_ON, (float)ride_on);
    }
}

/* ---- What it says in texts */

typedef bool (*SectionWords)(const char* text, SongSection* section, char why[SONG_WORDS_ROOM]);

static void read_words(Subject* const subject, const char* const term, const SectionWords words,
                       SongSection* const section)
{
    char why[SONG_WORDS_ROOM];
    const char* const text = field_node(subject, term, false) ? field_text(subject, term) : NULL;
    if (text && !words(text, section, why)) {
        field_wrong(subject, term, "%s", why);
    }
}

/* ---- Its numbers */

static double number(Subject* const subject, const char* const term, const double least,
                     const double most)
{
    const double read = field_decimal(subject, term, least, most);
    return isnan(read) ? 0.0 : read;
}

static void read_length(Subject* const subject, SongSection* const section)
{
    if (field_node(subject, "beats", false)) {
        section->beats = (uint32_t)field_integer(subject, "beats", 1, 64, 1);
        if (field_node(subject, "bars", false)) {
            field_wrong(subject, "beats", "it has fl:bars, too; a pickup has fl:beats alone");
        }
    } else {
        section->bars = (uint32_t)field_integer(subject, "bars", 1, SONG_BARS_MAX, 0);
    }
    section->times = (uint32_t)field_integer(subject, "times", 1, SONG_TIMES_MAX, 1);
}

static void read_time(Subject* const subject, SongSection* const section)
{
    const ControlRow tempo = control_rows[CONTROL_TEMPO];
    const double least = (double)tempo.least, most = (double)tempo.most;
    section->tempo = number(subject, "tempo", least, most);
    section->tempo_to = number(subject, "tempoTo", least, most);
    section->ritard_beats = (uint32_t)field_integer(subject, "ritardando", 0, SONG_BEATS_MAX, 0);
    section->ritard_to = number(subject, "ritardandoTo", 5.0, most);
    if (!section->ritard_beats && field_node(subject, "ritardandoTo", false)) {
        field_wrong(subject, "ritardandoTo",
                    "has no fl:ritardando beside it; expected how many beats slow down");
    }
}

static void read_level(Subject* const subject, SongSection* const section)
{
    const ControlRow level = control_rows[CONTROL_LEVEL];
    section->level = number(subject, "level", (double)level.least, (double)level.most);
    section->level_to = number(subject, "levelTo", (double)level.least, (double)level.most);
    section->take =
        (uint32_t)field_integer(subject, "take", 0, (int64_t)control_rows[CONTROL_TAKE].most, 0);
    if (field_node(subject, "crashStart", false)) {
        section->crash = field_boolean(subject, "crashStart") ? CRASH_SECTION : CRASH_NEVER;
    }
}

bool read_section(Subject* const subject, const Bank* const bank, SongSection* const section)
{
    *section = song_section();
    read_section_words(subject, section_terms, sizeof section_terms / sizeof *section_terms,
                       "a section");
    read_section_name(subject, section->name);
    read_length(subject, section);
    read_picks(subject, bank, section);
    read_ride(subject, section);
    read_words(subject, "controls", song_words_controls, section);
    read_words(subject, "meter", song_words_meters, section);
    read_time(subject, section);
    read_level(subject, section);
    read_words(subject, "ending", song_words_ending, section);
    read_words(subject, "hits", song_words_hits, section);
    read_words(subject, "stops", song_words_stops, section);
    return !subject->failed;
}

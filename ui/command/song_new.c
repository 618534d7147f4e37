// SPDX-License-Identifier: ISC
#include "song_new.h"

#include "../../plugin/engine/song/song.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WORD_ROOM = 64, LINE_ROOM = 512 };

/* A section as typed. */
typedef struct {
    char name[SONG_NAME_ROOM];
    char local[SONG_NAME_ROOM + 8]; /* behind the colon */
    char meter[WORD_ROOM];          /* "" for the groove's */
    int bars;
    int times;
    int same; /* the index of the first one that is the same; its own */
} NewSection;

typedef struct {
    NewSection sections[SONG_SECTIONS_MAX];
    int count;
} NewSections;

static bool refuse(char why[SONG_NEW_WHY_ROOM], const char* const item)
{
    snprintf(why, SONG_NEW_WHY_ROOM,
             "\"%.100s\": expected a name and its bars, such as \"verse 8\", \"turn 1 2/4\" or "
             "\"chorus 8 x2\"",
             item);
    return false;
}

/* ---- Reading */

static bool is_number(const char* const word, const int least, const int most, int* const number)
{
    char* end = NULL;
    const long value = strtol(word, &end, 10);
    *number = (int)value;
    return isdigit((unsigned char)*word) && !*end && value >= least && value <= most;
}

/* Puts a further word of the name behind the others. */
static bool take_name(NewSection* const section, const char* const word)
{
    const size_t length = strlen(section->name);
    const int more = snprintf(section->name + length, sizeof section->name - length, "%s%s",
                              length ? " " : "", word);
    return length + (size_t)more < sizeof section->name;
}

/* What stands behind the bars: a meter, or how often. */
static bool take_more(NewSection* const section, const char* const word)
{
    if (*word == 'x') {
        return is_number(word + 1, 1, SONG_TIMES_MAX, &section->times);
    }
    int beats = 0;
    int unit = 0;
    char more = '\0';
    snprintf(section->meter, sizeof section->meter, "%s", word);
    return sscanf(word, "%d/%d%c", &beats, &unit, &more) == 2 && beats >= 1 && beats <= 64 &&
           (unit == 2 || unit == 4 || unit == 8 || unit == 16);
}

static bool take_section(char* const item, NewSection* const section)
{
    char* save = NULL;
    bool good = true;
    *section = (NewSection){.times = 1};
    for (char* word = strtok_r(item, " \t\n", &save); good && word;
         word = strtok_r(NULL, " \t\n", &save)) {
        good = section->bars ? take_more(section, word)
               : *section->name && is_number(word, 1, SONG_BARS_MAX, &section->bars)
                   ? true
                   : take_name(section, word);
        section->bars = isdigit((unsigned char)*word) || section->bars ? section->bars : 0;
    }
    return good && *section->name && section->bars > 0;
}

/* A name that Turtle takes behind a colon: small letters, digits and dashes. */
static void make_local(NewSections* const all, NewSection* const section)
{
    size_t length = 0;
    int others = 0;
    for (const char* at = section->name; *at; ++at) {
        const bool letter = isalnum((unsigned char)*at) && (unsigned char)*at < 128;
        if (letter || (length && section->local[length - 1] != '-')) {
            section->local[length++] = letter ? (char)tolower((unsigned char)*at) : '-';
        }
    }
    while (length && section->local[length - 1] == '-') {
        --length;
    }
    section->local[length] = '\0';
    for (int i = 0; i < all->count; ++i) {
        others += all->sections[i].same == i && !strcmp(all->sections[i].name, section->name);
    }
    if (!length || others) {
        snprintf(section->local + length, sizeof section->local - length, "%s%d",
                 length ? "-" : "section-", all->count + 1);
    }
}

static int find_same(const NewSections* const all, const NewSection* const section)
{
    int at = 0;
    while (at < all->count &&
           (strcmp(all->sections[at].name, section->name) != 0 ||
            strcmp(all->sections[at].meter, section->meter) != 0 ||
            all->sections[at].bars != section->bars || all->sections[at].times != section->times)) {
        ++at;
    }
    return at;
}

static bool take_sections(const char* const typed, NewSections* const all,
                          char why[SONG_NEW_WHY_ROOM])
{
    char* const copy = strdup(typed);
    char* save = NULL;
    bool good = copy;
    all->count = 0;
    for (char* item = copy ? strtok_r(copy, ",", &save) : NULL; good && item;
         item = strtok_r(NULL, ",", &save)) {
        char told[LINE_ROOM];
        snprintf(told, sizeof told, "%s", item + strspn(item, " "));
        good = all->count < SONG_SECTIONS_MAX && take_section(item, &all->sections[all->count]);
        if (!good) {
            refuse(why, told);
            break;
        }
        NewSection* const section = &all->sections[all->count];
        section->same = find_same(all, section);
        make_local(all, section);
        ++all->count;
    }
    free(copy);
    return good && (all->count || refuse(why, typed));
}

/* ---- Writing */

__attribute__((format(printf, 2, 3))) static void put(Bytes* const text, const char* const format,
                                                      ...)
{
    char line[LINE_ROOM];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(line, sizeof line, format, arguments);
    va_end(arguments);
    bytes_append(text, line, strlen(line));
}

/* In quotes, as Turtle wants it. */
static void put_quoted(Bytes* const text, const char* const words)
{
    put(text, "\"");
    for (const char* at = words; *at; ++at) {
        if (*at == '"' || *at == '\\') {
            bytes_append(text, "\\", 1);
        }
        bytes_append(text, (unsigned char)*at < ' ' ? " " : at, 1);
    }
    put(text, "\"");
}

static void put_head(Bytes* const text, const char* const title, const NewSections* const all)
{
    put(text, "# What the drums play in a song.  `fourlimb song THIS.ttl` says what is where,\n"
              "# `fourlimb song THIS.ttl --out song.mid` plays it.\n"
              "@prefix : <#> .\n"
              "@prefix fl: <urn:fourlimb:terms#> .\n"
              "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n\n"
              ":song\n\ta fl:Song ;\n\trdfs:label ");
    put_quoted(text, title);
    put(text, " ;\n\tfl:sections (");
    for (int i = 0; i < all->count; ++i) {
        put(text, "%s:%s", i && i % 8 == 0 ? "\n\t\t" : " ",
            all->sections[all->sections[i].same].local);
    }
    put(text, " ) .\n");
}

static void put_section(Bytes* const text, const NewSection* const section,
                        const char* const groove)
{
    put(text, "\n:%s\n\trdfs:label ", section->local);
    put_quoted(text, section->name);
    put(text, " ;\n\tfl:bars %d ;", section->bars);
    if (section->times > 1) {
        put(text, " fl:times %d ;", section->times);
    }
    if (*section->meter) {
        put(text, "\n\tfl:meter \"%s\" ;", section->meter);
    }
    put(text, "\n\tfl:groove ");
    put_quoted(text, groove);
    put(text, " .\n");
}

static void put_help(Bytes* const text)
{
    put(text, "\n# What a section may say besides, each before the full stop and ended by ;\n"
              "#\tfl:hands \"..\" ; fl:feet \"..\"   other figures than its groove's\n"
              "#\tfl:tempo 140 ; fl:tempoTo 152   from tempo to tempo\n"
              "#\tfl:ritardando 6 ; fl:ritardandoTo 80   its last beats slow down\n"
              "#\tfl:level 64 ; fl:levelTo 92   a crescendo, as MIDI velocity\n");
    put(text, "#\tfl:meter \"7/8 7/8 7/8 8/8\"   bar by bar\n"
              "#\tfl:crashStart true   a crash on its first beat\n"
              "#\tfl:ending \"fill 2\"   or \"stop 2\", \"choke 2\", \"hit 2\", \"let ring 2\"\n"
              "#\tfl:hits \"8:1 8:2&\" ; fl:stops \"8:1-\"   as bar:beat\n"
              "#\tfl:rests true   no drums at all\n"
              "# and fl:beats 2 in place of fl:bars for a pickup.\n");
}

bool song_new_text(const char* const title, const char* const sections, const char* const groove,
                   Bytes* const text, char why[SONG_NEW_WHY_ROOM])
{
    NewSections* const all = calloc(1, sizeof *all);
    const bool good = all && take_sections(sections, all, why);
    if (good) {
        put_head(text, title, all);
    }
    for (int i = 0; good && i < all->count; ++i) {
        if (all->sections[i].same == i) {
            put_section(text, &all->sections[i], groove);
        }
    }
    if (good) {
        put_help(text);
    } else if (!all) {
        snprintf(why, SONG_NEW_WHY_ROOM, "there is no memory for it");
    }
    free(all);
    return good;
}

// SPDX-License-Identifier: ISC
#include "read_song.h"

#include "../engine/song/song_check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char* const song_terms[] = {"id", "tempo", "level", "take", "sections"};

/* Where each section is written, and what follows from all of them. */
typedef struct {
    const SordNode* nodes[SONG_SECTIONS_MAX];
    SongMap map;
} Written;

/* ---- The list */

static const SordNode* rdf_object(Turtle* const turtle, const SordNode* const node,
                                  const char* const property)
{
    return turtle_object(turtle, node, turtle_uri(turtle, property));
}

/* The section that is listed next; one that comes again is as it was read. */
static bool take_section(Subject* const section, const Bank* const bank, Song* const song,
                         Written* const written)
{
    const uint32_t count = song->section_count++;
    written->nodes[count] = section->subject;
    for (uint32_t i = 0; i < count; ++i) {
        if (written->nodes[i] == section->subject) {
            song->sections[count] = song->sections[i];
            return true;
        }
    }
    return read_section(section, bank, &song->sections[count]);
}

static void read_sections(Subject* const subject, const Bank* const bank, Song* const song,
                          Written* const written)
{
    Turtle* const turtle = subject->turtle;
    const SordNode* at = field_node(subject, "sections", true);
    while (at) {
        const SordNode* const node = rdf_object(turtle, at, RDF_NS "first");
        if (!node) {
            break;
        }
        if (song->section_count == SONG_SECTIONS_MAX) {
            field_wrong(subject, "sections", "has more than %d sections", SONG_SECTIONS_MAX);
            return;
        }
        Subject section = {turtle, subject->diagnostics, node, false};
        subject->failed |= !take_section(&section, bank, song, written);
        at = rdf_object(turtle, at, RDF_NS "rest");
    }
    if (!song->section_count && !subject->failed) {
        field_wrong(subject, "sections", "expected a list of sections: ( :verse :chorus :verse )");
    }
}

/* ---- What only all of them together tell */

static void say_fault(Subject* const section, const SongFault fault, const uint32_t which)
{
    const unsigned number = which + 1;
    switch (fault) {
    case SONG_RIGHT:
        break;
    case SONG_HIT_OUTSIDE:
        field_wrong(section, "hits", "hit %u is beyond the section's bars or its bar's beats",
                    number);
        break;
    case SONG_HIT_LIMBS:
        field_wrong(section, "hits", "hit %u needs more than two hands and two feet", number);
        break;
    case SONG_STOP_OUTSIDE:
        field_wrong(section, "stops", "stop %u is beyond the section's bars or its bar's beats",
                    number);
        break;
    case SONG_STOP_EMPTY:
        field_wrong(section, "stops", "stop %u ends before it begins", number);
        break;
    case SONG_ENDING_LONG:
        field_wrong(section, "ending", "has more beats than the section");
        break;
    case SONG_RITARD_LONG:
        field_wrong(section, "ritardando", "has more beats than the section");
        break;
    case SONG_NO_FILL:
        field_wrong(section, "ending",
                    "its groove has no turnaround; expected one in fl:fill or fl:turnaround");
        break;
    case SONG_TOO_LONG:
        field_wrong(section, "bars", "the song has more than %d bars by here", SONG_LONGEST);
        break;
    }
}

static void check_sections(Subject* const subject, const Bank* const bank, const Song* const song,
                           Written* const written)
{
    song_map_make(&written->map, song, bank_library(bank));
    for (uint32_t i = 0; i < song->section_count; ++i) {
        uint32_t which = 0;
        const SongFault fault = song_check(&written->map, i, bank_library(bank), &which);
        Subject section = {subject->turtle, subject->diagnostics, written->nodes[i], false};
        say_fault(&section, fault, which);
        subject->failed |= section.failed;
    }
}

/* ---- The song */

static double number(Subject* const subject, const char* const term, const Control control)
{
    const ControlRow row = control_rows[control];
    const double read = field_decimal(subject, term, (double)row.least, (double)row.most);
    return isnan(read) ? 0.0 : read;
}

bool read_song(Subject* const subject, const Bank* const bank, Song* const song)
{
    Written* const written = calloc(1, sizeof *written);
    memset(song, 0, sizeof *song); /* an initializer may be made on the stack first */
    if (!written) {
        turtle_fail(subject->turtle);
        return false;
    }
    read_section_words(subject, song_terms, sizeof song_terms / sizeof *song_terms, "a song");
    read_section_name(subject, song->title);
    song->id = (uint32_t)field_integer(subject, "id", 0, ID_MOST, 0);
    song->tempo = number(subject, "tempo", CONTROL_TEMPO);
    song->level = number(subject, "level", CONTROL_LEVEL);
    song->take =
        (uint32_t)field_integer(subject, "take", 1, (int64_t)control_rows[CONTROL_TAKE].most, 1);
    read_sections(subject, bank, song, written);
    if (!subject->failed) {
        check_sections(subject, bank, song, written);
    }
    free(written);
    return !subject->failed && turtle_is_whole(subject->turtle);
}

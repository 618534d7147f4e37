// SPDX-License-Identifier: ISC
#include "reel.h"

#include "reel_play.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MARKER_ROOM = 256 };

void reel_begin(Reel* const song, Host* const host, const char* const title)
{
    *song = (Reel){.host = host, .counted = "phrase"};
    smf_text(&song->tracks[REEL_CONDUCTOR], 0, SMF_TRACK_NAME, title);
    smf_text(&song->tracks[REEL_DRUMS], 0, SMF_TRACK_NAME, "Drums");
}

/* A list with room for one more; NULL, and the song has failed, if there is no memory. */
static void* grown(Reel* const song, void* const list, const size_t count, size_t* const room,
                   const size_t size)
{
    if (count < *room) {
        return list;
    }
    const size_t more = 2 * *room + 64;
    void* const larger = realloc(list, more * size);
    *room = larger ? more : *room;
    song->failed |= !larger;
    return larger;
}

void reel_add_part(Reel* const song, const ReelPart* const part)
{
    ReelPart* const parts =
        grown(song, song->parts, song->part_count, &song->part_room, sizeof *parts);
    if (!parts) {
        return;
    }
    song->parts = parts;
    parts[song->part_count++] = *part;
    song->part_ticks += part->ticks;
    song->bars += part->bars;
}

void reel_mark(Reel* const song, const int64_t ticks, const char* const text)
{
    ReelMark* const marks =
        grown(song, song->marks, song->mark_count, &song->mark_room, sizeof *marks);
    char* const copy = marks ? strdup(text) : NULL;
    song->failed |= !copy;
    song->marks = marks ? marks : song->marks;
    if (copy) {
        marks[song->mark_count++] = (ReelMark){song->part_ticks + ticks, copy};
    }
}

/* ---- A section of bars */

static int64_t bars_ticks(const ReelSection* const section, const int bars)
{
    return (int64_t)bars * section->beats * 4 * SMF_DIVISION / section->beat_unit;
}

/* What it says from the bar line that comes next on, on the transport's clock whatever it
   was set to. */
static ToldSection told_of(const Reel* const song, const ReelSection* const section)
{
    ToldSection told = {.bar = song->bars,
                        .origin = song->bars + section->count_in,
                        .meter = {section->beats, section->beat_unit},
                        .tempo = section->tempo};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        told.controls[i] = host_get(song->host, control_rows[i].symbol);
    }
    told.controls[CONTROL_CLOCK] = CLOCK_HOST;
    told.controls[CONTROL_ENABLED] = 1.0f;
    return told;
}

static void mark_phrases(Reel* const song, const ReelSection* const section)
{
    if (section->count_in) {
        reel_mark(song, 0, "Count-in");
    }
    for (int bar = 0; bar < section->bars; bar += section->phrase_bars) {
        char text[MARKER_ROOM];
        snprintf(text, sizeof text, "%s, phrase %d", section->label,
                 (section->first_bar + bar) / section->phrase_bars + 1);
        reel_mark(song, bars_ticks(section, section->count_in + bar), text);
        ++song->phrases;
    }
}

void reel_add(Reel* const song, const ReelSection* const section)
{
    mark_phrases(song, section);
    const ReelPart part = {.ticks = bars_ticks(section, section->count_in + section->bars),
                           .bars = section->count_in + section->bars,
                           .clicks = {section->clicks[0], section->clicks[1]},
                           .tempo = section->tempo,
                           .meter = {section->beats, section->beat_unit},
                           .is_told = !section->goes_on,
                           .told = told_of(song, section)};
    reel_add_part(song, &part);
}

/* ---- The end */

bool reel_end(Reel* const song, Bytes* const file)
{
    reel_play(song);
    return smf_file(song->tracks, REEL_TRACKS, file) && !song->failed;
}

void reel_free(Reel* const song)
{
    for (int i = 0; i < REEL_TRACKS; ++i) {
        bytes_free(&song->tracks[i].bytes);
    }
    for (size_t i = 0; i < song->mark_count; ++i) {
        free(song->marks[i].text);
    }
    free(song->marks);
    free(song->parts);
    free(song->events);
    song->marks = NULL;
    song->parts = NULL;
    song->events = NULL;
    song->mark_count = song->part_count = 0;
}

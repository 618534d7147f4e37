// SPDX-License-Identifier: ISC
#include "song.h"

#include "../../plugin/talk/encode.h"
#include "../file/timeline.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CONDUCTOR, DRUMS };
enum { BLOCK_FRAMES = 1024, MARKER_ROOM = 256 };
/* Sections that the plugin is told of beforehand: fewer than it can hold. */
enum { SECTIONS_AHEAD = PLAN_MAX / 2 };

void song_begin(Song* const song, Host* const host, const char* const title)
{
    *song = (Song){.host = host};
    smf_text(&song->tracks[CONDUCTOR], 0, SMF_TRACK_NAME, title);
    smf_text(&song->tracks[DRUMS], 0, SMF_TRACK_NAME, "Drums");
}

static bool make_room(Song* const song)
{
    if (song->section_count < song->section_room) {
        return true;
    }
    const size_t room = 2 * song->section_room + 16;
    SongSection* const grown = realloc(song->sections, room * sizeof *grown);
    if (!grown) {
        song->failed = true;
        return false;
    }
    song->sections = grown;
    song->section_room = room;
    return true;
}

void song_add(Song* const song, const SongSection* const section)
{
    if (!make_room(song)) {
        return;
    }
    SongSection* const added = &song->sections[song->section_count++];
    *added = *section;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        added->controls[i] = host_get(song->host, control_rows[i].symbol);
    }
}

static int64_t bars_ticks(const SongSection* const section, const int bars)
{
    return (int64_t)bars * section->beats * 4 * SMF_DIVISION / section->beat_unit;
}

static int64_t section_ticks(const SongSection* const section)
{
    return bars_ticks(section, section->count_in + section->bars);
}

/* ---- The transport */

typedef struct {
    Song* song;
    Uris uris;
    Timeline time;
    int64_t line;     /* the file's tick at the section's start */
    size_t told;      /* sections that the plugin was told of */
    int64_t told_bar; /* the bar where the next one begins */
} Take;

static void send_section(Take* const take, const PlanEntry* const entry,
                         const float controls[CONTROL_COUNT])
{
    LV2_Atom_Forge* const forge = host_input(take->song->host);
    lv2_atom_forge_frame_time(forge, 0);
    encode_section(forge, entry, controls, take->told == 0, &take->uris);
}

/* The clock of a song is the transport's, whatever the section was set to. */
static void tell_one(Take* const take)
{
    const SongSection* const section = &take->song->sections[take->told];
    float controls[CONTROL_COUNT];
    memcpy(controls, section->controls, sizeof controls);
    controls[CONTROL_CLOCK] = CLOCK_HOST;
    controls[CONTROL_ENABLED] = 1.0f;
    if (!section->goes_on) {
        send_section(take,
                     &(PlanEntry){.bar = take->told_bar,
                                  .origin = take->told_bar + section->count_in,
                                  .meter = {section->beats, section->beat_unit},
                                  .tempo = section->tempo},
                     controls);
    }
    take->told_bar += section->count_in + section->bars;
}

/* Nothing sounds from the last bar's end on, a click neither. */
static void tell_end(Take* const take)
{
    const SongSection* const last = &take->song->sections[take->song->section_count - 1];
    float controls[CONTROL_COUNT];
    memcpy(controls, last->controls, sizeof controls);
    controls[CONTROL_CLOCK] = CLOCK_HOST;
    controls[CONTROL_CLICK] = CLICK_OFF;
    send_section(take,
                 &(PlanEntry){.bar = take->told_bar,
                              .origin = take->told_bar,
                              .meter = {last->beats, last->beat_unit},
                              .tempo = last->tempo,
                              .ends = true},
                 controls);
}

static void tell_ahead(Take* const take, const size_t playing)
{
    const size_t count = take->song->section_count;
    while (take->told < count && take->told < playing + SECTIONS_AHEAD) {
        tell_one(take);
        if (++take->told == count) {
            tell_end(take);
        }
    }
}

/* The place is told at the start alone: bar lines lie between frames, and the plugin's
   own clock has them right. */
static void send_place(Take* const take, const SongSection* const section)
{
    host_send_position(take->song->host, (HostPosition){
                                             .frame = take->time.frame,
                                             .speed = 1.0f,
                                             .has_place = take->time.frame == 0,
                                             .tempo = (float)section->tempo,
                                             .beats_per_bar = (float)section->beats,
                                             .beat_unit = section->beat_unit,
                                         });
}

/* ---- What it plays */

static void keep(Song* const song, const double seconds, const uint8_t bytes[3])
{
    if (song->event_count == song->event_room) {
        const size_t room = 2 * song->event_room + 1024;
        SongEvent* const grown = realloc(song->events, room * sizeof *grown);
        if (!grown) {
            song->failed = true;
            return;
        }
        song->events = grown;
        song->event_room = room;
    }
    SongEvent* const event = &song->events[song->event_count++];
    event->seconds = seconds;
    memcpy(event->bytes, bytes, sizeof event->bytes);
}

/* Takes the last block's messages. */
static void gather(Take* const take, const SongSection* const section)
{
    Song* const song = take->song;
    const LV2_URID midi = host_urid(song->host, LV2_MIDI__MidiEvent);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(song->host), event) {
        if (event->body.type == midi && event->body.size == 3) {
            const uint8_t* const bytes = (const uint8_t*)event + sizeof(LV2_Atom_Event);
            const bool begins = (bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
            const double frames = (double)event->time.frames;
            smf_message(&song->tracks[DRUMS], timeline_tick(&take->time, frames, begins), bytes);
            keep(song, ((double)take->time.frame + frames) / TIMELINE_RATE, bytes);
            song->strokes +=
                begins && bytes[1] != section->clicks[0] && bytes[1] != section->clicks[1];
        }
    }
}

static void run(Take* const take, const SongSection* const section, const int64_t frames)
{
    for (int64_t done = 0; done < frames; done += BLOCK_FRAMES) {
        const int64_t left = frames - done;
        const int64_t block = left < BLOCK_FRAMES ? left : BLOCK_FRAMES;
        host_run(take->song->host, (uint32_t)block);
        gather(take, section);
        timeline_advance(&take->time, block);
    }
}

static void mark_section(Take* const take, const SongSection* const section)
{
    SmfTrack* const conductor = &take->song->tracks[CONDUCTOR];
    const uint64_t line = (uint64_t)take->line;
    smf_tempo(conductor, line, section->tempo);
    smf_meter(conductor, line, section->beats, section->beat_unit);
    if (section->count_in) {
        smf_text(conductor, line, SMF_MARKER, "Count-in");
    }
    for (int bar = 0; bar < section->bars; bar += section->phrase_bars) {
        char text[MARKER_ROOM];
        snprintf(text, sizeof text, "%s, phrase %d", section->label,
                 (section->first_bar + bar) / section->phrase_bars + 1);
        smf_text(conductor, line + (uint64_t)bars_ticks(section, section->count_in + bar),
                 SMF_MARKER, text);
        ++take->song->phrases;
    }
}

static void play_section(Take* const take, const size_t index)
{
    Song* const song = take->song;
    const SongSection* const section = &song->sections[index];
    const int64_t end = take->line + section_ticks(section);
    timeline_tempo(&take->time, section->tempo);
    song->seconds += (double)section_ticks(section) / take->time.ticks_per_frame / TIMELINE_RATE;
    mark_section(take, section);
    tell_ahead(take, index);
    send_place(take, section);
    take->time.end = index + 1 == song->section_count ? end : INT64_MAX;
    run(take, section, timeline_frames_to(&take->time, end));
    take->line = end;
}

/* What is late is still played; then the transport stops, and notes end. */
static void play_out(Take* const take)
{
    const SongSection* const last = &take->song->sections[take->song->section_count - 1];
    run(take, last, timeline_late_frames(last->tempo));
    host_send_position(take->song->host, (HostPosition){.frame = take->time.frame, .speed = 0.0f});
    host_run(take->song->host, 1);
    gather(take, last);
}

static LV2_URID map_uri(const LV2_URID_Map_Handle host, const char* const uri)
{
    return host_urid((Host*)host, uri);
}

static void perform(Song* const song)
{
    LV2_URID_Map map = {song->host, map_uri};
    Take take = {.song = song, .uris = uris_map(&map), .time = {.end = INT64_MAX}};
    for (size_t i = 0; i < song->section_count; ++i) {
        play_section(&take, i);
    }
    if (song->section_count) {
        play_out(&take);
    }
    for (int i = 0; i < SONG_TRACKS; ++i) {
        smf_end(&song->tracks[i], (uint64_t)take.line);
    }
}

bool song_end(Song* const song, SmfBytes* const file)
{
    perform(song);
    return smf_file(song->tracks, SONG_TRACKS, file) && !song->failed;
}

void song_free(Song* const song)
{
    for (int i = 0; i < SONG_TRACKS; ++i) {
        smf_free(&song->tracks[i].bytes);
    }
    free(song->sections);
    free(song->events);
    song->sections = NULL;
    song->events = NULL;
}

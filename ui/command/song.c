// SPDX-License-Identifier: ISC
#include "song.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CONDUCTOR, DRUMS };
enum { BLOCK_FRAMES = 1024, MARKER_ROOM = 256 };

void song_begin(Song* const song, const char* const title)
{
    *song = (Song){.tick = 0};
    smf_text(&song->tracks[CONDUCTOR], 0, SMF_TRACK_NAME, title);
    smf_text(&song->tracks[DRUMS], 0, SMF_TRACK_NAME, "Drums");
}

/* Everything is told at a section's start, and no more than the place after. */
static void send_start(Host* const host, const SongSection* const section, const int64_t frame)
{
    host_send_position(host, (HostPosition){
                                 .frame = frame,
                                 .speed = 1.0f,
                                 .has_place = true,
                                 .bar = section->first_bar - section->count_in,
                                 .tempo = (float)section->tempo,
                                 .beats_per_bar = (float)section->beats,
                                 .beat_unit = section->beat_unit,
                             });
}

/* File ticks in one frame; by the tempo as the plugin got it. */
static double ticks_per_frame(const SongSection* const section)
{
    return (double)(float)section->tempo / 60.0 * SMF_DIVISION / SONG_RATE;
}

static uint64_t bars_ticks(const SongSection* const section, const int bars)
{
    return (uint64_t)bars * (uint64_t)section->beats * 4 * SMF_DIVISION /
           (uint64_t)section->beat_unit;
}

static uint64_t section_ticks(const SongSection* const section)
{
    return bars_ticks(section, section->count_in + section->bars);
}

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

/* Takes the last block's messages; none falls past the section's end. */
static void gather(Song* const song, Host* const host, const SongSection* const section,
                   const int64_t block_start)
{
    const LV2_URID midi = host_urid(host, LV2_MIDI__MidiEvent);
    const uint64_t end = section_ticks(section);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(host), event) {
        if (event->body.type == midi && event->body.size == 3) {
            const uint8_t* const bytes = (const uint8_t*)event + sizeof(LV2_Atom_Event);
            const double frame = (double)(block_start + event->time.frames);
            uint64_t tick = (uint64_t)floor(frame * ticks_per_frame(section) + 0.5);
            tick = tick > end ? end : tick;
            smf_message(&song->tracks[DRUMS], song->tick + tick, bytes);
            keep(song, song->seconds + frame / SONG_RATE, bytes);
            song->strokes += (bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON &&
                             bytes[1] != section->clicks[0] && bytes[1] != section->clicks[1];
        }
    }
}

static void mark_section(Song* const song, const SongSection* const section)
{
    SmfTrack* const conductor = &song->tracks[CONDUCTOR];
    smf_tempo(conductor, song->tick, section->tempo);
    smf_meter(conductor, song->tick, section->beats, section->beat_unit);
    if (section->count_in) {
        smf_text(conductor, song->tick, SMF_MARKER, "Count-in");
    }
    for (int bar = 0; bar < section->bars; bar += section->phrase_bars) {
        char text[MARKER_ROOM];
        snprintf(text, sizeof text, "%s, phrase %d", section->label,
                 (section->first_bar + bar) / section->phrase_bars + 1);
        smf_text(conductor, song->tick + bars_ticks(section, section->count_in + bar), SMF_MARKER,
                 text);
        ++song->phrases;
    }
}

void song_play(Song* const song, Host* const host, const SongSection* const section)
{
    const double exact = (double)section_ticks(section) / ticks_per_frame(section);
    const int64_t frames = (int64_t)floor(exact + 0.5);
    mark_section(song, section);
    send_start(host, section, song->frame);
    for (int64_t done = 0; done < frames; done += BLOCK_FRAMES) {
        const int64_t left = frames - done;
        host_run(host, (uint32_t)(left < BLOCK_FRAMES ? left : BLOCK_FRAMES));
        gather(song, host, section, done);
    }
    song->frame += frames;
    if (!section->rolls_on) {
        host_send_position(host, (HostPosition){.frame = song->frame, .speed = 0.0f});
        host_run(host, 1);
        gather(song, host, section, frames);
        song->frame = 0;
    }
    song->tick += section_ticks(section);
    song->seconds += exact / SONG_RATE;
}

bool song_end(Song* const song, SmfBytes* const file)
{
    for (int i = 0; i < SONG_TRACKS; ++i) {
        smf_end(&song->tracks[i], song->tick);
    }
    return smf_file(song->tracks, SONG_TRACKS, file) && !song->failed;
}

void song_free(Song* const song)
{
    for (int i = 0; i < SONG_TRACKS; ++i) {
        smf_free(&song->tracks[i].bytes);
    }
    free(song->events);
    song->events = NULL;
}

// SPDX-License-Identifier: ISC
#include "reel.h"

#include "../../plugin/engine/groove/plan.h"
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

void reel_begin(Reel* const song, Host* const host, const char* const title)
{
    *song = (Reel){.host = host};
    smf_text(&song->tracks[CONDUCTOR], 0, SMF_TRACK_NAME, title);
    smf_text(&song->tracks[DRUMS], 0, SMF_TRACK_NAME, "Drums");
}

static bool make_room(Reel* const song)
{
    if (song->section_count < song->section_room) {
        return true;
    }
    const size_t room = 2 * song->section_room + 16;
    ReelSection* const grown = realloc(song->sections, room * sizeof *grown);
    if (!grown) {
        song->failed = true;
        return false;
    }
    song->sections = grown;
    song->section_room = room;
    return true;
}

void reel_add(Reel* const song, const ReelSection* const section)
{
    if (!make_room(song)) {
        return;
    }
    ReelSection* const added = &song->sections[song->section_count++];
    *added = *section;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        added->controls[i] = host_get(song->host, control_rows[i].symbol);
    }
}

static int64_t bars_ticks(const ReelSection* const section, const int bars)
{
    return (int64_t)bars * section->beats * 4 * SMF_DIVISION / section->beat_unit;
}

static int64_t section_ticks(const ReelSection* const section)
{
    return bars_ticks(section, section->count_in + section->bars);
}

/* ---- The transport */

typedef struct {
    Reel* song;
    Uris uris;
    Timeline time;
    int64_t line;     /* the file's tick at the section's start */
    size_t told;      /* sections that the plugin was told of */
    int64_t told_bar; /* the bar where the next one begins */
} Transport;

/* What a section says from the bar line that is told next on, on the transport's clock
   whatever it was set to. */
static ToldSection told_section(const Transport* const transport, const ReelSection* const section)
{
    ToldSection told = {.bar = transport->told_bar,
                        .origin = transport->told_bar,
                        .meter = {section->beats, section->beat_unit},
                        .tempo = section->tempo,
                        .begins = transport->told == 0};
    memcpy(told.controls, section->controls, sizeof told.controls);
    told.controls[CONTROL_CLOCK] = CLOCK_HOST;
    return told;
}

static void send_section(Transport* const transport, const ToldSection* const told)
{
    LV2_Atom_Forge* const forge = host_input(transport->song->host);
    lv2_atom_forge_frame_time(forge, 0);
    encode_section(forge, told, &transport->uris);
}

static void tell_one(Transport* const transport)
{
    const ReelSection* const section = &transport->song->sections[transport->told];
    ToldSection told = told_section(transport, section);
    told.origin += section->count_in;
    told.controls[CONTROL_ENABLED] = 1.0f;
    if (!section->goes_on) {
        send_section(transport, &told);
    }
    transport->told_bar += section->count_in + section->bars;
}

/* Nothing sounds from the last bar's end on, a click neither. */
static void tell_end(Transport* const transport)
{
    const ReelSection* const last = &transport->song->sections[transport->song->section_count - 1];
    ToldSection told = told_section(transport, last);
    told.ends = true;
    told.controls[CONTROL_CLICK] = CLICK_OFF;
    send_section(transport, &told);
}

static void tell_ahead(Transport* const transport, const size_t playing)
{
    const size_t count = transport->song->section_count;
    while (transport->told < count && transport->told < playing + SECTIONS_AHEAD) {
        tell_one(transport);
        if (++transport->told == count) {
            tell_end(transport);
        }
    }
}

/* The place is told at the start alone: bar lines lie between frames, and the plugin's
   own clock has them right. */
static void send_place(Transport* const transport, const ReelSection* const section)
{
    host_send_position(transport->song->host, (HostPosition){
                                                  .frame = transport->time.frame,
                                                  .speed = 1.0f,
                                                  .has_place = transport->time.frame == 0,
                                                  .tempo = (float)section->tempo,
                                                  .beats_per_bar = (float)section->beats,
                                                  .beat_unit = section->beat_unit,
                                              });
}

/* ---- What it plays */

static void keep(Reel* const song, const double seconds, const uint8_t bytes[3])
{
    if (song->event_count == song->event_room) {
        const size_t room = 2 * song->event_room + 1024;
        ReelEvent* const grown = realloc(song->events, room * sizeof *grown);
        if (!grown) {
            song->failed = true;
            return;
        }
        song->events = grown;
        song->event_room = room;
    }
    ReelEvent* const event = &song->events[song->event_count++];
    event->seconds = seconds;
    memcpy(event->bytes, bytes, sizeof event->bytes);
}

/* Takes the last block's messages. */
static void gather(Transport* const transport, const ReelSection* const section)
{
    Reel* const song = transport->song;
    const LV2_URID midi = host_urid(song->host, LV2_MIDI__MidiEvent);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(song->host), event) {
        if (event->body.type == midi && event->body.size == 3) {
            const uint8_t* const bytes = (const uint8_t*)event + sizeof(LV2_Atom_Event);
            const bool begins = (bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
            const double frames = (double)event->time.frames;
            smf_message(&song->tracks[DRUMS], timeline_tick(&transport->time, frames, begins),
                        bytes);
            keep(song, ((double)transport->time.frame + frames) / TIMELINE_RATE, bytes);
            song->strokes +=
                begins && bytes[1] != section->clicks[0] && bytes[1] != section->clicks[1];
        }
    }
}

static void run(Transport* const transport, const ReelSection* const section, const int64_t frames)
{
    for (int64_t done = 0; done < frames; done += BLOCK_FRAMES) {
        const int64_t left = frames - done;
        const int64_t block = left < BLOCK_FRAMES ? left : BLOCK_FRAMES;
        host_run(transport->song->host, (uint32_t)block);
        gather(transport, section);
        timeline_advance(&transport->time, block);
    }
}

static void mark_section(Transport* const transport, const ReelSection* const section)
{
    SmfTrack* const conductor = &transport->song->tracks[CONDUCTOR];
    const uint64_t line = (uint64_t)transport->line;
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
        ++transport->song->phrases;
    }
}

static void play_section(Transport* const transport, const size_t index)
{
    Reel* const song = transport->song;
    const ReelSection* const section = &song->sections[index];
    const int64_t end = transport->line + section_ticks(section);
    timeline_tempo(&transport->time, section->tempo);
    song->seconds +=
        (double)section_ticks(section) / transport->time.ticks_per_frame / TIMELINE_RATE;
    mark_section(transport, section);
    tell_ahead(transport, index);
    send_place(transport, section);
    transport->time.end = index + 1 == song->section_count ? end : INT64_MAX;
    run(transport, section, timeline_frames_to(&transport->time, end));
    transport->line = end;
}

/* What is late is still played; then the transport stops, and notes end. */
static void play_out(Transport* const transport)
{
    const ReelSection* const last = &transport->song->sections[transport->song->section_count - 1];
    run(transport, last, timeline_late_frames(last->tempo));
    host_send_position(transport->song->host,
                       (HostPosition){.frame = transport->time.frame, .speed = 0.0f});
    host_run(transport->song->host, 1);
    gather(transport, last);
}

static LV2_URID map_uri(const LV2_URID_Map_Handle host, const char* const uri)
{
    return host_urid((Host*)host, uri);
}

static void perform(Reel* const song)
{
    LV2_URID_Map map = {song->host, map_uri};
    Transport transport = {.song = song, .uris = uris_map(&map), .time = {.end = INT64_MAX}};
    for (size_t i = 0; i < song->section_count; ++i) {
        play_section(&transport, i);
    }
    if (song->section_count) {
        play_out(&transport);
    }
    for (int i = 0; i < REEL_TRACKS; ++i) {
        smf_end(&song->tracks[i], (uint64_t)transport.line);
    }
}

bool reel_end(Reel* const song, Bytes* const file)
{
    perform(song);
    return smf_file(song->tracks, REEL_TRACKS, file) && !song->failed;
}

void reel_free(Reel* const song)
{
    for (int i = 0; i < REEL_TRACKS; ++i) {
        bytes_free(&song->tracks[i].bytes);
    }
    free(song->sections);
    free(song->events);
    song->sections = NULL;
    song->events = NULL;
}

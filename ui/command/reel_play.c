// SPDX-License-Identifier: ISC
#include "reel_play.h"

#include "../../plugin/engine/groove/plan.h"
#include "../file/timeline.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_FRAMES = 1024 };
/* Changes that the plugin is told of beforehand: fewer than it can hold. */
enum { TOLD_AHEAD = PLAN_MAX / 2 };

typedef struct {
    Reel* song;
    Uris uris;
    Timeline time;
    int64_t line;  /* the file's tick where the part begins */
    size_t next;   /* the first part that the plugin wasn't told of */
    int ahead;     /* changes it was told of that are still to come */
    size_t marked; /* markers written */
    double tempo;  /* as the file has them */
    Meter meter;
} Transport;

/* ---- What the plugin is told */

static void send_section(const Transport* const transport, const ToldSection* const told)
{
    LV2_Atom_Forge* const forge = host_input(transport->song->host);
    lv2_atom_forge_frame_time(forge, 0);
    encode_section(forge, told, &transport->uris);
}

/* Nothing sounds from the last bar's end on, a click neither. */
static void tell_end(const Transport* const transport)
{
    const Reel* const song = transport->song;
    const ReelPart* const last = &song->parts[song->part_count - 1];
    ToldSection told = last->told;
    told.bar = told.origin = song->bars;
    told.tick = 0;
    told.meter = last->meter;
    told.tempo = last->tempo;
    told.begins = false;
    told.ends = true;
    told.controls[CONTROL_CLICK] = CLICK_OFF;
    send_section(transport, &told);
}

static void tell_ahead(Transport* const transport)
{
    const Reel* const song = transport->song;
    while (transport->next < song->part_count && transport->ahead < TOLD_AHEAD) {
        const ReelPart* const part = &song->parts[transport->next];
        ToldSection told = part->told;
        told.begins = transport->next == 0;
        if (part->is_told) {
            send_section(transport, &told);
            ++transport->ahead;
        }
        if (++transport->next == song->part_count) {
            tell_end(transport);
        }
    }
}

/* The place is told at the start alone: bar lines lie between frames, and the plugin's
   own clock has them right. */
static void send_place(const Transport* const transport, const ReelPart* const part)
{
    host_send_position(transport->song->host, (HostPosition){
                                                  .frame = transport->time.frame,
                                                  .speed = 1.0f,
                                                  .has_place = transport->time.frame == 0,
                                                  .tempo = (float)part->tempo,
                                                  .beats_per_bar = (float)part->meter.beats_per_bar,
                                                  .beat_unit = part->meter.beat_unit,
                                              });
}

/* ---- What it plays */

static void keep(Reel* const song, const double seconds, const uint8_t bytes[3])
{
    if (song->event_count == song->event_room) {
        const size_t room = 2 * song->event_room + 1024;
        ReelEvent* const larger = realloc(song->events, room * sizeof *larger);
        if (!larger) {
            song->failed = true;
            return;
        }
        song->events = larger;
        song->event_room = room;
    }
    ReelEvent* const event = &song->events[song->event_count++];
    event->seconds = seconds;
    memcpy(event->bytes, bytes, sizeof event->bytes);
}

/* Takes the last block's messages. */
static void gather(const Transport* const transport, const ReelPart* const part)
{
    Reel* const song = transport->song;
    const LV2_URID midi = host_urid(song->host, LV2_MIDI__MidiEvent);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(song->host), event) {
        if (event->body.type == midi && event->body.size == 3) {
            const uint8_t* const bytes = (const uint8_t*)event + sizeof(LV2_Atom_Event);
            const bool begins = (bytes[0] & 0xF0) == LV2_MIDI_MSG_NOTE_ON;
            const double frames = (double)event->time.frames;
            smf_message(&song->tracks[REEL_DRUMS], timeline_tick(&transport->time, frames, begins),
                        bytes);
            keep(song, ((double)transport->time.frame + frames) / TIMELINE_RATE, bytes);
            song->strokes += begins && bytes[1] != part->clicks[0] && bytes[1] != part->clicks[1];
        }
    }
}

static void run(Transport* const transport, const ReelPart* const part, const int64_t frames)
{
    for (int64_t done = 0; done < frames; done += BLOCK_FRAMES) {
        const int64_t left = frames - done;
        const int64_t block = left < BLOCK_FRAMES ? left : BLOCK_FRAMES;
        host_run(transport->song->host, (uint32_t)block);
        gather(transport, part);
        timeline_advance(&transport->time, block);
    }
}

/* What the file says of a part: what changes, and its markers. */
static void mark_part(Transport* const transport, const ReelPart* const part)
{
    Reel* const song = transport->song;
    SmfTrack* const conductor = &song->tracks[REEL_CONDUCTOR];
    const uint64_t line = (uint64_t)transport->line;
    if (differs(part->tempo, transport->tempo)) {
        smf_tempo(conductor, line, part->tempo);
    }
    if (!meter_equal(part->meter, transport->meter)) {
        smf_meter(conductor, line, (int)part->meter.beats_per_bar, part->meter.beat_unit);
    }
    while (transport->marked < song->mark_count &&
           song->marks[transport->marked].tick < transport->line + part->ticks) {
        const ReelMark* const mark = &song->marks[transport->marked++];
        smf_text(conductor, (uint64_t)mark->tick, SMF_MARKER, mark->text);
    }
}

static void play_part(Transport* const transport, const ReelPart* const part, const bool is_last)
{
    const int64_t end = transport->line + part->ticks;
    const bool changes =
        differs(part->tempo, transport->tempo) || !meter_equal(part->meter, transport->meter);
    timeline_tempo(&transport->time, part->tempo);
    transport->song->seconds +=
        (double)part->ticks / transport->time.ticks_per_frame / TIMELINE_RATE;
    mark_part(transport, part);
    transport->ahead -= part->is_told && transport->line > 0;
    tell_ahead(transport);
    if (changes) {
        send_place(transport, part);
    }
    transport->tempo = part->tempo;
    transport->meter = part->meter;
    transport->time.end = is_last ? end : INT64_MAX;
    run(transport, part, timeline_frames_to(&transport->time, end));
    transport->line = end;
}

/* What is late is still played; then the transport stops, and notes end. */
static void play_out(Transport* const transport)
{
    const ReelPart* const last = &transport->song->parts[transport->song->part_count - 1];
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

void reel_play(Reel* const song)
{
    LV2_URID_Map map = {song->host, map_uri};
    Transport transport = {.song = song, .uris = uris_map(&map), .time = {.end = INT64_MAX}};
    for (size_t i = 0; i < song->part_count; ++i) {
        play_part(&transport, &song->parts[i], i + 1 == song->part_count);
    }
    if (song->part_count) {
        play_out(&transport);
    }
    for (int i = 0; i < REEL_TRACKS; ++i) {
        smf_end(&song->tracks[i], (uint64_t)transport.line);
    }
}

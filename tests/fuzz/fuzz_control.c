// SPDX-License-Identifier: ISC
/* fuzz_control.c - whatever a host writes into the plugin's ports, block by block, honest about
   their sizes alone: what comes out is whole, in order and within the block, readouts are in
   their ranges, and once all is put back and the transport stands, no note of ours sounds.
   An instance for each input, which shares the bank of one that stays. */
#include "../../plugin/engine/groove/controls.h"
#include "../../plugin/talk/encode.h"
#include "../../ui/command/uri_table.h"
#include "fuzz.h"

#include <lv2/atom/util.h>
#include <lv2/core/lv2.h>
#include <lv2/midi/midi.h>
#include <lv2/time/time.h>
#include <stdlib.h>
#include <string.h>

enum { ROOM = 1 << 14, FRAMES_MOST = 1 << 14, BLOCKS_MOST = 24, EVENTS_MOST = 64 };
enum { URIDS = sizeof(Uris) / sizeof(LV2_URID) };

typedef union {
    LV2_Atom_Sequence sequence;
    uint64_t room[ROOM / 8 + 2];
} PortRoom;

static struct {
    UriTable* table;
    LV2_URID_Map map;
    Uris uris;
    const LV2_Descriptor* plugin;
    LV2_Handle kept; /* holds the bank */
    LV2_Handle handle;
    LV2_Atom_Forge forge;
    LV2_Atom_Forge_Frame frame;
    float controls[CONTROL_COUNT];
    float readouts[READOUT_COUNT];
    PortRoom input, midi, notify;
    uint32_t capacity[2]; /* of midi and notify */
    bool through;         /* notes came in: who sent them ends them */
    bool is_song;         /* sections were told */
    int sounding[16][128];
} host;

static void connect_all(void)
{
    host.plugin->connect_port(host.handle, PORT_CONTROL, &host.input);
    host.plugin->connect_port(host.handle, PORT_MIDI_OUT, &host.midi);
    host.plugin->connect_port(host.handle, PORT_NOTIFY, &host.notify);
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        host.plugin->connect_port(host.handle, PORT_FIRST_CONTROL + i, &host.controls[i]);
    }
    for (uint32_t i = 0; i < READOUT_COUNT; ++i) {
        host.plugin->connect_port(host.handle, PORT_FIRST_READOUT + i, &host.readouts[i]);
    }
}

static void instantiate(void)
{
    const LV2_Feature map = {LV2_URID__map, &host.map};
    const LV2_Feature* const features[] = {&map, NULL};
    host.handle = host.plugin->instantiate(host.plugin, 48000.0, FOURLIMB_BUILD "/lv2/fourlimb.lv2",
                                           features);
    FUZZ_WANT(host.handle);
}

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    host.table = uri_table_new();
    host.map = (LV2_URID_Map){host.table, uri_table_map};
    host.uris = uris_map(&host.map);
    lv2_atom_forge_init(&host.forge, &host.map);
    host.plugin = lv2_descriptor(0);
    instantiate();
    host.kept = host.handle;
    return 0;
}

static void defaults(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        host.controls[i] = control_rows[i].normal;
    }
}

static void begin_sequence(void)
{
    lv2_atom_forge_set_buffer(&host.forge, (uint8_t*)&host.input, ROOM);
    lv2_atom_forge_sequence_head(&host.forge, &host.frame, 0);
}

/* ---- What came out */

static void hear(const uint8_t* const bytes, const uint32_t size)
{
    int* const sounding = &host.sounding[bytes[0] & 15][size > 1 ? bytes[1] & 127 : 0];
    const bool is_on = size == 3 && (bytes[0] & 0xF0) == 0x90 && bytes[2];
    const bool is_off =
        size == 3 && ((bytes[0] & 0xF0) == 0x80 || ((bytes[0] & 0xF0) == 0x90 && !bytes[2]));
    *sounding = is_on ? 1 : is_off ? 0 : *sounding;
}

static void check_midi(const uint32_t frames)
{
    const LV2_Atom_Sequence* const sequence = &host.midi.sequence;
    int64_t before = 0;
    FUZZ_WANT(sequence->atom.size <= host.capacity[0]);
    LV2_ATOM_SEQUENCE_FOREACH (sequence, event) {
        const uint8_t* const bytes = (const uint8_t*)(&event->body + 1);
        FUZZ_WANT((const char*)bytes + event->body.size <=
                  (const char*)&sequence->body + sequence->atom.size);
        FUZZ_WANT(event->body.type == host.uris.midi_MidiEvent && event->body.size > 0);
        FUZZ_WANT(event->time.frames >= before);
        FUZZ_WANT(event->time.frames < (frames ? frames : 1));
        FUZZ_WANT(bytes[0] >= 0x80);
        before = event->time.frames;
        hear(bytes, event->body.size);
    }
}

static void check_notify(void)
{
    const LV2_Atom_Sequence* const sequence = &host.notify.sequence;
    FUZZ_WANT(sequence->atom.size <= host.capacity[1]);
    LV2_ATOM_SEQUENCE_FOREACH (sequence, event) {
        FUZZ_WANT((const char*)(&event->body + 1) + event->body.size <=
                  (const char*)&sequence->body + sequence->atom.size);
    }
}

static void check_readouts(void)
{
    for (int i = 0; i < READOUT_COUNT; ++i) {
        FUZZ_WANT(host.readouts[i] >= readout_rows[i].least);
        FUZZ_WANT(host.readouts[i] <= readout_rows[i].most);
    }
}

static void run(const uint32_t frames)
{
    lv2_atom_forge_pop(&host.forge, &host.frame);
    host.midi.sequence.atom = (LV2_Atom){host.capacity[0], host.uris.atom_Tuple};
    host.notify.sequence.atom = (LV2_Atom){host.capacity[1], host.uris.atom_Tuple};
    host.plugin->run(host.handle, frames);
    if (host.capacity[0] >= sizeof(LV2_Atom_Sequence)) {
        check_midi(frames);
    }
    if (host.capacity[1] >= sizeof(LV2_Atom_Sequence)) {
        check_notify();
    }
    check_readouts();
    begin_sequence();
}

/* ---- What goes in */

static bool has_room(const uint32_t bytes)
{
    return host.forge.offset + bytes + 64 < ROOM;
}

static LV2_URID any_urid(FuzzInput* const input)
{
    const uint32_t code = fuzz_byte(input);
    return code < URIDS ? ((const LV2_URID*)&host.uris)[code] : code;
}

/* Bytes as they come, under any type. */
static void raw_event(FuzzInput* const input)
{
    const int64_t frame = (int16_t)fuzz_two(input);
    const LV2_URID type = any_urid(input);
    size_t size = fuzz_byte(input);
    const uint8_t* const body = fuzz_take(input, &size);
    if (has_room((uint32_t)size)) {
        lv2_atom_forge_frame_time(&host.forge, frame);
        lv2_atom_forge_atom(&host.forge, (uint32_t)size, type);
        lv2_atom_forge_write(&host.forge, body, (uint32_t)size);
        host.through |= type == host.uris.midi_MidiEvent;
        host.is_song |= type == host.uris.atom_Object || type == host.uris.atom_Blank;
    }
}

static void any_value(FuzzInput* const input, const uint32_t kind)
{
    const double number = fuzz_number(input);
    const bool fits = number > -1e9 && number < 1e9;
    switch (kind) {
    case 0:
        lv2_atom_forge_double(&host.forge, number);
        break;
    case 1:
        lv2_atom_forge_float(&host.forge, fits ? (float)number : 3e38f);
        break;
    case 2:
        lv2_atom_forge_long(&host.forge, fits ? (int64_t)number : INT64_MIN);
        break;
    default:
        lv2_atom_forge_int(&host.forge, fits ? (int32_t)number : INT32_MAX);
    }
}

static void position(FuzzInput* const input)
{
    const LV2_URID keys[] = {host.uris.time_frame,       host.uris.time_speed,
                             host.uris.time_bar,         host.uris.time_barBeat,
                             host.uris.time_beat,        host.uris.time_beatUnit,
                             host.uris.time_beatsPerBar, host.uris.time_beatsPerMinute};
    LV2_Atom_Forge_Frame object;
    const uint32_t has = fuzz_byte(input);
    const uint32_t kinds = fuzz_two(input);
    if (!has_room(512)) {
        return;
    }
    lv2_atom_forge_frame_time(&host.forge, (int16_t)fuzz_two(input));
    lv2_atom_forge_object(&host.forge, &object, 0, host.uris.time_Position);
    for (uint32_t i = 0; i < 8; ++i) {
        if (has & 1U << i) {
            lv2_atom_forge_key(&host.forge, keys[i]);
            any_value(input, kinds >> 2 * i & 3);
        }
    }
    lv2_atom_forge_pop(&host.forge, &object);
}

/* A whole position at the beginning of a bar: most of what follows is then played. */
static void roll(const float speed, const double bar, const float tempo)
{
    LV2_Atom_Forge_Frame object;
    if (!has_room(512)) {
        return;
    }
    lv2_atom_forge_frame_time(&host.forge, 0);
    lv2_atom_forge_object(&host.forge, &object, 0, host.uris.time_Position);
    lv2_atom_forge_key(&host.forge, host.uris.time_speed);
    lv2_atom_forge_float(&host.forge, speed);
    lv2_atom_forge_key(&host.forge, host.uris.time_bar);
    lv2_atom_forge_long(&host.forge, (int64_t)bar);
    lv2_atom_forge_key(&host.forge, host.uris.time_barBeat);
    lv2_atom_forge_float(&host.forge, 0.0f);
    lv2_atom_forge_key(&host.forge, host.uris.time_beatsPerMinute);
    lv2_atom_forge_float(&host.forge, tempo);
    lv2_atom_forge_pop(&host.forge, &object);
}

static void tell(const ToldSection* const told)
{
    if (has_room(2048)) {
        lv2_atom_forge_frame_time(&host.forge, 0);
        encode_section(&host.forge, told, &host.uris);
    }
}

static void section(FuzzInput* const input)
{
    ToldSection told = {.bar = (int16_t)fuzz_two(input),
                        .origin = (int16_t)fuzz_two(input),
                        .meter = {fuzz_number(input), 1 << fuzz_byte(input) % 7},
                        .tempo = fuzz_number(input)};
    const uint32_t ends = fuzz_byte(input); /* what its other bits are is where in the bar */
    told.ends = ends & 1;
    told.tick = (ends >> 1) * (TICKS_PER_QUARTER / 16);
    told.begins = fuzz_byte(input) & 1;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        told.controls[i] = host.controls[i];
    }
    host.is_song = true;
    tell(&told);
}

static void set_control(FuzzInput* const input)
{
    const uint32_t which = fuzz_byte(input) % CONTROL_COUNT;
    const uint32_t code = fuzz_byte(input);
    const ControlRow* const row = &control_rows[which];
    float value = row->least + (row->most - row->least) * (float)code / 254.0f;
    if (code == 255) {
        const uint32_t bits = fuzz_four(input);
        memcpy(&value, &bits, sizeof value);
    } else if (row->most - row->least > 254.0f) {
        value = row->least + (float)code;
    }
    host.controls[which] = value;
}

static void connect_odd(FuzzInput* const input)
{
    const uint32_t port = fuzz_byte(input) % (PORT_FIRST_READOUT + READOUT_COUNT + 2);
    if (port != PORT_MIDI_OUT && port != PORT_NOTIFY) {
        host.plugin->connect_port(host.handle, port, NULL);
    }
}

static const uint32_t frame_counts[] = {0, 1, 7, 64, 128, 256, 441, 512, 1024, 2048, 4096, 8192};

/* One thing that a host does; the frames it had played. */
static uint32_t act(FuzzInput* const input)
{
    const uint32_t what = fuzz_byte(input);
    switch (what % 12) {
    case 0:
    case 1:
        set_control(input);
        break;
    case 2:
        raw_event(input);
        break;
    case 3:
        position(input);
        break;
    case 4:
        roll(1.0f, fuzz_byte(input), 20.0f + (float)fuzz_two(input) / 128.0f);
        break;
    case 5:
        section(input);
        break;
    case 6:
        if (has_room(64)) {
            lv2_atom_forge_frame_time(&host.forge, 0);
            encode_look(&host.forge, any_urid(input), &host.uris);
        }
        break;
    case 7:
        host.capacity[fuzz_byte(input) & 1] = fuzz_two(input) % (ROOM + 1);
        break;
    case 8:
        connect_odd(input);
        break;
    case 9:
        connect_all();
        break;
    default: {
        const uint32_t frames = frame_counts[fuzz_byte(input) % 12];
        run(frames);
        return frames + 1;
    }
    }
    return 0;
}

static void start(void)
{
    memset(&host.sounding, 0, sizeof host.sounding);
    host.through = host.is_song = false;
    host.capacity[0] = host.capacity[1] = ROOM;
    defaults();
    instantiate();
    connect_all();
    host.plugin->activate(host.handle);
    begin_sequence();
}

/* A host that puts all back and stops: what still sounds hangs. */
static void check_silence(void)
{
    defaults();
    connect_all();
    host.capacity[0] = host.capacity[1] = ROOM;
    run(64);            /* what was sent last */
    if (host.is_song) { /* whose settings hold, with a clock of its own maybe */
        ToldSection none = {.meter = {4.0, 4}, .tempo = 120.0, .begins = true};
        memcpy(none.controls, host.controls, sizeof none.controls);
        tell(&none);
    }
    roll(0.0f, 0.0, 120.0f);
    run(1024);
    run(1024);
    for (int i = 0; i < 16 * 128 && !host.through; ++i) {
        FUZZ_WANT(!host.sounding[i / 128][i % 128]);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    FuzzInput input = {bytes, size};
    uint32_t frames = 0;
    start();
    for (int acts = 0; input.left && acts < 2 * EVENTS_MOST && frames < FRAMES_MOST; ++acts) {
        frames += act(&input);
    }
    check_silence();
    host.plugin->cleanup(host.handle);
    return 0;
}

// SPDX-License-Identifier: ISC
/* test_through.c - what a drummer plays in goes on among our own notes.  What is wanted
   is worked out here from two runs: our notes without the drummer's, and the drummer's.
   MIDI 1.0 leaves to the receiver what a second note on a key does; so that every
   receiver does the same, a key that sounds is ended before it is struck again, and
   falls silent once neither of both holds it. */
#include "../../plugin/talk/tell.h"
#include "../../plugin/talk/uris.h"
#include "../help/check.h"
#include "../help/exact.h"
#include "bundle.h"

#include <lv2/atom/util.h>
#include <lv2/midi/midi.h>

enum { RATE = 48000, EVENTS_MAX = 4096, LONG_EVENT = 24, DRUMS = 9 };
enum { KICK = 36, SNARE = 38, CRASH = 49 }; /* General MIDI Level 1 */

typedef struct {
    int64_t frame;
    uint32_t size;
    uint8_t bytes[LONG_EVENT];
} Event;

typedef struct {
    int count;
    Event events[EVENTS_MAX];
} Events;

static Host* host;
static Uris uris;
static Events own, pads, heard;
static int64_t now;   /* frames run since the start */
static int misplaced; /* events heard out of order or of the block */

static void set(const char* const symbol, const float value)
{
    char why[HOST_WHY_ROOM] = "";
    if (!host_set(host, symbol, value, why)) {
        CHECK_TEXT(why, "");
    }
}

static void add(Events* const to, const int64_t frame, const uint8_t a, const int b, const int c)
{
    if (to->count < EVENTS_MAX) {
        to->events[to->count++] = (Event){frame, 3, {a, (uint8_t)b, (uint8_t)c}};
    }
}

/* ---- Running */

static void send(const int64_t frame, const uint8_t* const bytes, const uint32_t size)
{
    LV2_Atom_Forge* const forge = host_input(host);
    lv2_atom_forge_frame_time(forge, frame);
    lv2_atom_forge_atom(forge, size, uris.midi_MidiEvent);
    lv2_atom_forge_write(forge, bytes, size);
}

static void ask(const LV2_URID property)
{
    lv2_atom_forge_frame_time(host_input(host), 0);
    tell_get(host_input(host), property, &uris);
}

static void begin(const float speed)
{
    host_play_exactly(host);
    host_reset(host);
    host_set_room(host, 65536);
    host_send_position(host, (HostPosition){.speed = speed,
                                            .tempo = 120.0f,
                                            .beats_per_bar = 4.0f,
                                            .beat_unit = 4,
                                            .has_place = true});
    heard.count = 0;
    misplaced = 0;
    now = 0;
}

static void run(const uint32_t frames)
{
    int64_t before = 0;
    host_run(host, frames);
    LV2_ATOM_SEQUENCE_FOREACH (host_midi(host), event) {
        const int64_t at = event->time.frames;
        misplaced += at < before || at >= frames;
        before = at;
        if (heard.count < EVENTS_MAX && event->body.size <= LONG_EVENT) {
            Event* const new = &heard.events[heard.count++];
            *new = (Event){now + at, event->body.size, {0}};
            memcpy(new->bytes, event + 1, event->body.size);
        }
    }
    now += frames;
}

/* Runs to a frame in blocks, the pads' events in them; the last of a block first, if
   `backwards`. */
static void play(const int64_t end, const uint32_t block, const bool backwards)
{
    for (int next = 0; now < end;) {
        int last = next;
        while (last < pads.count && pads.events[last].frame < now + block) {
            ++last;
        }
        for (int i = next; i < last; ++i) {
            const Event* const event = &pads.events[backwards ? last - 1 - (i - next) : i];
            send(event->frame - now, event->bytes, event->size);
        }
        next = last;
        run(block);
    }
}

/* ---- What is wanted */

static bool is_on(const Event* const event)
{
    return event->size == 3 && (event->bytes[0] & 0xF0) == 0x90 && event->bytes[2] > 0;
}

static bool is_off(const Event* const event)
{
    return event->size == 3 && ((event->bytes[0] & 0xF0) == 0x80 ||
                                ((event->bytes[0] & 0xF0) == 0x90 && event->bytes[2] == 0));
}

static bool is_at(const Event* const event, const uint8_t channel, const int key)
{
    return (event->bytes[0] & 0x0F) == channel && event->bytes[1] == key;
}

/* Whether somebody holds a key after the frame: the last word of each counts. */
static bool holds(const Events* const who, const uint8_t channel, const int key,
                  const int64_t frame)
{
    bool held = false;
    for (int i = 0; i < who->count && who->events[i].frame <= frame; ++i) {
        const Event* const event = &who->events[i];
        if (is_at(event, channel, key) && (is_on(event) || is_off(event))) {
            held = is_on(event);
        }
    }
    return held;
}

static int begun_at(const Events* const who, const Event* const like)
{
    int count = 0;
    for (int i = 0; i < who->count; ++i) {
        const Event* const event = &who->events[i];
        count += is_on(event) && event->frame == like->frame && event->bytes[0] == like->bytes[0] &&
                 event->bytes[1] == like->bytes[1] && event->bytes[2] == like->bytes[2];
    }
    return count;
}

/* Each key's notes follow one another: none begins while one sounds, and none is
   ended twice. */
static int notes_that_overlap(void)
{
    static bool sounds[16][128];
    int wrong = 0;
    memset(sounds, 0, sizeof sounds);
    for (int i = 0; i < heard.count; ++i) {
        const Event* const event = &heard.events[i];
        if (is_on(event) || is_off(event)) {
            bool* const now_sounds = &sounds[event->bytes[0] & 0x0F][event->bytes[1]];
            wrong += *now_sounds == is_on(event);
            *now_sounds = is_on(event);
        }
    }
    return wrong;
}

static int still_sounding(void)
{
    int count = 0;
    for (int key = 0; key < 128; ++key) {
        count += holds(&heard, DRUMS, key, now);
    }
    return count;
}

/* All begin where they were struck and as loud, and at every event's frame what sounds
   is what somebody holds. */
static void check_both_are_heard(void)
{
    const Events* const of[] = {&own, &pads, &heard};
    int lost = 0, wrong = 0, begun[3] = {0};
    for (int who = 0; who < 3; ++who) {
        for (int i = 0; i < of[who]->count; ++i) {
            const Event* const event = &of[who]->events[i];
            begun[who] += is_on(event);
            lost += is_on(event) &&
                    begun_at(&heard, event) != begun_at(&own, event) + begun_at(&pads, event);
            if (is_on(event) || is_off(event)) {
                const uint8_t channel = event->bytes[0] & 0x0F;
                const int key = event->bytes[1];
                wrong += holds(&heard, channel, key, event->frame) !=
                         (holds(&own, channel, key, event->frame) ||
                          holds(&pads, channel, key, event->frame));
            }
        }
    }
    CHECK_INT(lost, 0);
    CHECK_INT(wrong, 0);
    CHECK_INT(begun[2], begun[0] + begun[1]);
    CHECK(begun[0] > 20 && begun[1] > 20);
    CHECK_INT(notes_that_overlap(), 0);
    CHECK_INT(misplaced, 0);
}

/* Three bars, of our own notes alone. */
static void hear_own(void)
{
    pads.count = 0;
    begin(1.0f);
    play(6 * RATE, 480, false);
    own = heard;
}

static uint32_t dice(uint32_t* const state, const uint32_t sides)
{
    *state = *state * 1664525U + 1013904223U;
    return (*state >> 8) % sides;
}

/* Rolls on the groove's own keys, some of them on our own strokes' very frames. */
static void strike_pads(const uint32_t seed)
{
    uint32_t state = seed;
    static const int keys[] = {KICK, SNARE, CRASH, 42, 46, 60};
    static bool held[6];
    memset(held, 0, sizeof held);
    pads.count = 0;
    for (int64_t frame = 0; frame < 5 * RATE; frame += dice(&state, 3000)) {
        const uint32_t pad = dice(&state, 6);
        const int64_t on_ours = own.events[dice(&state, (uint32_t)own.count)].frame;
        frame = on_ours > frame && on_ours < frame + 3000 ? on_ours : frame;
        add(&pads, frame, held[pad] ? 0x89 : 0x99, keys[pad], held[pad] ? 0 : 1 + (int)pad);
        held[pad] = !held[pad];
    }
    for (int pad = 0; pad < 6; ++pad) {
        if (held[pad]) {
            add(&pads, 5 * RATE + 4000 + pad, 0x89, keys[pad], 0);
        }
    }
}

static void pads_and_groove_are_both_heard_on_the_same_keys(void)
{
    static const uint32_t blocks[] = {64, 480, 4000};
    hear_own();
    for (uint32_t seed = 1; seed <= 12; ++seed) {
        check_case("seed %u", seed);
        strike_pads(seed);
        begin(1.0f);
        play(6 * RATE, blocks[seed % 3], false);
        check_both_are_heard();
    }
}

static void input_that_comes_unsorted_goes_on_in_order(void)
{
    hear_own();
    for (uint32_t seed = 20; seed <= 24; ++seed) {
        check_case("seed %u", seed);
        strike_pads(seed);
        for (int i = 1; i < pads.count; ++i) { /* those at one frame would swap */
            if (pads.events[i].frame <= pads.events[i - 1].frame) {
                pads.events[i].frame = pads.events[i - 1].frame + 1;
            }
        }
        begin(1.0f);
        play(6 * RATE, 8000, true);
        check_both_are_heard();
    }
}

/* A position at the block's beginning that stands behind notes is of the beginning. */
static void a_position_behind_later_notes_counts_from_its_own_frame(void)
{
    hear_own();
    host_play_exactly(host);
    host_reset(host);
    heard.count = 0;
    now = 0;
    send(4000, (const uint8_t[]){0x90, 20, 1}, 3);
    host_send_position(host, (HostPosition){.speed = 1.0f,
                                            .tempo = 120.0f,
                                            .beats_per_bar = 4.0f,
                                            .beat_unit = 4,
                                            .has_place = true});
    run(4096);
    int same = 0;
    for (int i = 0; i < own.count && own.events[i].frame < 4096; ++i) {
        same += is_on(&own.events[i]);
        CHECK(!is_on(&own.events[i]) || begun_at(&heard, &own.events[i]) == 1);
    }
    CHECK(same >= 2);
    CHECK_INT(heard.events[heard.count - 1].frame, 4000);
}

/* The two cases that matter most, written out. */
static void a_held_pad_outlasts_our_note_on_its_key(void)
{
    hear_own();
    CHECK(holds(&own, DRUMS, KICK, 0));
    pads.count = 0;
    begin(1.0f);
    add(&pads, 0, 0x99, KICK, 99);
    add(&pads, 2 * RATE - 100, 0x89, KICK, 5);
    play(2 * RATE, 512, false);
    CHECK(holds(&heard, DRUMS, KICK, 2 * RATE - 101));
    CHECK(!holds(&heard, DRUMS, KICK, 2 * RATE - 100));
    CHECK_INT(notes_that_overlap(), 0);
}

static void a_pad_let_go_leaves_our_note_sounding(void)
{
    hear_own();
    pads.count = 0;
    begin(1.0f);
    add(&pads, 10, 0x99, KICK, 99);
    add(&pads, 20, 0x89, KICK, 0);
    play(RATE / 2, 512, false);
    CHECK(holds(&heard, DRUMS, KICK, 20));
    for (int64_t frame = 0; frame < RATE / 2; frame += 100) {
        check_case("frame %d", (int)frame);
        CHECK_INT(holds(&heard, DRUMS, KICK, frame), holds(&own, DRUMS, KICK, frame));
    }
}

/* Lengths and kinds as in MIDI 1.0's tables of messages. */
static void all_other_midi_goes_through_as_it_came(void)
{
    static const Event messages[] = {
        {0, 3, {0xB9, 4, 90}},
        {1, 3, {0xA9, 36, 127}},
        {2, 3, {0xE0, 1, 64}},
        {3, 2, {0xC9, 12}},
        {4, 2, {0xD3, 100}},
        {5, 3, {0xF2, 1, 2}},
        {6, 1, {0xF8}},
        {7, 1, {0xFA}},
        {8, 4, {0xF0, 1, 2, 0xF7}},
        {9, 9, {0xF0, 1, 2, 3, 4, 5, 6, 7, 0xF7}},
        {10, 3, {0x85, 36, 64}},
    };
    enum { MESSAGES = sizeof messages / sizeof *messages };
    begin(0.0f);
    for (int i = 0; i < MESSAGES; ++i) {
        send(messages[i].frame, messages[i].bytes, messages[i].size);
    }
    run(64);
    CHECK_INT(heard.count, MESSAGES);
    for (int i = 0; i < MESSAGES; ++i) {
        check_case("message %d", i);
        CHECK_INT(heard.events[i].frame, messages[i].frame);
        CHECK_INT(heard.events[i].size, messages[i].size);
        CHECK(!memcmp(heard.events[i].bytes, messages[i].bytes, messages[i].size));
    }
}

static void what_is_no_whole_message_is_left_out(void)
{
    static const Event broken[] = {
        {0, 0, {0}},          {0, 1, {0x99}},           {0, 2, {0x99, 36}},
        {0, 3, {36, 36, 36}}, {0, 3, {0x99, 200, 1}},   {0, 3, {0x99, 36, 200}},
        {0, 3, {0xF0, 1, 2}}, {0, 4, {0x99, 36, 1, 1}}, {0, 3, {0xF0, 0x90, 0xF7}},
        {0, 1, {0xF4}},       {0, 2, {0xF8, 1}},        {0, 1, {0xF7}},
    };
    begin(0.0f);
    for (size_t i = 0; i < sizeof broken / sizeof *broken; ++i) {
        send(0, broken[i].bytes, broken[i].size);
    }
    run(64);
    CHECK_INT(heard.count, 0);
}

/* midi:MidiEvent of the LV2 specification: a note-on of velocity 0 is to be sent as the
   note-off that it means. */
static void a_note_of_velocity_0_goes_on_as_an_end(void)
{
    begin(0.0f);
    send(3, (const uint8_t[]){0x93, 50, 90}, 3);
    send(9, (const uint8_t[]){0x93, 50, 0}, 3);
    run(64);
    CHECK_INT(heard.count, 2);
    CHECK_INT(heard.events[1].bytes[0], 0x83);
    CHECK_INT(heard.events[1].frame, 9);
}

static void switched_off_nothing_goes_through_but_ends_of_what_did(void)
{
    begin(0.0f);
    send(0, (const uint8_t[]){0x90, 50, 90}, 3);
    run(64);
    CHECK_INT(heard.count, 1);
    set("through", 0.0f);
    send(0, (const uint8_t[]){0x90, 51, 90}, 3);
    send(1, (const uint8_t[]){0xB0, 4, 90}, 3);
    send(2, (const uint8_t[]){0x80, 51, 0}, 3);
    send(3, (const uint8_t[]){0x80, 50, 0}, 3);
    run(64);
    CHECK_INT(heard.count, 2);
    CHECK_INT(heard.events[1].bytes[0], 0x80);
    CHECK_INT(heard.events[1].bytes[1], 50);
    send(0, (const uint8_t[]){0x90, 52, 90}, 3);
    run(64);
    set("through", 1.0f);
    send(0, (const uint8_t[]){0x80, 52, 0}, 3); /* of one that didn't */
    run(64);
    CHECK_INT(heard.count, 2);
}

/* lv2:enabled: a plugin that is off lets its input by. */
static void switched_off_as_a_whole_it_still_lets_midi_by(void)
{
    begin(1.0f);
    set("enabled", 0.0f);
    send(5, (const uint8_t[]){0x90, 50, 90}, 3);
    run(64);
    CHECK_INT(heard.count, 1);
    CHECK_INT(heard.events[0].frame, 5);
}

static int told_notes(void)
{
    int count = 0;
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(host), event) {
        LV2_URID property = 0;
        const LV2_Atom* value = NULL;
        lv2_atom_object_get((const LV2_Atom_Object*)&event->body, uris.patch_property, &value, 0);
        property = value ? ((const LV2_Atom_URID*)value)->body : 0;
        count += property == uris.fl_noteIn;
    }
    return count;
}

static void notes_that_keys_are_learned_from_are_used_up_with_their_ends(void)
{
    begin(0.0f);
    ask(uris.fl_learning);
    send(1, (const uint8_t[]){0x99, 50, 90}, 3);
    send(2, (const uint8_t[]){0xB9, 4, 90}, 3);
    run(64);
    CHECK_INT(told_notes(), 1);
    CHECK_INT(heard.count, 1); /* the pedal is nobody's key */
    ask(uris.fl_place);
    send(1, (const uint8_t[]){0x89, 50, 0}, 3);
    send(2, (const uint8_t[]){0x99, 51, 90}, 3);
    run(64);
    CHECK_INT(told_notes(), 0);
    CHECK_INT(heard.count, 2);
    CHECK_INT(heard.events[1].bytes[1], 51);
    check_case("a window that is gone");
    ask(uris.fl_learning);
    for (int i = 0; i < 4 * RATE / 4800; ++i) {
        run(4800);
    }
    send(0, (const uint8_t[]){0x99, 52, 90}, 3);
    run(64);
    CHECK_INT(heard.count, 3);
}

/* MIDI 1.0, channel mode messages: 123 ends all notes of its channel. */
static void after_all_notes_off_nobody_holds_a_key_any_more(void)
{
    hear_own();
    begin(1.0f);
    pads.count = 0;
    add(&pads, 0, 0x99, KICK, 99);
    add(&pads, 10, 0xB9, 123, 0);
    play(RATE / 4, 512, false);
    CHECK(!holds(&heard, DRUMS, KICK, RATE / 4 - 1)); /* our note's own end came */
}

/* Rooms of 8 bytes to some messages: what begins is ended all the same. */
static void with_little_room_no_note_is_left_sounding(void)
{
    static const uint32_t rooms[] = {0, 8, 16, 31, 32, 40, 64, 88, 136, 400, 65536};
    hear_own();
    for (uint32_t seed = 40; seed < 60; ++seed) {
        uint32_t state = seed;
        check_case("seed %u", seed);
        strike_pads(seed);
        begin(1.0f);
        for (int next = 0; now < 5 * RATE + 5000;) {
            const uint32_t block = 1 + dice(&state, 700);
            host_set_room(host, rooms[dice(&state, sizeof rooms / sizeof *rooms)]);
            for (; next < pads.count && pads.events[next].frame < now + block; ++next) {
                send(pads.events[next].frame - now, pads.events[next].bytes, 3);
            }
            run(block);
        }
        host_set_room(host, 65536);
        set("enabled", 0.0f);
        run(64);
        run(64);
        CHECK(heard.count > 20);
        CHECK_INT(still_sounding(), 0);
        CHECK_INT(notes_that_overlap(), 0);
        CHECK_INT(misplaced, 0);
    }
}

static void what_begins_leaves_room_for_the_ends(void)
{
    begin(0.0f);
    host_set_room(host, 8 + 4 * 24); /* a sequence's head, four note messages */
    send(0, (const uint8_t[]){0x90, 50, 90}, 3);
    for (uint8_t value = 1; value <= 5; ++value) {
        send(value, (const uint8_t[]){0xB0, 4, value}, 3);
    }
    send(9, (const uint8_t[]){0x80, 50, 0}, 3);
    run(64);
    CHECK_INT(heard.count, 4);
    CHECK(is_off(&heard.events[heard.count - 1]));
    CHECK_INT(heard.events[heard.count - 1].frame, 9);
}

/* More events than are sorted at once, and held keys without end. */
static void a_flood_is_bounded_and_leaves_nothing_sounding(void)
{
    begin(1.0f);
    for (int i = 0; i < 2048; ++i) {
        send(2047 - i, (const uint8_t[]){(uint8_t)(0x90 | i / 128), (uint8_t)(i % 128), 1}, 3);
    }
    run(4096);
    CHECK(heard.count > 1300); /* half of what there is room for: the ends are owed */
    set("enabled", 0.0f);
    for (int i = 0; i < 2048; ++i) {
        send(2047 - i, (const uint8_t[]){(uint8_t)(0x80 | i / 128), (uint8_t)(i % 128), 1}, 3);
    }
    run(4096);
    run(4096);
    CHECK_INT(still_sounding(), 0);
    CHECK_INT(notes_that_overlap(), 0);
    CHECK_INT(misplaced, 0);
}

int main(void)
{
    host = bundle_host(RATE);
    LV2_URID_Map map = {host, (LV2_URID(*)(LV2_URID_Map_Handle, const char*))host_urid};
    uris = uris_map(&map);
    RUN(pads_and_groove_are_both_heard_on_the_same_keys);
    RUN(input_that_comes_unsorted_goes_on_in_order);
    RUN(a_position_behind_later_notes_counts_from_its_own_frame);
    RUN(a_held_pad_outlasts_our_note_on_its_key);
    RUN(a_pad_let_go_leaves_our_note_sounding);
    RUN(all_other_midi_goes_through_as_it_came);
    RUN(what_is_no_whole_message_is_left_out);
    RUN(a_note_of_velocity_0_goes_on_as_an_end);
    RUN(switched_off_nothing_goes_through_but_ends_of_what_did);
    RUN(switched_off_as_a_whole_it_still_lets_midi_by);
    RUN(notes_that_keys_are_learned_from_are_used_up_with_their_ends);
    RUN(after_all_notes_off_nobody_holds_a_key_any_more);
    RUN(with_little_room_no_note_is_left_sounding);
    RUN(what_begins_leaves_room_for_the_ends);
    RUN(a_flood_is_bounded_and_leaves_nothing_sounding);
    host_close(host);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_through_kinds.c - which MIDI goes through, and which is used up or switched off. */
#include "pads.h"

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
        const LV2_Atom* note = NULL;
        lv2_atom_object_get((const LV2_Atom_Object*)&event->body, uris.fl_noteIn, &note, 0);
        count += note != NULL;
    }
    return count;
}

static void notes_that_keys_are_learned_from_are_used_up_with_their_ends(void)
{
    begin(0.0f);
    ask(uris.fl_noteIn);
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
    ask(uris.fl_noteIn);
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
    add(&pads, 0, 0x99, CRASH, 99);
    add(&pads, 10, 0xB9, 123, 0);
    play(RATE / 2, 512, false);
    CHECK(holds(&own, DRUMS, CRASH, 1000) || holds(&own, DRUMS, CRASH, 3000));
    CHECK(!holds(&heard, DRUMS, CRASH, RATE / 2 - 1)); /* our note's own end came */
}

int main(void)
{
    open_pads();
    RUN(all_other_midi_goes_through_as_it_came);
    RUN(what_is_no_whole_message_is_left_out);
    RUN(a_note_of_velocity_0_goes_on_as_an_end);
    RUN(switched_off_nothing_goes_through_but_ends_of_what_did);
    RUN(switched_off_as_a_whole_it_still_lets_midi_by);
    RUN(notes_that_keys_are_learned_from_are_used_up_with_their_ends);
    RUN(after_all_notes_off_nobody_holds_a_key_any_more);
    host_close(host);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_notify.c - what the plugin tells of itself when it is asked, and what it
   does where the host gives it too little room. */
#include "../help/check.h"
#include "../help/exact.h"
#include "played.h"

#define FL "urn:fourlimb:terms#"

static Host* host;
static Played played; /* too large for a stack */

static void ask(void)
{
    LV2_Atom_Forge* const forge = host_input(host);
    LV2_Atom_Forge_Frame object;
    lv2_atom_forge_frame_time(forge, 0);
    lv2_atom_forge_object(forge, &object, 0, host_urid(host, FL "Look"));
    lv2_atom_forge_pop(forge, &object);
}

/* The value of a property that the last block told in a message, or NULL. */
static const LV2_Atom* told(const char* const property)
{
    const LV2_Atom* found = NULL;
    LV2_ATOM_SEQUENCE_FOREACH (host_notify(host), event) {
        const LV2_Atom_Object* const object = (const LV2_Atom_Object*)&event->body;
        if (object->body.otype == host_urid(host, FL "Message")) {
            lv2_atom_object_get(object, host_urid(host, property), &found, 0);
        }
    }
    return found;
}

static int64_t told_dropped(void)
{
    const LV2_Atom* const value = told(FL "droppedStrokes");
    int64_t number = -1;
    if (value && value->type == host_urid(host, LV2_ATOM__Long)) {
        memcpy(&number, value + 1, sizeof number);
    }
    return number;
}

static void unasked_it_tells_nothing(void)
{
    play_from_the_top(host, &played, BLOCK);
    CHECK(!told(FL "droppedStrokes"));
    CHECK(!told(FL "bankMessages"));
}

static void looked_on_it_tells_how_many_strokes_were_dropped(void)
{
    play_from_the_top(host, &played, BLOCK);
    ask();
    run_block(host, &played, BLOCK);
    CHECK_INT(told_dropped(), 0);
}

static void looked_on_it_tells_that_the_bank_is_well(void)
{
    ask();
    run_block(host, &played, BLOCK);
    const LV2_Atom* const value = told(FL "bankMessages");
    CHECK(value && value->type == host_urid(host, LV2_ATOM__String));
    CHECK_TEXT(value ? (const char*)(value + 1) : NULL, "");
}

/* Who asks is told that the session has nothing of its own: a tuple, LV2 Atom. */
static void looked_on_it_tells_the_sessions_own_entries(void)
{
    ask();
    run_block(host, &played, BLOCK);
    const LV2_Atom* const value = told(FL "sessionEntries");
    CHECK(value && value->type == host_urid(host, LV2_ATOM__Tuple));
    run_block(host, &played, BLOCK);
    CHECK(!told(FL "sessionEntries"));
}

static void it_answers_once(void)
{
    ask();
    run_block(host, &played, BLOCK);
    CHECK(told(FL "bankMessages"));
    run_block(host, &played, BLOCK);
    CHECK(!told(FL "bankMessages"));
    CHECK(!told(FL "droppedStrokes"));
}

enum { EVENT_BYTES = 24 }; /* one MIDI message in a sequence, atom head included */

static void without_room_it_drops_strokes_and_tells_how_many(void)
{
    play_from_the_top(host, &played, 0);
    host_set_room(host, sizeof(LV2_Atom_Sequence_Body) + EVENT_BYTES);
    send_transport(host, from_the_top);
    run_frames(host, &played, BAR_FRAMES);
    ask();
    run_block(host, &played, BLOCK);
    CHECK(told_dropped() > 0);
    host_set_room(host, 65536);
    play_from_the_top(host, &played, BLOCK); /* counted since activation */
    ask();
    run_block(host, &played, BLOCK);
    CHECK_INT(told_dropped(), 0);
}

/* Whatever room there is: what is written fits, and what was begun is ended. */
static void with_any_room_every_note_that_begins_is_ended(void)
{
    for (uint32_t events = 0; events <= 8; ++events) {
        const uint32_t room = (uint32_t)sizeof(LV2_Atom_Sequence_Body) + events * EVENT_BYTES;
        check_case("room for %u events", events);
        play_from_the_top(host, &played, 0);
        host_set_room(host, room);
        send_transport(host, from_the_top);
        run_frames(host, &played, BAR_FRAMES);
        CHECK_INT(played.wrong, 0);
        stop(host, played.frames);
        run_frames(host, &played, 40 * BLOCK);
        CHECK_INT(sounding(&played), 0);
        CHECK(events < 2 || played.count > 0);
    }
    host_set_room(host, 65536);
}

static void set(const char* const symbol, const float value)
{
    char why[HOST_WHY_ROOM];
    CHECK(host_set(host, symbol, value, why));
}

enum { FOUR_SHOTS = 1, SHOT_LIMBS = 3 }; /* a turnaround: crash, snare and kick on each beat */

/* Starts and stops inside one block, so that nothing can be put off to the next. */
static size_t notes_of_a_moment(const uint32_t events)
{
    play_from_the_top(host, &played, 0);
    host_set_room(host, (uint32_t)sizeof(LV2_Atom_Sequence_Body) + events * EVENT_BYTES);
    send_transport(host, from_the_top);
    stop_at(host, BLOCK / 2, BLOCK / 2);
    run_block(host, &played, BLOCK);
    return notes_from(&played, 0);
}

static void no_note_is_begun_that_the_same_block_has_no_room_to_end(void)
{
    host_play_exactly(host);
    set("turnaround", FOUR_SHOTS);
    set("phrase_bars", 1.0f);
    for (uint32_t events = 0; events <= 2 * SHOT_LIMBS + 1; ++events) {
        check_case("room for %u events", events);
        const size_t notes = notes_of_a_moment(events);
        CHECK_INT(sounding(&played), 0);
        CHECK_INT(notes, events / 2 < SHOT_LIMBS ? events / 2 : SHOT_LIMBS);
    }
    host_set_room(host, 65536);
    host_play_exactly(host);
}

static void room_for_no_sequence_at_all_does_no_harm(void)
{
    play_from_the_top(host, &played, 0);
    for (uint32_t room = 0; room < sizeof(LV2_Atom_Sequence_Body); ++room) {
        host_set_room(host, room);
        send_transport(host, from_the_top);
        host_run(host, BLOCK);
        CHECK_INT(host_midi(host)->atom.size, 0);
    }
    host_set_room(host, 65536);
}

int main(void)
{
    host = bundle_host(RATE);
    RUN(unasked_it_tells_nothing);
    RUN(looked_on_it_tells_how_many_strokes_were_dropped);
    RUN(looked_on_it_tells_that_the_bank_is_well);
    RUN(looked_on_it_tells_the_sessions_own_entries);
    RUN(it_answers_once);
    RUN(without_room_it_drops_strokes_and_tells_how_many);
    RUN(with_any_room_every_note_that_begins_is_ended);
    RUN(no_note_is_begun_that_the_same_block_has_no_room_to_end);
    RUN(room_for_no_sequence_at_all_does_no_harm);
    host_close(host);
    return tests_end();
}

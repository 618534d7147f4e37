// SPDX-License-Identifier: ISC
/* test_through_room.c - notes that go through where a host leaves little room. */
#include "pads.h"

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
    open_pads();
    RUN(with_little_room_no_note_is_left_sounding);
    RUN(what_begins_leaves_room_for_the_ends);
    RUN(a_flood_is_bounded_and_leaves_nothing_sounding);
    host_close(host);
    return tests_end();
}

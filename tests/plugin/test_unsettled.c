// SPDX-License-Identifier: ISC
/* test_unsettled.c - a host that tells another tempo or place every eight frames: nothing is
   lost by what goes on, and after jumps it plays from the last place. */
#include "../help/check.h"
#include "played.h"

#include <stdlib.h>

enum { SMALL = 64, STEP = 8, FRAMES = 2 * BAR_FRAMES };

static Host* host;
static Played played, steady; /* too large for a stack */

static void begin(Played* const into)
{
    into->frames = 0;
    into->count = into->lost = into->wrong = 0;
    host_reset(host);
}

/* Two bars; in each block a tempo every `step` frames, two that hardly differ by turns. */
static void play_tempi(Played* const into, const uint32_t step)
{
    begin(into);
    for (int64_t frame = 0; frame < FRAMES; frame += SMALL) {
        for (uint32_t at = 0; at < SMALL; at += step) {
            Transport transport = from_the_top;
            transport.at = at;
            transport.frame = frame + at;
            transport.tempo = at / STEP % 2 ? 120.01 : 120.0;
            send_transport(host, transport);
        }
        run_block(host, into, SMALL);
    }
}

static size_t next_note(const Played* const all, size_t from)
{
    while (from < all->count && !is_note_on(all->events[from])) {
        ++from;
    }
    return from;
}

static void tempi_every_eight_frames_lose_no_stroke_and_none_comes_a_block_late(void)
{
    char why[HOST_WHY_ROOM];
    CHECK(host_set(host, "liberty", 0.0f, why));
    play_tempi(&steady, SMALL);
    play_tempi(&played, STEP);
    CHECK_INT(played.wrong, 0);
    CHECK(notes_from(&steady, 0) > 20);
    CHECK_INT(notes_from(&played, 0), notes_from(&steady, 0));
    size_t there = next_note(&steady, 0);
    for (size_t i = next_note(&played, 0); i < played.count && there < steady.count;
         i = next_note(&played, i + 1), there = next_note(&steady, there + 1)) {
        CHECK_INT(played.events[i].bytes[1], steady.events[there].bytes[1]);
        CHECK_NEAR(played.events[i].frame, steady.events[there].frame, SMALL);
    }
}

/* At the end of a block to bar 4, by so many places before. */
static void play_from_bar_4(Played* const into, const int jumps)
{
    begin(into);
    for (int i = SMALL / STEP - 1 - jumps; i < SMALL / STEP; ++i) {
        Transport transport = from_the_top;
        transport.at = (int64_t)i * STEP;
        transport.frame = (int64_t)QUARTER_FRAMES * (i == SMALL / STEP - 1 ? 16 : 9 - i);
        send_transport(host, transport);
    }
    while (into->frames < FRAMES) {
        run_block(host, into, SMALL);
    }
}

/* Strokes of the places before are owed where they are heard, in the first block. */
static void after_jumps_every_eight_frames_it_plays_from_the_last_place(void)
{
    play_from_bar_4(&steady, 0);
    play_from_bar_4(&played, 7);
    CHECK_INT(played.wrong, 0);
    CHECK(notes_from(&steady, SMALL) > 20);
    CHECK_INT(notes_from(&played, SMALL), notes_from(&steady, SMALL));
    for (size_t i = 1; i <= played.count && i <= steady.count; ++i) {
        const Event a = played.events[played.count - i], b = steady.events[steady.count - i];
        if (b.frame >= SMALL && is_note_on(b)) {
            CHECK_INT(a.frame, b.frame);
            CHECK_INT(a.bytes[1], b.bytes[1]);
            CHECK_INT(a.bytes[2], b.bytes[2]);
        }
    }
}

int main(void)
{
    host = bundle_host(RATE);
    RUN(tempi_every_eight_frames_lose_no_stroke_and_none_comes_a_block_late);
    RUN(after_jumps_every_eight_frames_it_plays_from_the_last_place);
    host_close(host);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_through.c - what a drummer plays in is heard among our own notes. */
#include "pads.h"

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
    int64_t end = 2 * RATE - 100; /* where our note has ended already */
    while (end > 0 && (holds(&own, DRUMS, SNARE, end) || holds(&own, DRUMS, SNARE, end - 1))) {
        --end;
    }
    bool any = false;
    for (int64_t frame = 0; frame < end; frame += 100) {
        any |= holds(&own, DRUMS, SNARE, frame);
    }
    CHECK(any);
    pads.count = 0;
    begin(1.0f);
    add(&pads, 0, 0x99, SNARE, 99);
    add(&pads, end, 0x89, SNARE, 5);
    play(2 * RATE, 512, false);
    CHECK(holds(&heard, DRUMS, SNARE, end - 1));
    CHECK(!holds(&heard, DRUMS, SNARE, end));
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

int main(void)
{
    open_pads();
    RUN(pads_and_groove_are_both_heard_on_the_same_keys);
    RUN(input_that_comes_unsorted_goes_on_in_order);
    RUN(a_position_behind_later_notes_counts_from_its_own_frame);
    RUN(a_held_pad_outlasts_our_note_on_its_key);
    RUN(a_pad_let_go_leaves_our_note_sounding);
    host_close(host);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* Notes begun are ended, room is kept for their ends, order is kept.  The rules
   for messages are midi:MidiEvent's of the LV2 specification. */
#include "../../plugin/engine/play/scheduler.h"
#include "../help/check.h"

#include <string.h>

static const Kit kit = {.id = 1, .notes = {36, 35, 38, 37, 42}};

/* A clock on which a sixteenth lasts 6000 frames. */
static Clock slow_clock(void)
{
    Clock clock = {.now = 0};
    clock_anchor(&clock, 0.0, (double)(TICKS_PER_QUARTER / 4) / 6000.0);
    return clock;
}

static Hit at_sixteenth(const int sixteenth, const Limb limb, const Voice voice,
                        const uint8_t velocity)
{
    const int64_t tick = sixteenth * (TICKS_PER_QUARTER / 4);
    return (Hit){.tick = tick,
                 .written = tick,
                 .limb = (uint8_t)limb,
                 .voice = (uint8_t)voice,
                 .level = LEVEL_NORMAL,
                 .velocity = velocity};
}

static void play(Scheduler* const scheduler, const HitList* const hits, const int64_t begin,
                 const int64_t end, const uint32_t room, MidiList* const list)
{
    const Clock clock = slow_clock();
    const Output output = {&kit, 9, 9, false};
    list->count = 0;
    list->room = room;
    scheduler_play(scheduler, hits, output, &clock, (Stretch){begin, end, 0}, list);
}

static void a_stroke_is_a_note_on_and_its_note_off_follows(void)
{
    static Scheduler scheduler;
    static HitList hits;
    static MidiList list;
    hits.count = 1;
    hits.hits[0] = at_sixteenth(1, RIGHT_FOOT, VOICE_KICK, 88);
    play(&scheduler, &hits, 0, 40000, 100, &list);
    CHECK_INT(list.count, 2);
    CHECK_INT(list.messages[0].frame, 6000);
    CHECK_INT(list.messages[0].bytes[0], 0x99);
    CHECK_INT(list.messages[0].bytes[1], 36);
    CHECK(list.messages[0].bytes[2] > 0 && list.messages[0].bytes[2] < 128);
    CHECK_INT(list.messages[1].bytes[0], 0x89);
    CHECK_INT(list.messages[1].frame, 6000 + 24000); /* a quarter note */
    CHECK_INT(scheduler.count, 0);
}

/* The frame at which the note of a key that begins at a frame ends; -1 if it doesn't. */
static int64_t end_of(const MidiList* const list, const uint8_t key, const uint32_t begin)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        const MidiMessage message = list->messages[i];
        if (message.bytes[1] == key && message.bytes[0] == 0x89 && message.frame > begin) {
            return message.frame;
        }
    }
    return -1;
}

static void a_note_lasts_until_its_limb_strikes_again_but_no_longer_than_a_quarter(void)
{
    enum { BLOCKS = 4 };
    static const int64_t blocks[BLOCKS] = {80000, 24000, 977, 64};
    for (int block = 0; block < BLOCKS; ++block) {
        static HitList hits, due;
        static MidiList list, part;
        Scheduler scheduler = {.count = 0};
        hits.count = 5;
        hits.hits[0] = at_sixteenth(0, RIGHT_HAND, VOICE_HAT_CLOSED, 88);
        hits.hits[1] = at_sixteenth(0, RIGHT_FOOT, VOICE_KICK, 88);
        hits.hits[2] = at_sixteenth(1, LEFT_HAND, VOICE_SIDE_STICK, 88);
        hits.hits[3] = at_sixteenth(2, RIGHT_HAND, VOICE_SNARE, 88);
        hits.hits[4] = at_sixteenth(3, RIGHT_FOOT, VOICE_KICK, 88);
        list.count = 0;
        for (int64_t at = 0, next = 0; at < 80000; at += blocks[block]) {
            due.count = 0;
            for (; next < hits.count &&
                   hits.hits[next].tick / (TICKS_PER_QUARTER / 4) * 6000 < at + blocks[block];
                 ++next) {
                due.hits[due.count++] = hits.hits[next];
            }
            play(&scheduler, &due, at, at + blocks[block], 100, &part);
            for (uint32_t i = 0; i < part.count; ++i) {
                list.messages[list.count] = part.messages[i];
                list.messages[list.count++].frame += (uint32_t)at;
            }
        }
        check_case("blocks of %d frames", (int)blocks[block]);
        CHECK_INT(list.count, 10);
        CHECK_INT(end_of(&list, 42, 0), 12000);         /* the hand goes to the snare */
        CHECK_INT(end_of(&list, 36, 0), 18000);         /* the foot strikes again */
        CHECK_INT(end_of(&list, 37, 0), 6000 + 24000);  /* nothing more of that hand */
        CHECK_INT(end_of(&list, 38, 0), 12000 + 24000); /* nor of this one */
        CHECK_INT(end_of(&list, 36, 18000), 18000 + 24000);
    }
}

/* A crash, then the hand that struck it grips it. */
static void choke(const Kit* const with, MidiList* const list)
{
    static HitList hits;
    const Clock clock = slow_clock();
    const Output output = {with, 9, 9, false};
    Scheduler scheduler = {.count = 0};
    hits.count = 2;
    hits.hits[0] = at_sixteenth(0, RIGHT_HAND, VOICE_CRASH, 100);
    hits.hits[1] = at_sixteenth(2, RIGHT_HAND, VOICE_CHOKE, 88);
    list->count = 0;
    list->room = 100;
    scheduler_play(&scheduler, &hits, output, &clock, (Stretch){0, 60000, 0}, list);
    CHECK_INT(scheduler.count, 0);
}

static void a_choke_ends_the_cymbal_and_strikes_its_key_if_the_kit_has_one(void)
{
    static MidiList list;
    Kit own = {.notes = {[VOICE_CRASH] = 49, [VOICE_CHOKE] = KIT_NO_KEY}};
    choke(&own, &list);
    check_case("a kit without a key for it");
    CHECK_INT(list.count, 2);
    CHECK_INT(list.messages[1].bytes[0], 0x89);
    CHECK_INT(list.messages[1].bytes[1], 49);
    CHECK_INT(list.messages[1].frame, 12000);
    own.notes[VOICE_CHOKE] = 84;
    choke(&own, &list);
    check_case("one with key 84");
    CHECK_INT(list.count, 4);
    CHECK_INT(list.messages[1].bytes[1], 49);
    CHECK_INT(list.messages[1].frame, 12000);
    CHECK_INT(list.messages[2].bytes[0], 0x99);
    CHECK_INT(list.messages[2].bytes[1], 84);
    CHECK_INT(list.messages[2].frame, 12000);
}

static void two_feet_on_one_key_at_once_are_one_note_as_loud_as_the_louder(void)
{
    static Scheduler scheduler;
    static HitList hits;
    static MidiList list, alone;
    hits.count = 2;
    hits.hits[0] = at_sixteenth(1, RIGHT_FOOT, VOICE_KICK, 36);
    hits.hits[1] = at_sixteenth(1, LEFT_FOOT, VOICE_KICK, 116);
    play(&scheduler, &hits, 0, 40000, 100, &list);
    hits.count = 1;
    hits.hits[0] = hits.hits[1];
    play(&scheduler, &hits, 0, 40000, 100, &alone);
    CHECK_INT(list.count, 2);
    CHECK_INT(list.messages[0].bytes[2], alone.messages[0].bytes[2]);
}

static void a_key_struck_again_is_ended_first(void)
{
    static Scheduler scheduler;
    static HitList hits;
    static MidiList list;
    hits.count = 2;
    hits.hits[0] = at_sixteenth(0, RIGHT_FOOT, VOICE_KICK, 88);
    hits.hits[1] = hits.hits[0];
    hits.hits[1].tick += TICKS_PER_QUARTER / 100; /* 240 frames: still sounding */
    play(&scheduler, &hits, 0, 40000, 100, &list);
    CHECK_INT(list.count, 4);
    CHECK_INT(list.messages[1].bytes[0], 0x89);
    CHECK_INT(list.messages[1].frame, 240);
    CHECK_INT(list.messages[2].bytes[0], 0x99);
    CHECK_INT(list.messages[2].frame, 240);
}

/* Every room from none to enough: whole notes or nothing, and all of them end. */
static void whatever_the_room_every_note_on_gets_its_note_off(void)
{
    static HitList hits;
    static MidiList list;
    hits.count = 8;
    for (int i = 0; i < 8; ++i) {
        hits.hits[i] = at_sixteenth(i / 2, i % 2 ? RIGHT_FOOT : LEFT_HAND,
                                    i % 2 ? VOICE_KICK : VOICE_SNARE, 88);
    }
    for (uint32_t room = 0; room <= 20; ++room) {
        Scheduler scheduler = {.count = 0};
        check_case("room for %u messages", room);
        play(&scheduler, &hits, 0, 50000, room, &list);
        uint32_t begun = 0, ended = 0;
        for (uint32_t i = 0; i < list.count; ++i) {
            begun += list.messages[i].bytes[0] == 0x99;
            ended += list.messages[i].bytes[0] == 0x89;
        }
        CHECK(list.count <= room);
        CHECK_INT(begun, ended);
        CHECK_INT(begun + scheduler.dropped, 8);
        CHECK_INT(begun, room >= 16 ? 8 : room / 2);
    }
}

static void note_offs_without_room_come_as_soon_as_there_is_some(void)
{
    static Scheduler scheduler;
    static HitList hits;
    static MidiList list;
    hits.count = 1;
    hits.hits[0] = at_sixteenth(0, LEFT_HAND, VOICE_SNARE, 88);
    play(&scheduler, &hits, 0, 64, 100, &list);
    CHECK_INT(scheduler.count, 1);
    list.count = 0;
    list.room = 0;
    scheduler_silence(&scheduler, 10, &list);
    CHECK_INT(scheduler.count, 1);
    hits.count = 0;
    play(&scheduler, &hits, 128, 192, 1, &list);
    CHECK_INT(list.count, 1);
    CHECK_INT(list.messages[0].frame, 0);
    CHECK_INT(scheduler.count, 0);
}

static void messages_stand_in_order_of_time(void)
{
    static Scheduler scheduler;
    static HitList hits;
    static MidiList list;
    hits.count = 64;
    for (int i = 0; i < 64; ++i) {
        hits.hits[i] = at_sixteenth(0, (Limb)(i % 4), (Voice)(i % 5), 88);
        hits.hits[i].tick = i * TICKS_PER_QUARTER / 50;
    }
    play(&scheduler, &hits, 0, 100000, 500, &list);
    for (uint32_t i = 1; i < list.count; ++i) {
        check_case("message %u", i);
        CHECK(list.messages[i].frame >= list.messages[i - 1].frame);
    }
    CHECK_INT(list.count, 128);
}

int main(void)
{
    RUN(a_stroke_is_a_note_on_and_its_note_off_follows);
    RUN(a_note_lasts_until_its_limb_strikes_again_but_no_longer_than_a_quarter);
    RUN(a_choke_ends_the_cymbal_and_strikes_its_key_if_the_kit_has_one);
    RUN(two_feet_on_one_key_at_once_are_one_note_as_loud_as_the_louder);
    RUN(a_key_struck_again_is_ended_first);
    RUN(whatever_the_room_every_note_on_gets_its_note_off);
    RUN(note_offs_without_room_come_as_soon_as_there_is_some);
    RUN(messages_stand_in_order_of_time);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_plugin.c - the built plugin as a host has it: what each control does to
   what is heard. */
#include "../../plugin/bank/bank.h"
#include "../help/check.h"
#include "../help/exact.h"
#include "played.h"

static Host* host;
static Host* other;
static Bank* bank;
static Played played, wanted; /* too large for a stack */

/* Keys of General MIDI Level 1: data/gm-percussion.tsv. */
enum { BASS_DRUM_1 = 36, ACOUSTIC_BASS_DRUM = 35, ACOUSTIC_SNARE = 38, CRASH_CYMBAL_1 = 49 };

static void set(Host* const to, const char* const symbol, const float value)
{
    char why[HOST_WHY_ROOM] = "";
    if (!host_set(to, symbol, value, why)) {
        CHECK_TEXT(why, "");
    }
}

static void it_plays_when_the_transport_rolls(void)
{
    host_play_exactly(host);
    play_from_the_top(host, &played, BAR_FRAMES);
    CHECK(begins(&played, 0, BASS_DRUM_1));
    CHECK(begins(&played, 0, CRASH_CYMBAL_1));
    CHECK(begins(&played, QUARTER_FRAMES, ACOUSTIC_SNARE));
    CHECK(begins(&played, 3 * QUARTER_FRAMES, ACOUSTIC_SNARE));
}

static void it_is_silent_when_the_transport_stands(void)
{
    host_play_exactly(host);
    host_reset(host);
    played.count = 0;
    run_frames(host, &played, BAR_FRAMES);
    CHECK_INT(played.count, 0);
    stop(host, 0);
    run_frames(host, &played, BAR_FRAMES);
    CHECK_INT(played.count, 0);
}

static void a_stop_ends_every_note_at_once(void)
{
    host_play_exactly(host);
    play_from_the_top(host, &played, BLOCK);
    CHECK(sounding(&played) > 0);
    const int64_t stopped_at = played.frames;
    stop(host, stopped_at);
    run_frames(host, &played, BAR_FRAMES);
    CHECK_INT(sounding(&played), 0);
    CHECK_INT(notes_from(&played, stopped_at), 0);
    CHECK_INT(played.events[played.count - 1].frame, stopped_at);
}

/* Two bars, switched off for the second half of the first. */
static void play_with_a_pause(void)
{
    play_from_the_top(host, &played, 2 * QUARTER_FRAMES);
    set(host, "enabled", 0.0f);
    run_frames(host, &played, 2 * QUARTER_FRAMES);
    set(host, "enabled", 1.0f);
    run_frames(host, &played, BAR_FRAMES);
}

static void switched_off_it_ends_its_notes_and_is_silent(void)
{
    host_play_exactly(host);
    play_from_the_top(host, &played, BLOCK);
    CHECK(sounding(&played) > 0);
    set(host, "enabled", 0.0f);
    run_frames(host, &played, BAR_FRAMES);
    CHECK_INT(sounding(&played), 0);
    CHECK_INT(notes_from(&played, BLOCK), 0);
    CHECK_INT(played.events[played.count - 1].frame, BLOCK);
}

/* Note-ons from a frame on are the same in both. */
static void check_same_notes(const Played* const got, const Played* const want, const int64_t from)
{
    size_t i = 0, j = 0;
    CHECK_INT(notes_from(got, from), notes_from(want, from));
    while (i < got->count && j < want->count) {
        const Event a = got->events[i];
        const Event b = want->events[j];
        if (!is_note_on(a) || a.frame < from) {
            ++i;
        } else if (!is_note_on(b) || b.frame < from) {
            ++j;
        } else {
            CHECK_INT(a.frame, b.frame);
            CHECK_INT(a.bytes[1], b.bytes[1]);
            CHECK_INT(a.bytes[2], b.bytes[2]);
            ++i;
            ++j;
        }
    }
}

static void switched_on_again_it_goes_on_where_the_song_is(void)
{
    host_play_exactly(host);
    play_from_the_top(host, &wanted, 2 * BAR_FRAMES);
    play_with_a_pause();
    const int64_t again = 4 * QUARTER_FRAMES;
    CHECK(notes_from(&wanted, again) > 0);
    check_same_notes(&played, &wanted, again);
    CHECK_INT(notes_from(&played, 2 * QUARTER_FRAMES), notes_from(&played, again));
}

static const char* const limb_symbols[] = {"right_hand", "left_hand", "right_foot", "left_foot"};
enum { LIMBS = sizeof limb_symbols / sizeof *limb_symbols };

static void only_limb(const int alone)
{
    for (int limb = 0; limb < LIMBS; ++limb) {
        set(host, limb_symbols[limb], limb == alone);
    }
}

/* Notes that begin, by frame and key, as loud as the loudest: one limb's stroke
   on a key hides a softer one on it at the same time. */
typedef struct {
    Event notes[EVENTS_MAX];
    size_t count;
} Heard;

static void hear(Heard* const heard, const Event event)
{
    for (size_t i = heard->count; i-- > 0;) {
        Event* const known = &heard->notes[i];
        if (known->frame == event.frame && known->bytes[1] == event.bytes[1]) {
            known->bytes[2] = known->bytes[2] < event.bytes[2] ? event.bytes[2] : known->bytes[2];
            return;
        }
    }
    if (CHECK(heard->count < EVENTS_MAX)) {
        heard->notes[heard->count++] = event;
    }
}

static void hear_all(Heard* const heard, const Played* const all)
{
    for (size_t i = 0; i < all->count; ++i) {
        if (is_note_on(all->events[i])) {
            hear(heard, all->events[i]);
        }
    }
}

static bool is_heard(const Heard* const heard, const Event event)
{
    for (size_t i = 0; i < heard->count; ++i) {
        const Event known = heard->notes[i];
        if (known.frame == event.frame && !memcmp(known.bytes, event.bytes, 3)) {
            return true;
        }
    }
    return false;
}

/* Four runs with one limb each, heard together, are the run with all limbs. */
static void check_limbs_add_up(const uint32_t groove, const int64_t frames)
{
    static Heard together;
    together.count = 0;
    host_play_exactly(host);
    set(host, "groove", (float)groove);
    set(host, "kit", 2.0f); /* every voice has a key of its own there */
    set(host, "split_feet", 1.0f);
    play_from_the_top(host, &wanted, frames);
    for (int limb = 0; limb < LIMBS; ++limb) {
        only_limb(limb);
        play_from_the_top(host, &played, frames);
        hear_all(&together, &played);
    }
    CHECK_INT(together.count, notes_from(&wanted, 0));
    for (size_t i = 0; i < wanted.count; ++i) {
        CHECK(!is_note_on(wanted.events[i]) || is_heard(&together, wanted.events[i]));
    }
}

static void the_limbs_of_every_groove_add_up_to_it(void)
{
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_GROOVE); ++i) {
        const EntryInfo* const entry = bank_entry(bank, ENTRY_GROOVE, i);
        check_case("%s", entry->label);
        check_limbs_add_up(entry->id, 4 * BAR_FRAMES);
    }
}

static void one_limb_switched_off_leaves_the_others_where_they_were(void)
{
    host_play_exactly(host);
    set(host, "kit", 2.0f);
    play_from_the_top(host, &wanted, 4 * BAR_FRAMES);
    for (int limb = 0; limb < LIMBS; ++limb) {
        only_limb(-1);
        for (int heard = 0; heard < LIMBS; ++heard) {
            set(host, limb_symbols[heard], heard != limb);
        }
        play_from_the_top(host, &played, 4 * BAR_FRAMES);
        check_case("without the %s", limb_symbols[limb]);
        CHECK(notes_from(&played, 0) < notes_from(&wanted, 0));
        for (size_t i = 0; i < played.count; ++i) {
            const Event event = played.events[i];
            CHECK(!is_note_on(event) || begins(&wanted, event.frame, event.bytes[1]));
        }
    }
}

static void all_limbs_switched_off_are_silence(void)
{
    host_play_exactly(host);
    only_limb(-1);
    play_from_the_top(host, &played, 4 * BAR_FRAMES);
    CHECK_INT(played.count, 0);
}

/* General MIDI has its drums on channel 10, which is 9 in a status byte. */
static void it_plays_on_channel_10_by_default_and_on_any_that_is_set(void)
{
    host_play_exactly(host);
    for (int channel = 0; channel <= 16; ++channel) {
        if (channel) {
            set(host, "channel", (float)channel);
        }
        check_case("channel %d", channel);
        play_from_the_top(host, &played, BAR_FRAMES);
        CHECK(played.count > 0);
        for (size_t i = 0; i < played.count; ++i) {
            CHECK_INT(played.events[i].bytes[0] & 0x0F, channel ? channel - 1 : 9);
        }
    }
}

static bool has_key(const Kit* const kit, const uint8_t key)
{
    bool found = false;
    for (int voice = 0; kit && voice < VOICE_COUNT; ++voice) {
        found |= kit->notes[voice] == key;
    }
    return found;
}

static void each_kit_map_plays_its_own_keys(void)
{
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_KIT); ++i) {
        const Kit* const kit = &bank_library(bank)->kits[i];
        host_play_exactly(host);
        set(host, "kit", (float)kit->id);
        play_from_the_top(host, &played, 8 * BAR_FRAMES);
        check_case("kit %u", kit->id);
        CHECK(notes_from(&played, 0) > 0);
        for (size_t n = 0; n < played.count; ++n) {
            CHECK(has_key(kit, played.events[n].bytes[1]));
        }
    }
}

enum { RUNNING_SIXTEENTHS = 50 }; /* feet, right and left by turns */

static void check_feet_keys(const float split, const uint8_t left_key)
{
    host_play_exactly(host);
    set(host, "feet", RUNNING_SIXTEENTHS);
    set(host, "right_hand", 0.0f);
    set(host, "left_hand", 0.0f);
    set(host, "split_feet", split);
    play_from_the_top(host, &played, BAR_FRAMES);
    CHECK_INT(notes_from(&played, 0), 16);
    for (int step = 0; step < 16; ++step) {
        check_case("sixteenth %d, split %g", step, (double)split);
        CHECK(begins(&played, step * QUARTER_FRAMES / 4, step % 2 ? left_key : BASS_DRUM_1));
    }
}

static void the_left_foot_has_its_own_key_if_the_feet_are_split(void)
{
    check_feet_keys(0.0f, BASS_DRUM_1);
    check_feet_keys(1.0f, ACOUSTIC_BASS_DRUM);
}

static void every_event_is_a_whole_midi_message_in_order(void)
{
    static const uint32_t blocks[] = {1, 0, 7, 64, 63, 1024, 441, 0, 4096, 2, 8192, 1025};
    enum { BLOCKS = sizeof blocks / sizeof *blocks };
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_GROOVE); ++i) {
        host_play_exactly(host);
        set(host, "groove", (float)bank_entry(bank, ENTRY_GROOVE, i)->id);
        play_from_the_top(host, &played, 0);
        for (int block = 0; played.frames < 2 * BAR_FRAMES; ++block) {
            run_block(host, &played, blocks[block % BLOCKS]);
        }
        check_case("%s", bank_entry(bank, ENTRY_GROOVE, i)->label);
        CHECK(played.count > 0);
        CHECK_INT(played.wrong, 0);
        CHECK_INT(played.lost, 0);
    }
}

static void two_instances_do_not_disturb_each_other(void)
{
    host_play_exactly(host);
    host_play_exactly(other);
    set(other, "groove", 17.0f);
    set(other, "channel", 3.0f);
    play_from_the_top(host, &wanted, 2 * BAR_FRAMES);
    static Played of_other;
    play_from_the_top(host, &played, 0);
    play_from_the_top(other, &of_other, 0);
    while (played.frames < 2 * BAR_FRAMES) {
        run_block(host, &played, BLOCK);
        run_block(other, &of_other, 3 * BLOCK);
    }
    CHECK(of_other.count > 0);
    CHECK(!same_events(&of_other, &wanted));
    played.count = wanted.count < played.count ? wanted.count : played.count;
    CHECK(same_events(&played, &wanted));
}

static void activated_again_it_starts_afresh(void)
{
    host_play_exactly(host);
    play_from_the_top(host, &wanted, BAR_FRAMES + BLOCK);
    host_reset(host);
    played.frames = 0;
    played.count = 0;
    run_frames(host, &played, BAR_FRAMES);
    CHECK_INT(played.count, 0); /* no transport was told since */
    play_from_the_top(host, &played, BAR_FRAMES + BLOCK);
    CHECK(same_events(&played, &wanted));
}

int main(void)
{
    host = bundle_host(RATE);
    other = bundle_host(RATE);
    bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    if (!bank) {
        return 2;
    }
    RUN(it_plays_when_the_transport_rolls);
    RUN(it_is_silent_when_the_transport_stands);
    RUN(a_stop_ends_every_note_at_once);
    RUN(switched_off_it_ends_its_notes_and_is_silent);
    RUN(switched_on_again_it_goes_on_where_the_song_is);
    RUN(the_limbs_of_every_groove_add_up_to_it);
    RUN(one_limb_switched_off_leaves_the_others_where_they_were);
    RUN(all_limbs_switched_off_are_silence);
    RUN(it_plays_on_channel_10_by_default_and_on_any_that_is_set);
    RUN(each_kit_map_plays_its_own_keys);
    RUN(the_left_foot_has_its_own_key_if_the_feet_are_split);
    RUN(every_event_is_a_whole_midi_message_in_order);
    RUN(two_instances_do_not_disturb_each_other);
    RUN(activated_again_it_starts_afresh);
    bank_free(bank);
    host_close(other);
    host_close(host);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_kits.c - the kit maps against the published General MIDI table. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

enum { KEYS = 128, KEY_NAME_ROOM = 32 };

/* General MIDI System Level 1, percussion map, and the two keys for a click that
   General MIDI 2 adds; "" where there is no drum. */
static char key_names[KEYS][KEY_NAME_ROOM];

static void read_key_names(void)
{
    Tsv table = tsv_open("gm-percussion.tsv");
    while (tsv_next(&table)) {
        snprintf(key_names[atoi(table.fields[0])], KEY_NAME_ROOM, "%s", table.fields[1]);
    }
}

/* Our voices in the table's words.  It has one key for an open and a half-open
   hat, no "middle" tom but two between low and high, and two floor toms. */
static const struct {
    Voice voice;
    const char* names[2];
} voice_names_of_gm[VOICE_COUNT] = {
    {VOICE_KICK, {"Bass Drum 1"}},         {VOICE_KICK_LEFT, {"Acoustic Bass Drum"}},
    {VOICE_SNARE, {"Acoustic Snare"}},     {VOICE_SIDE_STICK, {"Side Stick"}},
    {VOICE_HAT_CLOSED, {"Closed Hi-Hat"}}, {VOICE_HAT_HALF_OPEN, {"Open Hi-Hat"}},
    {VOICE_HAT_OPEN, {"Open Hi-Hat"}},     {VOICE_HAT_PEDAL, {"Pedal Hi-Hat"}},
    {VOICE_RIDE, {"Ride Cymbal 1"}},       {VOICE_RIDE_BELL, {"Ride Bell"}},
    {VOICE_CRASH, {"Crash Cymbal 1"}},     {VOICE_CRASH_2, {"Crash Cymbal 2"}},
    {VOICE_CHINA, {"Chinese Cymbal"}},     {VOICE_SPLASH, {"Splash Cymbal"}},
    {VOICE_TOM_HIGH, {"High Tom"}},        {VOICE_TOM_MID, {"Hi-Mid Tom", "Low-Mid Tom"}},
    {VOICE_TOM_LOW, {"Low Tom"}},          {VOICE_TOM_FLOOR, {"High Floor Tom", "Low Floor Tom"}},
    {VOICE_COWBELL, {"Cowbell"}},          {VOICE_CHOKE, {"no key"}},
    {VOICE_CLICK, {"Metronome Click"}},    {VOICE_CLICK_ACCENT, {"Metronome Bell"}},
};

static void kit_1_has_the_keys_of_general_midi(void)
{
    const Kit* const kit = library_kit(bank_library(bank), 1);
    CHECK(kit);
    for (int i = 0; kit && i < VOICE_COUNT; ++i) {
        const uint8_t note = kit->notes[voice_names_of_gm[i].voice];
        const char* const name = note < KEYS ? key_names[note] : "no key";
        const char* const other = voice_names_of_gm[i].names[1];
        check_case("voice %d on key %d", (int)voice_names_of_gm[i].voice, note);
        CHECK_TEXT(name, other && !strcmp(name, other) ? other : voice_names_of_gm[i].names[0]);
    }
}

static void every_voice_was_asked_about(void)
{
    bool asked[VOICE_COUNT] = {false};
    for (int i = 0; i < VOICE_COUNT; ++i) {
        asked[voice_names_of_gm[i].voice] = true;
    }
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        check_case("voice %d", voice);
        CHECK(asked[voice]);
    }
}

static void kit_2_gives_every_voice_a_key_of_its_own(void)
{
    const Kit* const kit = library_kit(bank_library(bank), 2);
    CHECK(kit);
    for (int a = 0; kit && a < VOICE_COUNT; ++a) {
        for (int b = a + 1; b < VOICE_COUNT; ++b) {
            check_case("voices %d and %d", a, b);
            CHECK(kit->notes[a] != kit->notes[b]);
        }
    }
}

/* Comment in presets/kits.ttl: white keys from note 48 up; which keys are white
   is common knowledge of keyboards. */
static void kit_2_lies_on_white_keys_from_48_up(void)
{
    static const char black_keys[] = ".b.b..b.b.b.";
    const Kit* const kit = library_kit(bank_library(bank), 2);
    for (int voice = 0; kit && voice < VOICE_COUNT; ++voice) {
        const uint8_t note = kit->notes[voice];
        check_case("voice %d on key %d", voice, note);
        CHECK(note >= 48 && note < KEYS && black_keys[note % 12] == '.');
    }
}

/* The open hat of the electronic kit in the Groove MIDI Dataset (Gillick and others, ICML 2019,
   CC BY 4.0): 46, and 26 struck at its edge. */
static void kit_3_is_general_midi_with_the_half_open_hat_on_a_key_of_its_own(void)
{
    static const uint8_t open_hats[] = {46, 26};
    const Kit* const one = library_kit(bank_library(bank), 1);
    const Kit* const three = library_kit(bank_library(bank), 3);
    CHECK(one && three);
    for (int voice = 0; one && three && voice < VOICE_COUNT; ++voice) {
        check_case("voice %d", voice);
        if (voice == VOICE_HAT_HALF_OPEN) {
            CHECK_INT(three->notes[voice], open_hats[1]);
            CHECK_INT(three->notes[VOICE_HAT_OPEN], open_hats[0]);
        } else {
            CHECK_INT(three->notes[voice], one->notes[voice]);
            CHECK(three->notes[voice] != open_hats[1]);
        }
    }
}

static void the_kits_differ(void)
{
    const Kit* const one = library_kit(bank_library(bank), 1);
    const Kit* const two = library_kit(bank_library(bank), 2);
    CHECK(one && two && memcmp(one->notes, two->notes, sizeof one->notes) != 0);
}

int main(void)
{
    bank = factory_open();
    read_key_names();
    RUN(kit_1_has_the_keys_of_general_midi);
    RUN(every_voice_was_asked_about);
    RUN(kit_2_gives_every_voice_a_key_of_its_own);
    RUN(kit_2_lies_on_white_keys_from_48_up);
    RUN(kit_3_is_general_midi_with_the_half_open_hat_on_a_key_of_its_own);
    RUN(the_kits_differ);
    bank_free(bank);
    return tests_end();
}

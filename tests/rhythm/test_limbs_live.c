// SPDX-License-Identifier: ISC
/* test_limbs_live.c - through the built plugin: a silenced limb moves nothing
   else, and each foot's kick has the key that it should.  In kit 2 no two
   voices share a key. */
#include "../../plugin/bank/bank.h"
#include "stage.h"

enum { KICK = 48, KICK_LEFT = 50, SHUFFLE_FEET = 210, LIMBS = 4, BEATS_MAX = 64 };

static const char* const limbs[LIMBS] = {"right_hand", "left_hand", "right_foot", "left_foot"};
static Stage whole, alone;
static Stage all; /* only its notes */

/* Plays a groove for some beats in its meter, with the switches of a set of
   limbs on, each foot on its own key. */
static void play_limbs(Stage* const stage, const Groove* const groove, const unsigned heard)
{
    const int64_t beats = groove->form_bars * (int64_t)groove->meter.beats_per_bar;
    stage_open(stage, 120.0, (int)groove->meter.beats_per_bar, groove->meter.beat_unit);
    stage_set(stage, "groove", groove->id);
    stage_set(stage, "kit", 2);
    stage_set(stage, "split_feet", 1);
    for (int i = 0; i < LIMBS; ++i) {
        stage_set(stage, limbs[i], heard >> i & 1);
    }
    stage_tell(stage, 0.0, 1.0);
    const int64_t frames = beats * 4 * STAGE_RATE / 2 / groove->meter.beat_unit;
    stage_run(stage, frames < 32 * STAGE_RATE ? frames : 32 * STAGE_RATE, 1024);
}

/* Whether a note-on stands in the list. */
static bool has_note(const Stage* const stage, const Note note)
{
    bool found = false;
    for (uint32_t i = 0; i < stage->count; ++i) {
        found |=
            stage->notes[i].frame == note.frame && !memcmp(stage->notes[i].bytes, note.bytes, 2);
    }
    return found;
}

/* How many of its note-ons the whole doesn't have. */
static int strangers(const Stage* const stage, const Stage* const in)
{
    int count = 0;
    for (uint32_t i = 0; i < stage->count; ++i) {
        count += note_is_on(stage->notes[i]) && !has_note(in, stage->notes[i]);
    }
    return count;
}

/* Gives every note-on of a list to another. */
static void add_notes(const Stage* const from, Stage* const to)
{
    for (uint32_t i = 0; i < from->count && to->count < STAGE_NOTES; ++i) {
        if (note_is_on(from->notes[i])) {
            to->notes[to->count++] = from->notes[i];
        }
    }
}

static void check_union(const Groove* const groove)
{
    play_limbs(&whole, groove, 15);
    all.count = 0;
    for (int i = 0; i < LIMBS; ++i) {
        play_limbs(&alone, groove, 1U << i);
        check_case("groove %u, %s alone", groove->id, limbs[i]);
        CHECK_INT(strangers(&alone, &whole), 0);
        add_notes(&alone, &all);
    }
    check_case("groove %u, the four together", groove->id);
    CHECK_INT(strangers(&whole, &all), 0);
    CHECK(whole.count > 0);
}

static void the_four_limbs_alone_are_the_whole_of_every_groove(void)
{
    Bank* const bank =
        bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL});
    const Library* const library = bank_library(bank);
    CHECK(library->groove_count >= 40);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        check_union(&library->grooves[i]);
    }
    bank_free(bank);
}

static void four_silent_limbs_are_silence(void)
{
    const Groove groove = {.id = 1, .meter = {4.0, 4}, .form_bars = 8};
    play_limbs(&whole, &groove, 0);
    CHECK_INT(whole.count, 0);
}

/* Two bars of a shuffle: the leading foot on four beats, the other between. */
static void play_shuffle(const double left_leads, const double split)
{
    stage_open(&whole, 120.0, 4, 4);
    stage_set(&whole, "groove", 3);
    stage_set(&whole, "feet", SHUFFLE_FEET);
    stage_set(&whole, "turnaround", -1);
    stage_set(&whole, "kit", 2);
    stage_set(&whole, "lead_foot", left_leads);
    stage_set(&whole, "split_feet", split);
    stage_tell(&whole, 0.0, 1.0);
    stage_run(&whole, 4 * STAGE_RATE, 1024);
}

/* Note-ons of a key on the beats, at 120; all of them in *count. */
static int on_beats(const int key, int* const count)
{
    int found = 0;
    *count = 0;
    for (uint32_t i = 0; i < whole.count; ++i) {
        if (note_is_on(whole.notes[i]) && whole.notes[i].bytes[1] == key) {
            found += whole.notes[i].frame % (STAGE_RATE / 2) == 0;
            ++*count;
        }
    }
    return found;
}

static void check_kicks(const int key, const int beats, const int strokes)
{
    int count = 0;
    check_case("key %d", key);
    CHECK_INT(on_beats(key, &count), beats);
    CHECK_INT(count, strokes);
}

static void without_split_feet_both_kicks_have_one_key(void)
{
    play_shuffle(0, 0);
    check_kicks(KICK, 8, 16);
    check_kicks(KICK_LEFT, 0, 0);
}

static void split_feet_give_the_left_kick_its_own_key(void)
{
    play_shuffle(0, 1);
    check_kicks(KICK, 8, 8);
    check_kicks(KICK_LEFT, 0, 8);
}

static void a_leading_left_foot_exchanges_the_keys(void)
{
    play_shuffle(1, 1);
    check_kicks(KICK, 0, 8);
    check_kicks(KICK_LEFT, 8, 8);
}

int main(void)
{
    RUN(the_four_limbs_alone_are_the_whole_of_every_groove);
    RUN(four_silent_limbs_are_silence);
    RUN(without_split_feet_both_kicks_have_one_key);
    RUN(split_feet_give_the_left_kick_its_own_key);
    RUN(a_leading_left_foot_exchanges_the_keys);
    stage_close(&whole);
    stage_close(&alone);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_rhythm.c - onsets as notes, rests and tuplets.  Signs: 4 a quarter, 8. a dotted eighth,
   r16 a rest, [5:4 ...] a tuplet.  How rhythms are written is common practice, no source; that
   durations are exact is arithmetic. */
#include "../../ui/notation/rhythm.h"
#include "../help/check.h"

#include <stdio.h>
#include <string.h>

enum { Q = TICKS_PER_QUARTER, ONSETS_MOST = 64 };

static Rhythm rhythm;
static char text[2048];

static void put(const char* const word)
{
    snprintf(text + strlen(text), sizeof text - strlen(text), "%s", word);
}

static void put_note(const RhythmNote* const note)
{
    char word[32];
    for (int i = 0; i < note->depth; ++i) {
        snprintf(word, sizeof word, "[%d:%d ", note->tuplets[i].actual, note->tuplets[i].normal);
        put(note->tuplets[i].starts ? word : "");
    }
    snprintf(word, sizeof word, "%s%d%s", note->is_rest ? "r" : "", RHYTHM_WHOLE / note->value,
             note->dots ? "." : "");
    put(word);
    for (int i = note->depth; i-- > 0;) {
        put(note->tuplets[i].stops ? "]" : "");
    }
    put(" ");
}

static const char* spelled(const int64_t* const onsets, const int count, const Meter meter)
{
    text[0] = '\0';
    if (!rhythm_spell(&rhythm, onsets, count, meter)) {
        return "not to be written";
    }
    for (int i = 0; i < rhythm.count; ++i) {
        put_note(&rhythm.notes[i]);
    }
    text[strlen(text) - 1] = '\0';
    return text;
}

/* Onsets of a beat or more as a sum: `at` in parts of a quarter. */
#define SPELL(meter, parts, ...) spell_parts(meter, parts, (const int[]){__VA_ARGS__, -1})

static const char* spell_parts(const Meter meter, const int parts, const int* const at)
{
    int64_t onsets[ONSETS_MOST];
    int count = 0;
    for (; at[count] >= 0; ++count) {
        onsets[count] = (int64_t)at[count] * Q / parts;
    }
    return spelled(onsets, count, meter);
}

static const Meter two_four = {2.0, 4};
static const Meter four_four = {4.0, 4};

static void a_note_lasts_until_the_next_or_its_beats_end(void)
{
    CHECK_TEXT(SPELL(four_four, 4, 0, 2, 4, 7, 8, 14), "8 8 8. 16 4 r8 8");
}

static void an_offbeat_stroke_is_led_to_by_a_rest(void)
{
    CHECK_TEXT(SPELL(two_four, 4, 1, 2, 3, 6), "r16 16 16 16 r8 8");
}

static void a_syncopated_stroke_needs_no_tie(void)
{
    CHECK_TEXT(SPELL(two_four, 4, 0, 1, 3, 4), "16 8 16 4");
}

static void beats_of_three_eighths_are_dotted(void)
{
    CHECK_TEXT(SPELL(((Meter){6.0, 8}), 2, 0, 2, 3, 4, 5), "4 8 8 8 8");
}

static void a_triplet_stands_in_its_beat(void)
{
    CHECK_TEXT(SPELL(two_four, 3, 0, 1, 2, 3, 5), "[3:2 8 8 8] [3:2 4 8]");
}

static void three_over_two_beats_is_one_bracket(void)
{
    CHECK_TEXT(SPELL(two_four, 3, 0, 2, 4), "[3:2 4 4 4]");
}

static void five_and_seven_over_four_beats_are_one_bracket(void)
{
    CHECK_TEXT(SPELL(four_four, 5, 0, 4, 8, 12, 16), "[5:4 4 4 4 4 4]");
    CHECK_TEXT(SPELL(four_four, 7, 0, 4, 8, 12, 16, 20, 24), "[7:4 4 4 4 4 4 4 4]");
}

static void seven_in_a_third_of_a_triplet_stands_in_it(void)
{
    CHECK_TEXT(SPELL(two_four, 21, 0, 7, 14, 15, 16, 17, 18, 19, 20, 21),
               "[3:2 8 8 [7:4 32 32 32 32 32 32 32]] 4");
    CHECK_INT(rhythm.notes[2].actual, 21);
    CHECK_INT(rhythm.notes[2].normal, 8);
}

static void every_tuplet_to_sixteen_lasts_a_quarter_exactly(void)
{
    for (int parts = 1; parts <= 16; ++parts) {
        int at[ONSETS_MOST];
        int64_t sum = 0;
        for (int i = 0; i < parts; ++i) {
            at[i] = i;
        }
        at[parts] = -1;
        check_case("%d a quarter", parts);
        CHECK(spell_parts((Meter){1.0, 4}, parts, at) == text);
        CHECK_INT(rhythm.count, parts);
        for (int i = 0; i < rhythm.count; ++i) {
            const RhythmNote note = rhythm.notes[i];
            CHECK_INT(note.ticks * RHYTHM_WHOLE / 4 * note.actual,
                      (int64_t)note.value * (note.dots ? 3 : 2) / 2 * note.normal * Q);
            sum += note.ticks;
        }
        CHECK_INT(sum, Q);
    }
}

static void what_cant_be_written_is_told_not_rounded(void)
{
    const int64_t onsets[] = {0, Q / 2 + 1};
    CHECK_TEXT(spelled(onsets, 2, four_four), "not to be written");
}

static void an_empty_bar_is_rests(void)
{
    CHECK_TEXT(spelled(NULL, 0, four_four), "r2 r2");
}

int main(void)
{
    RUN(a_note_lasts_until_the_next_or_its_beats_end);
    RUN(an_offbeat_stroke_is_led_to_by_a_rest);
    RUN(a_syncopated_stroke_needs_no_tie);
    RUN(beats_of_three_eighths_are_dotted);
    RUN(a_triplet_stands_in_its_beat);
    RUN(three_over_two_beats_is_one_bracket);
    RUN(five_and_seven_over_four_beats_are_one_bracket);
    RUN(seven_in_a_third_of_a_triplet_stands_in_it);
    RUN(every_tuplet_to_sixteen_lasts_a_quarter_exactly);
    RUN(what_cant_be_written_is_told_not_rounded);
    RUN(an_empty_bar_is_rests);
    return tests_end();
}

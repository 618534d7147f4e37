// SPDX-License-Identifier: ISC
/* test_double_kick_facts.c - what drummers know of double kick, and what the
   rudiments' published stickings say, held against the shipped figures.  Where
   no source is named, a fact is common practice of which no single source is
   known. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

enum { QUARTER = TICKS_PER_QUARTER, SIXTEENTH = QUARTER / 4, THIRTY_SECOND = QUARTER / 8 };

/* A figure by its id, which is permanent; the program ends if it is gone. */
static const Figure* figure(const FigureKind kind, const uint32_t id)
{
    const Figure* const found = library_figure(bank_library(bank), kind, id);
    if (!found) {
        printf("# %s %u is not in the bank\n", factory_kind_word((EntryKind)kind), id);
        exit(2);
    }
    return found;
}

static const char* feet_sticking(const uint32_t id, const int64_t step)
{
    return figure_sticking(figure(FIGURE_FEET, id), step);
}

enum { SEXTUPLET_HANDS = 20, SEXTUPLET_FEET = 150 };

/* The strokes of two beats from `beat` on, in 4/4. */
static const StrokeList* sextuplet_beats(const int64_t beat)
{
    static StrokeList list;
    const Groove groove =
        plain_groove(figure(FIGURE_HANDS, SEXTUPLET_HANDS), figure(FIGURE_FEET, SEXTUPLET_FEET));
    const Selection selection = plain_choice(&groove, 4);
    groove_strokes(&selection, groove.meter, beat * QUARTER, (beat + 2) * QUARTER, &list);
    return &list;
}

static void six_even_kicks_fill_the_beat_between_a_hat_on_one_and_a_snare_on_two(void)
{
    const StrokeList* const list = sextuplet_beats(0);
    int kicks = 0;
    for (uint32_t i = 0; i < list->count; ++i) {
        const Stroke stroke = list->strokes[i];
        if (stroke.voice == VOICE_KICK) {
            CHECK_INT(stroke.tick, kicks * QUARTER / 6);
            CHECK_INT(stroke.limb, kicks % 2 ? LEFT_FOOT : RIGHT_FOOT);
            ++kicks;
        } else {
            CHECK_INT(stroke.voice, stroke.tick ? VOICE_SNARE : VOICE_HAT_CLOSED);
            CHECK(stroke.tick == 0 || stroke.tick == QUARTER);
        }
    }
    CHECK_INT(kicks, 6);
    CHECK_INT(list->count, 8);
}

static void the_next_two_beats_are_as_the_first_two(void)
{
    StrokeList first = *sextuplet_beats(0);
    const StrokeList* const next = sextuplet_beats(2);
    CHECK_INT(next->count, first.count);
    for (uint32_t i = 0; i < first.count && i < next->count; ++i) {
        CHECK_INT(next->strokes[i].tick, first.strokes[i].tick + 2 * QUARTER);
        CHECK_INT(next->strokes[i].voice, first.strokes[i].voice);
    }
}

/* A shuffle is the first and last of a triplet, long and short as two to one. */
static void a_shuffle_is_the_triplet_without_its_middle_note(void)
{
    CHECK_TEXT(feet_sticking(131, QUARTER / 3), "RLR");
    CHECK_TEXT(feet_sticking(210, QUARTER / 3), "R.L");
    CHECK_TEXT(feet_sticking(220, QUARTER / 3), "R.R");
}

static void the_long_shuffled_note_lasts_twice_the_short_one(void)
{
    const Figure* const shuffle = figure(FIGURE_FEET, 210);
    CHECK_INT(shuffle->stroke_count, 2);
    const int64_t long_note = shuffle->strokes[1].tick - shuffle->strokes[0].tick;
    const int64_t short_note = shuffle->cycle_ticks - shuffle->strokes[1].tick;
    CHECK_INT(long_note, 2 * short_note);
    CHECK_INT(long_note + short_note, QUARTER);
}

static void a_gallop_is_an_eighth_and_two_sixteenths(void)
{
    CHECK_TEXT(feet_sticking(190, SIXTEENTH), "R.RL");
}

static void a_reverse_gallop_is_two_sixteenths_and_an_eighth(void)
{
    CHECK_TEXT(feet_sticking(191, SIXTEENTH), "RLR.");
}

/* x for a stroke of either foot, begun `turn` steps later. */
static const char* turned_onsets(const uint32_t id, const int64_t step, const size_t turn)
{
    static char turned[STICKING_ROOM];
    const char* const sticking = feet_sticking(id, step);
    const size_t length = strlen(sticking);
    for (size_t i = 0; i < length; ++i) {
        turned[i] = sticking[(i + turn) % length] == '.' ? '.' : 'x';
    }
    turned[length] = '\0';
    return turned;
}

static void the_gallops_are_each_other_begun_in_the_middle(void)
{
    char reverse[STICKING_ROOM];
    snprintf(reverse, sizeof reverse, "%s", turned_onsets(191, SIXTEENTH, 0));
    CHECK_TEXT(turned_onsets(190, SIXTEENTH, 2), reverse);
}

static void a_herta_is_two_fast_strokes_and_two_slow_ones(void)
{
    CHECK_TEXT(feet_sticking(230, THIRTY_SECOND), "RLR.L.");
}

static void the_left_foot_of_a_herta_is_even(void)
{
    const Figure* const herta = figure(FIGURE_FEET, 230);
    int64_t lefts[2] = {0, 0};
    int count = 0;
    for (uint32_t i = 0; i < herta->stroke_count; ++i) {
        if (herta->strokes[i].limb == LEFT_FOOT && count < 2) {
            lefts[count++] = herta->strokes[i].tick;
        }
    }
    CHECK_INT(count, 2);
    CHECK_INT(lefts[1] - lefts[0], lefts[0] + herta->cycle_ticks - lefts[1]);
}

static void a_herta_is_three_sixteenths_long(void)
{
    CHECK_INT(figure(FIGURE_FEET, 230)->cycle_ticks, 3 * SIXTEENTH);
}

/* True if `text` is `pattern` begun at some step of it. */
static bool is_turn_of(const char* const text, const char* const pattern)
{
    char twice[2 * STICKING_ROOM];
    snprintf(twice, sizeof twice, "%s%s", pattern, pattern);
    return strlen(text) == strlen(pattern) && strstr(twice, text);
}

static void the_other_short_hertas_are_turns_and_mirrors_of_the_first(void)
{
    const struct {
        uint32_t id;
        int64_t step;
    } hertas[] = {{231, THIRTY_SECOND}, {232, THIRTY_SECOND}, {233, THIRTY_SECOND},
                  {234, THIRTY_SECOND}, {235, THIRTY_SECOND}, {236, QUARTER / 6},
                  {237, QUARTER / 6},   {240, SIXTEENTH}};
    for (size_t i = 0; i < sizeof hertas / sizeof *hertas; ++i) {
        const char* const sticking = feet_sticking(hertas[i].id, hertas[i].step);
        check_case("feet %u is %s", hertas[i].id, sticking);
        CHECK(is_turn_of(sticking, "RLR.L.") || is_turn_of(sticking, "LRL.R."));
    }
}

/* The bars on, counted from the phrase's first, at which a feet figure next
   plays what it plays in bar 0; 0 if never in 64. */
static int bars_until_it_repeats(const Figure* const feet, const Meter meter)
{
    static StrokeList first, later;
    const Groove groove = plain_groove(NULL, feet);
    const Selection selection = plain_choice(&groove, 64);
    const int64_t bar_ticks = meter_bar_ticks(meter);
    groove_strokes(&selection, meter, 0, bar_ticks, &first);
    for (int bar = 1; bar < 64; ++bar) {
        groove_strokes(&selection, meter, bar * bar_ticks, (bar + 1) * bar_ticks, &later);
        bool same = later.count == first.count;
        for (uint32_t i = 0; same && i < first.count; ++i) {
            same = later.strokes[i].tick == first.strokes[i].tick + bar * bar_ticks &&
                   later.strokes[i].limb == first.strokes[i].limb;
        }
        if (same) {
            return bar;
        }
    }
    return 0;
}

/* lcm(16, 3) = 48 sixteenths: data/polymeter-realignment.tsv, first row. */
static void a_herta_meets_the_bar_line_of_four_four_after_three_bars(void)
{
    CHECK_INT(bars_until_it_repeats(figure(FIGURE_FEET, 230), (Meter){4.0, 4}), 3);
}

/* The same row for threes, the second row for fives, the fourth for sevens. */
static void cycles_over_the_bar_come_round_when_arithmetic_says(void)
{
    CHECK_INT(bars_until_it_repeats(figure(FIGURE_FEET, 250), (Meter){4.0, 4}), 3);
    CHECK_INT(bars_until_it_repeats(figure(FIGURE_FEET, 256), (Meter){4.0, 4}), 5);
    CHECK_INT(bars_until_it_repeats(figure(FIGURE_FEET, 260), (Meter){4.0, 4}), 7);
}

/* A burst: even strokes, foot to foot, of which the last falls on the beat. */
static void a_burst_of_five_is_even_and_ends_on_the_beat(void)
{
    CHECK_TEXT(feet_sticking(170, THIRTY_SECOND), "....RLRLR.......");
}

static void check_even_singles(const uint32_t id, const int64_t in_a_beat)
{
    const Figure* const feet = figure(FIGURE_FEET, id);
    check_case("feet %u, %d in a beat", id, (int)in_a_beat);
    CHECK_INT(feet->stroke_count, feet->cycle_ticks / QUARTER * in_a_beat);
    for (uint32_t i = 0; i < feet->stroke_count; ++i) {
        CHECK_INT(feet->strokes[i].tick * in_a_beat, (int64_t)i * QUARTER);
        CHECK_INT(feet->strokes[i].limb, i % 2 ? LEFT_FOOT : RIGHT_FOOT);
    }
    CHECK_INT(feet->stroke_count % 2, 0); /* else one foot would play twice at the turn */
}

static void running_singles_are_even_and_go_foot_to_foot(void)
{
    check_even_singles(41, 2);
    check_even_singles(130, 3);
    check_even_singles(50, 4);
    check_even_singles(160, 5);
    check_even_singles(152, 6);
    check_even_singles(165, 7);
}

/* The figures that are a rudiment for feet, by the rudiment's number. */
static const struct {
    int number;
    uint32_t id;
    int64_t step;
} rudiments[] = {
    {1, 50, SIXTEENTH},     {5, 125, QUARTER / 3},  {6, 120, SIXTEENTH},    {8, 287, QUARTER / 3},
    {16, 280, SIXTEENTH},   {16, 286, QUARTER / 2}, {17, 281, QUARTER / 3}, {18, 282, SIXTEENTH},
    {19, 283, QUARTER / 3}, {19, 284, SIXTEENTH},
};

enum { RUDIMENTS = sizeof rudiments / sizeof *rudiments };

/* The sticking without its spaces, going on until it is `length` long. */
static const char* gone_on(const char* const sticking, const size_t length)
{
    static char text[STICKING_ROOM];
    size_t count = 0;
    for (const char* sign = sticking; count < length; ++sign) {
        sign = *sign ? sign : sticking;
        if (*sign != ' ') {
            text[count++] = *sign;
        }
    }
    text[count] = '\0';
    return text;
}

/* data/rudiments.tsv, from the Percussive Arts Society's forty. */
static void the_feet_have_the_stickings_of_the_rudiments(void)
{
    int checked = 0;
    Tsv table = tsv_open("rudiments.tsv");
    while (tsv_next(&table)) {
        for (int i = 0; i < RUDIMENTS; ++i) {
            if (rudiments[i].number == atoi(table.fields[0])) {
                const char* const got = feet_sticking(rudiments[i].id, rudiments[i].step);
                check_case("%s, feet %u", table.fields[1], rudiments[i].id);
                CHECK_TEXT(got, gone_on(table.fields[2], strlen(got)));
                ++checked;
            }
        }
    }
    check_case("all of them");
    CHECK_INT(checked, RUDIMENTS);
}

/* Rudiment 8: an accent at each end, two doubles between (same source). */
static void the_six_stroke_roll_is_accented_at_both_ends(void)
{
    const Figure* const roll = figure(FIGURE_FEET, 287);
    CHECK_INT(roll->stroke_count, 6);
    for (uint32_t i = 0; i < roll->stroke_count; ++i) {
        check_case("stroke %u", i + 1);
        CHECK_INT(roll->strokes[i].level == LEVEL_ACCENT, i == 0 || i == 5);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(six_even_kicks_fill_the_beat_between_a_hat_on_one_and_a_snare_on_two);
    RUN(the_next_two_beats_are_as_the_first_two);
    RUN(a_shuffle_is_the_triplet_without_its_middle_note);
    RUN(the_long_shuffled_note_lasts_twice_the_short_one);
    RUN(a_gallop_is_an_eighth_and_two_sixteenths);
    RUN(a_reverse_gallop_is_two_sixteenths_and_an_eighth);
    RUN(the_gallops_are_each_other_begun_in_the_middle);
    RUN(a_herta_is_two_fast_strokes_and_two_slow_ones);
    RUN(the_left_foot_of_a_herta_is_even);
    RUN(a_herta_is_three_sixteenths_long);
    RUN(the_other_short_hertas_are_turns_and_mirrors_of_the_first);
    RUN(a_herta_meets_the_bar_line_of_four_four_after_three_bars);
    RUN(cycles_over_the_bar_come_round_when_arithmetic_says);
    RUN(a_burst_of_five_is_even_and_ends_on_the_beat);
    RUN(running_singles_are_even_and_go_foot_to_foot);
    RUN(the_feet_have_the_stickings_of_the_rudiments);
    RUN(the_six_stroke_roll_is_accented_at_both_ends);
    bank_free(bank);
    return tests_end();
}

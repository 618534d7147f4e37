// SPDX-License-Identifier: ISC
/* test_feet.c - the leading foot, and what drummers know of feet under hands:
   those facts are common practice of which no single source is known. */
#include "../../plugin/bank/bank.h"
#include "fraction.h"

#include <stdlib.h>

static const Meter four_four = {4.0, 4};

static Bank* bank;
static Played played, mirrored;

enum { QUARTER_HATS = 3, SHUFFLE_FEET = 210, SEXTUPLET_FEET = 152, SIXTEENTH_FEET = 50 };

/* A figure by its id, which is permanent; the program ends if it is gone. */
static const Figure* figure(const FigureKind kind, const uint32_t id)
{
    const Figure* const found = library_figure(bank_library(bank), kind, id);
    if (!found) {
        printf("# figure %u is not in the bank\n", id);
        exit(2);
    }
    return found;
}

/* Plays a feet figure once, in bars of its own. */
static void play_once(const Figure* const feet, const bool left_leads, Played* const kept)
{
    const uint32_t bars = feet->bars ? feet->bars : 1;
    const Meter meter = {(double)feet->cycle_ticks / (double)TICKS_PER_QUARTER / bars, 4};
    const Groove groove = one_letter(NULL, feet, meter, bars);
    Selection selection = selection_of_groove(&groove);
    selection.left_foot_leads = left_leads;
    play(&selection, meter, feet->cycle_ticks, kept);
}

/* The feet exchanged by hand, in the order that lists have. */
static void exchange_feet(Played* const list)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        uint8_t* const limb = &list->strokes[i].limb;
        *limb = (uint8_t)(*limb == RIGHT_FOOT  ? LEFT_FOOT
                          : *limb == LEFT_FOOT ? RIGHT_FOOT
                                               : *limb);
    }
    strokes_sort(list->strokes, list->count);
}

static void check_same(const Stroke* const got, const uint32_t got_count, const Stroke* const want,
                       const uint32_t want_count)
{
    CHECK_INT(got_count, want_count);
    for (uint32_t i = 0; i < got_count && i < want_count; ++i) {
        CHECK_INT(got[i].tick, want[i].tick);
        CHECK_INT(got[i].limb, want[i].limb);
        CHECK_INT(got[i].voice, want[i].voice);
        CHECK_INT(got[i].level, want[i].level);
    }
}

/* Runs a check for every feet figure of the bank that leaves the pedal hat
   alone; how many there were. */
static uint32_t for_kick_figures(void (*const check)(const Figure* feet))
{
    const Library* const library = bank_library(bank);
    uint32_t count = 0;
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_FEET]; ++i) {
        const Figure* const feet = &library->figures[FIGURE_FEET][i];
        check_case("feet %u", feet->id);
        if (!feet->plays_pedal) {
            check(feet);
            ++count;
        }
    }
    return count;
}

static void check_mirrored(const Figure* const feet)
{
    play_once(feet, false, &played);
    play_once(feet, true, &mirrored);
    exchange_feet(&played);
    check_same(mirrored.strokes, mirrored.count, played.strokes, played.count);
}

static void a_leading_left_foot_exchanges_the_feet(void)
{
    const uint32_t checked = for_kick_figures(check_mirrored);
    check_case("the bank's feet");
    CHECK(checked >= 80);
}

static void check_mirrored_twice(const Figure* const feet)
{
    play_once(feet, true, &mirrored);
    Figure mirror = *feet;
    mirror.strokes = mirrored.strokes;
    mirror.stroke_count = mirrored.count;
    play_once(&mirror, true, &played);
    check_same(played.strokes, played.count, feet->strokes, feet->stroke_count);
}

static void mirrored_twice_every_figure_is_itself(void)
{
    const uint32_t checked = for_kick_figures(check_mirrored_twice);
    check_case("the bank's feet");
    CHECK(checked >= 80);
}

/* The pedal hat stands under the left foot. */
static void feet_that_close_the_hat_are_not_mirrored(void)
{
    const Library* const library = bank_library(bank);
    int checked = 0;
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_FEET]; ++i) {
        const Figure* const feet = &library->figures[FIGURE_FEET][i];
        if (feet->plays_pedal) {
            check_case("feet %u", feet->id);
            play_once(feet, true, &mirrored);
            check_same(mirrored.strokes, mirrored.count, feet->strokes, feet->stroke_count);
            ++checked;
        }
    }
    CHECK(checked > 0);
}

static void the_leading_foot_leaves_the_hands_alone(void)
{
    const Groove groove = one_letter(figure(FIGURE_HANDS, 1), NULL, four_four, 1);
    Selection selection = selection_of_groove(&groove);
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &played);
    selection.left_foot_leads = true;
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &mirrored);
    check_same(mirrored.strokes, mirrored.count, played.strokes, played.count);
}

/* A silenced limb is the one that would be heard, not the one written. */
static void the_right_foot_s_switch_silences_the_mirrored_right_foot(void)
{
    const Groove groove = one_letter(NULL, figure(FIGURE_FEET, SHUFFLE_FEET), four_four, 1);
    Selection selection = selection_of_groove(&groove);
    selection.left_foot_leads = true;
    selection.limbs[RIGHT_FOOT] = false;
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &played);
    CHECK_INT(played.count, 4); /* the left has the beats now */
    for (uint32_t i = 0; i < played.count; ++i) {
        CHECK_INT(played.strokes[i].limb, LEFT_FOOT);
        CHECK_PLACE(played.strokes[i].tick, fraction(i, 1));
    }
}

/* Whether a limb strikes at a tick. */
static bool strikes_at(const Played* const list, const Limb limb, const int64_t tick)
{
    bool strikes = false;
    for (uint32_t i = 0; i < list->count; ++i) {
        strikes |= list->strokes[i].limb == limb && list->strokes[i].tick == tick;
    }
    return strikes;
}

static void play_bar(const Figure* const hands, const Figure* const feet)
{
    const Groove groove = one_letter(hands, feet, four_four, 1);
    const Selection selection = selection_of_groove(&groove);
    play(&selection, four_four, 4 * TICKS_PER_QUARTER, &played);
}

static void every_stroke_of_a_plain_backbeat_meets_the_lead_foot_of_a_shuffle(void)
{
    int hands = 0;
    play_bar(figure(FIGURE_HANDS, QUARTER_HATS), figure(FIGURE_FEET, SHUFFLE_FEET));
    for (uint32_t i = 0; i < played.count; ++i) {
        const Stroke stroke = played.strokes[i];
        if (!limb_is_foot(stroke.limb)) {
            check_case("hand stroke at tick %d", (int)stroke.tick);
            CHECK(strikes_at(&played, RIGHT_FOOT, stroke.tick));
            ++hands;
        }
    }
    CHECK_INT(hands, 6); /* four hats, two snares */
}

static void no_kick_meets_the_middle_triplet_notes_of_a_ride_over_a_shuffle(void)
{
    OwnFigure ride = {.figure = {.id = 1, .bars = 1}};
    add_line(&ride, RIGHT_HAND, VOICE_RIDE, 3, 1, "Ooo O.o Ooo O.o");
    play_bar(&ride.figure, figure(FIGURE_FEET, SHUFFLE_FEET));
    for (int64_t beat = 0; beat < 4; beat += 2) {
        const int64_t middle = beat * TICKS_PER_QUARTER + TICKS_PER_QUARTER / 3;
        check_case("beat %d", (int)beat + 1);
        CHECK(strikes_at(&played, RIGHT_HAND, middle));
        CHECK(!strikes_at(&played, RIGHT_FOOT, middle) && !strikes_at(&played, LEFT_FOOT, middle));
    }
}

static int kicks_of_beat(const int64_t beat)
{
    int count = 0;
    for (uint32_t i = 0; i < played.count; ++i) {
        count += played.strokes[i].tick / TICKS_PER_QUARTER == beat;
    }
    return count;
}

static void from_sextuplets_to_sixteenths_six_kicks_become_four(void)
{
    Groove groove = one_letter(NULL, figure(FIGURE_FEET, SEXTUPLET_FEET), four_four, 4);
    groove.parts[1] = (Part){.feet = figure(FIGURE_FEET, SIXTEENTH_FEET)};
    groove.form[3] = 1; /* AAAB */
    const Selection selection = selection_of_groove(&groove);
    play(&selection, four_four, 32 * TICKS_PER_QUARTER, &played);
    for (int64_t beat = 0; beat < 32; ++beat) {
        check_case("beat %d", (int)beat + 1);
        CHECK_INT(kicks_of_beat(beat), beat % 16 < 12 ? 6 : 4);
    }
}

int main(void)
{
    bank = bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL});
    RUN(a_leading_left_foot_exchanges_the_feet);
    RUN(mirrored_twice_every_figure_is_itself);
    RUN(feet_that_close_the_hat_are_not_mirrored);
    RUN(the_leading_foot_leaves_the_hands_alone);
    RUN(the_right_foot_s_switch_silences_the_mirrored_right_foot);
    RUN(every_stroke_of_a_plain_backbeat_meets_the_lead_foot_of_a_shuffle);
    RUN(no_kick_meets_the_middle_triplet_notes_of_a_ride_over_a_shuffle);
    RUN(from_sextuplets_to_sixteenths_six_kicks_become_four);
    bank_free(bank);
    return tests_end();
}

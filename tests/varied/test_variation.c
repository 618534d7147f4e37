// SPDX-License-Identifier: ISC
/* test_variation.c - variations against what is published: even spreads, rudiments; against
   common practice, where no source says it; and displacements as a group. */
#include "../bank/factory.h"
#include "../data/tsv.h"
#include "../engine/library.h"
#include "promise.h"

static VariationRoom rooms[2], third;
static Bank* bank;

static const Meter four = {4.0, 4};

static Figure rolling(const Limb first, const int grid, const char* const steps)
{
    static OwnFigure own;
    memset(&own, 0, sizeof own);
    add_line(&own, first, VOICE_KICK, grid, 1, steps);
    own.figure.id = 1;
    own.figure.kind = FIGURE_FEET;
    return own.figure;
}

static const Figure* factory(const uint32_t id)
{
    return library_figure(bank_library(bank), FIGURE_FEET, id);
}

/* What a variation of a factory figure is, as R and L, in 4/4 without hands. */
static const char* sticking_of(const uint32_t id, const uint32_t number, const int64_t step)
{
    const Variation made = variation_make(factory(id), NULL, four, number, &rooms[0]);
    return made.figure ? figure_sticking(made.figure, step) : variation_reason(made.reason);
}

enum {
    REVERSE_GALLOP = 191,
    GALLOP = 190,
    SIXTEENTHS = 50,
    QUARTERS_ONE_THREE = 1,
    EIGHTHS_RIGHT = 40,
    EIGHTHS = 41,
    HERTA = 230
};

/* ---- Published */

static void even_spreads_are_the_published_table_s(void)
{
    Tsv table = tsv_open("euclidean-toussaint.tsv");
    int rows = 0;
    for (; tsv_next(&table); ++rows) {
        char steps[64] = "", got[64] = "";
        const int strokes = tsv_integer(&table, 0), count = tsv_integer(&table, 1);
        memset(steps, '.', (size_t)count);
        memset(steps, 'o', (size_t)strokes);
        const Figure bunched = rolling(RIGHT_FOOT, 4, steps);
        const Variation made = variation_make(&bunched, NULL, four, VARIATION_EVEN, &rooms[0]);
        const Figure* const figure = made.reason == VARY_AS_CHOSEN ? &bunched : made.figure;
        for (int i = 0; i < count; ++i) {
            got[i] = kick_at(figure, i * (int64_t)S) ? 'x' : '.';
        }
        check_case("E(%d,%d)", strokes, count);
        CHECK_TEXT(got, table.fields[2]);
    }
    CHECK_INT(rows, 22);
}

/* A sticking as often as the steps of `like`, without its spaces. */
static const char* repeated(const char* const sticking, const size_t length)
{
    static char text[STICKING_ROOM];
    char once[STICKING_ROOM];
    size_t count = 0;
    for (const char* sign = sticking; *sign; ++sign) {
        once[count] = *sign;
        count += *sign != ' ';
    }
    for (size_t i = 0; i < length; ++i) {
        text[i] = once[i % count];
    }
    text[length] = '\0';
    return text;
}

static void doubles_and_paradiddles_are_the_rudiments(void)
{
    Tsv table = tsv_open("rudiments.tsv");
    int found = 0;
    while (tsv_next(&table)) {
        const int pas = tsv_integer(&table, 0);
        const uint32_t number = pas == 6    ? VARIATION_DOUBLES
                                : pas == 16 ? VARIATION_PARADIDDLES
                                            : VARIATION_NONE;
        if (number) {
            const char* const got = sticking_of(SIXTEENTHS, number, S);
            check_case("%s", table.fields[1]);
            CHECK_TEXT(got, repeated(table.fields[2], strlen(got)));
            ++found;
        }
    }
    CHECK_INT(found, 2);
}

/* ---- Common practice, no source */

static void gallops_go_right_right_left(void)
{
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_GALLOPS, S), "R.RL");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_REVERSE, S), "RLR.");
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_REVERSE, S), "RLR.");
    CHECK_TEXT(sticking_of(REVERSE_GALLOP, VARIATION_GALLOPS, S), "R.RL");
    CHECK_TEXT(sticking_of(QUARTERS_ONE_THREE, VARIATION_GALLOPS, S), "R.RL....R.RL....");
}

static void hertas_go_right_left_right_left(void)
{
    const char* const got = sticking_of(SIXTEENTHS, VARIATION_HERTAS, Q / 8);
    CHECK_TEXT(got, repeated("RLR.L.", strlen(got)));
    const char* const slow = sticking_of(EIGHTHS, VARIATION_HERTAS, S);
    CHECK_TEXT(slow, repeated("RLR.L.", strlen(slow)));
}

static void triplets_of_a_gallop_are_a_shuffle_and_of_sixteenths_full(void)
{
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_TRIPLETS, Q / 3), "R.L");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_TRIPLETS, Q / 3), "RLRLRL");
}

static void a_burst_is_five_that_land_on_the_next_one(void)
{
    CHECK_TEXT(sticking_of(QUARTERS_ONE_THREE, VARIATION_BURST, S), "R.......R...RLRL");
    CHECK_TEXT(sticking_of(QUARTERS_ONE_THREE, VARIATION_SEXTUPLETS, Q / 6),
               "R...........R.....RLRLRL");
}

static void groups_over_the_bar_begin_on_the_right_and_leave_a_hole_in_a_run(void)
{
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_THREES, S), "RL.");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_FIVES, S), "RLRL.");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_SEVENS, S), "RLRLRL.");
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_THREES, S), "R.L");
}

static void a_gallop_turned_round_is_the_reverse_gallop(void)
{
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_ROUND, S), "RLR.");
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_ANSWER, S), "R.RLR.RLRLR.RLR.");
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_FILLED, S), "RLRL");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_EVEN, S), "the same as chosen");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_FILLED, S), "runs of singles have no gaps");
}

/* A run of singles has no accents, is the same backwards, and runs into the bar line as it is:
   what stands out of it are the beats, the answer is the other foot's, a burst is twice as fast. */
static void a_run_of_singles_has_beats_an_answer_and_a_faster_burst(void)
{
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_ACCENTS_ALONE, S), "R...R...R...R...");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_ANSWER, S), "RLRLRLRLLRLRLRLR");
    CHECK_TEXT(sticking_of(SIXTEENTHS, VARIATION_BURST, Q / 8), "R.L.R.L.R.L.R.L.R.L.R.L.R.L.RLRL");
    CHECK_TEXT(sticking_of(EIGHTHS_RIGHT, VARIATION_ANSWER, Q / 2), "the same as chosen");
}

/* ---- Displacements as a group */

/* Two operations one after the other bring a figure back. */
static void check_back(const Figure* const feet, const uint32_t first, const uint32_t second)
{
    const Variation made = variation_then(feet, NULL, four, first, second, rooms);
    if (made.figure && variation_make(feet, NULL, four, first, &third).figure) {
        const Figure* const source = variation_make(feet, NULL, four, 0, &third).figure;
        check_case("feet %u, %s then %s", feet->id, variation_words(first),
                   variation_words(second));
        CHECK(variation_equal(made.figure, source));
    }
}

static void what_moves_a_line_is_taken_back_by_its_inverse(void)
{
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); ++i) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        check_back(feet, VARIATION_EARLIER, VARIATION_LATER);
        check_back(feet, VARIATION_LATER, VARIATION_EARLIER);
        check_back(feet, VARIATION_OTHER_FOOT, VARIATION_OTHER_FOOT);
        check_back(feet, VARIATION_ROUND, VARIATION_ROUND);
    }
}

/* Which foot may be another: half as fast, one foot could play it. */
static void half_as_fast_is_taken_back_by_twice_as_fast(void)
{
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); ++i) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        const Variation back =
            variation_then(feet, NULL, four, VARIATION_HALF_TIME, VARIATION_DOUBLE_TIME, rooms);
        const Figure* const source = variation_make(feet, NULL, four, 0, &third).figure;
        for (int64_t tick = 0; back.figure && tick < source->cycle_ticks;
             tick += source->step_ticks) {
            check_case("feet %u at %.3f", feet->id, (double)tick / Q);
            CHECK_INT(kick_at(back.figure, tick), kick_at(source, tick));
        }
    }
}

/* Made again and again; how often until the source is back, at most `most` times. */
static int turns_until_back(const Figure* const feet, const uint32_t number, const int most)
{
    static Figure now;
    static Stroke strokes[FIGURE_STROKES_MAX];
    now = *feet;
    for (int turn = 1; turn <= most; ++turn) {
        const Variation made = variation_make(&now, NULL, four, number, &rooms[0]);
        if (!made.figure) {
            return made.reason == VARY_AS_CHOSEN ? turn : -1;
        }
        memcpy(strokes, made.figure->strokes, made.figure->stroke_count * sizeof *strokes);
        now = *made.figure;
        now.strokes = strokes;
        if (variation_equal(&now, feet)) {
            return turn;
        }
    }
    return 0;
}

static void as_many_steps_later_as_it_has_are_once_round(void)
{
    CHECK_INT(turns_until_back(factory(GALLOP), VARIATION_LATER, 20), 4);
    CHECK_INT(turns_until_back(factory(GALLOP), VARIATION_EARLIER, 20), 4);
    CHECK_INT(turns_until_back(factory(HERTA), VARIATION_LATER, 20), 6);
    CHECK_INT(turns_until_back(factory(SIXTEENTHS), VARIATION_LATER, 20), 2);
    CHECK_INT(turns_until_back(factory(GALLOP), VARIATION_HALF_LATER, 20), 2);
    CHECK_INT(turns_until_back(factory(GALLOP), VARIATION_BEAT_LATER, 20), 1);
}

static void gallop_and_reverse_gallop_are_half_a_beat_apart(void)
{
    CHECK_TEXT(sticking_of(GALLOP, VARIATION_HALF_LATER, S), "RLR.");
    CHECK_TEXT(sticking_of(REVERSE_GALLOP, VARIATION_HALF_LATER, S), "R.RL");
}

/* ---- How it answers */

static void the_same_question_has_the_same_answer(void)
{
    const Figure* const hands = library_figure(bank_library(bank), FIGURE_HANDS, 1);
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); i += 5) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        for (uint32_t number = 1; number < VARIATION_COUNT; ++number) {
            memset(&rooms[0], 0, sizeof rooms[0]);
            memset(&rooms[1], 0xA5, sizeof rooms[1]);
            const Variation a = variation_make(feet, hands, four, number, &rooms[0]);
            const Variation b = variation_make(feet, hands, four, number, &rooms[1]);
            check_case("feet %u, %s", feet->id, variation_words(number));
            CHECK_INT(a.reason, b.reason);
            CHECK(!a.figure || (variation_equal(a.figure, b.figure) &&
                                a.figure->cycle_ticks == b.figure->cycle_ticks));
        }
    }
}

static void what_cannot_be_made_says_why(void)
{
    const Figure empty = rolling(RIGHT_HAND, 4, "o...");
    const Figure gallop = *factory(GALLOP);
    CHECK_INT(variation_make(&gallop, NULL, four, VARIATION_COUNT, &rooms[0]).reason, VARY_UNKNOWN);
    CHECK_INT(variation_make(&gallop, NULL, four, VARIATION_SNARE, &rooms[0]).reason,
              VARY_NO_HANDS);
    CHECK_INT(variation_make(&empty, NULL, four, VARIATION_LATER, &rooms[0]).reason, VARY_NO_KICKS);
    CHECK(!variation_make(&empty, NULL, four, VARIATION_LATER, &rooms[0]).figure);
    CHECK_INT(variation_make(&gallop, NULL, four, 0, &rooms[0]).reason, VARY_NONE);
    for (uint32_t reason = VARY_UNKNOWN; reason < VARY_REASONS; ++reason) {
        CHECK(*variation_reason((VaryReason)reason));
    }
}

static void each_row_has_words_of_its_own(void)
{
    CHECK(VARIATION_COUNT > 24);
    for (uint32_t i = 0; i < VARIATION_COUNT; ++i) {
        CHECK(*variation_words(i) && *variation_help(i));
        CHECK(strlen(variation_words(i)) <= 26); /* the window's column */
        for (uint32_t j = 0; j < i; ++j) {
            CHECK(strcmp(variation_words(i), variation_words(j)) != 0);
        }
    }
}

int main(void)
{
    bank = factory_open();
    RUN(even_spreads_are_the_published_table_s);
    RUN(doubles_and_paradiddles_are_the_rudiments);
    RUN(gallops_go_right_right_left);
    RUN(hertas_go_right_left_right_left);
    RUN(triplets_of_a_gallop_are_a_shuffle_and_of_sixteenths_full);
    RUN(a_burst_is_five_that_land_on_the_next_one);
    RUN(groups_over_the_bar_begin_on_the_right_and_leave_a_hole_in_a_run);
    RUN(a_gallop_turned_round_is_the_reverse_gallop);
    RUN(a_run_of_singles_has_beats_an_answer_and_a_faster_burst);
    RUN(what_moves_a_line_is_taken_back_by_its_inverse);
    RUN(half_as_fast_is_taken_back_by_twice_as_fast);
    RUN(as_many_steps_later_as_it_has_are_once_round);
    RUN(gallop_and_reverse_gallop_are_half_a_beat_apart);
    RUN(the_same_question_has_the_same_answer);
    RUN(what_cannot_be_made_says_why);
    RUN(each_row_has_words_of_its_own);
    bank_free(bank);
    return tests_end();
}

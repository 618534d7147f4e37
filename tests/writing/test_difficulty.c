// SPDX-License-Identifier: ISC
/* test_difficulty.c - the grade of difficulty by hand for small cases; that it rises with tempo
   and with every stroke, over the whole bank. */
#include "../../plugin/engine/writing/difficulty.h"
#include "../bank/factory.h"
#include "../help/check.h"
#include "../rhythm/fraction.h"

#include <math.h>

enum { Q = TICKS_PER_QUARTER };

static Playability room;
static Bank* bank;

/* ---- By hand, from the words of difficulty.h */

/* Even strokes, at 120 a limb's first from `first` on. */
static uint32_t even(Stroke* const strokes, const uint8_t limb, const uint8_t voice,
                     const int64_t first, const int64_t apart)
{
    uint32_t count = 0;
    for (int64_t tick = first; tick < 4 * Q; tick += apart) {
        strokes[count++] = (Stroke){tick, limb, voice, LEVEL_NORMAL, true};
    }
    return count;
}

static Figure bar_of(const Stroke* const strokes, const uint32_t count, const FigureKind kind)
{
    return (Figure){.id = 1,
                    .kind = kind,
                    .cycle_ticks = 4 * Q,
                    .step_ticks = Q / 4,
                    .bars = 1,
                    .stroke_count = count,
                    .strokes = strokes};
}

/* Quarters at 120 are two a second, half a second apart: no run. */
static void quarters_of_a_foot_are_counted_by_hand(void)
{
    Stroke strokes[16];
    const Figure feet = bar_of(strokes, even(strokes, RIGHT_FOOT, VOICE_KICK, 0, Q), FIGURE_FEET);
    CHECK_NEAR(difficulty_figure_load(&feet, 120.0, &room), 0.75 * 2.0 / (1034.0 / 120.0), 1e-9);
    CHECK_INT(difficulty_of_figure(&feet, 120.0, &room), 1);
}

/* Sixteenths foot to foot at 150: five a second of each, in an unbroken run; each foot's 64
   strokes of 32 quarters; of the 10 moments a second each foot has half. */
static void sixteenths_foot_to_foot_are_counted_by_hand(void)
{
    Stroke strokes[32];
    uint32_t count = even(strokes, RIGHT_FOOT, VOICE_KICK, 0, Q / 2);
    count += even(strokes + count, LEFT_FOOT, VOICE_KICK_LEFT, Q / 4, Q / 2);
    strokes_sort(strokes, count);
    const Figure feet = bar_of(strokes, count, FIGURE_FEET);
    const double one = 5.0 / (1034.0 / 120.0);
    CHECK_NEAR(difficulty_figure_load(&feet, 150.0, &room), one + 0.03 * 5.0, 1e-9);
    CHECK_INT(difficulty_of_figure(&feet, 150.0, &room), 5); /* 0.7303 / 0.7 */
    CHECK_INT(difficulty_of_figure(&feet, 120.0, &room), 4); /* 0.5842 / 0.7 */
}

/* Eighths of a hand at 120: 4 a second, 250 ms apart, all one run; the snare on two and four
   falls together with every fourth, so that 1 a second of 4 moments is independent. */
static void hats_and_backbeat_are_counted_by_hand(void)
{
    Stroke strokes[32];
    uint32_t count = even(strokes, RIGHT_HAND, VOICE_HAT_CLOSED, 0, Q / 2);
    count += even(strokes + count, LEFT_HAND, VOICE_SNARE, Q, 2 * Q);
    strokes_sort(strokes, count);
    const Figure hands = bar_of(strokes, count, FIGURE_HANDS);
    CHECK_NEAR(difficulty_figure_load(&hands, 120.0, &room), pow(0.4, 1.5) + 0.03, 1e-9);
    CHECK_INT(difficulty_of_figure(&hands, 120.0, &room), 1);
}

static void what_is_played_together_is_half_as_independent(void)
{
    Stroke strokes[32];
    const double alone = 0.75 * 2.0 / (1034.0 / 120.0);
    for (int turns = 0; turns < 2; ++turns) {
        uint32_t count = even(strokes, RIGHT_FOOT, VOICE_KICK, 0, Q);
        count += even(strokes + count, LEFT_FOOT, VOICE_HAT_PEDAL, turns ? Q / 2 : 0, Q);
        strokes_sort(strokes, count);
        const Figure feet = bar_of(strokes, count, FIGURE_FEET);
        const double load = difficulty_figure_load(&feet, 60.0, &room);
        CHECK_NEAR(load, alone / 2.0 + 0.03 * (turns ? 1.0 : 0.5), 1e-9);
    }
}

/* Quarters of one hand at 120, on the snare and on a cymbal 75 cm to its right and 65 away:
   20 ms and the way at 10 m/s, of the 500 ms that there are. */
static void a_hand_s_worst_move_is_added(void)
{
    Stroke strokes[16];
    uint32_t count = even(strokes, RIGHT_HAND, VOICE_SNARE, 0, 2 * Q);
    count += even(strokes + count, RIGHT_HAND, VOICE_CRASH_2, Q, 2 * Q);
    strokes_sort(strokes, count);
    const Figure hands = bar_of(strokes, count, FIGURE_HANDS);
    const double move = (20.0 + sqrt(75.0 * 75.0 + 65.0 * 65.0)) / 500.0;
    CHECK_NEAR(difficulty_figure_load(&hands, 120.0, &room), 0.75 * pow(0.2, 1.5) + 0.15 * move,
               1e-9);
}

/* ---- Over the bank */

static double load_of(const EntryKind kind, const uint32_t index, const double tempo)
{
    const Library* const library = bank_library(bank);
    return kind == ENTRY_GROOVE
               ? difficulty_groove_load(&library->grooves[index], tempo, &room)
               : difficulty_figure_load(&library->figures[kind][index], tempo, &room);
}

static void faster_is_never_easier(void)
{
    for (int kind = ENTRY_HANDS; kind <= ENTRY_GROOVE; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            double before = 0.0;
            for (double tempo = 41.0; tempo < 400.0; tempo *= 1.13) {
                const double load = load_of((EntryKind)kind, i, tempo);
                check_case("%s %u at %.1f: %.4f, slower %.4f", kind_rows[kind].name,
                           bank_entry(bank, (EntryKind)kind, i)->id, tempo, load, before);
                CHECK(load > before);
                before = load;
            }
        }
    }
}

static bool strikes_at(const Figure* const figure, const uint8_t limb, const int64_t tick)
{
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (figure->strokes[i].limb == limb && figure->strokes[i].tick == tick) {
            return true;
        }
    }
    return false;
}

static const uint8_t voices[LIMB_COUNT][3] = {{VOICE_HAT_CLOSED, VOICE_CRASH_2, VOICE_TOM_FLOOR},
                                              {VOICE_SNARE, VOICE_TOM_HIGH, VOICE_HAT_OPEN},
                                              {VOICE_KICK, VOICE_KICK, VOICE_KICK},
                                              {VOICE_HAT_PEDAL, VOICE_KICK_LEFT, VOICE_HAT_PEDAL}};

/* The figure with one more stroke on its steps, of a limb that rests there; false if none
   was found. */
static bool add_stroke(const Figure* const figure, uint32_t* const dice_state,
                       Stroke strokes[FIGURE_STROKES_MAX], Figure* const more)
{
    const bool are_feet = figure->kind == FIGURE_FEET;
    const bool are_hands = figure->kind == FIGURE_HANDS;
    const uint32_t steps = (uint32_t)(figure->cycle_ticks / figure->step_ticks);
    const uint8_t limb = (uint8_t)(are_feet    ? RIGHT_FOOT + dice(dice_state, 2)
                                   : are_hands ? dice(dice_state, 2)
                                               : dice(dice_state, LIMB_COUNT));
    const int64_t tick = dice(dice_state, steps) * figure->step_ticks;
    if (strikes_at(figure, limb, tick) || figure->stroke_count == FIGURE_STROKES_MAX) {
        return false;
    }
    memcpy(strokes, figure->strokes, figure->stroke_count * sizeof *strokes);
    strokes[figure->stroke_count] =
        (Stroke){tick, limb, voices[limb][dice(dice_state, 3)], LEVEL_NORMAL, true};
    *more = *figure;
    more->strokes = strokes;
    strokes_sort(strokes, ++more->stroke_count);
    figure_note(more);
    return true;
}

static void a_stroke_more_never_makes_a_figure_easier(void)
{
    static Stroke strokes[FIGURE_STROKES_MAX];
    uint32_t state = 5, tried = 0;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const Figure* const figure = factory_figure(bank, (EntryKind)kind, i);
            for (int turn = 0; turn < 12; ++turn) {
                Figure more;
                const double tempo = 60.0 + dice(&state, 180);
                if (add_stroke(figure, &state, strokes, &more)) {
                    const double load = difficulty_figure_load(figure, tempo, &room);
                    check_case("%s %u at %g", kind_rows[kind].name, figure->id, tempo);
                    CHECK(difficulty_figure_load(&more, tempo, &room) >= load - 1e-9);
                    ++tried;
                }
            }
        }
    }
    printf("# %u strokes added\n", tried);
    CHECK(tried > 2000);
}

/* The groove with a stroke more in one figure, wherever that stands. */
static Groove with_figure(const Groove* const groove, const Figure* const figure,
                          const Figure* const more)
{
    Groove changed = *groove;
    for (int letter = 0; letter < PARTS_MAX; ++letter) {
        Part* const part = &changed.parts[letter];
        part->hands = part->hands == figure ? more : part->hands;
        part->feet = part->feet == figure ? more : part->feet;
    }
    return changed;
}

static void a_stroke_more_never_makes_a_groove_easier(void)
{
    static Stroke strokes[FIGURE_STROKES_MAX];
    const Library* const library = bank_library(bank);
    uint32_t state = 6, tried = 0;
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const Groove* const groove = &library->grooves[i];
        for (int turn = 0; turn < 24; ++turn) {
            const Part part = groove->parts[groove->form[dice(&state, groove->form_bars)]];
            const Figure* const figure = turn % 2 ? part.hands : part.feet;
            Figure more;
            if (figure && add_stroke(figure, &state, strokes, &more)) {
                const Groove changed = with_figure(groove, figure, &more);
                const double load = difficulty_groove_load(groove, groove->tempo, &room);
                check_case("groove %u, %s", groove->id, kind_rows[figure->kind].name);
                CHECK(difficulty_groove_load(&changed, groove->tempo, &room) >= load - 1e-9);
                ++tried;
            }
        }
    }
    printf("# %u strokes added\n", tried);
    CHECK(tried > 1000);
}

/* ---- Grades as people see them */

static void every_kind_of_the_bank_has_easy_and_hard_ones(void)
{
    for (int kind = ENTRY_HANDS; kind <= ENTRY_GROOVE; ++kind) {
        uint32_t counts[6] = {0};
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const EntryInfo* const info = bank_entry(bank, (EntryKind)kind, i);
            const double tempo = difficulty_tempo(info->tempo_low, info->tempo_high);
            const Groove* const groove = &bank_library(bank)->grooves[i];
            const int grade =
                kind == ENTRY_GROOVE
                    ? difficulty_of_groove(groove, groove->tempo, &room)
                    : difficulty_of_figure(factory_figure(bank, (EntryKind)kind, i), tempo, &room);
            CHECK(grade >= 1 && grade <= 5);
            ++counts[grade];
        }
        printf("# %s: %u, %u, %u, %u, %u\n", kind_rows[kind].plural, counts[1], counts[2],
               counts[3], counts[4], counts[5]);
        for (int grade = 1; grade <= 4; ++grade) {
            check_case("%s of grade %d", kind_rows[kind].plural, grade);
            CHECK(counts[grade]);
        }
    }
}

static void a_figure_is_graded_in_the_middle_of_its_tempi(void)
{
    CHECK_NEAR(difficulty_tempo(90, 160), 120.0, 1e-9); /* 90 to 120 as 120 to 160 */
    CHECK_NEAR(difficulty_tempo(0, 0), 120.0, 0.0);
    CHECK_NEAR(difficulty_tempo(90, 0), 120.0, 0.0);
}

int main(void)
{
    bank = factory_open();
    RUN(quarters_of_a_foot_are_counted_by_hand);
    RUN(sixteenths_foot_to_foot_are_counted_by_hand);
    RUN(hats_and_backbeat_are_counted_by_hand);
    RUN(what_is_played_together_is_half_as_independent);
    RUN(a_hand_s_worst_move_is_added);
    RUN(faster_is_never_easier);
    RUN(a_stroke_more_never_makes_a_figure_easier);
    RUN(a_stroke_more_never_makes_a_groove_easier);
    RUN(every_kind_of_the_bank_has_easy_and_hard_ones);
    RUN(a_figure_is_graded_in_the_middle_of_its_tempi);
    bank_free(bank);
    return tests_end();
}

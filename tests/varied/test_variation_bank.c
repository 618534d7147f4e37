// SPDX-License-Identifier: ISC
/* test_variation_bank.c - every feet figure of the bank under every variation, over hands that
   change from case to case, at three tempi: the promise of its row (promises.h), figures as
   figure.h wants them, feet that a person has, playable or marked. */
#include "../bank/factory.h"
#include "promise_feet.h"
#include "promises.h"

/* ---- What isn't said place by place */

static void check_seconds(const Promise* const promise)
{
    for (uint32_t i = 0; i < made_kicks.count && 2 * i < source_kicks.count; ++i) {
        CHECK_INT(made_kicks.ticks[i], source_kicks.ticks[2 * i]);
        CHECK_INT(made_kicks.levels[i], source_kicks.levels[2 * i]);
    }
    CHECK_INT(2 * made_kicks.count, source_kicks.count + source_kicks.count % 2);
    (void)promise;
}

static void check_group(const Promise* const promise, const int64_t steps)
{
    uint32_t struck = 0;
    for (int64_t i = 0; i < steps && promise->grid; ++i) {
        struck += kick_at(promise->source, source_kicks.ticks[0] + i * promise->grid) != 0;
    }
    for (int64_t i = 0; i < promise->both / S && promise->grid; ++i) {
        const int64_t step = i % steps;
        const bool hole = struck == steps && step == steps - 1;
        const uint8_t from = kick_at(promise->source, source_kicks.ticks[0] + step * promise->grid);
        CHECK_INT(kick_at(promise->made, i * promise->grid), hole   ? LEVEL_REST
                                                             : step ? from
                                                                    : LEVEL_ACCENT);
    }
}

static void check_accents(const uint32_t every)
{
    for (uint32_t i = 0; i < made_kicks.count; ++i) {
        CHECK_INT(made_kicks.ticks[i], source_kicks.ticks[i]);
        CHECK_INT(made_kicks.levels[i] >= LEVEL_ACCENT, i % every == 0);
    }
    CHECK_INT(made_kicks.count % every, 0); /* so it goes on */
}

/* Stickings are those of the Percussive Arts Society's rudiments 6 and 16. */
static void check_sticking(const char* const sticking)
{
    const size_t length = strlen(sticking);
    for (uint32_t i = 0; i < made_kicks.count; ++i) {
        const bool leads = made_kicks.feet[i] == made_kicks.feet[0];
        CHECK_INT(made_kicks.ticks[i], source_kicks.ticks[i]);
        CHECK_INT(leads, sticking[i % length] == 'R');
    }
    CHECK_INT(made_kicks.count % length, 0);
}

static void check_even(const Promise* const promise)
{
    int64_t least = INT64_MAX, most = 0;
    for (uint32_t i = 0; i < made_kicks.count; ++i) {
        const int64_t gap = gap_of(&made_kicks, i, promise->both);
        least = gap < least ? gap : least;
        most = gap > most ? gap : most;
    }
    CHECK_INT(made_kicks.count, source_kicks.count);
    CHECK(most - least <= (promise->grid ? promise->grid : Q / 2));
}

/* What is the same backwards is answered by the other foot, and nothing else is. */
static void check_answer(const Promise* const promise)
{
    for (uint32_t i = 0; promise->turns_same && i < made_kicks.count; ++i) {
        const bool first = made_kicks.ticks[i] % promise->bar < first_half(promise);
        check_case("feet %u, half and answer, kick %u", promise->source->id, i);
        CHECK_INT(made_kicks.ticks[i], source_kicks.ticks[i]);
        CHECK_INT(made_kicks.feet[i] == source_kicks.feet[i], first);
    }
}

/* As many as are promised: a place by place promise is kept by silence too. */
static void check_count(const Promise* const promise, const uint32_t times)
{
    (void)promise;
    CHECK_INT(made_kicks.count, times * source_kicks.count);
}

/* ---- Each row */

static Holds* const each_place[VARIATION_COUNT] = {
    [VARIATION_THINNED] = is_thinned,
    [VARIATION_FILLED] = is_filled,
    [VARIATION_EARLIER] = is_earlier,
    [VARIATION_LATER] = is_later,
    [VARIATION_OTHER_FOOT] = is_swapped,
    [VARIATION_ONE_FOOT] = is_one_foot,
    [VARIATION_DOUBLED] = is_doubled,
    [VARIATION_TRIPLETS] = is_triplet,
    [VARIATION_GALLOPS] = is_gallop,
    [VARIATION_REVERSE] = is_reverse,
    [VARIATION_HERTAS] = is_herta,
    [VARIATION_SNARE] = is_off_snare,
    [VARIATION_ACCENTS] = is_with_accents,
    [VARIATION_ACCENTS_ALONE] = is_accents,
    [VARIATION_ACCENT_THREES] = is_where_it_was,
    [VARIATION_ACCENT_FIVES] = is_where_it_was,
    [VARIATION_BURST] = is_burst,
    [VARIATION_SEXTUPLETS] = is_sextuplet,
    [VARIATION_ROUND] = is_turned,
    [VARIATION_ANSWER] = is_answer,
    [VARIATION_BARS] = is_bar_on_off,
    [VARIATION_HALVES] = is_half_on_off,
    [VARIATION_HALF_LATER] = is_half_later,
    [VARIATION_BEAT_LATER] = is_beat_later,
    [VARIATION_OFF_ONE] = is_off_one,
    [VARIATION_LINEAR] = is_linear,
    [VARIATION_CYMBAL] = is_under_cymbal,
    [VARIATION_SHOTS] = is_shot,
    [VARIATION_DOUBLES] = is_in_place,
    [VARIATION_PARADIDDLES] = is_in_place,
    [VARIATION_PAIRS] = is_paired,
    [VARIATION_PICKUPS] = is_pushed,
    [VARIATION_RIGHT] = is_right,
    [VARIATION_LEFT] = is_left,
    [VARIATION_HALF_TIME] = is_slow,
    [VARIATION_DOUBLE_TIME] = is_fast,
};

static void check_whole(const Promise* const promise)
{
    switch (promise->number) {
    case VARIATION_SECONDS:
        check_seconds(promise);
        break;
    case VARIATION_THREES:
        check_group(promise, 3);
        break;
    case VARIATION_FIVES:
        check_group(promise, 5);
        break;
    case VARIATION_SEVENS:
        check_group(promise, 7);
        break;
    case VARIATION_ACCENT_THREES:
        check_accents(3);
        break;
    case VARIATION_ACCENT_FIVES:
        check_accents(5);
        break;
    case VARIATION_DOUBLES:
        check_sticking("RRLL");
        break;
    case VARIATION_PARADIDDLES:
        check_sticking("RLRRLRLL");
        break;
    case VARIATION_EVEN:
        check_even(promise);
        break;
    case VARIATION_ANSWER:
        check_answer(promise);
        break;
    case VARIATION_DOUBLED:
        check_count(promise, 2);
        break;
    default:
        CHECK(each_place[promise->number] != NULL);
        break;
    }
}

/* ---- Playable or marked, against a count of its own */

static Playability playability;

enum { LOOKED_AT = 32 }; /* quarters */

/* Strokes of a foot in its busiest second. */
static uint32_t busiest(const Kicks* const kicks, const int foot, const double second)
{
    uint32_t most = 0;
    for (uint32_t i = 0; i < kicks->count; ++i) {
        uint32_t count = 0;
        for (uint32_t j = i; j < kicks->count; ++j) {
            const double since = (double)(kicks->ticks[j] - kicks->ticks[i]);
            count += since < second - 1.0 && kicks->feet[j] >> foot & 1;
        }
        most = count > most ? count : most;
    }
    return most;
}

/* One foot 8.6 strokes a second, kept up (play_limits.c has the sources): what has ten in a
   second is marked, what has eight at most, none closer than that, is not. */
static void check_marked(const Promise* const promise, const double tempo)
{
    static Kicks played;
    const PlayLimits limits = play_limits_default();
    const double second = tempo / 60.0 * Q;
    kicks_until(promise->made, LOOKED_AT * Q, &played);
    const uint32_t right = busiest(&played, RIGHT_FOOT, second);
    const uint32_t left = busiest(&played, LEFT_FOOT, second);
    const double closest = (double)closest_of_a_foot(&made_kicks, promise->both) / second;
    const uint32_t faults =
        variation_faults(promise->made, tempo, LOOKED_AT / tempo, &limits, &playability);
    check_case("feet %u, %s at %.0f: right %u, left %u, %.3f s apart", promise->source->id,
               variation_words(promise->number), tempo, right, left, closest);
    CHECK(faults || (right < 10 && left < 10 && closest > 0.0426));
    CHECK(!faults || right > 8 || left > 8 || closest < 1.0 / 8.6);
}

/* ---- All */

static VariationRoom room, again;

typedef struct {
    uint32_t cases;
    uint32_t made;
    uint32_t made_of[VARIATION_COUNT];
    uint32_t too_fast;
} Tally;

/* A step as variation.h has it; 0 where two grids meet in it, or none is there. */
static int64_t grid_of(const Figure* const figure)
{
    if (figure->step_ticks <= Q / 2 && figure->step_ticks >= S) {
        return figure->step_ticks;
    }
    int64_t grid = figure->cycle_ticks;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        grid = is_kick(figure->strokes[i]) ? common_divisor(grid, figure->strokes[i].tick) : grid;
    }
    return grid <= Q / 2 && grid >= Q / 8 ? grid : 0;
}

/* Whether what is there, and what stands where it is answered or answers, are the same kick of the
   same foot. */
static bool is_turned_same(const Promise* const promise, const int64_t tick)
{
    const int64_t at = tick % promise->bar, half = promise->bar - first_half(promise);
    const int64_t turned = floor_mod(-(at < half ? at : at - first_half(promise)), half);
    const int64_t to = tick - at + turned + (at < half ? first_half(promise) : 0);
    return (at >= half && at < first_half(promise)) ||
           (kick_at(promise->source, tick) == kick_at(promise->source, to) &&
            feet_at(promise->source, tick) == feet_at(promise->source, to));
}

/* Until it and the bar line come round together, or as far as is looked. */
static void note_source(Promise* const promise)
{
    const int64_t whole = common_multiple(promise->source->cycle_ticks, promise->bar);
    const int64_t end = whole < 256 * (int64_t)Q ? whole : 256 * (int64_t)Q;
    kicks_until(promise->source, end, &source_kicks);
    promise->runs_out = true;
    for (int64_t bar = promise->bar; bar <= end; bar += promise->bar) {
        int kicks = 0;
        for (uint32_t i = 0; i < source_kicks.count; ++i) {
            const int64_t left = bar - source_kicks.ticks[i];
            kicks += left > 0 && left <= Q;
        }
        promise->runs_out &= kicks >= 4;
    }
    promise->turns_same = true;
    for (uint32_t i = 0; i < source_kicks.count; ++i) {
        promise->accents |= source_kicks.levels[i] >= LEVEL_ACCENT;
        promise->turns_same &= is_turned_same(promise, source_kicks.ticks[i]);
    }
}

static bool goes_by_hands(const uint32_t number)
{
    return number == VARIATION_SNARE || number == VARIATION_ACCENTS || number == VARIATION_LINEAR ||
           number == VARIATION_SHOTS || number == VARIATION_CYMBAL;
}

static void check_made(const Promise* const promise)
{
    kicks_until(promise->source, promise->both, &source_kicks);
    kicks_until(promise->made, promise->both, &made_kicks);
    check_case("feet %u, %s", promise->source->id, variation_words(promise->number));
    CHECK(figure_valid(promise->made) && figure_has_feet(promise->made));
    CHECK(source_kicks.count < KICKS_MAX && made_kicks.count < KICKS_MAX);
    if (each_place[promise->number]) {
        everywhere(promise, each_place[promise->number]);
    }
    check_case("feet %u, %s", promise->source->id, variation_words(promise->number));
    check_whole(promise);
    check_hat(promise);
    check_bars(promise);
    check_feet(promise);
}

/* With the bar line and every second step, too, if that isn't too far to look. */
static int64_t far_enough(const Promise* const promise)
{
    const int64_t most = 256 * (int64_t)Q;
    const int64_t steps = promise->grid ? 2 * promise->grid : 1;
    const int64_t all = common_multiple(common_multiple(promise->both, promise->bar), steps);
    return all < most ? all : promise->both < most ? promise->both : most;
}

static void check_case_of(const Figure* const feet, const Figure* const hands, const Meter meter,
                          const uint32_t number, Tally* const tally)
{
    static const double tempi[] = {80.0, 140.0, 200.0};
    const Figure* const source = variation_make(feet, hands, meter, 0, &again).figure;
    const Variation made = variation_make(feet, hands, meter, number, &room);
    ++tally->cases;
    check_case("feet %u, %s", feet->id, variation_words(number));
    CHECK_INT(made.figure == NULL, made.reason != VARY_NONE);
    if (!made.figure || !CHECK(source)) {
        return;
    }
    Promise promise = {.number = number,
                       .source = source,
                       .made = made.figure,
                       .hands = hands,
                       .bar = meter_bar_ticks(meter)};
    const bool in_threes = meter.beat_unit == 8 && promise.bar % (Q / 2 * 3) == 0;
    promise.beat = in_threes ? Q / 2 * 3 : promise.bar < Q ? promise.bar : Q;
    promise.both = common_multiple(source->cycle_ticks, made.figure->cycle_ticks);
    promise.both = common_multiple(promise.both, goes_by_hands(number) ? hands->cycle_ticks : 1);
    promise.grid = grid_of(source);
    promise.both = far_enough(&promise);
    note_source(&promise);
    check_made(&promise);
    ++tally->made;
    ++tally->made_of[number];
    for (int i = 0; i < 3; ++i) {
        check_marked(&promise, tempi[i]);
    }
}

/* A figure in bars in its own meter; one that rolls in 4/4, 7/8 and 12/8. */
static Meter meter_for(const Figure* const feet, const uint32_t turn)
{
    static const Meter rolled[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}};
    const int64_t eighths = feet->bars ? feet->cycle_ticks / feet->bars / (Q / 2) : 0;
    const bool quarters = feet->bars && feet->cycle_ticks / feet->bars % Q == 0;
    const bool in_eighths = feet->bars && feet->cycle_ticks / feet->bars % (Q / 2) == 0;
    return !feet->bars  ? rolled[turn % 3]
           : quarters   ? (Meter){(double)(eighths / 2), 4}
           : in_eighths ? (Meter){(double)eighths, 8}
                        : (Meter){(double)(feet->cycle_ticks / feet->bars) / S, 16};
}

/* The next hands after `from` that are in bars as long, or roll. */
static const Figure* hands_for(const Bank* const bank, const Meter meter, const uint32_t from)
{
    const uint32_t count = bank_count(bank, ENTRY_HANDS);
    for (uint32_t i = 0; i < count; ++i) {
        const Figure* const hands = factory_figure(bank, ENTRY_HANDS, (from + i) % count);
        if (!hands->bars || hands->cycle_ticks / hands->bars == meter_bar_ticks(meter)) {
            return hands;
        }
    }
    return NULL;
}

static void every_variation_of_every_figure_keeps_its_promise(void)
{
    Bank* const bank = factory_open();
    Tally tally = {0};
    const uint32_t count = bank_count(bank, ENTRY_FEET);
    for (uint32_t i = 0; i < count; ++i) {
        const Figure* const feet = factory_figure(bank, ENTRY_FEET, i);
        const Meter meter = meter_for(feet, i);
        for (uint32_t number = 1; number < VARIATION_COUNT; ++number) {
            const Figure* const hands = hands_for(bank, meter, 7 * i + 3 * number);
            check_case_of(feet, hands, meter, number, &tally);
        }
    }
    for (uint32_t number = 1; number < VARIATION_COUNT; ++number) {
        check_case("%s: made of %u figures", variation_words(number), tally.made_of[number]);
        CHECK(tally.made_of[number] * 10 >= count);
    }
    printf("# %u figures, %u cases, %u made\n", count, tally.cases, tally.made);
    bank_free(bank);
}

int main(void)
{
    RUN(every_variation_of_every_figure_keeps_its_promise);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_human_limits.c - the bank asks nothing of a person that nobody was ever
   measured to do.  The limits and their sources are in data/human-limits.tsv. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

static struct {
    double one_hand, one_foot, two_feet, two_hands;
} most; /* strokes in a second */

static void read_limits(void)
{
    const struct {
        const char* name;
        double* value;
    } rows[] = {{"one_hand", &most.one_hand},
                {"one_foot", &most.one_foot},
                {"two_feet", &most.two_feet},
                {"two_hands", &most.two_hands}};
    Tsv table = tsv_open("human-limits.tsv");
    while (tsv_next(&table)) {
        for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
            if (!strcmp(table.fields[0], rows[i].name)) {
                *rows[i].value = strtod(table.fields[1], NULL);
            }
        }
    }
}

static void the_limits_were_read(void)
{
    CHECK_NEAR(1000.0 / most.one_hand, 100.0, 1e-9); /* ms, Fujii et al. 2009 */
    CHECK_NEAR(60.0 * most.two_feet, 1034.0, 3.0);   /* strokes in the record's minute */
    CHECK_NEAR(2.0 * most.one_foot, most.two_feet, 0.1);
    CHECK_NEAR(60.0 * most.two_hands, 1208.0, 3.0);
}

/* A stretch of strokes, in order, at quarter notes a minute. */
typedef struct {
    const Stroke* strokes;
    uint32_t count;
    int64_t cycle; /* after which it begins again; 0: it doesn't */
    double tempo;
} Played;

static double seconds(const Played played, const int64_t ticks)
{
    return (double)ticks / (double)TICKS_PER_QUARTER * 60.0 / played.tempo;
}

enum { GAPS_MOST = 2 };

/* The shortest time that so many gaps take, shared out among them, of the strokes of the
   limbs asked for, whichever of them plays; strokes together count as one. */
static double shortest_gap(const Played played, const bool limbs[LIMB_COUNT], const int gaps)
{
    const uint32_t rounds = played.cycle ? 1 + GAPS_MOST : 1;
    int64_t before[GAPS_MOST] = {-1, -1}; /* the last stroke, and the one before that */
    double shortest = 1e9;
    for (uint32_t i = 0; i < rounds * played.count; ++i) {
        const Stroke stroke = played.strokes[i % played.count];
        const int64_t tick = stroke.tick + played.cycle * (i / played.count);
        const int64_t from = before[gaps - 1];
        if (!limbs[stroke.limb] || tick == before[0]) {
            continue;
        }
        if (from >= 0 && seconds(played, tick - from) / gaps < shortest) {
            shortest = seconds(played, tick - from) / gaps;
        }
        before[1] = before[0];
        before[0] = tick;
    }
    return shortest;
}

/* One hand's second stroke of a double is the stick's bounce, which the limit of a hand that
   taps says nothing of: a double with the stroke before or after it, as in the rudiments of
   double strokes (data/rudiments.tsv), keeps to it. */
static void check_rate(const Played played, const char* const who, const bool limbs[LIMB_COUNT],
                       const double limit, const int gaps)
{
    const double rate = 1.0 / shortest_gap(played, limbs, gaps);
    check_case("%s at %g asks the %s for %.2f strokes a second, %.2f is the most", who,
               played.tempo, limbs[LEFT_FOOT] || limbs[RIGHT_FOOT] ? "feet" : "hands", rate, limit);
    CHECK(rate <= limit + 1e-9);
}

static void check_person(const Played played, const char* const who)
{
    for (uint8_t limb = 0; limb < LIMB_COUNT; ++limb) {
        bool limbs[LIMB_COUNT] = {false};
        limbs[limb] = true;
        check_rate(played, who, limbs, limb_is_foot(limb) ? most.one_foot : most.one_hand,
                   limb_is_foot(limb) ? 1 : 2);
    }
    check_rate(played, who, (const bool[LIMB_COUNT]){true, true, false, false}, most.two_hands, 1);
    check_rate(played, who, (const bool[LIMB_COUNT]){false, false, true, true}, most.two_feet, 1);
}

/* A turnaround is played once and something else follows it. */
static void check_figure(const EntryKind kind, const uint32_t index)
{
    const Figure* const figure = factory_figure(bank, kind, index);
    const EntryInfo* const entry = bank_entry(bank, kind, index);
    const Played played = {figure->strokes, figure->stroke_count,
                           kind == ENTRY_TURNAROUND ? 0 : figure->cycle_ticks, entry->tempo_high};
    check_person(played, entry->label);
}

static void check_figures(const EntryKind kind)
{
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        check_figure(kind, i);
    }
}

static void no_hands_figure_is_faster_than_hands_at_its_highest_tempo(void)
{
    check_figures(ENTRY_HANDS);
}

static void no_feet_figure_is_faster_than_feet_at_its_highest_tempo(void)
{
    check_figures(ENTRY_FEET);
}

static void no_turnaround_is_faster_than_a_person_at_its_highest_tempo(void)
{
    check_figures(ENTRY_TURNAROUND);
}

enum { PHRASE_STROKES_MAX = 8192 };

/* Two phrases of a groove as it is written, so that every join is met. */
static uint32_t play_groove(const Groove* const groove, Stroke* const strokes)
{
    static StrokeList bar_list; /* too large for a stack */
    const Selection selection = plain_choice(groove, groove->form_bars);
    const int64_t bar = meter_bar_ticks(groove->meter);
    uint32_t count = 0;
    for (int64_t i = 0; i < 2 * (int64_t)groove->form_bars; ++i) {
        groove_strokes(&selection, groove->meter, i * bar, (i + 1) * bar, &bar_list);
        if (!CHECK(!bar_list.dropped && count + bar_list.count <= PHRASE_STROKES_MAX)) {
            return count;
        }
        memcpy(&strokes[count], bar_list.strokes, bar_list.count * sizeof(Stroke));
        count += bar_list.count;
    }
    return count;
}

static void every_groove_can_be_played_at_its_highest_tempo(void)
{
    static Stroke strokes[PHRASE_STROKES_MAX];
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_GROOVE); ++i) {
        const EntryInfo* const entry = bank_entry(bank, ENTRY_GROOVE, i);
        const uint32_t count = play_groove(&bank_library(bank)->grooves[i], strokes);
        check_person((Played){strokes, count, 0, entry->tempo_high}, entry->label);
    }
}

/* Two strokes of one limb at once, anywhere in the list? */
static bool in_two_places(const Stroke* const strokes, const uint32_t count)
{
    for (uint32_t i = 0; i < count; ++i) {
        for (uint32_t j = i + 1; j < count && strokes[j].tick == strokes[i].tick; ++j) {
            if (strokes[j].limb == strokes[i].limb) {
                return true;
            }
        }
    }
    return false;
}

static void no_figure_has_a_limb_in_two_places(void)
{
    for (int kind = ENTRY_HANDS; kind <= ENTRY_TURNAROUND; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const Figure* const figure = factory_figure(bank, (EntryKind)kind, i);
            check_case("%s", bank_entry(bank, (EntryKind)kind, i)->label);
            CHECK(!in_two_places(figure->strokes, figure->stroke_count));
        }
    }
}

static void no_groove_has_a_limb_in_two_places(void)
{
    static Stroke strokes[PHRASE_STROKES_MAX];
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_GROOVE); ++i) {
        const uint32_t count = play_groove(&bank_library(bank)->grooves[i], strokes);
        check_case("%s", bank_entry(bank, ENTRY_GROOVE, i)->label);
        CHECK(!in_two_places(strokes, count));
    }
}

int main(void)
{
    bank = factory_open();
    read_limits();
    RUN(the_limits_were_read);
    RUN(no_hands_figure_is_faster_than_hands_at_its_highest_tempo);
    RUN(no_feet_figure_is_faster_than_feet_at_its_highest_tempo);
    RUN(no_turnaround_is_faster_than_a_person_at_its_highest_tempo);
    RUN(every_groove_can_be_played_at_its_highest_tempo);
    RUN(no_figure_has_a_limb_in_two_places);
    RUN(no_groove_has_a_limb_in_two_places);
    bank_free(bank);
    return tests_end();
}

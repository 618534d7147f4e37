// SPDX-License-Identifier: ISC
/* What the dial of liberty says is so: of a groove's ghosts, and of one foot's kicks off the
   beat, as many stay away as it says; and as it says of drummers, by tests/data/drummers.tsv
   (from the Groove MIDI Dataset, Gillick and others, ICML 2019, CC BY 4.0). */
#include "../../plugin/engine/writing/liberty.h"
#include "../../ui/scene/felt.h"
#include "../data/tsv.h"
#include "../help/check.h"

#include <math.h>
#include <stdio.h>

enum { TAKES = 40, BARS = 64, STEPS = 16 };

static View view; /* no bank: nothing is written */

static const char hats[] = "o.o.o.o.o.o.o.o.";
static const char snare[] = "...gO....g.gO..g";
static const char kicks[] = "o.....o...o.....";
static const char lefts[] = "...o..........o.";

static Stroke hand_strokes[2 * STEPS], foot_strokes[STEPS], both_strokes[2 * STEPS];
static Figure hands = {.id = 1, .kind = FIGURE_HANDS, .bars = 1};
static Figure feet = {.id = 1, .kind = FIGURE_FEET, .bars = 1};
static Figure both = {.id = 2, .kind = FIGURE_FEET, .bars = 1};

static void add(Figure* const figure, Stroke* const strokes, const int step, const char sign,
                const Stroke voice)
{
    if (sign != '.') {
        Stroke stroke = voice;
        stroke.tick = step * (TICKS_PER_QUARTER / 4);
        stroke.level = sign == 'g' ? LEVEL_GHOST : sign == 'O' ? LEVEL_ACCENT : LEVEL_NORMAL;
        strokes[figure->stroke_count++] = stroke;
    }
}

static void make_figures(void)
{
    for (int step = 0; step < STEPS; ++step) {
        add(&hands, hand_strokes, step, hats[step],
            (Stroke){.limb = RIGHT_HAND, .voice = VOICE_HAT_CLOSED, .bends = true});
        add(&hands, hand_strokes, step, snare[step],
            (Stroke){.limb = LEFT_HAND, .voice = VOICE_SNARE, .bends = true});
        add(&feet, foot_strokes, step, kicks[step],
            (Stroke){.limb = RIGHT_FOOT, .voice = VOICE_KICK, .bends = true});
        add(&both, both_strokes, step, kicks[step],
            (Stroke){.limb = RIGHT_FOOT, .voice = VOICE_KICK, .bends = true});
        add(&both, both_strokes, step, lefts[step],
            (Stroke){.limb = LEFT_FOOT, .voice = VOICE_KICK, .bends = true});
    }
    hands.strokes = hand_strokes;
    feet.strokes = foot_strokes;
    both.strokes = both_strokes;
    hands.cycle_ticks = feet.cycle_ticks = both.cycle_ticks = 4 * TICKS_PER_QUARTER;
    hands.step_ticks = feet.step_ticks = both.step_ticks = TICKS_PER_QUARTER / 4;
    figure_note(&hands);
    figure_note(&feet);
    figure_note(&both);
    CHECK(figure_valid(&hands) && figure_valid(&feet) && figure_valid(&both));
}

static bool strikes(const StrokeList* const list, const int64_t tick, const Voice voice)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        if (list->strokes[i].tick == tick && list->strokes[i].voice == voice) {
            return true;
        }
    }
    return false;
}

/* How many of a hundred aren't there, of the ghosts and of the kicks off the beat. */
typedef struct {
    double ghosts, kicks;
} Away;

static Away count_away(const Figure* const kicked, const float value)
{
    static StrokeList written, list;
    int ghosts = 0, ghosts_gone = 0, off = 0, off_gone = 0;
    const Groove groove = {.id = 1,
                           .meter = {4.0, 4},
                           .tempo = 100.0,
                           .form_bars = 1,
                           .parts = {{.hands = &hands, .feet = kicked}}};
    Selection selection = {.groove = &groove,
                           .phrase_bars = BARS,
                           .realign = REALIGN_PHRASE,
                           .swing = {1.0, TICKS_PER_QUARTER},
                           .limbs = {true, true, true, true}};
    for (int take = 1; take <= TAKES; ++take) {
        selection.feel = felt_feel(&view, CONTROL_LIBERTY, value);
        selection.feel.take = (uint32_t)take;
        const LibertyPlace place = {
            .selection = &selection, .meter = groove.meter, .tempo = groove.tempo};
        for (int bar = 1; bar < BARS; ++bar) { /* the phrase's first beat stays */
            const int64_t begin = bar * 4 * TICKS_PER_QUARTER;
            liberty_strokes(&place, begin, begin + 4 * TICKS_PER_QUARTER, &written, &list);
            for (int step = 0; step < STEPS; ++step) {
                const int64_t tick = begin + step * (TICKS_PER_QUARTER / 4);
                const bool is_ghost = snare[step] == 'g';
                const bool is_off = kicks[step] == 'o' && step % 4;
                ghosts += is_ghost;
                ghosts_gone += is_ghost && !strikes(&list, tick, VOICE_SNARE);
                off += is_off;
                off_gone += is_off && !strikes(&list, tick, VOICE_KICK);
            }
        }
    }
    return (Away){100.0 * ghosts_gone / ghosts, 100.0 * off_gone / off};
}

/* Of a hundred that are in a bar the next lacks so many. */
static double absent(const char* const of)
{
    double share = -1.0;
    for (Tsv tsv = tsv_open("drummers.tsv"); tsv_next(&tsv);) {
        if (!strcmp(tsv.fields[0], "liberty-strokes") &&
            !strcmp(tsv.fields[1], "absent in the next bar, all strokes together") &&
            !strcmp(tsv.fields[2], of)) {
            share = 100.0 * tsv_number(&tsv, 4);
        }
    }
    return share;
}

static void as_many_ghosts_and_kicks_stay_away_as_said(void)
{
    static const float values[] = {10.0f, 20.0f, 50.0f, 100.0f};
    for (int i = 0; i < 4; ++i) {
        char words[FELT_ROOM];
        int ghosts = 0, off = 0, of_drummers[2] = {0};
        felt_words(&view, CONTROL_LIBERTY, values[i], words);
        check_case("%g: \"%s\"", (double)values[i], words);
        CHECK_INT(
            sscanf(words,
                   "%d %% of ghosts left out, %d %% of kicks off the beat; drummers: %d and %d",
                   &ghosts, &off, &of_drummers[0], &of_drummers[1]),
            4);
        const Away away = count_away(&feet, values[i]);
        CHECK_NEAR(ghosts, away.ghosts, 2.0);
        CHECK_NEAR(off, away.kicks, 2.0);
        CHECK_NEAR(of_drummers[0], absent("snare ghost"), 0.6);
        CHECK_NEAR(of_drummers[1], absent("kick"), 0.6);
    }
}

/* The bar shown has them. */
static void two_feet_play_what_is_written(void)
{
    char words[FELT_ROOM];
    int ghosts = 0, of_drummers = 0;
    const Entry entry = {.id = 2, .label = "", .comment = "", .family = "", .figure = &both};
    view.shelves[ENTRY_FEET] = (Shelf){.entries = &entry, .count = 1};
    view.has_bar[0] = true;
    view.bars[0].feet = 2;
    felt_words(&view, CONTROL_LIBERTY, 100.0f, words);
    view.has_bar[0] = false;
    view.shelves[ENTRY_FEET] = (Shelf){.count = 0};
    check_case("\"%s\"", words);
    CHECK_INT(sscanf(words, "%d %% of ghosts left out, drummers: %d; two feet as written", &ghosts,
                     &of_drummers),
              2);
    const Away away = count_away(&both, 100.0f);
    CHECK(strstr(words, "; two feet as written"));
    CHECK_NEAR(ghosts, away.ghosts, 2.0);
    CHECK_NEAR(away.kicks, 0.0, 0.0);
    CHECK_NEAR(of_drummers, absent("snare ghost"), 0.6);
}

static void at_0_nothing_stays_away(void)
{
    char words[FELT_ROOM];
    felt_words(&view, CONTROL_LIBERTY, 0.0f, words);
    CHECK_TEXT(words, "nothing added, nothing left out");
    const Away away = count_away(&feet, 0.0f);
    CHECK_NEAR(away.ghosts, 0.0, 0.0);
    CHECK_NEAR(away.kicks, 0.0, 0.0);
}

int main(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        view.values[i] = control_rows[i].normal;
    }
    make_figures();
    RUN(as_many_ghosts_and_kicks_stay_away_as_said);
    RUN(two_feet_play_what_is_written);
    RUN(at_0_nothing_stays_away);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_brute.c - playability of small songs made by chance against a checker that knows
   nothing but the list of strokes: every pair of strokes against every other, places and
   limits written out anew, verdicts from the words of playability.h and play_limits.h. */
#include "../help/check.h"
#include "../rhythm/fraction.h"

#include "../../plugin/engine/writing/playability.h"

#include <math.h>
#include <string.h>

enum { STEPS = 16, STROKES_MAX = 4 * STEPS };

typedef struct {
    double at; /* seconds */
    int limb;
    int voice;
} Hit;

static Hit hits[STROKES_MAX * 4];
static int hit_count;

/* Right of the snare and away from the player, centimetres: the table of play_limits.c, written
   once more. */
static const struct {
    Voice voice;
    double right, away;
} places[] = {{VOICE_SNARE, 0, 0},     {VOICE_HAT_CLOSED, -40, 15}, {VOICE_RIDE, 65, 40},
              {VOICE_CRASH, -35, 60},  {VOICE_CHINA, 95, 50},       {VOICE_TOM_FLOOR, 65, -10},
              {VOICE_TOM_HIGH, 0, 40}, {VOICE_HAT_OPEN, -40, 15}};
enum { HAND_VOICES = sizeof places / sizeof *places };

static double needs_ms(const int from, const int to)
{
    double right = 0.0, away = 0.0;
    for (int i = 0; i < HAND_VOICES; ++i) {
        const int sign = ((int)places[i].voice == to) - ((int)places[i].voice == from);
        right += sign * places[i].right;
        away += sign * places[i].away;
    }
    const double way = hypot(right, away);
    return way > 0.0 ? 20.0 + way / 100.0 / 10.0 * 1000.0 : 0.0;
}

/* ---- The song */

static Figure figure_by_chance(uint32_t* const state, Stroke strokes[STROKES_MAX])
{
    uint32_t count = 0;
    const uint32_t rest = 1 + dice(state, 3);
    for (int64_t step = 0; step < STEPS; ++step) {
        for (uint8_t limb = 0; limb < LIMB_COUNT; ++limb) {
            const uint8_t hand = (uint8_t)places[dice(state, HAND_VOICES)].voice;
            const uint8_t foot = limb == RIGHT_FOOT ? VOICE_KICK : VOICE_KICK_LEFT;
            if (dice(state, 1 + rest) == 0) {
                strokes[count++] = (Stroke){step * TICKS_PER_QUARTER / 4, limb,
                                            limb_is_foot(limb) ? foot : hand, LEVEL_NORMAL, true};
            }
        }
    }
    strokes_sort(strokes, count);
    return (Figure){.id = 1,
                    .kind = FIGURE_HANDS,
                    .cycle_ticks = STEPS * TICKS_PER_QUARTER / 4,
                    .step_ticks = TICKS_PER_QUARTER / 4,
                    .bars = 1,
                    .stroke_count = count,
                    .strokes = strokes};
}

enum { BARS = 3 };

static void hits_of(const Figure* const figure, const double tempo)
{
    const double step = 60.0 / tempo / 4.0;
    hit_count = 0;
    for (int bar = 0; bar < BARS; ++bar) {
        for (uint32_t i = 0; i < figure->stroke_count; ++i) {
            const Stroke stroke = figure->strokes[i];
            const double at = (double)stroke.tick / 360360.0 * step + bar * STEPS * step;
            hits[hit_count++] = (Hit){at, stroke.limb, stroke.voice};
        }
    }
}

/* ---- Counted anew */

static const double blur = 1e-9;

/* The limb's stroke before this one, or -1. */
static int before_of(const int at)
{
    int before = -1;
    for (int i = 0; i < hit_count; ++i) {
        if (hits[i].limb == hits[at].limb && hits[i].at < hits[at].at - blur &&
            (before < 0 || hits[i].at > hits[before].at)) {
            before = i;
        }
    }
    return before;
}

typedef struct {
    int moves;    /* too far */
    double worst; /* of the time needed, what there is */
    int strokes;
    double closest_ms;
    int busiest;
    int bounce; /* most strokes in a row that bounce */
} Brute;

static int in_second(const int limb, const double from)
{
    int count = 0;
    for (int i = 0; i < hit_count; ++i) {
        count += hits[i].limb == limb && hits[i].at > from - blur && hits[i].at < from + 1.0 - blur;
    }
    return count;
}

/* Strokes in the row that ends with this one, each a bounce after the one before. */
static int bounces(const int at, const double gap)
{
    const int before = before_of(at);
    return before >= 0 && hits[at].at - hits[before].at < gap - blur ? 1 + bounces(before, gap) : 1;
}

static Brute count_limb(const int limb, const double gap)
{
    Brute brute = {.worst = 1e9, .closest_ms = 1e9};
    for (int i = 0; i < hit_count; ++i) {
        if (hits[i].limb != limb) {
            continue;
        }
        const int before = before_of(i);
        const int row = bounces(i, gap);
        const int busy = in_second(limb, hits[i].at);
        ++brute.strokes;
        brute.busiest = busy > brute.busiest ? busy : brute.busiest;
        brute.bounce = row > brute.bounce ? row : brute.bounce;
        if (before < 0) {
            continue;
        }
        const double has = (hits[i].at - hits[before].at) * 1000.0;
        const double needs = limb > 1 ? 0.0 : needs_ms(hits[before].voice, hits[i].voice);
        brute.closest_ms = fmin(brute.closest_ms, has);
        brute.moves += needs > 0.0 && has < needs - 1e-6;
        brute.worst = needs > 0.0 ? fmin(brute.worst, has / needs) : brute.worst;
    }
    return brute;
}

/* Moments at which just these limbs strike, in bits. */
static uint32_t moments_of(const uint32_t limbs)
{
    uint32_t moments = 0;
    for (int i = 0; i < hit_count; ++i) {
        uint32_t set = 0;
        bool is_first = true;
        for (int j = 0; j < hit_count; ++j) {
            const bool at_once = fabs(hits[j].at - hits[i].at) < blur;
            set |= at_once ? 1U << hits[j].limb : 0;
            is_first = is_first && !(at_once && j < i);
        }
        moments += is_first && set == limbs;
    }
    return moments;
}

/* What no person can do of it; three bars are no minute, so nothing can be too long. */
static uint32_t verdict(const Brute* const brute, const int limb)
{
    const double rate = limb > 1 ? 1034.0 / 60.0 / 2.0 : 10.0;
    const double least = limb > 1 ? 60000.0 / 1407.0 : 40.0;
    const int most = limb > 1 ? 2 : 3;
    const bool close = brute->closest_ms < least - 1e-6 || brute->bounce > most;
    return (brute->busiest > (int)ceil(rate) ? PLAY_TOO_FAST : 0U) | (close ? PLAY_TOO_CLOSE : 0U) |
           (brute->moves ? PLAY_TOO_FAR : 0U);
}

/* ---- Both */

static Playability playability;

static void check_limb(const int limb, uint32_t* const faults)
{
    const double rate = limb > 1 ? 1034.0 / 60.0 / 2.0 : 10.0;
    const double share = limb > 1 ? exp(log(919.0 / 1034.0) / log(5.0) * log(1.0 / 60.0)) : 1.0;
    const Brute brute = count_limb(limb, 1.0 / rate / share);
    const PlayDemand* const found = &playability.found[limb];
    CHECK_INT(found->strokes, brute.strokes);
    CHECK_INT((int)found->rate, brute.busiest);
    CHECK_INT(found->moves, brute.moves);
    CHECK_INT(found->torn, 0);
    if (brute.strokes > 1) {
        CHECK_NEAR(found->closest_ms, brute.closest_ms, 1e-6);
    }
    if (brute.worst < 1e8) {
        CHECK_NEAR(found->worst.has_ms / found->worst.needs_ms, brute.worst, 1e-9);
    }
    if (brute.strokes) {
        CHECK_INT(found->burst, brute.bounce);
    }
    CHECK_INT(playability_faults(&playability, (PlayStream)limb), verdict(&brute, limb));
    *faults |= playability_faults(&playability, (PlayStream)limb);
}

static void small_songs_are_judged_as_by_trying_every_pair(void)
{
    const PlayLimits limits = play_limits_default();
    static Stroke strokes[STROKES_MAX];
    uint32_t state = 11, faults = 0, clean = 0;
    for (int song = 0; song < 1500; ++song) {
        const Figure figure = figure_by_chance(&state, strokes);
        const double tempo = 41.0 + dice(&state, 220);
        const Groove groove = {
            .id = 1, .meter = {4.0, 4}, .form_bars = 1, .parts = {{.hands = &figure}}};
        const Selection selection = selection_of_groove(&groove);
        uint32_t here = 0;
        check_case("song %d at %g", song, tempo);
        hits_of(&figure, tempo);
        playability_run(&playability, &selection, groove.meter, tempo, BARS, &limits);
        for (int limb = 0; limb < LIMB_COUNT; ++limb) {
            check_limb(limb, &here);
        }
        for (uint32_t set = 1; set < PLAY_SETS; ++set) {
            CHECK_INT(playability.together[set], moments_of(set));
        }
        clean += !here;
        faults |= here;
    }
    printf("# of 1500 songs %u can be played\n", clean);
    CHECK_INT(faults, PLAY_TOO_FAST | PLAY_TOO_CLOSE | PLAY_TOO_FAR);
    CHECK(clean > 100 && clean < 1400);
}

int main(void)
{
    RUN(small_songs_are_judged_as_by_trying_every_pair);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* Push is milliseconds: README, "milliseconds behind the beat, or ahead below 0,
   exactly".  Times are counted from the written ticks and the tempo alone. */
#include "../../plugin/engine/play/articulation.h"
#include "../bank/factory.h"
#include "../help/check.h"

#include <math.h>

static Bank* bank;
static StrokeList strokes;
static StrokeList around;

static double ms_of(const int64_t ticks, const double tempo)
{
    return (double)ticks / (double)TICKS_PER_QUARTER * 60000.0 / tempo;
}

static double wanted_push(const Feel* const feel, const Stroke stroke)
{
    return limb_is_foot(stroke.limb)     ? feel->push_feet_ms
           : stroke.voice == VOICE_SNARE ? feel->push_snare_ms
                                         : feel->push_hands_ms;
}

typedef void (*Look)(const Feel* feel, Stroke stroke, const Hit* hit, double tempo);

/* Every stroke of a quarter note, and those around it, of every third groove. */
static void over_all_grooves(const Feel* const feel, const double tempo, const Look look)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; i += 3) {
        const Groove* const groove = &library->grooves[i];
        const Selection selection = plain_choice(groove, groove->form_bars);
        const Score score = {
            .selection = &selection, .feel = feel, .meter = groove->meter, .tempo = tempo};
        for (int64_t tick = 0; tick < groove->form_bars * meter_bar_ticks(groove->meter);
             tick += TICKS_PER_QUARTER) {
            groove_strokes(&selection, groove->meter, tick, tick + TICKS_PER_QUARTER, &strokes);
            groove_strokes(&selection, groove->meter, tick - TICKS_PER_QUARTER,
                           tick + 2 * TICKS_PER_QUARTER, &around);
            for (uint32_t k = 0; k < strokes.count; ++k) {
                Hit hits[ARTICULATION_MAX];
                articulation_of(&score, strokes.strokes[k], &around, hits);
                check_case("groove %u, tick %lld, limb %d, voice %d, at %g", groove->id,
                           (long long)strokes.strokes[k].tick, strokes.strokes[k].limb,
                           strokes.strokes[k].voice, tempo);
                look(feel, strokes.strokes[k], &hits[0], tempo);
            }
        }
    }
}

static void is_exact(const Feel* const feel, const Stroke stroke, const Hit* const hit,
                     const double tempo)
{
    CHECK_NEAR(ms_of(hit->tick - hit->written, tempo), wanted_push(feel, stroke), 0.001);
}

static void one_push_for_all_is_exact_however_fast_the_strokes(void)
{
    static const double pushes[] = {-50.0, -40.0, -15.0, 8.0, 50.0};
    static const double tempos[] = {40.0, 150.0, 240.0, 400.0};
    for (int i = 0; i < 20; ++i) {
        const double push = pushes[i % 5];
        const Feel feel = {.take = 1,
                           .push_hands_ms = push,
                           .push_snare_ms = push,
                           .push_feet_ms = -push,
                           .level = 76};
        over_all_grooves(&feel, tempos[i / 5], is_exact);
    }
}

static void feet_alone_are_pushed_exactly(void)
{
    const Feel feel = {.take = 1, .push_feet_ms = -40.0, .level = 76};
    over_all_grooves(&feel, 150.0, is_exact);
}

/* What the dial promises of a snare pushed alone: exact where the hand has room. */
static void is_exact_or_leaves_by_a_quarter_of_the_way(const Feel* const feel, const Stroke stroke,
                                                       const Hit* const hit, const double tempo)
{
    int64_t way = TICKS_PER_QUARTER;
    for (uint32_t i = 0; i < around.count; ++i) {
        const Stroke other = around.strokes[i];
        const int64_t apart = llabs(other.tick - stroke.tick);
        const bool turns = (other.voice == VOICE_SNARE) != (stroke.voice == VOICE_SNARE);
        way = apart && other.limb == stroke.limb && turns && apart < way ? apart : way;
    }
    const double most = ms_of(way, tempo) / 4.0;
    const double wanted = limb_is_foot(stroke.limb) || stroke.voice != VOICE_SNARE
                              ? wanted_push(feel, stroke)
                              : fmin(fmax(feel->push_snare_ms, -most), most);
    CHECK_NEAR(ms_of(hit->tick - hit->written, tempo), wanted, 0.001);
}

static void a_snare_pushed_alone_leaves_its_hand_by_a_quarter_of_the_way_at_most(void)
{
    const Feel late = {.take = 1, .push_snare_ms = 40.0, .level = 76};
    const Feel early = {.take = 1, .push_snare_ms = -40.0, .level = 76};
    over_all_grooves(&late, 150.0, is_exact_or_leaves_by_a_quarter_of_the_way);
    over_all_grooves(&early, 290.0, is_exact_or_leaves_by_a_quarter_of_the_way);
}

static int64_t last_tick[LIMB_COUNT];
static int64_t last_written[LIMB_COUNT];

static void comes_after_the_last(const Feel* const feel, const Stroke stroke, const Hit* const hit,
                                 const double tempo)
{
    (void)feel;
    (void)tempo;
    const bool goes_on = stroke.tick > last_written[stroke.limb];
    CHECK(!goes_on || hit->tick > last_tick[stroke.limb]);
    last_tick[stroke.limb] = hit->tick;
    last_written[stroke.limb] = stroke.tick;
}

/* The worst that dials allow: snare and hands pushed apart, all the looseness. */
static void no_push_makes_a_limb_overtake_itself(void)
{
    for (int i = 0; i < 12; ++i) {
        const double push = i % 2 ? 50.0 : -50.0;
        const Feel feel = {.take = (uint32_t)(i + 1),
                           .looseness_ms = 30.0,
                           .push_hands_ms = push,
                           .push_snare_ms = -push,
                           .push_feet_ms = push,
                           .level = 76};
        over_all_grooves(&feel, (double[]){90.0, 180.0, 300.0, 400.0}[i % 4], comes_after_the_last);
    }
}

static void comes_within_reach(const Feel* const feel, const Stroke stroke, const Hit* const hit,
                               const double tempo)
{
    (void)stroke;
    CHECK(hit->written - hit->tick <= feel_reach(feel, tempo));
}

static void nothing_is_played_further_ahead_than_the_reach(void)
{
    for (int i = 0; i < 8; ++i) {
        const Feel feel = {.take = (uint32_t)(i + 1),
                           .looseness_ms = 30.0,
                           .push_hands_ms = -50.0,
                           .push_snare_ms = i % 2 ? -50.0 : 0.0,
                           .push_feet_ms = -50.0,
                           .level = 76};
        over_all_grooves(&feel, (double[]){60.0, 200.0, 400.0, 2000.0}[i % 4], comes_within_reach);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(one_push_for_all_is_exact_however_fast_the_strokes);
    RUN(feet_alone_are_pushed_exactly);
    RUN(a_snare_pushed_alone_leaves_its_hand_by_a_quarter_of_the_way_at_most);
    RUN(no_push_makes_a_limb_overtake_itself);
    RUN(nothing_is_played_further_ahead_than_the_reach);
    bank_free(bank);
    return tests_end();
}

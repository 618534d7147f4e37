// SPDX-License-Identifier: ISC
/* One stroke at a time: which is the softer of two, and where grace strokes stand.
   What drummers do here is common practice, no source; bounds are feel.h's and
   grace.h's words. */
#include "../../plugin/engine/feel/feel.h"
#include "../../plugin/engine/feel/grace.h"
#include "../help/check.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>

enum { PLACES = 4000 };
static const double tempo = 120.0;
static const int64_t quarter = TICKS_PER_QUARTER;
static const Feel natural = {
    .take = 1, .looseness_ms = 18.0, .touch = 0.5, .accent = 0.85, .ghost = 0.55, .level = 76};

static double ticks(const double ms)
{
    return ms / 60000.0 * tempo * (double)TICKS_PER_QUARTER;
}

static double in_ms(const int64_t lead)
{
    return (double)lead / ticks(1.0);
}

static Surroundings alone_at(const int64_t in_bar, const int64_t in_take)
{
    return (Surroundings){.near = quarter,
                          .turn = quarter,
                          .limb_before = quarter,
                          .limb_after = quarter,
                          .in_bar = in_bar,
                          .in_take = in_take,
                          .fill = FILL_NOWHERE,
                          .before = quarter,
                          .after = quarter};
}

/* Over many takes, whose habits differ. */
static double mean_velocity(const uint8_t limb, const uint8_t voice, const int64_t in_bar)
{
    double sum = 0.0;
    for (int take = 1; take <= PLACES; ++take) {
        Feel feel = natural;
        feel.take = (uint32_t)take;
        const Stroke stroke = {in_bar, limb, voice, LEVEL_NORMAL, true};
        const Surroundings around = alone_at(in_bar, in_bar);
        sum += feel_velocity(&feel, stroke, &around, tempo);
    }
    return sum / PLACES;
}

/* At one place of the bar. */
static double spread(const uint8_t voice)
{
    double sum = 0.0, squares = 0.0;
    for (int place = 0; place < PLACES; ++place) {
        const uint8_t limb = voice == VOICE_KICK ? RIGHT_FOOT : RIGHT_HAND;
        const Stroke stroke = {place * 4 * quarter, limb, voice, LEVEL_NORMAL, true};
        const Surroundings around = alone_at(0, stroke.tick);
        const double velocity = feel_velocity(&natural, stroke, &around, tempo);
        sum += velocity / PLACES;
        squares += velocity * velocity / PLACES;
    }
    return sqrt(squares - sum * sum);
}

static void the_left_side_is_the_softer_one(void)
{
    const uint8_t sides[][3] = {{RIGHT_HAND, LEFT_HAND, VOICE_SNARE},
                                {RIGHT_FOOT, LEFT_FOOT, VOICE_KICK}};
    for (int i = 0; i < 2; ++i) {
        const double right = mean_velocity(sides[i][0], sides[i][2], quarter / 3);
        const double left = mean_velocity(sides[i][1], sides[i][2], quarter / 3);
        check_case("%s: right %.2f, left %.2f", i ? "feet" : "hands", right, left);
        CHECK(left < right - 1.0 && left > right - 6.0);
    }
}

/* loudness-by-place of tests/data/drummers.tsv's source: beats of hats lead "and" by 10 and
   more, and those lead "e" and "a". */
static void beats_of_hats_lead_and_what_lies_between_eighths_steps_back(void)
{
    const int64_t places[] = {quarter, quarter / 2, quarter / 4};
    double last = 127.0;
    for (int i = 0; i < 3; ++i) {
        const double mean = mean_velocity(RIGHT_HAND, VOICE_HAT_CLOSED, places[i]);
        check_case("place %d of 3: %.2f after %.2f", i, mean, last);
        CHECK(mean < last - 1.0);
        last = mean;
    }
}

/* The order of the measured spreads: kick 11.6, hat 15.2, ride 16.5, snare 19.1
   (Groove MIDI Dataset, Gillick et al., ICML 2019). */
static void voices_vary_in_the_order_in_which_drummers_do(void)
{
    const uint8_t order[] = {VOICE_KICK, VOICE_HAT_CLOSED, VOICE_RIDE, VOICE_SNARE};
    for (int i = 1; i < 4; ++i) {
        check_case("%d: %.2f, %.2f", i, spread(order[i - 1]), spread(order[i]));
        CHECK(spread(order[i]) > spread(order[i - 1]));
    }
}

/* 8 standard deviations would pass it but for the softening. */
static void chance_moves_a_stroke_by_less_than_a_quarter_of_the_gap(void)
{
    Feel loose = natural;
    loose.looseness_ms = 30.0;
    for (int64_t near = quarter / 16; near <= quarter; near *= 2) {
        for (int place = 0; place < PLACES; ++place) {
            Surroundings around = alone_at(place * near % (4 * quarter), place * near);
            around.near = near;
            const Stroke stroke = {place * near, LEFT_FOOT, VOICE_KICK, LEVEL_NORMAL, true};
            const int64_t off = feel_offset(&loose, stroke, &around, tempo);
            check_case("gap %d of a quarter, place %d", (int)(quarter / near), place);
            CHECK(llabs(off) * 4 <= near);
        }
    }
}

/* What parts two strokes half a second apart, where the stream around them is so fast. */
static double unevenness_ms(const uint8_t limb, const double gap_ms)
{
    double squares = 0.0;
    for (int place = 0; place < PLACES; ++place) {
        Surroundings around = alone_at(0, place * quarter);
        around.near = (int64_t)ticks(gap_ms);
        const Stroke first = {place * quarter, limb, VOICE_KICK, LEVEL_NORMAL, true};
        const int64_t here = feel_offset(&natural, first, &around, tempo);
        around.in_take += quarter;
        const int64_t apart = feel_offset(&natural, first, &around, tempo) - here;
        squares += (double)apart * (double)apart / PLACES;
    }
    return sqrt(squares) / ticks(1.0);
}

/* How far a stroke of a stream is from the middle of its neighbours. */
static double displacement_ms(const uint8_t limb, const double gap_ms)
{
    const int64_t gap = (int64_t)ticks(gap_ms);
    double squares = 0.0;
    for (int place = 0; place < PLACES; ++place) {
        int64_t off[3];
        for (int i = 0; i < 3; ++i) {
            Surroundings around = alone_at(0, place * quarter + i * gap);
            around.near = around.before = around.after = gap;
            const Stroke stroke = {around.in_take, limb, VOICE_KICK, LEVEL_NORMAL, true};
            off[i] = feel_offset(&natural, stroke, &around, tempo);
        }
        const double apart = (double)off[1] - (double)(off[0] + off[2]) / 2.0;
        squares += apart * apart / PLACES;
    }
    return sqrt(squares) / ticks(1.0);
}

/* timing-by-gap of tests/data/drummers.tsv's source: spread does not shrink with the gap
   down to 120 ms.  Below, unevenness is heard from a fixed 6 ms on, as a displacement from
   where the neighbours put a stroke (Friberg & Sundberg 1995, JASA 98(5)), and running feet
   are practised to be even: hands' interval sd was 14 against 16 ms there. */
static void down_to_120_ms_nothing_shrinks_and_below_feet_are_even(void)
{
    const double slow = unevenness_ms(RIGHT_FOOT, 1920.0);
    check_case("1920 ms: %.2f, 240: %.2f, 130: %.2f; from neighbours at 130: %.2f, 75: %.2f", slow,
               unevenness_ms(RIGHT_FOOT, 240.0), unevenness_ms(RIGHT_FOOT, 130.0),
               displacement_ms(RIGHT_FOOT, 130.0), displacement_ms(RIGHT_FOOT, 75.0));
    CHECK(unevenness_ms(RIGHT_FOOT, 240.0) > 0.95 * slow);
    CHECK(unevenness_ms(RIGHT_FOOT, 130.0) > 0.8 * slow);
    CHECK(displacement_ms(RIGHT_FOOT, 75.0) < 0.5 * displacement_ms(RIGHT_FOOT, 130.0));
    CHECK(displacement_ms(RIGHT_FOOT, 75.0) < 6.0);
    CHECK(unevenness_ms(RIGHT_HAND, 100.0) > 0.6 * unevenness_ms(RIGHT_HAND, 1920.0));
}

/* tests/data/drummers.tsv, own, "offset sd" of the hat's foot: 12.0 to 36.3 ms in eight bars, and
   more than the kick's middle of 18.9.  Over tempi on both sides of where the spread turns. */
static void the_hats_foot_strays_further_than_the_kick(void)
{
    enum { BEATS = 32, WINDOWS = 400 };
    double sum[2] = {0.0, 0.0};
    for (int window = 0; window < WINDOWS; ++window) {
        for (int i = 0; i < 2; ++i) {
            const double at = window % 2 ? 90.0 : 130.0;
            double squares = 0.0, mean = 0.0;
            Feel feel = natural;
            feel.take = (uint32_t)window + 1;
            for (int beat = 0; beat < BEATS; ++beat) {
                const Stroke stroke = {beat * quarter, i ? LEFT_FOOT : RIGHT_FOOT,
                                       i ? VOICE_HAT_PEDAL : VOICE_KICK, LEVEL_NORMAL, true};
                const Surroundings around = alone_at(beat % 4 * quarter, stroke.tick);
                const double ms = (double)feel_offset(&feel, stroke, &around, at) /
                                  (double)TICKS_PER_QUARTER * 60000.0 / at;
                mean += ms / BEATS;
                squares += ms * ms / BEATS;
            }
            sum[i] += sqrt(squares - mean * mean) / WINDOWS;
        }
    }
    check_case("kick %.2f, hat foot %.2f", sum[0], sum[1]);
    CHECK(sum[1] >= 12.0 && sum[1] <= 36.3);
    CHECK(sum[1] > 18.9 && sum[1] > sum[0]);
}

/* ---- Flams and drags */

static Graces graces_of(const uint8_t level, const Stroke* const others, const uint32_t count)
{
    static StrokeList around;
    const Stroke main = {4 * quarter, RIGHT_HAND, VOICE_SNARE, level, true};
    around = (StrokeList){.count = 0};
    stroke_list_add(&around, main);
    for (uint32_t i = 0; i < count; ++i) {
        stroke_list_add(&around, others[i]);
    }
    return grace_strokes(main, &around, tempo);
}

/* Onsets up to about 30 ms apart are heard as one with a broad beginning, from about
   50 ms as two (from memory): a flam is the former, a drag's first the latter. */
static void with_room_a_flam_is_one_sound_and_a_drag_is_heard_as_two_strokes_before(void)
{
    const Graces flam = graces_of(LEVEL_FLAM, NULL, 0), drag = graces_of(LEVEL_DRAG, NULL, 0);
    CHECK_INT(flam.count, 1);
    CHECK_INT(flam.limb, LEFT_HAND);
    CHECK(in_ms(flam.leads[0]) >= 15.0 && in_ms(flam.leads[0]) <= 35.0);
    CHECK_INT(drag.count, 2);
    CHECK(in_ms(drag.leads[0]) >= 50.0 && in_ms(drag.leads[0]) <= 80.0);
    CHECK_INT(drag.leads[1], drag.leads[0] / 2); /* a double: evenly spaced */
}

static void grace_strokes_leave_three_quarters_of_the_way_to_what_was_before(void)
{
    const int64_t gap = (int64_t)ticks(80.0);
    const Stroke same_hand = {4 * quarter - gap, LEFT_HAND, VOICE_TOM_LOW, LEVEL_NORMAL, true};
    const Stroke same_drum = {4 * quarter - gap, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true};
    const Stroke neither = {4 * quarter - gap, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true};
    CHECK_INT(graces_of(LEVEL_DRAG, &same_hand, 1).leads[0], gap / 4);
    CHECK_INT(graces_of(LEVEL_DRAG, &same_drum, 1).leads[0], gap / 4);
    CHECK_INT(graces_of(LEVEL_FLAM, &same_hand, 1).leads[0], gap / 4);
    CHECK(graces_of(LEVEL_DRAG, &neither, 1).leads[0] > gap / 4);
}

static void a_hand_that_plays_with_the_main_stroke_has_no_grace_stroke(void)
{
    const Stroke with = {4 * quarter, LEFT_HAND, VOICE_RIDE, LEVEL_NORMAL, true};
    CHECK_INT(graces_of(LEVEL_FLAM, &with, 1).count, 0);
}

static void a_grace_stroke_is_softer_than_half_its_main_one_and_never_silent(void)
{
    for (int main = 1; main <= 127; ++main) {
        check_case("main stroke %d", main);
        CHECK(grace_velocity((uint8_t)main) >= 1);
        CHECK(main < 3 || grace_velocity((uint8_t)main) * 2 < main);
        CHECK(main < 20 || grace_velocity((uint8_t)main) * 4 > main);
    }
}

/* Chance, push and a drag's first stroke are all within what is drawn ahead. */
static void nothing_is_played_further_ahead_than_the_reach(void)
{
    Feel early = natural;
    early.looseness_ms = 30.0;
    early.push_hands_ms = early.push_snare_ms = early.push_feet_ms = -50.0;
    for (double at = 40.0; at <= 300.0; at += 20.0) {
        const int64_t reach = feel_reach(&early, at);
        for (int place = 0; place < PLACES; ++place) {
            const Stroke stroke = {place * quarter, LEFT_HAND, VOICE_SNARE, LEVEL_DRAG, true};
            const Surroundings around = alone_at(0, stroke.tick);
            StrokeList list = {.count = 0};
            stroke_list_add(&list, stroke);
            const int64_t off = feel_offset(&early, stroke, &around, at);
            check_case("tempo %g, place %d", at, place);
            CHECK(grace_strokes(stroke, &list, at).leads[0] - off <= reach);
        }
    }
}

int main(void)
{
    RUN(the_left_side_is_the_softer_one);
    RUN(beats_of_hats_lead_and_what_lies_between_eighths_steps_back);
    RUN(voices_vary_in_the_order_in_which_drummers_do);
    RUN(chance_moves_a_stroke_by_less_than_a_quarter_of_the_gap);
    RUN(down_to_120_ms_nothing_shrinks_and_below_feet_are_even);
    RUN(the_hats_foot_strays_further_than_the_kick);
    RUN(with_room_a_flam_is_one_sound_and_a_drag_is_heard_as_two_strokes_before);
    RUN(grace_strokes_leave_three_quarters_of_the_way_to_what_was_before);
    RUN(a_hand_that_plays_with_the_main_stroke_has_no_grace_stroke);
    RUN(a_grace_stroke_is_softer_than_half_its_main_one_and_never_silent);
    RUN(nothing_is_played_further_ahead_than_the_reach);
    return tests_end();
}

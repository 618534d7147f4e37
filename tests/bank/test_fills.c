// SPDX-License-Identifier: ISC
/* test_fills.c - the factory's fills: what lengths there are, what meters have enough of them,
   what they strike and how they end.  What drummers play: test_fills_as_played. */
#include "../../plugin/engine/writing/play_limits.h"
#include "../help/check.h"
#include "fills.h"

static Bank* bank;

/* ---- Lengths and meters */

/* What the edition set out to have; no source. */
static void there_are_sixty_fills_of_all_lengths(void)
{
    static const struct {
        double from, to; /* beats, that one too */
        uint32_t least;
    } rows[] = {{0.0, 0.75, 1}, {1.0, 1.0, 8},  {1.5, 1.5, 3}, {2.0, 2.0, 12},
                {2.5, 3.5, 8},  {4.0, 4.0, 16}, {4.5, 8.0, 8}, {16.0, 16.0, 1}};
    CHECK(fill_count(bank) >= 60);
    for (size_t row = 0; row < sizeof rows / sizeof *rows; ++row) {
        uint32_t count = 0;
        for (uint32_t i = 0; i < fill_count(bank); ++i) {
            const double beats = fill_beats(fill_at(bank, i));
            count += beats >= rows[row].from && beats <= rows[row].to;
        }
        check_case("%u of %g to %g beats", count, rows[row].from, rows[row].to);
        CHECK(count >= rows[row].least);
    }
}

static uint32_t fitting(const Meter meter, const bool has_feet)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        count += fill_fits(fill, meter) && figure_has_feet(fill.figure) == has_feet;
    }
    return count;
}

static void check_meter(const Meter meter)
{
    const uint32_t feet = fitting(meter, true);
    const uint32_t hands = fitting(meter, false);
    check_case("%g/%d: %u of the hands, %u of hands and feet", meter.beats_per_bar, meter.beat_unit,
               hands, feet);
    CHECK(hands + feet >= 4);
    CHECK(hands >= 1 && feet >= 1);
}

/* The bank's, and those that are asked for besides. */
static void every_meter_has_four_fills_some_of_them_with_feet(void)
{
    static const Meter meters[] = {{2.0, 2},  {2.0, 4},  {7.0, 4},  {8.0, 8},
                                   {10.0, 8}, {13.0, 8}, {15.0, 8}, {7.0, 16}};
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        check_meter(library->grooves[i].meter);
    }
    for (size_t i = 0; i < sizeof meters / sizeof *meters; ++i) {
        check_meter(meters[i]);
    }
}

/* What it begins with is no rest of a beat that was copied from a groove. */
static void every_fill_begins_in_its_first_beat(void)
{
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        check_case("%u %s begins with a stroke", fill.info->id, fill.info->label);
        CHECK(fill.figure->strokes[0].tick < QUARTER);
    }
}

/* ---- What is struck */

/* What keeps time is the groove's: a fill that plays a beat of its own jumps from another
   groove's ride to its closed hat. */
static void no_fill_keeps_time_on_a_cymbal(void)
{
    static const Voice time_voices[] = {VOICE_HAT_CLOSED, VOICE_HAT_HALF_OPEN, VOICE_HAT_OPEN,
                                        VOICE_HAT_PEDAL,  VOICE_RIDE,          VOICE_RIDE_BELL};
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        check_case("%u %s", fill.info->id, fill.info->label);
        for (uint32_t j = 0; j < fill.figure->stroke_count; ++j) {
            for (size_t v = 0; v < sizeof time_voices / sizeof *time_voices; ++v) {
                CHECK(fill.figure->strokes[j].voice != time_voices[v]);
            }
        }
    }
}

/* How far to the right a hand is, in centimetres. */
static double place_of(const Stroke stroke)
{
    return play_limits_default().places[stroke.voice].right;
}

static bool crosses(const Stroke a, const Stroke b)
{
    const Stroke left = a.limb == LEFT_HAND ? a : b;
    const Stroke right = a.limb == LEFT_HAND ? b : a;
    const bool drums = (is_tom(left.voice) || left.voice == VOICE_SNARE) &&
                       (is_tom(right.voice) || right.voice == VOICE_SNARE);
    return left.limb == LEFT_HAND && right.limb == RIGHT_HAND && drums &&
           place_of(left) - place_of(right) > 36.0;
}

static uint32_t crossings(const Figure* const figure)
{
    uint32_t count = 0;
    const Stroke* before = NULL;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (!limb_is_foot(figure->strokes[i].limb)) {
            count += before && crosses(*before, figure->strokes[i]);
            before = &figure->strokes[i];
        }
    }
    return count;
}

/* From one stroke to the next the left hand is never more than a drum further right than the
   right hand.  A drum: 36 cm, from the middle of one to that of the next; ours. */
static void no_arm_goes_across_the_other(void)
{
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        check_case("%u %s", fill.info->id, fill.info->label);
        CHECK_INT(crossings(fill.figure), fill.info->id == 14); /* back to the snare, half-way */
    }
    static const Stroke crossed[] = {{0, RIGHT_HAND, VOICE_SNARE, LEVEL_NORMAL, true},
                                     {1, LEFT_HAND, VOICE_TOM_FLOOR, LEVEL_NORMAL, true}};
    check_case("left to the floor tom while the right is on the snare");
    CHECK_INT(crossings(&(Figure){.stroke_count = 2, .strokes = crossed}), 1);
}

/* ---- How they end */

static bool strikes_at(const Figure* const figure, const int64_t tick, bool (*is)(uint8_t))
{
    for (uint32_t i = figure_first_from(figure, tick);
         i < figure->stroke_count && figure->strokes[i].tick == tick; ++i) {
        if (is(figure->strokes[i].voice)) {
            return true;
        }
    }
    return false;
}

static bool is_kick(const uint8_t voice)
{
    return voice == VOICE_KICK || voice == VOICE_KICK_LEFT;
}

static bool is_choke(const uint8_t voice)
{
    return voice == VOICE_CHOKE;
}

/* Common practice, no source: with crash and kick, choked, in silence before the line, in
   strokes up to it. */
static void fills_end_in_a_crash_in_a_choke_in_silence_and_at_the_line(void)
{
    uint32_t crashes = 0;
    uint32_t silent = 0;
    uint32_t full = 0;
    uint32_t chokes = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Figure* const figure = fill_at(bank, i).figure;
        const int64_t last = figure->strokes[figure->stroke_count - 1].tick;
        crashes += strikes_at(figure, last, is_crash) && strikes_at(figure, last, is_kick);
        silent += figure->cycle_ticks - last > QUARTER / 2;
        chokes += strikes_at(figure, last, is_choke);
        full += figure->cycle_ticks - last <= QUARTER / 2;
    }
    check_case("%u crash with kick, %u choked, %u silent, %u full", crashes, chokes, silent, full);
    CHECK(chokes >= 1);
    CHECK(crashes >= 5);
    CHECK(silent >= 4);
    CHECK(full >= 40);
}

static void there_are_ghosts_flams_drags_and_feet(void)
{
    uint32_t ghosts = 0;
    uint32_t graces = 0;
    uint32_t feet = 0;
    for (uint32_t i = 0; i < fill_count(bank); ++i) {
        const Fill fill = fill_at(bank, i);
        ghosts += fill_has_level(fill, LEVEL_GHOST);
        graces += fill_has_level(fill, LEVEL_FLAM) || fill_has_level(fill, LEVEL_DRAG);
        feet += figure_has_feet(fill.figure);
    }
    check_case("%u with ghosts, %u with flams or drags, %u with feet", ghosts, graces, feet);
    CHECK(ghosts >= 10);
    CHECK(graces >= 6);
    CHECK(feet >= 20);
}

int main(void)
{
    bank = factory_open();
    RUN(there_are_sixty_fills_of_all_lengths);
    RUN(every_meter_has_four_fills_some_of_them_with_feet);
    RUN(every_fill_begins_in_its_first_beat);
    RUN(no_fill_keeps_time_on_a_cymbal);
    RUN(no_arm_goes_across_the_other);
    RUN(fills_end_in_a_crash_in_a_choke_in_silence_and_at_the_line);
    RUN(there_are_ghosts_flams_drags_and_feet);
    bank_free(bank);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_feet_levels.c - the feet's levels are those that a player means: running strokes are
   even, but where a figure is about its accents; there are ghosts; nothing else is accented
   by rule.  Even strokes of running feet, first strokes of rudiments leaned on (the rudiments'
   published charts), ghosts in funk and shuffle: common practice, no source. */
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

/* Strokes that all come at the same distance, an eighth or less: the bar's other strokes too. */
static bool runs(const Figure* const figure)
{
    const uint32_t count = figure->stroke_count;
    const int64_t gap = figure->cycle_ticks / count;
    for (uint32_t i = 0; i < count; ++i) {
        if (figure->strokes[i].tick != i * gap || figure->strokes[i].voice == VOICE_HAT_PEDAL) {
            return false;
        }
    }
    return gap * count == figure->cycle_ticks && gap <= TICKS_PER_QUARTER / 2;
}

static bool is_even(const Figure* const figure)
{
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (figure->strokes[i].level != figure->strokes[0].level) {
            return false;
        }
    }
    return true;
}

/* Running feet that are practised for their accents, and why. */
static const struct {
    uint32_t id;
    const char* reason;
} accented[] = {{45, "its accents make 3-3-2 of even eighths"},
                {56, "its accents come every three sixteenths"},
                {120, "two of one foot: the second is softer"},
                {121, "two of one foot: the second is softer"},
                {122, "two of one foot: the second is softer"},
                {123, "two of one foot: the second is softer"},
                {124, "two of one foot: the second is softer"},
                {125, "three of one foot: the second and third are rebounds"},
                {133, "the right foot marks the beat, the left doubles behind it"},
                {154, "its accents make fours of sextuplets"},
                {252, "a group of three that crosses the bar, heard by its first"},
                {253, "its accents come every three sixteenths, over the bar"},
                {254, "a group of three that crosses the bar, heard by its first"},
                {259, "its accents come every five sixteenths"},
                {261, "its accents come every seven sixteenths"},
                {280, "a rudiment, the first stroke of which is accented"},
                {281, "a rudiment, the first stroke of which is accented"},
                {282, "a rudiment, the first stroke of which is accented"},
                {283, "a rudiment, the first stroke of which is accented"},
                {284, "a rudiment, the first stroke of which is accented"},
                {285, "a rudiment, the first stroke of which is accented"},
                {286, "a rudiment, the first stroke of which is accented"},
                {287, "a rudiment, accented at both ends"},
                {300, "its accents make 3-3-2 of sixteenths"},
                {301, "its accents make 5-5-6 of sixteenths"},
                {302, "its accents make 4-4-3-3-2 of sixteenths"}};
enum { ACCENTED = sizeof accented / sizeof *accented };

static bool is_accented(const uint32_t id)
{
    for (size_t i = 0; i < ACCENTED; ++i) {
        if (accented[i].id == id) {
            return true;
        }
    }
    return false;
}

static void running_feet_are_even_unless_accents_are_what_they_are_about(void)
{
    const Library* const library = bank_library(bank);
    int running = 0;
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_FEET]; ++i) {
        const Figure* const figure = &library->figures[FIGURE_FEET][i];
        if (runs(figure)) {
            ++running;
            check_case("feet %u", figure->id);
            CHECK_INT(is_even(figure), !is_accented(figure->id));
        }
    }
    check_case("the test looks at something");
    CHECK(running >= 30);
}

/* True if what is on a beat is accented, and nothing else is. */
static bool accents_beats_by_rule(const Figure* const figure)
{
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        const bool on_beat = figure->strokes[i].tick % TICKS_PER_QUARTER == 0;
        if (on_beat != (figure->strokes[i].level == LEVEL_ACCENT)) {
            return false;
        }
    }
    return true;
}

static bool has_ghost(const Figure* const figure)
{
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (figure->strokes[i].level == LEVEL_GHOST) {
            return true;
        }
    }
    return false;
}

/* It was 135 of 229, and no ghost: bands of our own, no source. */
static void accents_stand_where_a_player_leans_and_not_on_beats_by_rule(void)
{
    const Library* const library = bank_library(bank);
    const uint32_t count = library->figure_counts[FIGURE_FEET];
    uint32_t by_rule = 0, with_ghost = 0;
    for (uint32_t i = 0; i < count; ++i) {
        by_rule += accents_beats_by_rule(&library->figures[FIGURE_FEET][i]);
        with_ghost += has_ghost(&library->figures[FIGURE_FEET][i]);
    }
    printf("# of %u feet %u accent exactly the beats, %u have ghosts\n", count, by_rule,
           with_ghost);
    CHECK(by_rule * 5 < count * 2);
    CHECK(with_ghost >= 6);
}

static Figure feet_of(const Stroke* const strokes, const uint32_t count, const int64_t ticks)
{
    return (Figure){.cycle_ticks = ticks, .stroke_count = count, .strokes = strokes};
}

static void running_and_accented_feet_are_found(void)
{
    enum { E = TICKS_PER_QUARTER / 2 };
    static const Stroke run[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_ACCENT, true},
                                 {E, LEFT_FOOT, VOICE_KICK_LEFT, LEVEL_NORMAL, true}};
    static const Stroke pedal[] = {{0, RIGHT_FOOT, VOICE_KICK, LEVEL_GHOST, true},
                                   {E, LEFT_FOOT, VOICE_HAT_PEDAL, LEVEL_GHOST, true}};
    const Figure running = feet_of(run, 2, 2 * E);
    const Figure gapped = feet_of(run, 2, 3 * E);
    const Figure walking = feet_of(pedal, 2, 2 * E);
    CHECK(runs(&running) && !runs(&gapped) && !runs(&walking));
    CHECK(!is_even(&running) && is_even(&walking));
    CHECK(accents_beats_by_rule(&running) && !accents_beats_by_rule(&walking));
    CHECK(has_ghost(&walking) && !has_ghost(&running));
}

int main(void)
{
    bank = factory_open();
    RUN(running_and_accented_feet_are_found);
    RUN(running_feet_are_even_unless_accents_are_what_they_are_about);
    RUN(accents_stand_where_a_player_leans_and_not_on_beats_by_rule);
    bank_free(bank);
    return tests_end();
}

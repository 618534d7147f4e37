// SPDX-License-Identifier: ISC
/* test_ride_on.c - every hands figure of the bank on every cymbal: what must hold wherever the
   hands go. */
#include "../help/check.h"
#include "factory.h"

static Bank* bank;

static StrokeList ridden(const Figure* const figure, const RideOn to)
{
    StrokeList list = {.count = figure->stroke_count};
    memcpy(list.strokes, figure->strokes, list.count * sizeof *list.strokes);
    ride_on_strokes(ride_on_move(figure, to), &list, 0);
    return list;
}

static Figure figure_with(const Figure* const written, StrokeList* const list)
{
    Figure figure = *written;
    strokes_sort(list->strokes, list->count);
    figure.strokes = list->strokes;
    figure_note(&figure);
    return figure;
}

/* Every hands figure, wherever it goes. */
static void on_every_cymbal(void (*const check)(const Figure* figure, RideOn to))
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_HANDS]; ++i) {
        const Figure* const figure = &library->figures[FIGURE_HANDS][i];
        for (int to = 0; to < RIDE_ON_COUNT; ++to) {
            check_case("hands %u on %d", figure->id, to);
            check(figure, (RideOn)to);
        }
    }
}

static void check_places(const Figure* const figure, const RideOn to)
{
    const StrokeList list = ridden(figure, to);
    CHECK_INT(list.count, figure->stroke_count);
    for (uint32_t at = 0; at < list.count; ++at) {
        CHECK_INT(list.strokes[at].tick, figure->strokes[at].tick);
        CHECK_INT(list.strokes[at].limb, figure->strokes[at].limb);
        CHECK(to || list.strokes[at].voice == figure->strokes[at].voice);
        CHECK(to || list.strokes[at].level == figure->strokes[at].level);
    }
}

static void strokes_stay_where_they_are_and_with_their_limb(void)
{
    on_every_cymbal(check_places);
}

static void check_hands(const Figure* const figure, const RideOn to)
{
    const StrokeList list = ridden(figure, to);
    for (uint32_t at = 1; at < list.count; ++at) {
        CHECK(list.strokes[at].tick > list.strokes[at - 1].tick ||
              list.strokes[at].limb != list.strokes[at - 1].limb);
    }
}

static void no_hand_plays_two_at_once(void)
{
    on_every_cymbal(check_hands);
}

static void check_twice(const Figure* const figure, const RideOn to)
{
    StrokeList once = ridden(figure, to);
    const Figure moved = figure_with(figure, &once);
    const StrokeList twice = ridden(&moved, to);
    CHECK(stroke_lists_alike(&once, &twice, 0));
}

static void to_move_twice_is_to_move_once(void)
{
    on_every_cymbal(check_twice);
}

static bool is_snare(const Stroke stroke)
{
    return stroke.voice == VOICE_SNARE || stroke.voice == VOICE_SIDE_STICK;
}

static void check_backbeats(const Figure* const figure, const RideOn to)
{
    const StrokeList list = ridden(figure, to);
    for (uint32_t at = 0; at < list.count; ++at) {
        const Stroke was = figure->strokes[at], is = list.strokes[at];
        CHECK(is_snare(was) == is_snare(is));
        CHECK(!is_snare(was) || (was.voice == is.voice && was.level == is.level));
        CHECK(is.level >= was.level);
    }
}

static void backbeats_stay_and_nothing_becomes_one(void)
{
    on_every_cymbal(check_backbeats);
}

/* Beats that are one pattern under other cymbals are that pattern once the hands move. */
static void a_hat_beat_ridden_elsewhere_comes_back_as_it_was(void)
{
    const Library* const library = bank_library(bank);
    uint32_t beats = 0;
    for (uint32_t i = 0; i < library->figure_counts[FIGURE_HANDS]; ++i) {
        const Figure* const figure = &library->figures[FIGURE_HANDS][i];
        bool is_plain = true; /* closed hats and snare, no ghosts */
        for (uint32_t at = 0; at < figure->stroke_count; ++at) {
            is_plain &=
                figure->strokes[at].level != LEVEL_GHOST &&
                (figure->strokes[at].voice == VOICE_HAT_CLOSED || is_snare(figure->strokes[at]));
        }
        const bool rides = ride_on_move(figure, RIDE_ON_RIDE).to != RIDE_ON_AS_WRITTEN;
        for (int to = 1; is_plain && rides && to < RIDE_ON_COUNT; ++to) {
            StrokeList there = ridden(figure, (RideOn)to);
            const Figure moved = figure_with(figure, &there);
            StrokeList back = ridden(&moved, RIDE_ON_CLOSED);
            strokes_sort(back.strokes, back.count);
            const StrokeList written = ridden(figure, RIDE_ON_AS_WRITTEN);
            check_case("hands %u on %d and back", figure->id, to);
            CHECK(stroke_lists_alike(&back, &written, 0));
        }
        beats += is_plain && rides;
    }
    check_case("there are such beats");
    CHECK(beats > 0);
}

int main(void)
{
    bank = factory_open();
    RUN(strokes_stay_where_they_are_and_with_their_limb);
    RUN(no_hand_plays_two_at_once);
    RUN(to_move_twice_is_to_move_once);
    RUN(backbeats_stay_and_nothing_becomes_one);
    RUN(a_hat_beat_ridden_elsewhere_comes_back_as_it_was);
    bank_free(bank);
    return tests_end();
}

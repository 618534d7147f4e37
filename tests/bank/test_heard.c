// SPDX-License-Identifier: ISC
/* test_heard.c - what grooves are made of is heard, and can be played: no part stands only
   where the turnaround takes its place, and the hat is not open and closed at once. */
#include "../help/check.h"
#include "factory.h"

/* ---- Parts */

/* Grooves with a part that the turnaround always plays over, and those with one whose hands
   it does.  Fills for the last beats alone will let most be heard: whoever cures one takes it
   off; nobody adds one. */
static const uint32_t unheard[] = {18, 19, 21, 29, 34, 37, 40, 41, 43, 50, 52, 61, 85, 149, 160};
static const uint32_t unheard_hands[] = {33, 44, 54, 63, 74, 75, 82, 86, 123, 133, 146};
enum {
    UNHEARD = sizeof unheard / sizeof *unheard,
    UNHEARD_HANDS = sizeof unheard_hands / sizeof *unheard_hands
};

static bool is_known(const uint32_t* const ids, const size_t count, const uint32_t id)
{
    for (size_t i = 0; i < count; ++i) {
        if (ids[i] == id) {
            return true;
        }
    }
    return false;
}

/* True if a letter stands in a bar of the phrase that nothing plays over. */
static bool stands_free(const Groove* const groove, const uint8_t letter)
{
    for (uint32_t bar = 0; bar + (groove->turnaround != NULL) < groove->form_bars; ++bar) {
        if (groove->form[bar] == letter) {
            return true;
        }
    }
    return false;
}

/* True if hands stand in a bar of the phrase that nothing plays over. */
static bool hands_stand_free(const Groove* const groove, const Figure* const hands)
{
    for (uint8_t letter = 0; letter < PARTS_MAX; ++letter) {
        if (groove->parts[letter].hands == hands && stands_free(groove, letter)) {
            return true;
        }
    }
    return !hands;
}

/* True if there is a part of which nothing is ever heard where it stands (`whole`), or one
   of which the feet are, but the hands in no bar. */
static bool has_unheard(const Groove* const groove, const bool whole)
{
    const bool takes_feet = groove->turnaround && figure_has_feet(groove->turnaround);
    for (uint8_t letter = 0; letter < PARTS_MAX; ++letter) {
        const Part part = groove->parts[letter];
        const bool stands_last = groove->form[groove->form_bars - 1] == letter;
        const bool feet_sound = stands_last && !takes_feet && part.feet;
        const bool is_mute = (part.hands || part.feet) && !stands_free(groove, letter);
        if (is_mute && feet_sound != whole && (whole || !hands_stand_free(groove, part.hands))) {
            return true;
        }
    }
    return false;
}

static void check_parts(const Bank* const bank, const bool whole, const uint32_t* const known,
                        const size_t count)
{
    const Library* const library = bank_library(bank);
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const Groove* const groove = &library->grooves[i];
        const bool is_listed = is_known(known, count, groove->id);
        check_case("groove %u%s", groove->id, is_listed ? ", cured: take it off the list" : "");
        CHECK_INT(has_unheard(groove, whole), is_listed);
    }
}

static Bank* bank;

static void every_part_of_a_groove_is_heard_but_for_those_known(void)
{
    check_parts(bank, true, unheard, UNHEARD);
    check_parts(bank, false, unheard_hands, UNHEARD_HANDS);
}

static void a_part_that_the_turnaround_plays_over_is_found(void)
{
    static const Figure hands = {.id = 1, .kind = FIGURE_HANDS};
    static const Figure others = {.id = 2, .kind = FIGURE_HANDS};
    static const Figure feet = {.id = 1, .kind = FIGURE_FEET};
    static const Figure hands_fill = {.id = 1, .kind = FIGURE_TURNAROUND};
    static const Figure whole_fill = {
        .id = 2, .kind = FIGURE_TURNAROUND, .plays_limb = {[RIGHT_FOOT] = true}};
    Groove groove = {.form_bars = 2, .form = {0, 1}, .parts = {{&hands, &feet}, {&hands, &feet}}};
    CHECK(!has_unheard(&groove, true) && !has_unheard(&groove, false));
    groove.turnaround = &whole_fill;
    CHECK(has_unheard(&groove, true) && !has_unheard(&groove, false));
    groove.turnaround = &hands_fill;
    CHECK(!has_unheard(&groove, true) && !has_unheard(&groove, false)); /* A has the hands */
    groove.parts[1].hands = &others;
    CHECK(!has_unheard(&groove, true) && has_unheard(&groove, false));
    groove.form[1] = 0;
    CHECK(has_unheard(&groove, true)); /* no letter of the form at all */
    groove.parts[1] = (Part){NULL, NULL};
    CHECK(!has_unheard(&groove, true) && !has_unheard(&groove, false));
}

/* ---- The hat */

static bool is_open(const uint8_t voice)
{
    return voice == VOICE_HAT_OPEN || voice == VOICE_HAT_HALF_OPEN;
}

static bool is_shut(const uint8_t voice)
{
    return voice == VOICE_HAT_CLOSED || voice == VOICE_HAT_PEDAL;
}

/* The tick at which the hat is open and closed, or -1. */
static int64_t open_and_closed(const Stroke* const strokes, const uint32_t count)
{
    for (uint32_t a = 0; a < count; ++a) {
        for (uint32_t b = 0; b < count; ++b) {
            if (strokes[a].tick == strokes[b].tick && is_open(strokes[a].voice) &&
                is_shut(strokes[b].voice)) {
                return strokes[a].tick;
            }
        }
    }
    return -1;
}

/* Grooves that do so: 81, whose third bar has open hats between the beats over a pedal that
   closes there.  Whoever cures it takes it off; nobody adds one. */
static const uint32_t torn[] = {81};
enum { TORN = sizeof torn / sizeof *torn };

static StrokeList list;

static void check_groove(const Groove* const groove)
{
    const Selection selection = plain_choice(groove, groove->form_bars);
    const int64_t bar = meter_bar_ticks(groove->meter);
    bool closes = false;
    for (uint32_t at = 0; at < groove->form_bars; ++at) {
        list.count = 0;
        groove_strokes(&selection, groove->meter, at * bar, (at + 1) * bar, &list);
        check_case("groove %u, bar %u", groove->id, at + 1);
        CHECK(list.count && !list.dropped);
        closes |= open_and_closed(list.strokes, list.count) >= 0;
    }
    check_case("groove %u", groove->id);
    CHECK_INT(closes, is_known(torn, TORN, groove->id));
}

static void nothing_opens_and_closes_the_hat_at_once_but_what_is_known(void)
{
    const Library* const library = bank_library(bank);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const Figure* const figure = &library->figures[kind][i];
            check_case("%s %u", kind_rows[kind].name, figure->id);
            CHECK_INT(open_and_closed(figure->strokes, figure->stroke_count), -1);
        }
    }
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        check_groove(&library->grooves[i]);
    }
}

static void a_hat_that_is_open_and_closed_is_found(void)
{
    Stroke strokes[] = {{0, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_ACCENT, true},
                        {TICKS_PER_QUARTER, RIGHT_HAND, VOICE_HAT_HALF_OPEN, LEVEL_ACCENT, true},
                        {TICKS_PER_QUARTER, LEFT_FOOT, VOICE_HAT_PEDAL, LEVEL_NORMAL, true}};
    CHECK_INT(open_and_closed(strokes, 3), TICKS_PER_QUARTER);
    CHECK_INT(open_and_closed(strokes, 2), -1);
    strokes[2].voice = VOICE_KICK;
    CHECK_INT(open_and_closed(strokes, 3), -1);
}

int main(void)
{
    bank = factory_open();
    RUN(a_part_that_the_turnaround_plays_over_is_found);
    RUN(every_part_of_a_groove_is_heard_but_for_those_known);
    RUN(a_hat_that_is_open_and_closed_is_found);
    RUN(nothing_opens_and_closes_the_hat_at_once_but_what_is_known);
    bank_free(bank);
    return tests_end();
}

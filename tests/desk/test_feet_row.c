// SPDX-License-Identifier: ISC
/* Feet as a row: where their strokes are, by counting; whether they can be played, by numbers
   of play_limits.h (8.6 strokes a second of one foot, and 1407 double strokes in a minute, are
   published: sources there) and by what feet_row.c calls hard (ours: 7 a second over three
   strokes, a pair under 120 ms). */
#include "../../ui/desk/feet_row.h"
#include "../help/check.h"

#include <stddef.h>

enum { Q = TICKS_PER_QUARTER, S = Q / 4 };

static const Meter four = {4.0, 4};

typedef struct {
    Groove groove;
    Figure figure;
    Stroke strokes[32];
    FeetRow row;
} Feet;

/* Right foot's kicks in sixteenths; `bars` 0: it rolls. */
static Feet* feet_of(const char* const steps, const uint32_t bars)
{
    static Feet feet;
    feet = (Feet){.figure = {.id = 1, .kind = FIGURE_FEET, .step_ticks = S, .bars = bars}};
    int64_t step = 0;
    for (const char* at = steps; *at; ++at) {
        if (*at == 'o' || *at == 'l') {
            feet.strokes[feet.figure.stroke_count++] = (Stroke){
                step * S, *at == 'l' ? LEFT_FOOT : RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true};
        }
        step += *at != ' ';
    }
    feet.figure.cycle_ticks = step * S;
    feet.figure.strokes = feet.strokes;
    figure_note(&feet.figure);
    feet.groove = (Groove){.id = 1, .meter = four, .form_bars = FORM_BARS_MAX};
    feet.groove.parts[0].feet = &feet.figure;
    return &feet;
}

static Selection selection_in(const Feet* const feet)
{
    Selection selection = selection_of_groove(&feet->groove);
    selection.realign = REALIGN_NEVER;
    return selection;
}

static Playable judged(Feet* const feet, const double tempo)
{
    static Playability room;
    const PlayLimits limits = play_limits_default();
    const Selection selection = selection_in(feet);
    int ticks = 0;
    feet_row_begin(&selection, four, tempo, &limits, &room);
    while (!feet_row_judge(&room, 100, &feet->row.verdict) && ticks < 1000) {
        ++ticks;
    }
    CHECK(ticks > 0); /* four minutes aren't looked through in one go */
    return feet->row.verdict.playable;
}

static void laid(Feet* const feet, const int64_t bar, const double tempo)
{
    const PlayLimits limits = play_limits_default();
    const Selection selection = selection_in(feet);
    feet_row_lay(&selection, four, bar, tempo, &limits, &feet->row);
}

/* Sixteen sixteenths are five threes and one more: bar n begins n sixteenths into a three. */
static void a_rolling_figure_is_laid_where_it_has_rolled_to(void)
{
    for (int bar = 0; bar < 7; ++bar) {
        Feet* const feet = feet_of("o..", 0);
        laid(feet, bar, 120.0);
        uint32_t found = 0;
        for (int step = 0; step < 16; ++step) {
            if ((16 * bar + step) % 3 == 0) {
                check_case("bar %d, sixteenth %d", bar, step);
                CHECK(found < feet->row.count);
                CHECK_INT(feet->row.strokes[found].tick, step * S);
                CHECK_INT(feet->row.strokes[found++].limb, RIGHT_FOOT);
            }
        }
        CHECK_INT(feet->row.count, found);
    }
}

/* Sixteenths last 15000 / tempo ms. */
static void a_pair_is_hard_within_120_ms_and_nobodys_within_42(void)
{
    static const struct {
        double tempo;
        Playable playable;
    } rows[] = {{120.0, PLAYABLE_YES},  /* 125 ms */
                {130.0, PLAYABLE_HARD}, /* 115 */
                {160.0, PLAYABLE_HARD}, /* 94 */
                {340.0, PLAYABLE_HARD}, /* 44 */
                {360.0, PLAYABLE_NO}};  /* 42 */
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        check_case("at %g", rows[i].tempo);
        CHECK_INT(judged(feet_of("oo.. .... .... ....", 1), rows[i].tempo), rows[i].playable);
    }
}

static void three_strokes_are_hard_from_seven_a_second_on(void)
{
    CHECK_INT(judged(feet_of("ooo. .... .... ....", 1), 104.0), PLAYABLE_YES);  /* 6.93 */
    CHECK_INT(judged(feet_of("ooo. .... .... ....", 1), 105.0), PLAYABLE_HARD); /* 7 */
    CHECK_INT(judged(feet_of("olol .... .... ....", 1), 105.0), PLAYABLE_YES);  /* two feet */
}

static void nobody_plays_more_than_8_6_a_second_with_one_foot(void)
{
    Feet* const feet = feet_of("oooo", 0);
    CHECK_INT(judged(feet, 140.0), PLAYABLE_NO);       /* 9.3 */
    CHECK_INT((int)feet->row.verdict.rates[0], 9 + 1); /* strokes that begin in a second */
    CHECK_INT((int)feet->row.verdict.rates[1], 0);
    CHECK_INT(judged(feet_of("olol", 0), 140.0), PLAYABLE_YES);
}

static void what_nobody_plays_is_marked_from_stroke_to_stroke(void)
{
    Feet* const feet = feet_of("oooo .... .... oo..", 1);
    laid(feet, 0, 140.0); /* 107 ms apart: 9.3 a second */
    CHECK_INT(feet->row.spans, 2);
    CHECK_INT(feet->row.beyond[0].from, 0);
    CHECK_INT(feet->row.beyond[0].to, 3 * S);
    CHECK_INT(feet->row.beyond[1].from, 12 * S);
    CHECK_INT(feet->row.beyond[1].to, 13 * S);
    laid(feet, 0, 120.0); /* 125 ms: 8 a second */
    CHECK_INT(feet->row.spans, 0);
}

int main(void)
{
    RUN(a_rolling_figure_is_laid_where_it_has_rolled_to);
    RUN(a_pair_is_hard_within_120_ms_and_nobodys_within_42);
    RUN(three_strokes_are_hard_from_seven_a_second_on);
    RUN(nobody_plays_more_than_8_6_a_second_with_one_foot);
    RUN(what_nobody_plays_is_marked_from_stroke_to_stroke);
    return tests_end();
}

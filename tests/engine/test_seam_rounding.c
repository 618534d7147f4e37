// SPDX-License-Identifier: ISC
/* A loop's first stroke, played ahead at its end, isn't played again at its start, though
   the host rounds where it says that it is: to 1/384 of a beat, by cutting, as one host
   was recorded to (transport/recorded/README.md). */
#include "../../plugin/engine/play/lookahead.h"
#include "../help/check.h"
#include "library.h"

enum { TICK_STEPS = 384 };
static const Meter four_four = {4.0, 4};
static const int64_t quarter = TICKS_PER_QUARTER;
static const PerformedKey key = {.revision = 1, .meter = {4.0, 4}, .tempo = 120.0};
static const bool everybody[LIMB_COUNT] = {true, true, true, true};
static const Feel ahead = {.take = 1, .push_hands_ms = -20.0, .push_feet_ms = -20.0, .level = 80};

static Lookahead lookahead;
static OwnFigure hats;
static Groove groove;
static Selection selection;

static const HitList* play(const int64_t until)
{
    const Score score = {.selection = &selection, .feel = &ahead, .meter = four_four, .tempo = 120};
    lookahead_draw(&lookahead, &score, key, until + quarter / 2);
    lookahead_take(&lookahead, until, (LimbsHeard){INT64_MIN, everybody, everybody});
    return &lookahead.due;
}

/* Plays a bar of such steps, and jumps from its end as it is told to its start as it is
   told, both so many cut-off 1/384 of a beat off. */
static void play_and_jump(const char* const steps, const double from_off, const double to_off)
{
    const double step = 0.95 * (double)quarter / TICK_STEPS; /* cut: always less than one */
    memset(&lookahead, 0, sizeof lookahead);
    memset(&hats, 0, sizeof hats);
    add_line(&hats, RIGHT_HAND, VOICE_HAT_CLOSED, 16, 1, steps);
    groove = one_letter(&hats.figure, NULL, four_four, 1);
    selection = selection_of_groove(&groove);
    play(4 * quarter);
    const double to = to_off * step;
    const int64_t seam = (int64_t)(to - step) - 1; /* a start looks back for its stroke */
    lookahead_jump(&lookahead, (Jump){4.0 * (double)quarter + from_off * step, to, seam, true});
}

static void a_stroke_played_ahead_of_a_loop_is_its_first_however_the_place_is_rounded(void)
{
    for (int from = -1; from <= 1; ++from) {
        for (int to = -1; to <= 1; ++to) {
            if (from - to > 1 || to - from > 1) {
                continue; /* two roundings of one loop are one step apart at most */
            }
            play_and_jump("o...............................................................", from,
                          to);
            check_case("left %d/384 off, reached %d/384 off", from, to);
            CHECK_INT(play(quarter)->count, 0);
        }
    }
}

static void the_finest_step_after_it_is_another_stroke(void)
{
    /* In the bar's first 16th of a quarter, and in the next: both were written. */
    play_and_jump("oo..............................................................", 0.0, 0.0);
    CHECK_INT(play(quarter)->count, 1);
    CHECK_INT(lookahead.due.hits[0].written, quarter / 16);
}

static void what_is_late_at_a_jump_is_played_once_at_the_seam(void)
{
    static const Feel late = {.take = 1, .push_hands_ms = 40.0, .level = 80};
    const Score score = {.selection = &selection, .feel = &late, .meter = four_four, .tempo = 120};
    play_and_jump("...............................................................o", 0.0, 0.0);
    memset(&lookahead, 0, sizeof lookahead);
    lookahead_draw(&lookahead, &score, key, 4 * quarter);
    lookahead_take(&lookahead, 4 * quarter, (LimbsHeard){INT64_MIN, everybody, everybody});
    CHECK_INT(lookahead.due.count, 0); /* 40 ms late, 31 before the line: not yet */
    lookahead_jump(&lookahead, (Jump){4.0 * (double)quarter, 0.0, 0, true});
    lookahead_take(&lookahead, quarter / 64, (LimbsHeard){INT64_MIN, everybody, everybody});
    CHECK_INT(lookahead.due.count, 1);
    lookahead_take(&lookahead, quarter, (LimbsHeard){INT64_MIN, everybody, everybody});
    CHECK_INT(lookahead.due.count, 0);
}

int main(void)
{
    RUN(a_stroke_played_ahead_of_a_loop_is_its_first_however_the_place_is_rounded);
    RUN(the_finest_step_after_it_is_another_stroke);
    RUN(what_is_late_at_a_jump_is_played_once_at_the_seam);
    return tests_end();
}

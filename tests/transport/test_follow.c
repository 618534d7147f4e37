// SPDX-License-Identifier: ISC
/* What is done about a host whose place differs, as follow.h says: once is no reason;
   twice moves us to an exact host; from far away it has to insist for a quarter of a
   beat (our choice). */
#include "../../plugin/engine/time/follow.h"
#include "../help/check.h"

enum { BLOCK = 256, QUARTER_FRAMES = 24000 };
static const double beat = 1441440.0;
static const double nominal = 1441440.0 / QUARTER_FRAMES;

/* One report after so many blocks of a host that is `off` ticks from us. */
static FollowAdvice report(Follow* const follow, const int blocks, const double off,
                           const bool exact)
{
    const double own = blocks * BLOCK * nominal;
    const Difference difference = {
        .frame = blocks * BLOCK,
        .reported = own + off,
        .own = own,
        .tolerance = exact ? 0.02 * nominal : beat / 1920.0,
        .beat = beat,
        .nominal = nominal,
        .rate = nominal,
        .exact = exact,
    };
    double rate = nominal;
    return follow_report(follow, &difference, &rate);
}

static void an_exact_host_is_gone_over_to_when_it_says_so_twice(void)
{
    for (int sign = -1; sign <= 1; sign += 2) {
        Follow follow;
        follow_restart(&follow);
        CHECK_INT(report(&follow, 0, 0.0, true), FOLLOW_KEEP);
        CHECK_INT(report(&follow, 1, 0.0, true), FOLLOW_KEEP);
        CHECK_INT(report(&follow, 2, sign * beat / 5.0, true), FOLLOW_KEEP);
        CHECK_INT(report(&follow, 3, sign * beat / 5.0, true), FOLLOW_STEP);
    }
}

static void a_host_that_rounds_is_steered_after_when_it_lasts_and_never_stepped_to(void)
{
    Follow follow;
    follow_restart(&follow);
    CHECK_INT(report(&follow, 0, 0.0, false), FOLLOW_KEEP);
    CHECK_INT(report(&follow, 1, beat / 1921.0, false), FOLLOW_KEEP); /* its rounding */
    CHECK_INT(report(&follow, 2, beat / 5.0, false), FOLLOW_KEEP);
    CHECK_INT(report(&follow, 3, beat / 5.0, false), FOLLOW_STEER);
}

static void a_place_beyond_half_a_beat_is_leapt_to_after_a_quarter_of_a_beat(void)
{
    for (int exact = 0; exact <= 1; ++exact) {
        Follow follow;
        follow_restart(&follow);
        report(&follow, 0, 0.0, exact);
        int blocks = 1;
        while (blocks < 1000 && report(&follow, blocks, 2.0 * beat, exact) != FOLLOW_LEAP) {
            ++blocks;
        }
        check_case("%s: %d blocks", exact ? "exact" : "rounding", blocks);
        CHECK((blocks - 1) * BLOCK > QUARTER_FRAMES / 4);
        CHECK((blocks - 2) * BLOCK <= QUARTER_FRAMES / 4);
    }
}

/* A host in doubt, as after a tempo edit: each place contradicts the one before. */
static void far_places_that_contradict_each_other_are_never_leapt_to(void)
{
    Follow follow;
    follow_restart(&follow);
    for (int blocks = 0; blocks < 1000; ++blocks) {
        check_case("block %d", blocks);
        CHECK_INT(report(&follow, blocks, (blocks % 2 ? 2.0 : 3.0) * beat, false), FOLLOW_KEEP);
    }
}

int main(void)
{
    RUN(an_exact_host_is_gone_over_to_when_it_says_so_twice);
    RUN(a_host_that_rounds_is_steered_after_when_it_lasts_and_never_stepped_to);
    RUN(a_place_beyond_half_a_beat_is_leapt_to_after_a_quarter_of_a_beat);
    RUN(far_places_that_contradict_each_other_are_never_leapt_to);
    return tests_end();
}

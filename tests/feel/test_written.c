// SPDX-License-Identifier: ISC
/* The feel that a groove has written: heard as soon as the groove is chosen, and
   a control that was moved wins.  Expectations are the numbers in the Turtle. */
#include "../help/check.h"
#include "takes.h"

enum { SNARE = 52 };

static const char bank[] =
    "my:backbeat a fl:HandsFigure ; fl:id 1000 ; rdfs:label \"Backbeat\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 2 ; fl:steps \".O.O.O.O\" ] .\n"
    "my:g0 a fl:Groove ; fl:id 1000 ; rdfs:label \"Late\" ; fl:tempo 100 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:backbeat ] ;\n"
    "  fl:pushSnare 20.0 ; fl:looseness 0.5 ; fl:touch 0.0 .\n"
    "my:g1 a fl:Groove ; fl:id 1001 ; rdfs:label \"Swung\" ; fl:tempo 100 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:backbeat ] ;\n"
    "  fl:swing 2.0 ; fl:looseness 0.0 ; fl:touch 0.0 .\n";

static Host* host;
static Take take;

static Session late_session(void)
{
    return (Session){.id = 1000.0f,
                     .tempo = 100.0,
                     .per_quarter = 2.0,
                     .key = SNARE,
                     .quarters = 32,
                     .block = 256,
                     .take = 1.0f,
                     .looseness = -1.0f,
                     .touch = -1.0f};
}

static double mean_offset(const Session session)
{
    double sum = 0.0;
    take_play(host, &session, &take);
    for (int i = 0; i < take.count; ++i) {
        sum += take.offset_ms[i] / take.count;
    }
    return sum;
}

static void a_grooves_push_is_heard_as_soon_as_it_is_chosen(void)
{
    CHECK_NEAR(mean_offset(late_session()), 20.0, 1.0);
}

static void a_push_that_was_moved_wins(void)
{
    take_set(host, "push_snare", -10.0f);
    CHECK_NEAR(mean_offset(late_session()), -10.0, 1.0);
    take_set(host, "push_snare", 0.0f);
}

static void looseness_0_is_the_grid_whatever_is_written(void)
{
    Session session = late_session();
    session.looseness = 0.0f;
    CHECK_NEAR(mean_offset(session), 0.0, 0.02);
}

static void a_grooves_touch_is_heard(void)
{
    take_play(host,
              &(Session){.id = 1000.0f,
                         .tempo = 100.0,
                         .per_quarter = 2.0,
                         .key = SNARE,
                         .quarters = 32,
                         .block = 256,
                         .take = 1.0f,
                         .looseness = -1.0f,
                         .touch = -1.0f},
              &take);
    for (int i = 1; i < take.count; ++i) {
        CHECK_INT(take.velocity[i], take.velocity[0]);
    }
}

/* At 2 to 1 the second eighth of a beat is two thirds in: 100 ms late at 100. */
static void a_grooves_swing_is_heard_and_a_swing_that_was_moved_wins(void)
{
    Session session = late_session();
    session.id = 1001.0f;
    CHECK_NEAR(mean_offset(session), 600.0 * (2.0 / 3.0 - 0.5), 0.1);
    take_set(host, "swing_ratio", 1.5f);
    CHECK_NEAR(mean_offset(session), 600.0 * (0.6 - 0.5), 0.1);
    take_set(host, "swing_ratio", 1.0f);
}

int main(void)
{
    host = take_host(bank);
    RUN(a_grooves_push_is_heard_as_soon_as_it_is_chosen);
    RUN(a_push_that_was_moved_wins);
    RUN(looseness_0_is_the_grid_whatever_is_written);
    RUN(a_grooves_touch_is_heard);
    RUN(a_grooves_swing_is_heard_and_a_swing_that_was_moved_wins);
    host_close(host);
    return tests_end();
}

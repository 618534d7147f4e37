// SPDX-License-Identifier: ISC
/* What feel moves is neither lost nor doubled at loops, locates and changes; and
   grace strokes.  The rules are groove.h's, lookahead.h's and grace.h's; counts
   are taken from the steps as written. */
#include "../help/check.h"
#include "takes.h"

enum { TAKES = 40, BAR = 4 * TAKE_RATE / 2, HAT = 55, SNARE = 52, KICK = 48 }; /* at 120 */

static const char bank[] =
    "my:hats a fl:HandsFigure ; fl:id 1000 ; rdfs:label \"Hats\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 2 ; fl:steps \"oooooooo\" "
    "] .\n"
    "my:kicks a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Kicks\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"oooo oooo oooo "
    "oooo\" ] .\n"
    "my:flams a fl:HandsFigure ; fl:id 1001 ; rdfs:label \"Flams\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"o... f... o... "
    "d...\" ] .\n"
    "my:busy a fl:HandsFigure ; fl:id 1002 ; rdfs:label \"Busy\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"f... f... f... "
    "f...\" ] ,\n"
    "    [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 1 ; fl:steps \"oooo\" ] .\n"
    "my:roll a fl:HandsFigure ; fl:id 1003 ; rdfs:label \"Roll\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \"f.o. f.o. f.o. "
    "f.o.\" ] ,\n"
    "    [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps \".o.o .o.o .o.o .o.o\" "
    "] .\n"
    "my:last a fl:HandsFigure ; fl:id 1004 ; rdfs:label \"Last\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 4 ; fl:steps "
    "\"...............o\" ] .\n"
    "my:g4 a fl:Groove ; fl:id 1004 ; rdfs:label \"Last\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:last ; fl:feet "
    "my:kicks ] .\n"
    "my:g0 a fl:Groove ; fl:id 1000 ; rdfs:label \"Loop\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:hats ; fl:feet "
    "my:kicks ] .\n"
    "my:g1 a fl:Groove ; fl:id 1001 ; rdfs:label \"Flams\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:flams ] .\n"
    "my:g2 a fl:Groove ; fl:id 1002 ; rdfs:label \"Busy\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:busy ] .\n"
    "my:g3 a fl:Groove ; fl:id 1003 ; rdfs:label \"Roll\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:roll ] .\n";

static Host* host;
static Take take;

static Session session_of(const float groove, const int key, const int number)
{
    return (Session){.id = groove,
                     .tempo = 120.0,
                     .per_quarter = 4.0,
                     .key = key,
                     .quarters = 4,
                     .block = 256,
                     .take = (float)number,
                     .looseness = 30.0f,
                     .touch = 0.0f};
}

/* Runs a stretch of the song, gathered as it is played. */
static void run_on(const Session* const session, const int64_t from, const int64_t to)
{
    for (int64_t at = from; at < to; at += session->block) {
        const int64_t left = to - at;
        host_run(host, left < session->block ? (uint32_t)left : session->block);
        take_gather(host, session, at, &take);
    }
}

static void begin(const Session* const session)
{
    Session none = *session;
    none.quarters = 0;
    take_play(host, &none, &take);
    take.count = 0;
}

/* The first bar over and over, cut at its line to the sample, as Ardour does. */
static int strokes_of_loops(const Session* const session, const int passes)
{
    begin(session);
    for (int pass = 0; pass < passes; ++pass) {
        take_position(host, 0, session->tempo, 1.0f);
        run_on(session, 0, BAR);
    }
    take_position(host, BAR, session->tempo, 0.0f);
    host_run(host, 1);
    return take.count;
}

static void a_loop_loses_and_doubles_nothing_that_feel_moves(void)
{
    for (int number = 1; number <= TAKES; ++number) {
        const Session hats = session_of(1000.0f, HAT, number);
        const Session kicks = session_of(1000.0f, KICK, number);
        const int hat_count = strokes_of_loops(&hats, 6);
        const int kick_count = strokes_of_loops(&kicks, 6);
        check_case("take %d", number);
        /* The downbeat after the last pass may come early, before the stop. */
        CHECK(hat_count == 6 * 8 || hat_count == 6 * 8 + 1);
        CHECK(kick_count == 6 * 16 || kick_count == 6 * 16 + 1);
    }
}

/* The loop ends 5 ms after its last sixteenth, which is late as often as not. */
static void a_stroke_late_at_a_loops_end_is_still_played(void)
{
    enum { END = BAR - BAR / 16 + TAKE_RATE / 200, PASSES = 6 };
    for (int number = 1; number <= TAKES; ++number) {
        const Session session = session_of(1004.0f, SNARE, number);
        begin(&session);
        for (int pass = 0; pass < PASSES; ++pass) {
            take_position(host, 0, session.tempo, 1.0f);
            run_on(&session, 0, END);
        }
        take_position(host, 0, session.tempo, 1.0f);
        host_run(host, 1);
        take_gather(host, &session, 0, &take);
        check_case("take %d", number);
        CHECK_INT(take.count, PASSES);
    }
}

static void a_locate_to_a_bar_line_plays_its_first_stroke(void)
{
    for (int number = 1; number <= TAKES; ++number) {
        const Session session = session_of(1000.0f, HAT, number);
        begin(&session);
        take_position(host, 7 * BAR, session.tempo, 1.0f);
        run_on(&session, 7 * BAR, 8 * BAR);
        check_case("take %d", number);
        CHECK(take.count >= 8 && take.count <= 9);
        CHECK(take.frame[0] < 7 * BAR + BAR / 16);
    }
}

static void a_long_render_has_every_stroke_once(void)
{
    for (int number = 1; number <= 5; ++number) {
        Session session = session_of(1000.0f, KICK, number);
        session.quarters = 400;
        take_play(host, &session, &take);
        check_case("take %d", number);
        CHECK(take.count == 1600 || take.count == 1601);
    }
}

/* Changed every block: swing, feel and take may move strokes, not lose them. */
static void automation_of_feel_loses_and_doubles_nothing(void)
{
    const Session session = session_of(1000.0f, KICK, 1);
    begin(&session);
    take_position(host, 0, session.tempo, 1.0f);
    for (int64_t at = 0; at < 50 * BAR; at += 256) {
        take_set(host, "looseness", (float)(at / 256 % 30));
        take_set(host, "push_feet", (float)(at / 256 % 41) - 20.0f);
        take_set(host, "take", (float)(at / 256 % 99) + 1.0f);
        run_on(&session, at, at + 256);
    }
    take_set(host, "push_feet", 0.0f);
    CHECK(take.count == 800 || take.count == 801);
}

static void pushed_strokes_come_as_far_ahead_or_behind_as_asked(void)
{
    static const float pushes[] = {-20.0f, -5.0f, 12.0f, 30.0f};
    for (int i = 0; i < 4; ++i) {
        Session session = session_of(1000.0f, HAT, 1);
        session.looseness = 0.0f;
        session.quarters = 64;
        take_set(host, "push_hands", pushes[i]);
        take_play(host, &session, &take);
        check_case("%g ms", (double)pushes[i]);
        for (int n = 2; n < take.count; ++n) {
            /* Eighths are 250 ms apart: a push of 30 is eased by half of one. */
            CHECK_NEAR(take.offset_ms[n], pushes[i], 0.08 * fabs((double)pushes[i]));
        }
    }
    take_set(host, "push_hands", 0.0f);
}

static void a_flam_has_one_grace_stroke_and_a_drag_two(void)
{
    Session session = session_of(1001.0f, SNARE, 1);
    session.looseness = 0.0f;
    session.quarters = 4;
    take_play(host, &session, &take);
    if (CHECK(take.count >= 7)) {
        /* beat 1; grace and beat 2; beat 3; two graces and beat 4 */
        CHECK_NEAR(take.frame[2] - take.frame[1], 0.025 * TAKE_RATE, 2);
        CHECK_INT(take.frame[2], BAR / 4);
        CHECK_NEAR(take.frame[6] - take.frame[4], 0.060 * TAKE_RATE, 2);
        CHECK_NEAR(take.frame[6] - take.frame[5], 0.030 * TAKE_RATE, 2);
        CHECK(take.velocity[1] < take.velocity[2] && take.velocity[4] < take.velocity[6]);
    }
}

static void no_grace_stroke_without_a_free_hand(void)
{
    Session session = session_of(1002.0f, SNARE, 1);
    session.looseness = 0.0f;
    take_play(host, &session, &take);
    CHECK_INT(take.count, 4);
}

/* Sixteenths hand to hand at 300: the grace hand played 50 ms before. */
static void grace_strokes_never_reach_the_stroke_before(void)
{
    for (int number = 1; number <= TAKES; ++number) {
        Session session = session_of(1003.0f, SNARE, number);
        session.tempo = 300.0;
        session.quarters = 32;
        take_play(host, &session, &take);
        check_case("take %d", number);
        CHECK(take.count >= 32 * 5 - 1);
        for (int n = 1; n < take.count; ++n) {
            CHECK(take.frame[n] > take.frame[n - 1]);
        }
    }
}

int main(void)
{
    host = take_host(bank);
    RUN(a_loop_loses_and_doubles_nothing_that_feel_moves);
    RUN(a_stroke_late_at_a_loops_end_is_still_played);
    RUN(a_locate_to_a_bar_line_plays_its_first_stroke);
    RUN(a_long_render_has_every_stroke_once);
    RUN(automation_of_feel_loses_and_doubles_nothing);
    RUN(pushed_strokes_come_as_far_ahead_or_behind_as_asked);
    RUN(a_flam_has_one_grace_stroke_and_a_drag_two);
    RUN(no_grace_stroke_without_a_free_hand);
    RUN(grace_strokes_never_reach_the_stroke_before);
    host_close(host);
    return tests_end();
}

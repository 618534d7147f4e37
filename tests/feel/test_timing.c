// SPDX-License-Identifier: ISC
/* Timing of the built plugin at its default looseness against measured drummers:
   tests/data/feel-bands.tsv (from the Groove MIDI Dataset, CC BY 4.0).  The
   estimators are validated first, and white noise must fail the same bands. */
#include "../help/check.h"
#include "bands.h"
#include "series.h"
#include "takes.h"

enum { TAKES = 60, QUARTERS = 180 };

static const char bank[] =
    "my:quarters a fl:HandsFigure ; fl:id 1000 ; rdfs:label \"Quarter hats\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 1 ; fl:steps \"oooo\" ] .\n"
    "my:eighths a fl:HandsFigure ; fl:id 1001 ; rdfs:label \"Eighth hats\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 2 ; fl:steps \"oooooooo\" "
    "] .\n"
    "my:kicks a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Quarter kicks\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"oooo\" ] .\n"
    "my:stream a fl:FeetFigure ; fl:id 1001 ; rdfs:label \"Stream\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 2 ; fl:steps \"oooooooo\" ] ,\n"
    "    [ fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \".o.o .o.o .o.o .o.o\" ] "
    ".\n"
    "my:g0 a fl:Groove ; fl:id 1000 ; rdfs:label \"Quarters\" ; fl:tempo 110 ; fl:beatsPerBar 4 "
    ";\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:quarters ; fl:feet "
    "my:kicks ] .\n"
    "my:g1 a fl:Groove ; fl:id 1001 ; rdfs:label \"Eighths\" ; fl:tempo 110 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:hands my:eighths ] .\n"
    "my:g2 a fl:Groove ; fl:id 1002 ; rdfs:label \"Stream\" ; fl:tempo 200 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:feet my:stream ] .\n";

enum { HAT = 55, KICK = 48 };

static Host* host;
static Take first, second;

static Session session_of(const float groove, const double per_quarter, const int key)
{
    return (Session){.id = groove,
                     .tempo = 110.0,
                     .per_quarter = per_quarter,
                     .key = key,
                     .quarters = QUARTERS,
                     .block = 8192,
                     .take = 1.0f,
                     .looseness = -1.0f,
                     .touch = 0.0f};
}

typedef struct {
    double sd, interval_sd, lag1, interval_lag1, dfa, mean;
} Timing;

static Timing timing_of(const double* const offset, const int count)
{
    static double interval[TAKE_MAX];
    for (int i = 1; i < count; ++i) {
        interval[i - 1] = offset[i] - offset[i - 1];
    }
    return (Timing){series_sd(offset, count),   series_sd(interval, count - 1),
                    series_lag1(offset, count), series_lag1(interval, count - 1),
                    series_dfa(offset, count),  series_mean(offset, count)};
}

static void add_timing(Timing* const sum, const Timing one)
{
    sum->sd += one.sd / TAKES;
    sum->interval_sd += one.interval_sd / TAKES;
    sum->lag1 += one.lag1 / TAKES;
    sum->interval_lag1 += one.interval_lag1 / TAKES;
    sum->dfa += one.dfa / TAKES;
    sum->mean += one.mean / TAKES;
}

static Timing average_timing(Session session)
{
    Timing sum = {0};
    for (int take = 1; take <= TAKES; ++take) {
        session.take = (float)take;
        take_play(host, &session, &first);
        add_timing(&sum, timing_of(first.offset_ms, first.count));
    }
    return sum;
}

/* A small generator of the test's own: Park & Miller, CACM 31(10), 1988. */
static double uniform(uint32_t* const seed)
{
    *seed = (uint32_t)((uint64_t)*seed * 48271u % 2147483647u);
    return (double)*seed / 2147483647.0 - 0.5;
}

static void the_estimator_tells_white_pink_and_brown_noise_apart(void)
{
    double white = 0.0, brown = 0.0, pink = 0.0;
    uint32_t seed = 1;
    for (int run = 0; run < TAKES; ++run) {
        static double x[1024], y[1024], z[1024], rows[10];
        double sum = 0.0;
        for (int i = 0; i < 1024; ++i) {
            x[i] = uniform(&seed);
            sum += x[i];
            y[i] = sum;
            z[i] = 0.0;
            for (int row = 0; row < 10; ++row) {
                rows[row] = i % (1 << row) == 0 ? uniform(&seed) : rows[row];
                z[i] += rows[row];
            }
        }
        white += series_dfa(x, 1024) / TAKES;
        brown += series_dfa(y, 1024) / TAKES;
        pink += series_dfa(z, 1024) / TAKES;
    }
    /* By definition 0.5, 1.0, 1.5; estimators are a little off at this length. */
    CHECK_NEAR(white, 0.5, 0.06);
    CHECK_NEAR(pink, 1.0, 0.1);
    CHECK_NEAR(brown, 1.5, 0.1);
}

static void check_timing(const char* const series, const Timing got)
{
    check_case("%s", series);
    CHECK(band_holds(series, "offset_sd_ms", got.sd));
    CHECK(band_holds(series, "interval_sd_ms", got.interval_sd));
    CHECK(band_holds(series, "offset_lag1", got.lag1));
    CHECK(band_holds(series, "interval_lag1", got.interval_lag1));
    CHECK(band_holds(series, "offset_dfa", got.dfa));
}

static void quarters_stray_from_the_click_as_drummers_do(void)
{
    check_timing("quarter", average_timing(session_of(1000.0f, 1.0, HAT)));
}

static void eighths_stray_from_the_click_as_drummers_do(void)
{
    check_timing("eighth", average_timing(session_of(1001.0f, 2.0, HAT)));
}

static void white_noise_of_the_same_spread_would_not_pass(void)
{
    uint32_t seed = 7;
    Timing sum = {0};
    for (int take = 0; take < TAKES; ++take) {
        static double x[QUARTERS];
        for (int i = 0; i < QUARTERS; ++i) {
            x[i] = 14.1 * 3.4641 * uniform(&seed);
        }
        add_timing(&sum, timing_of(x, QUARTERS));
    }
    CHECK(band_holds("quarter", "offset_sd_ms", sum.sd));
    CHECK(!band_holds("quarter", "offset_lag1", sum.lag1));
    CHECK(!band_holds("quarter", "interval_lag1", sum.interval_lag1));
    CHECK(!band_holds("quarter", "offset_dfa", sum.dfa));
}

/* Kick minus hand cymbal in one slot: sd 14.8 ms, n 11684, same data set; half
   of it between -11.9 and +5.0 around a mean of -3.2. */
static void kick_and_hat_meet_as_loosely_as_drummers(void)
{
    double sd = 0.0;
    for (int take = 1; take <= TAKES; ++take) {
        static double apart[TAKE_MAX];
        Session session = session_of(1000.0f, 1.0, HAT);
        session.take = (float)take;
        take_play(host, &session, &first);
        session.key = KICK;
        take_play(host, &session, &second);
        const int count = first.count < second.count ? first.count : second.count;
        for (int i = 0; i < count; ++i) {
            apart[i] = second.offset_ms[i] - first.offset_ms[i];
        }
        sd += series_sd(apart, count) / TAKES;
    }
    CHECK_NEAR(sd, 14.8, 3.0);
}

/* tests/data/drummers.tsv, own, "mean of a take less that of the drummer's takes": one take in
   ten is earlier, one later than this; over takes there is none. */
static void a_take_is_as_far_off_the_click_as_a_drummers_and_takes_together_are_not(void)
{
    const double early = -10.2, late = 10.3;
    double sum = 0.0;
    int beyond = 0;
    for (int take = 1; take <= TAKES; ++take) {
        Session session = session_of(1000.0f, 1.0, HAT);
        session.take = (float)take;
        take_play(host, &session, &first);
        const double mean = series_mean(first.offset_ms, first.count);
        sum += mean / TAKES;
        beyond += mean < early || mean > late;
    }
    check_case("mean %.2f, %d of %d takes beyond", sum, beyond, TAKES);
    CHECK_NEAR(sum, 0.0, 1.5);
    CHECK(beyond <= TAKES / 5);
}

static void looseness_0_is_the_exact_grid(void)
{
    Session session = session_of(1001.0f, 2.0, HAT);
    session.looseness = 0.0f;
    take_play(host, &session, &first);
    CHECK_INT(first.count, 2 * QUARTERS);
    for (int i = 0; i < first.count; ++i) {
        CHECK_NEAR(first.offset_ms[i], 0.0, 0.5 / TAKE_RATE * 1000.0 + 1e-6);
    }
}

/* No value is met far more often than its neighbours: nothing is cut off. */
static void the_spread_has_no_pile_up_at_its_ends(void)
{
    static int bins[201];
    int most = 0, widest = 0;
    memset(bins, 0, sizeof bins);
    for (int take = 1; take <= TAKES; ++take) {
        Session session = session_of(1000.0f, 1.0, HAT);
        session.take = (float)take;
        take_play(host, &session, &first);
        for (int i = 0; i < first.count; ++i) {
            const int bin = 100 + (int)lround(first.offset_ms[i] / 2.0);
            ++bins[bin < 0 ? 0 : bin > 200 ? 200 : bin];
        }
    }
    for (int i = 0; i <= 200; ++i) {
        most = bins[i] > most ? bins[i] : most;
        widest = bins[i] && abs(i - 100) > widest ? abs(i - 100) : widest;
    }
    CHECK(bins[100 + widest] + bins[100 - widest] < most / 10);
}

static void the_same_take_is_the_same_in_any_block_size_and_after_a_locate(void)
{
    Session session = session_of(1001.0f, 2.0, HAT);
    session.quarters = 64;
    take_play(host, &session, &first);
    for (uint32_t block = 17; block < 9000; block *= 5) {
        session.block = block;
        take_play(host, &session, &second);
        check_case("blocks of %u", block);
        CHECK_INT(second.count, first.count);
        CHECK(!memcmp(first.frame, second.frame, (size_t)first.count * sizeof(int64_t)));
    }
    session.first_quarter = 32;
    session.quarters = 32;
    take_play(host, &session, &second);
    check_case("located to the ninth bar");
    /* The place itself may have been played ahead of it, and the end's stroke ahead of that. */
    CHECK(second.count >= 63 && second.count <= 65);
    for (int i = 1; i <= 63; ++i) {
        CHECK_INT(second.frame[second.count - i], first.frame[first.count - i]);
    }
}

static void different_takes_have_nothing_to_do_with_each_other(void)
{
    double worst = 0.0;
    Session session = session_of(1001.0f, 2.0, HAT);
    take_play(host, &session, &first);
    for (int take = 2; take <= 20; ++take) {
        double both = 0.0;
        session.take = (float)take;
        take_play(host, &session, &second);
        for (int i = 0; i < first.count; ++i) {
            both += first.offset_ms[i] * second.offset_ms[i] / first.count;
        }
        worst = fmax(worst, fabs(both) / series_sd(first.offset_ms, first.count) /
                                series_sd(second.offset_ms, second.count));
    }
    /* Long memory leaves few independent values: chance alone reaches this. */
    CHECK(worst < 0.5);
}

/* Just noticeable displacement below 240 ms: 6 ms (Friberg & Sundberg 1995, JASA
   98(5), 2524-2531), as an absolute distance from where the neighbours put it. */
static void a_stream_of_sixteenths_at_200_is_even(void)
{
    Session session = session_of(1002.0f, 4.0, KICK);
    session.tempo = 200.0;
    take_play(host, &session, &first);
    int noticed = 0;
    for (int i = 1; i + 1 < first.count; ++i) {
        const double between = (first.offset_ms[i - 1] + first.offset_ms[i + 1]) / 2.0;
        noticed += fabs(first.offset_ms[i] - between) > 6.0;
    }
    if (getenv("FEEL")) {
        printf("# %d of %d noticed\n", noticed, first.count);
    }
    CHECK(first.count >= 4 * QUARTERS);
    CHECK(noticed < first.count / 10);
}

/* The same at 80: a displacement of 2.5 % of the interval is noticed there. */
static void eighths_at_80_are_heard_to_be_loose(void)
{
    Session session = session_of(1001.0f, 2.0, HAT);
    session.tempo = 80.0;
    take_play(host, &session, &first);
    int noticed = 0;
    for (int i = 1; i + 1 < first.count; ++i) {
        const double between = (first.offset_ms[i - 1] + first.offset_ms[i + 1]) / 2.0;
        noticed += fabs(first.offset_ms[i] - between) > 0.025 * 375.0;
    }
    CHECK(noticed > first.count / 10);
}

static void no_stroke_overtakes_its_neighbour(void)
{
    for (int take = 1; take <= 20; ++take) {
        Session session = session_of(1002.0f, 4.0, KICK);
        session.tempo = 240.0;
        session.looseness = 30.0f;
        session.take = (float)take;
        take_play(host, &session, &first);
        check_case("take %d", take);
        CHECK(first.count >= 4 * QUARTERS); /* one more may come early at the end */
        for (int i = 0; i < first.count; ++i) {
            CHECK_INT(first.slot[i], i);
        }
    }
}

int main(void)
{
    host = take_host(bank);
    RUN(the_estimator_tells_white_pink_and_brown_noise_apart);
    RUN(quarters_stray_from_the_click_as_drummers_do);
    RUN(eighths_stray_from_the_click_as_drummers_do);
    RUN(white_noise_of_the_same_spread_would_not_pass);
    RUN(kick_and_hat_meet_as_loosely_as_drummers);
    RUN(a_take_is_as_far_off_the_click_as_a_drummers_and_takes_together_are_not);
    RUN(looseness_0_is_the_exact_grid);
    RUN(the_spread_has_no_pile_up_at_its_ends);
    RUN(the_same_take_is_the_same_in_any_block_size_and_after_a_locate);
    RUN(different_takes_have_nothing_to_do_with_each_other);
    RUN(a_stream_of_sixteenths_at_200_is_even);
    RUN(eighths_at_80_are_heard_to_be_loose);
    RUN(no_stroke_overtakes_its_neighbour);
    host_close(host);
    return tests_end();
}

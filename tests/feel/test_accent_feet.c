// SPDX-License-Identifier: ISC
/* How loud feet are: running strokes are even, whatever the hands' accents, and the feet's
   have a depth of their own.  That a player aims at even strokes is common practice, no source;
   how even is from the Groove MIDI Dataset (tests/data/feel-bands.tsv). */
#include "../help/check.h"
#include "bands.h"
#include "takes.h"

enum { KICK = 48, PLACES = 16, TAKES = 12, BARS = 32 };

static const char bank[] =
    "my:running a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Running\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 2 ; fl:steps \"oooooooo\" ] ,\n"
    "  [ fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \".o.o.o.o.o.o.o.o\" ] .\n"
    "my:accents a fl:FeetFigure ; fl:id 1001 ; rdfs:label \"Accents\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"gogO\" ] .\n"
    "my:hands a fl:HandsFigure ; fl:id 1000 ; rdfs:label \"Hands\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 1 ; fl:steps \"gogO\" ] .\n"
    "my:g0 a fl:Groove ; fl:id 1000 ; rdfs:label \"Running\" ; fl:tempo 160 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:feet my:running ] .\n"
    "my:g1 a fl:Groove ; fl:id 1001 ; rdfs:label \"Accents\" ; fl:tempo 160 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:feet my:accents ;\n"
    "  fl:hands my:hands ] .\n";

static Host* host;
static Take take;

static Session session_of(const float groove, const double per_quarter, const int key)
{
    return (Session){.id = groove,
                     .tempo = 160.0,
                     .per_quarter = per_quarter,
                     .key = key,
                     .quarters = 4 * BARS,
                     .block = 512,
                     .take = 1.0f,
                     .looseness = -1.0f,
                     .touch = -1.0f};
}

/* Means of 384 strokes a place have a standard error of a thirtieth of a stroke's spread. */
static void running_feet_are_even_from_place_to_place(void)
{
    double sums[PLACES] = {0.0}, least = 127.0, most = 0.0;
    int counts[PLACES] = {0};
    Session session = session_of(1000.0f, 4.0, KICK);
    for (int i = 1; i <= TAKES; ++i) {
        session.take = (float)i;
        take_play(host, &session, &take);
        for (int at = 0; at < take.count; ++at) {
            const int64_t place = (take.slot[at] % PLACES + PLACES) % PLACES;
            sums[place] += take.velocity[at];
            ++counts[place];
        }
    }
    for (int place = 0; place < PLACES; ++place) {
        const double mean = sums[place] / counts[place];
        least = fmin(least, mean);
        most = fmax(most, mean);
    }
    /* The steadiest tenth of kicks strays by 5.4 around its place's mean: a difference of
       places within that is no pattern that stands out. */
    check_case("from %.2f to %.2f", least, most);
    const Band band = band_of("kick", "velocity_sd");
    CHECK(band.found && most - least < band.low);
}

/* By its place in the bar, a quarter note each; touch 0, so that every stroke has its level. */
static double level_at(const int key, const int quarter)
{
    Session session = session_of(1001.0f, 1.0, key);
    session.touch = 0.0f;
    session.quarters = 8;
    take_play(host, &session, &take);
    double velocity = -1.0;
    for (int at = 0; at < take.count; ++at) {
        velocity = take.slot[at] % 4 == quarter ? take.velocity[at] : velocity;
    }
    return velocity;
}

enum { SNARE = 52, NORMAL = 1, GHOST = 2, ACCENT = 3 };

static void accents_of_hands_and_feet_have_depths_of_their_own(void)
{
    const double hands = level_at(SNARE, ACCENT), feet = level_at(KICK, ACCENT);
    check_case("at default the feet's are the flatter ones: %g, %g", hands, feet);
    CHECK_NEAR(level_at(SNARE, NORMAL), level_at(KICK, NORMAL), 0.0);
    CHECK(feet > level_at(KICK, NORMAL) && feet < hands);
    take_set(host, "accent_feet", 90.0f);
    check_case("the feet's control moves the feet alone");
    CHECK_NEAR(level_at(SNARE, ACCENT), hands, 0.0);
    CHECK(level_at(KICK, ACCENT) > hands);
    take_set(host, "accent_feet", 30.0f);
    take_set(host, "accent", 10.0f);
    check_case("and the hands' the hands");
    CHECK(level_at(SNARE, ACCENT) < hands);
    CHECK_NEAR(level_at(KICK, ACCENT), feet, 0.0);
    take_set(host, "accent", 85.0f);
}

static void at_every_depth_a_foot_s_ghost_is_softer_than_its_accent(void)
{
    for (int depth = 0; depth <= 100; depth += 10) {
        take_set(host, "accent_feet", (float)depth);
        const double ghost = level_at(KICK, GHOST), normal = level_at(KICK, NORMAL);
        const double accent = level_at(KICK, ACCENT);
        check_case("accent_feet %d: %g %g %g", depth, ghost, normal, accent);
        CHECK(ghost >= 1.0 && ghost < normal && normal < accent && accent <= 127.0);
    }
    take_set(host, "accent_feet", 30.0f);
}

int main(void)
{
    host = take_host(bank);
    RUN(running_feet_are_even_from_place_to_place);
    RUN(accents_of_hands_and_feet_have_depths_of_their_own);
    RUN(at_every_depth_a_foot_s_ghost_is_softer_than_its_accent);
    host_close(host);
    return tests_end();
}

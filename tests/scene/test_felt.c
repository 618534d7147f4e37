// SPDX-License-Identifier: ISC
/* What the dials say of their values is so: each number of drummers' is a row of
   tests/data/drummers.tsv (from the Groove MIDI Dataset, Gillick and others, ICML 2019, CC BY
   4.0), each of ours is what the built plugin plays. */
#include "../../ui/scene/felt.h"
#include "../data/tsv.h"
#include "../desk/own_desk.h"
#include "../feel/takes.h"
#include "../help/check.h"

enum { SNARE = 52, KICK = 48, TAKES = 240, BARS = 4 };

/* Two means of chance, each with a standard error under 1. */
static const double near = 3.0;

/* Each level of snare and kick in each bar, a quarter note each. */
static const char bank[] =
    "my:feet a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Feet\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"gogO\" ] .\n"
    "my:hands a fl:HandsFigure ; fl:id 1000 ; rdfs:label \"Hands\" ; fl:bars 1 ;\n"
    "  fl:line [ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 1 ; fl:steps \"gogO\" ] .\n"
    "my:g0 a fl:Groove ; fl:id 1000 ; rdfs:label \"All\" ; fl:tempo 120 ; fl:beatsPerBar 4 ;\n"
    "  fl:beatUnit 4 ; fl:form \"A\" ; fl:part [ fl:letter \"A\" ; fl:feet my:feet ;\n"
    "  fl:hands my:hands ] .\n";
enum { GHOST = 2, NORMAL = 1, ACCENT = 3 };

static OwnDesk* own;
static Host* host;
static char words[FELT_ROOM];

static const char* say(const Control control, const float value)
{
    felt_words(&own->model.view, control, value, words);
    check_case("%s %g: \"%s\"", control_rows[control].symbol, (double)value, words);
    return words;
}

/* A row's 10, 50 and 90 %. */
typedef struct {
    double low, middle, high;
} Row;

static Row row_of(const char* const table, const char* const statistic, const char* const of)
{
    Row row = {0.0, 0.0, 0.0};
    bool found = false;
    for (Tsv tsv = tsv_open("drummers.tsv"); tsv_next(&tsv);) {
        if (!strcmp(tsv.fields[0], table) && !strcmp(tsv.fields[1], statistic) &&
            !strcmp(tsv.fields[2], of)) {
            row = (Row){tsv_number(&tsv, 3), tsv_number(&tsv, 4), tsv_number(&tsv, 5)};
            found = true;
        }
    }
    CHECK(found);
    return row;
}

static void check_range(const Row row, const int low, const int high)
{
    CHECK_NEAR(low, fabs(row.low), 0.5);
    CHECK_NEAR(high, row.high, 0.5);
}

/* ---- Loudness */

/* Mean velocity of a level as the plugin plays it, and how far it strays from bar to bar. */
typedef struct {
    double mean, sd;
} Played;

static Played play(const int key, const int place)
{
    static Take take;
    Played all = {0.0, 0.0};
    for (int number = 1; number <= TAKES; ++number) {
        const Session session = {.id = 1000.0f,
                                 .tempo = 120.0,
                                 .per_quarter = 1.0,
                                 .key = key,
                                 .quarters = 4 * BARS,
                                 .block = 8192,
                                 .take = (float)(300 + number),
                                 .looseness = -1.0f,
                                 .touch = own_value(own, CONTROL_TOUCH)};
        double sum = 0.0, squares = 0.0;
        int count = 0;
        take_play(host, &session, &take);
        for (int i = 0; i < take.count; ++i) {
            const bool is_there = (take.slot[i] % 4 + 4) % 4 == place;
            sum += is_there ? take.velocity[i] : 0.0;
            squares += is_there ? take.velocity[i] * take.velocity[i] : 0.0;
            count += is_there;
        }
        all.mean += sum / count / TAKES;
        all.sd += (squares - sum * sum / count) / (count - 1) / TAKES;
    }
    all.sd = sqrt(all.sd);
    return all;
}

/* The plugin and the window. */
static void turn(const Control control, const float value)
{
    take_set(host, control_rows[control].symbol, value);
    own_say(own, control, value);
}

static const float shares[] = {30.0f, 55.0f, 85.0f};

static void accents_are_as_loud_as_said(void)
{
    int accent = 0, normal = 0, low = 0, high = 0;
    for (int i = 0; i < 3; ++i) {
        turn(CONTROL_ACCENT, shares[i]);
        CHECK_INT(sscanf(say(CONTROL_ACCENT, shares[i]),
                         "snare near %d, without %d; drummers' accents %d to %d", &accent, &normal,
                         &low, &high),
                  4);
        CHECK_NEAR(accent, play(SNARE, ACCENT).mean, near);
        CHECK_NEAR(normal, play(SNARE, NORMAL).mean, near);
        check_range(row_of("loudness", "accents: mean", "snare"), low, high);
    }
    for (int i = 0; i < 3; ++i) {
        turn(CONTROL_ACCENT_FEET, shares[i]);
        CHECK_INT(sscanf(say(CONTROL_ACCENT_FEET, shares[i]),
                         "kick near %d, without %d; drummers' accents %d to %d", &accent, &normal,
                         &low, &high),
                  4);
        CHECK_NEAR(accent, play(KICK, ACCENT).mean, near);
        CHECK_NEAR(normal, play(KICK, NORMAL).mean, near);
        check_range(row_of("loudness", "accents: mean", "kick"), low, high);
    }
    turn(CONTROL_ACCENT_FEET, control_rows[CONTROL_ACCENT_FEET].normal);
}

static void ghosts_are_as_soft_as_said(void)
{
    int ghost = 0, normal = 0, low = 0, high = 0;
    for (int i = 2; i >= 0; --i) {
        turn(CONTROL_GHOST, shares[i]);
        CHECK_INT(sscanf(say(CONTROL_GHOST, shares[i]),
                         "snare near %d, normal %d; drummers' ghosts %d to %d", &ghost, &normal,
                         &low, &high),
                  4);
        CHECK_NEAR(ghost, play(SNARE, GHOST).mean, near);
        CHECK_NEAR(normal, play(SNARE, NORMAL).mean, near);
        check_range(row_of("loudness", "ghosts: mean", "snare"), low, high);
    }
    turn(CONTROL_GHOST, control_rows[CONTROL_GHOST].normal);
}

static void normal_strokes_are_as_loud_as_said(void)
{
    static const float levels[] = {50.0f, 100.0f, 76.0f};
    int snare = 0, kick = 0, of_snare[2] = {0}, of_kick[2] = {0};
    for (int i = 0; i < 3; ++i) {
        turn(CONTROL_LEVEL, levels[i]);
        CHECK_INT(sscanf(say(CONTROL_LEVEL, levels[i]),
                         "snare near %d, kick %d; drummers' %d to %d and %d to %d", &snare, &kick,
                         &of_snare[0], &of_snare[1], &of_kick[0], &of_kick[1]),
                  6);
        CHECK_NEAR(snare, play(SNARE, NORMAL).mean, near);
        CHECK_NEAR(kick, play(KICK, NORMAL).mean, near);
        check_range(row_of("loudness", "normal: mean", "snare"), of_snare[0], of_snare[1]);
        check_range(row_of("loudness", "normal: mean", "kick"), of_kick[0], of_kick[1]);
    }
}

static void backbeats_stray_in_loudness_as_said(void)
{
    static const float touches[] = {0.0f, 25.0f, 50.0f};
    int strays = 0, low = 0, high = 0;
    for (int i = 0; i < 3; ++i) {
        turn(CONTROL_TOUCH, touches[i]);
        CHECK_INT(sscanf(say(CONTROL_TOUCH, touches[i]),
                         "a backbeat strays by %d from bar to bar; drummers' by %d to %d", &strays,
                         &low, &high),
                  3);
        CHECK_NEAR(strays, play(SNARE, NORMAL).sd, 1.5);
        check_range(row_of("loudness", "sd within places", "snare"), low, high);
    }
    check_case("touch 50: as measured");
    const Row measured = row_of("loudness", "sd within places", "snare");
    CHECK(strays > measured.low && strays < measured.high);
    CHECK_NEAR(strays, measured.middle, 3.0);
}

/* ---- Timing that is exact */

static void a_swung_pair_is_as_long_as_said(void)
{
    int first = 0, second = 0;
    own->model.view.readouts[READOUT_TEMPO_NOW] = 120.0f;
    /* Of a quarter note at 120, 500 ms: two thirds and one, three quarters and one. */
    CHECK_INT(sscanf(say(CONTROL_SWING_RATIO, 2.0f), "%d and %d ms at this tempo", &first, &second),
              2);
    CHECK_INT(first, 333);
    CHECK_INT(second, 167);
    sscanf(say(CONTROL_SWING_RATIO, 3.0f), "%d and %d ms", &first, &second);
    CHECK_INT(first, 375);
    CHECK_INT(second, 125);
    own_say(own, CONTROL_SWING_RATIO, 2.0f);
    sscanf(say(CONTROL_SWING_GRID, 1.0f), "%d and %d ms", &first, &second);
    CHECK_INT(first, 167);
    CHECK_INT(second, 83);
    check_case("with the tempo: no note under 100 ms");
    own_say(own, CONTROL_SWING_FOLLOW, 1.0f);
    sscanf(say(CONTROL_SWING_GRID, 1.0f), "%d and %d ms", &first, &second);
    CHECK_INT(first, 150);
    CHECK_INT(second, 100);
    /* A third of a quarter note is 100 ms at 200, half of one at 300. */
    CHECK_TEXT(say(CONTROL_SWING_FOLLOW, 1.0f), "evens out from 200 bpm on, straight from 300");
    CHECK_TEXT(say(CONTROL_SWING_FOLLOW, 0.0f), "");
    own_say(own, CONTROL_SWING_FOLLOW, 0.0f);
    own_say(own, CONTROL_SWING_RATIO, 1.0f);
    CHECK_TEXT(say(CONTROL_SWING_RATIO, 1.001f), "");
}

static void ahead_is_on_top_of_the_beat_and_behind_laid_back(void)
{
    static const Control pushes[] = {CONTROL_PUSH_HANDS, CONTROL_PUSH_SNARE, CONTROL_PUSH_FEET};
    for (int i = 0; i < 3; ++i) {
        CHECK(strstr(say(pushes[i], -8.0f), "on top of the beat") == words);
        CHECK(strstr(say(pushes[i], 8.0f), "laid back") == words);
        CHECK(strstr(say(pushes[i], 0.0f), "with the click") == words);
    }
    int before = 0, after = 0;
    sscanf(say(CONTROL_PUSH_SNARE, 8.0f), "laid back; drummers: %d ms before their hats to %d",
           &before, &after);
    check_range(row_of("timing", "difference: mean", "snare less cymbal"), before, after);
    sscanf(say(CONTROL_PUSH_FEET, 8.0f), "laid back; drummers: %d ms before their hats to %d",
           &before, &after);
    check_range(row_of("timing", "difference: mean", "kick less cymbal"), before, after);
}

/* The take's help: "other habits of 4 to 6 ms". */
static void habits_are_as_far_off_as_said(void)
{
    static const char statistic[] = "habit, lasting: sd of place means, whole takes";
    static const char* const limbs[] = {"kick", "snare", "cymbal"};
    const char* const said = strstr(dial_of(CONTROL_TAKE)->help, "habits of ");
    int least = 0, most = 0;
    CHECK(said && sscanf(said, "habits of %d to %d ms", &least, &most) == 2);
    for (int i = 0; i < 3; ++i) {
        const double middle = row_of("timing", statistic, limbs[i]).middle;
        check_case("%s: %g", limbs[i], middle);
        CHECK(middle > least - 0.5 && middle < most + 0.5);
    }
}

static void a_step_of_a_grid_is_as_long_as_said(void)
{
    int ms = 0;
    for (int grid = 1; grid <= 12; ++grid) {
        CHECK_INT(sscanf(say(CONTROL_FEET_GRID, (float)grid), "a step is %d ms at this tempo", &ms),
                  1);
        CHECK_NEAR(ms, 500.0 / grid, 0.5);
    }
    CHECK_TEXT(say(CONTROL_HANDS_GRID, 0.0f), "");
}

/* README: "the own clock rises by a step every so many phrases, on the phrase line, up to
   the top". */
static void a_ladder_is_on_its_top_after_as_many_phrases_as_said(void)
{
    int from = 0, to = 0, phrases = 0;
    CHECK_TEXT(say(CONTROL_LADDER_STEP, 5.0f), ""); /* the host's clock has no ladder */
    own_say(own, CONTROL_CLOCK, 1.0f);
    own_say(own, CONTROL_TEMPO, 100.0f);
    own_say(own, CONTROL_LADDER_EVERY, 3.0f);
    own_say(own, CONTROL_LADDER_TOP, 132.0f);
    CHECK_INT(sscanf(say(CONTROL_LADDER_STEP, 5.0f), "from %d to %d bpm in %d phrases", &from, &to,
                     &phrases),
              3);
    CHECK_INT(from, 100);
    CHECK_INT(to, 132);
    CHECK_INT(phrases, 21); /* 105, 110, ... 130, 132: seven rises */
    CHECK_TEXT(say(CONTROL_LADDER_STEP, 0.0f), "");
    CHECK_TEXT(say(CONTROL_LADDER_TOP, 90.0f), "");
    own_say(own, CONTROL_CLOCK, 0.0f);
}

/* ---- What a groove has written */

static Entry* groove_with(const double looseness_ms)
{
    const Shelf* const shelf = &own->model.view.shelves[ENTRY_GROOVE];
    for (int i = 0; i < shelf->count; ++i) {
        const Groove* const groove = shelf->entries[i].groove;
        if (groove && fabs(groove->feel.looseness_ms - looseness_ms) < 0.001) {
            return &own->model.entries[ENTRY_GROOVE][i];
        }
    }
    return NULL;
}

static void a_dial_at_its_default_says_what_the_groove_has_written(void)
{
    char text[DIAL_TEXT_ROOM];
    const char* unit = "";
    const Entry* const entry = groove_with(6.0); /* there is one in presets/ */
    if (!CHECK(entry)) {
        return;
    }
    own_say(own, CONTROL_GROOVE, (float)entry->id);
    dial_text(&own->model.view, CONTROL_LOOSENESS, control_rows[CONTROL_LOOSENESS].normal, text,
              &unit);
    CHECK_TEXT(text, "6");
    CHECK_TEXT(unit, "ms, the groove's");
    CHECK_TEXT(say(CONTROL_LOOSENESS, control_rows[CONTROL_LOOSENESS].normal),
               "tighter than nine in ten passages of drummers");
    dial_text(&own->model.view, CONTROL_LOOSENESS, 17.0f, text, &unit);
    CHECK_TEXT(text, "17");
    CHECK_TEXT(unit, "ms");
    own_say(own, CONTROL_GROOVE, control_rows[CONTROL_GROOVE].normal);
}

int main(void)
{
    host = take_host(bank);
    own = own_desk_open();
    RUN(accents_are_as_loud_as_said);
    RUN(ghosts_are_as_soft_as_said);
    RUN(normal_strokes_are_as_loud_as_said);
    RUN(backbeats_stray_in_loudness_as_said);
    RUN(a_swung_pair_is_as_long_as_said);
    RUN(ahead_is_on_top_of_the_beat_and_behind_laid_back);
    RUN(a_step_of_a_grid_is_as_long_as_said);
    RUN(a_ladder_is_on_its_top_after_as_many_phrases_as_said);
    RUN(habits_are_as_far_off_as_said);
    RUN(a_dial_at_its_default_says_what_the_groove_has_written);
    own_desk_close(own);
    host_close(host);
    return tests_end();
}

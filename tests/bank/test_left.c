// SPDX-License-Identifier: ISC
/* test_left.c - entries that left the factory's bank: their ids stay theirs, and whoever
   picks or names one gets what plays in its place (dcterms:isReplacedBy, a term of the DCMI
   Metadata Terms: "a related resource that supplants ... the described resource"). */
#include "../../plugin/bank/session.h"
#include "../../plugin/bank/turtle.h"
#include "../../plugin/engine/groove/groove.h"
#include "../../plugin/bank/write_figure.h"
#include "../help/check.h"
#include "bank_folder.h"

#define FACTORY FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"

static const char prefixes[] = "@prefix dcterms: <http://purl.org/dc/terms/> .\n"
                               "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix hands: <urn:fourlimb:hands:> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n";

/* Pairs of hands that had the same strokes once the shorter was repeated: the one that left,
   its URI, and the one that stays. */
static const struct {
    uint32_t gone;
    const char* uri;
    uint32_t stays;
} pairs[] = {{24, "urn:fourlimb:hands:two-four-hats", 1},
             {180, "urn:fourlimb:hands:six-eight-hats", 90},
             {181, "urn:fourlimb:hands:six-eight-ride", 90},
             {182, "urn:fourlimb:hands:six-eight-ghosts", 94},
             {183, "urn:fourlimb:hands:six-eight-bells", 93}};
enum { PAIRS = sizeof pairs / sizeof *pairs };

static Bank* open_sources(const BankSources sources)
{
    Bank* const bank = bank_open(sources);
    if (!bank) {
        printf("# there is no memory\n");
        exit(2);
    }
    return bank;
}

/* The bank as Turtle, in a folder that no build has compiled. */
static BankFolder written_factory(void)
{
    static const char* const files[] = {"hands", "feet", "turnarounds", "grooves", "kits"};
    const BankFolder folder = bank_folder_make();
    for (size_t i = 0; i < sizeof files / sizeof *files; ++i) {
        char source[64], name[64];
        snprintf(source, sizeof source, "presets/%s.ttl", files[i]);
        snprintf(name, sizeof name, "%s.ttl", files[i]);
        bank_folder_link(&folder, source, name);
    }
    return folder;
}

static void check_pair(const Bank* const bank, const int i)
{
    const Library* const library = bank_library(bank);
    const Figure* const stays = library_figure(library, FIGURE_HANDS, pairs[i].stays);
    const EntryInfo* const info = bank_info(bank, ENTRY_HANDS, pairs[i].gone);
    check_case("hands %u", pairs[i].gone);
    CHECK(stays && library_figure(library, FIGURE_HANDS, pairs[i].gone) == stays);
    CHECK_INT(library_id(library, ENTRY_HANDS, pairs[i].gone), pairs[i].stays);
    CHECK_INT(info ? info->id : 0, pairs[i].stays);
    CHECK(bank_value(bank, ENTRY_HANDS, pairs[i].gone) == stays);
}

static void picking_the_id_of_one_that_left_plays_what_took_its_place(void)
{
    const BankFolder folder = written_factory();
    Bank* const read = bank_folder_open(&folder);
    Bank* const compiled = open_sources((BankSources){.factory = FACTORY});
    CHECK_INT(bank_diagnostics(read)->count, 0);
    for (int i = 0; i < PAIRS; ++i) {
        check_pair(compiled, i);
        check_pair(read, i);
    }
    check_case("others");
    CHECK_INT(library_id(bank_library(compiled), ENTRY_HANDS, 25), 25);
    CHECK_INT(library_id(bank_library(compiled), ENTRY_FEET, 24), 24); /* of hands alone */
    CHECK(!library_figure(bank_library(compiled), FIGURE_HANDS, 999));
    bank_free(compiled);
    bank_free(read);
    bank_folder_remove(&folder);
}

static void no_list_shows_one_that_left(void)
{
    Bank* const bank = open_sources((BankSources){.factory = FACTORY});
    for (int i = 0; i < PAIRS; ++i) {
        check_case("hands %u", pairs[i].gone);
        CHECK_INT(entries_beginning(bank, pairs[i].uri), 0);
        for (uint32_t at = 0; at < bank_count(bank, ENTRY_HANDS); ++at) {
            CHECK(bank_entry(bank, ENTRY_HANDS, at)->id != pairs[i].gone);
        }
    }
    bank_free(bank);
}

/* As a person wrote it while the figure was still there. */
static void a_groove_that_names_one_that_left_plays_what_took_its_place(void)
{
    const BankFolder users = bank_folder_make();
    char text[1024];
    for (int i = 0; i < PAIRS; ++i) {
        const int size =
            snprintf(text, sizeof text,
                     "%s<urn:test:groove> a fl:Groove ; fl:id 1000 ; rdfs:label \"Groove\" ;\n"
                     "fl:tempo 100 ; fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"A\" ;\n"
                     "fl:part [ fl:letter \"A\" ; fl:hands <%s> ] .\n",
                     prefixes, pairs[i].uri);
        bank_folder_write(&users, "mine.ttl", text, (size_t)size);
        Bank* const bank =
            open_sources((BankSources){FACTORY, NULL, bank_folder_file(&users, "mine.ttl")});
        const Groove* const groove = library_groove(bank_library(bank), 1000);
        check_case("%s", pairs[i].uri);
        CHECK_INT(bank_diagnostics(bank)->count, 0);
        CHECK_INT(groove && groove->parts[0].hands ? groove->parts[0].hands->id : 0,
                  pairs[i].stays);
        check_pair(bank, i);
        bank_free(bank);
    }
    bank_folder_remove(&users);
}

static void the_id_and_the_name_of_one_that_left_are_nobody_else_s(void)
{
    static const char line[] = "fl:line [ fl:limb fl:rightHand ; fl:voice fl:ride ; fl:grid 1 ; "
                               "fl:steps \"O\" ] .\n";
    const BankFolder folder = written_factory();
    char text[2048];
    const int size =
        snprintf(text, sizeof text,
                 "%s<urn:test:id> a fl:HandsFigure ; fl:id 24 ; rdfs:label \"New\" ;\n%s"
                 "hands:two-four-hats a fl:HandsFigure ; fl:id 999 ; rdfs:label \"Name\" ;\n%s",
                 prefixes, line, line);
    bank_folder_write(&folder, "new.ttl", text, (size_t)size);
    Bank* const bank = bank_folder_open(&folder);
    CHECK_INT(bank_diagnostics(bank)->count, 2);
    CHECK(!bank_info(bank, ENTRY_HANDS, 999));
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void what_left_can_only_leave_the_factory_s_bank(void)
{
    const BankFolder users = bank_folder_make();
    char text[1024];
    const int size = snprintf(text, sizeof text,
                              "%s<urn:test:mine> a fl:HandsFigure ; fl:id 1000 ;\n"
                              "\tdcterms:isReplacedBy hands:eighth-hats .\n",
                              prefixes);
    bank_folder_write(&users, "mine.ttl", text, (size_t)size);
    Bank* const bank = open_sources((BankSources){FACTORY, users.path, NULL});
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    CHECK_INT(diagnostics->count, 1);
    CHECK(diagnostics->count && strstr(diagnostics->texts[0], "mine.ttl:5: "));
    CHECK(diagnostics->count && strstr(diagnostics->texts[0], "dcterms:isReplacedBy"));
    CHECK(!bank_info(bank, ENTRY_HANDS, 1000));
    bank_free(bank);
    bank_folder_remove(&users);
}

static Session open_session(const char* const names)
{
    Session session;
    if (!session_init(&session, (BankSources){.factory = FACTORY})) {
        printf("# there is no memory\n");
        exit(2);
    }
    SessionTexts texts;
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = strdup(i == TEXT_NAMES ? names : "");
    }
    CHECK(session_restore(&session, &texts));
    return session;
}

static void check_told(const Session* const session, const char* const wanted)
{
    Snapshot* const snapshot = session_snapshot(session);
    CHECK_TEXT(snapshot ? snapshot_messages(snapshot) : "no memory", wanted);
    snapshot_free(snapshot);
}

/* The names as a session kept them when the figure was still there.  Once it is saved it has
   the new name, and nothing is left to tell. */
static void a_session_that_names_one_that_left_says_what_plays_and_follows(void)
{
    char names[512];
    snprintf(names, sizeof names,
             "%shands:two-four-hats a fl:HandsFigure ; fl:id 24 ; rdfs:label \"Two-four hats\" .\n",
             prefixes);
    Session session = open_session(names);
    check_told(&session, "hands figure 24 \"Two-four hats\" left the factory's bank; \"Eighth "
                         "hats\" plays in its place\n");
    const Used used = {.ids = {[ENTRY_HANDS] = 24}};
    SessionTexts saved;
    CHECK(session_save(&session, &used, &saved));
    CHECK(strstr(saved.of[TEXT_NAMES], "eighth-hats"));
    CHECK(!strstr(saved.of[TEXT_NAMES], "two-four-hats"));
    Session again = open_session(saved.of[TEXT_NAMES]);
    check_told(&again, "");
    session_clear(&again);
    session_texts_clear(&saved);
    session_clear(&session);
}

/* ---- Hands that left, being others on another cymbal */

/* A bank of two figures of the factory's: one left for the other on the half-open hat. */
static BankFolder bank_of_two(const char* const rides)
{
    const BankFolder folder = bank_folder_make();
    char text[2048];
    const int size = snprintf(
        text, sizeof text,
        "%s<urn:test:closed> a fl:HandsFigure ; fl:id 1 ; rdfs:label \"Closed\" ; fl:bars 1 ;\n"
        "fl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 1 ; fl:steps \"OOOO\" ] "
        ".\n"
        "<urn:test:feet> a fl:FeetFigure ; fl:id 1 ; rdfs:label \"Feet\" ; fl:bars 1 ;\n"
        "fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"O.O.\" ] .\n"
        "<urn:test:half-open> a fl:HandsFigure ; fl:id 2 ;\n"
        "dcterms:isReplacedBy <urn:test:closed> ; %s .\n"
        "<urn:test:a> a fl:Groove ; fl:id 1 ; rdfs:label \"A\" ; fl:tempo 100 ;\n"
        "fl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"ABC\" ;\n"
        "fl:part [ fl:letter \"A\" ; fl:hands <urn:test:half-open> ; fl:feet <urn:test:feet> ] ,\n"
        "[ fl:letter \"B\" ; fl:hands <urn:test:closed> ; fl:rideOn fl:tomFloor ] ,\n"
        "[ fl:letter \"C\" ; fl:hands <urn:test:half-open> ; fl:rideOn fl:rideBell ] .\n",
        prefixes, rides);
    bank_folder_write(&folder, "two.ttl", text, (size_t)size);
    return folder;
}

static void hands_that_left_for_others_on_another_cymbal_are_played_on_it(void)
{
    static const RideOn wanted[] = {RIDE_ON_HALF_OPEN, RIDE_ON_FLOOR_TOM, RIDE_ON_BELL};
    const BankFolder folder = bank_of_two("fl:rideOn fl:hatHalfOpen");
    Bank* const bank = bank_folder_open(&folder);
    const Library* const library = bank_library(bank);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    CHECK_INT(library_ride_on(library, 2), RIDE_ON_HALF_OPEN);
    CHECK_INT(library_ride_on(library, 1), RIDE_ON_AS_WRITTEN);
    const Groove* const groove = library_groove(library, 1);
    for (int part = 0; groove && part < 3; ++part) {
        check_case("part %c", 'A' + part);
        CHECK(groove->parts[part].hands == library_figure(library, FIGURE_HANDS, 1));
        CHECK_INT(groove->parts[part].ride_on, wanted[part]);
    }
    check_case("picked by its id");
    const Settings picked = {.groove = 1, .hands = 2};
    CHECK_INT(selection_make(library, &picked, 120.0).ride_on, RIDE_ON_HALF_OPEN);
    const Settings moved = {.groove = 1, .hands = 2, .ride_on = RIDE_ON_CHINA};
    CHECK_INT(selection_make(library, &moved, 120.0).ride_on, RIDE_ON_CHINA);
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void a_session_is_told_on_what_its_hands_are_played_now(void)
{
    const BankFolder folder = bank_of_two("fl:rideOn fl:hatHalfOpen");
    Session session;
    SessionTexts texts;
    CHECK(session_init(&session, (BankSources){.factory = folder.path}));
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = strdup(i == TEXT_NAMES
                                 ? "<urn:test:half-open> a <urn:fourlimb:terms#HandsFigure> ;\n"
                                   "<urn:fourlimb:terms#id> 2 ;\n"
                                   "<http://www.w3.org/2000/01/rdf-schema#label> \"Half-open\" .\n"
                                 : "");
    }
    CHECK(session_restore(&session, &texts));
    check_told(&session, "hands figure 2 \"Half-open\" left the factory's bank; \"Closed\" plays "
                         "in its place, on the half-open hat\n");
    session_clear(&session);
    bank_folder_remove(&folder);
}

/* The compiled bank is made of the Turtle by a program of its own. */
static void the_compiled_bank_rides_where_the_turtle_says(void)
{
    const BankFolder folder = written_factory();
    Bank* const read = bank_folder_open(&folder);
    Bank* const compiled = open_sources((BankSources){.factory = FACTORY});
    const Library* const a = bank_library(read);
    const Library* const b = bank_library(compiled);
    int moved = 0;
    CHECK_INT(a->groove_count, b->groove_count);
    for (uint32_t i = 0; i < a->groove_count && i < b->groove_count; ++i) {
        for (int part = 0; part < PARTS_MAX; ++part) {
            check_case("groove %u, part %c", a->grooves[i].id, 'A' + part);
            CHECK_INT(b->grooves[i].parts[part].ride_on, a->grooves[i].parts[part].ride_on);
            moved += a->grooves[i].parts[part].ride_on != RIDE_ON_AS_WRITTEN;
        }
    }
    for (uint32_t id = ID_LEAST; id < ID_FIRST_OWN; ++id) {
        check_case("hands %u", id);
        CHECK_INT(library_ride_on(b, id), library_ride_on(a, id));
        moved += library_ride_on(a, id) != RIDE_ON_AS_WRITTEN;
    }
    check_case("some do ride elsewhere");
    CHECK(moved > 0);
    bank_free(compiled);
    bank_free(read);
    bank_folder_remove(&folder);
}

static void a_voice_that_nobody_rides_on_is_told_with_its_line(void)
{
    const BankFolder folder = bank_of_two("fl:rideOn fl:snare");
    Bank* const bank = bank_folder_open(&folder);
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    CHECK(diagnostics->count && strstr(diagnostics->texts[0], "two.ttl:"));
    CHECK(diagnostics->count && strstr(diagnostics->texts[0], "fl:rideOn"));
    CHECK(diagnostics->count && strstr(diagnostics->texts[0], "fl:tomFloor"));
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void a_groove_s_cymbals_are_written_as_they_were_read(void)
{
    const BankFolder folder = bank_of_two("fl:rideOn fl:hatHalfOpen");
    Bank* const bank = bank_folder_open(&folder);
    const EntryPick picks[] = {{ENTRY_HANDS, 1}, {ENTRY_FEET, 1}, {ENTRY_GROOVE, 1}};
    char* const text = write_entries(bank, picks, 3);
    const BankFolder copy = bank_folder_make();
    bank_folder_write(&copy, "copy.ttl", text ? text : "", text ? strlen(text) : 0);
    Bank* const again = bank_folder_open(&copy);
    const Groove* const groove = library_groove(bank_library(again), 1);
    CHECK_INT(bank_diagnostics(again)->count, 0);
    if (CHECK(groove)) {
        CHECK_INT(groove->parts[0].ride_on, RIDE_ON_HALF_OPEN);
        CHECK_INT(groove->parts[1].ride_on, RIDE_ON_FLOOR_TOM);
        CHECK_INT(groove->parts[2].ride_on, RIDE_ON_BELL);
    }
    free(text);
    bank_free(again);
    bank_free(bank);
    bank_folder_remove(&copy);
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(hands_that_left_for_others_on_another_cymbal_are_played_on_it);
    RUN(a_session_is_told_on_what_its_hands_are_played_now);
    RUN(the_compiled_bank_rides_where_the_turtle_says);
    RUN(a_voice_that_nobody_rides_on_is_told_with_its_line);
    RUN(a_groove_s_cymbals_are_written_as_they_were_read);
    RUN(picking_the_id_of_one_that_left_plays_what_took_its_place);
    RUN(no_list_shows_one_that_left);
    RUN(a_groove_that_names_one_that_left_plays_what_took_its_place);
    RUN(the_id_and_the_name_of_one_that_left_are_nobody_else_s);
    RUN(what_left_can_only_leave_the_factory_s_bank);
    RUN(a_session_that_names_one_that_left_says_what_plays_and_follows);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_user_bank.c - a user's own Turtle: read from the data folder of the XDG
   Base Directory Specification by the bank, the plugin and the command line. */
#include "own_folder.h"
#include "stage.h"

#define MY_FEET                                                                                    \
    "my:drift a fl:FeetFigure ; fl:id 1001 ; rdfs:label \"Drift\" ;\n"                             \
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 7 ; fl:over 2 ;\n"              \
    "\t\tfl:steps \"Ooooooo\" ] .\n"

#define MY_GROOVE                                                                                  \
    "my:ferry a fl:Groove ; fl:id 1002 ; rdfs:label \"Ferry\" ; fl:tempo 120 ;\n"                  \
    "\tfl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"AA\" ;\n"                                      \
    "\tfl:part [ fl:letter \"A\" ; fl:hands hands:quarter-hats ; fl:feet my:drift ] .\n"

/* Line 8 of the file, after the prefixes, has a sign that is no step. */
#define WRONG_STEPS                                                                                \
    "my:odd a fl:FeetFigure ; fl:id 1003 ; rdfs:label \"Odd\" ;\n"                                 \
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ;\n"                          \
    "\t\tfl:steps \"O..x\" ] .\n"

#define NOT_TURTLE "this is no Turtle at all\n"

static OwnFolder own;
static Stage stage;

static uint32_t users_entries(const Bank* const bank)
{
    uint32_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            count += bank_entry(bank, (EntryKind)kind, i)->is_users;
        }
    }
    return count;
}

static void the_folder_is_fourlimb_in_the_data_home(void)
{
    char folder[BANK_FOLDER_ROOM];
    setenv("HOME", "/home/anybody", 1);
    setenv("XDG_DATA_HOME", "/data/anybody", 1);
    CHECK(bank_users_folder(folder));
    CHECK_TEXT(folder, "/data/anybody/fourlimb");
}

/* The specification: unset or empty means $HOME/.local/share, and a path that
   isn't absolute must be ignored. */
static void without_a_data_home_it_is_in_local_share(void)
{
    char folder[BANK_FOLDER_ROOM];
    static const char* const useless[] = {NULL, "", "data/anybody"};
    setenv("HOME", "/home/anybody", 1);
    for (int i = 0; i < 3; ++i) {
        unsetenv("XDG_DATA_HOME");
        if (useless[i]) {
            setenv("XDG_DATA_HOME", useless[i], 1);
        }
        check_case("XDG_DATA_HOME %s", useless[i] ? useless[i] : "unset");
        CHECK(bank_users_folder(folder));
        CHECK_TEXT(folder, "/home/anybody/.local/share/fourlimb");
    }
}

static void without_a_home_there_is_no_folder(void)
{
    char folder[BANK_FOLDER_ROOM];
    unsetenv("HOME");
    unsetenv("XDG_DATA_HOME");
    CHECK(!bank_users_folder(folder));
    setenv("HOME", "/home/anybody", 1);
}

static void a_user_s_entries_are_read_beside_the_factory_s(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "mine.ttl", MY_FEET MY_GROOVE);
    Bank* const bare = own_bank(NULL, NULL);
    Bank* const bank = own_bank(own.folder, NULL);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    CHECK_INT(users_entries(bank), 2);
    CHECK_INT(users_entries(bare), 0);
    CHECK_INT(bank_count(bank, ENTRY_FEET), bank_count(bare, ENTRY_FEET) + 1);
    CHECK_INT(bank_count(bank, ENTRY_HANDS), bank_count(bare, ENTRY_HANDS));
    bank_free(bank);
    bank_free(bare);
    own_folder_remove(&own);
}

static void a_user_s_groove_plays_factory_hands_over_the_user_s_feet(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "mine.ttl", MY_FEET MY_GROOVE);
    Bank* const bank = own_bank(own.folder, NULL);
    const Library* const library = bank_library(bank);
    const Groove* const groove = library_groove(library, 1002);
    CHECK(groove && groove->parts[0].hands == library_figure(library, FIGURE_HANDS, 3));
    CHECK(groove && groove->parts[0].feet == library_figure(library, FIGURE_FEET, 1001));
    bank_free(bank);
    own_folder_remove(&own);
}

static void an_id_of_the_factory_s_range_is_refused_with_a_message(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "mine.ttl",
                     "my:low a fl:FeetFigure ; fl:id 999 ; rdfs:label \"Low\" ;\n"
                     "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ;\n"
                     "\t\tfl:steps \"O\" ] .\n" MY_FEET);
    Bank* const bank = own_bank(own.folder, NULL);
    CHECK(!library_figure(bank_library(bank), FIGURE_FEET, 999));
    CHECK(library_figure(bank_library(bank), FIGURE_FEET, 1001));
    CHECK_INT(bank_diagnostics(bank)->count, 1);
    const char* const diagnostic = diagnostic_of(bank, "mine.ttl:6");
    CHECK(diagnostic && strstr(diagnostic, "999"));
    bank_free(bank);
    own_folder_remove(&own);
}

/* ttl/terms.ttl: a user's own run from 1000 to 1999. */
static void only_ids_of_the_user_s_range_are_read(void)
{
    static const int ids[] = {999, 1000, 1999, 2000};
    for (int i = 0; i < 4; ++i) {
        char turtle[512];
        snprintf(turtle, sizeof turtle,
                 "my:one a fl:FeetFigure ; fl:id %d ; rdfs:label \"One\" ;\n"
                 "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ;\n"
                 "\t\tfl:steps \"O\" ] .\n",
                 ids[i]);
        own_folder_make(&own);
        own_folder_write(&own, "mine.ttl", turtle);
        Bank* const bank = own_bank(own.folder, NULL);
        check_case("id %d", ids[i]);
        CHECK_INT(users_entries(bank), i == 1 || i == 2);
        CHECK_INT(diagnostic_of(bank, "mine.ttl:6") != NULL, i == 0 || i == 3);
        bank_free(bank);
        own_folder_remove(&own);
    }
}

static void an_id_of_the_factory_s_never_takes_its_place(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "0-first.ttl",
                     "my:mine a fl:FeetFigure ; fl:id 50 ; rdfs:label \"Not the factory's\" ;\n"
                     "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ;\n"
                     "\t\tfl:steps \"O\" ] .\n");
    Bank* const bank = own_bank(own.folder, NULL);
    const Figure* const feet = library_figure(bank_library(bank), FIGURE_FEET, 50);
    CHECK(feet && feet->stroke_count == 4);
    CHECK(diagnostic_of(bank, "0-first.ttl") != NULL);
    bank_free(bank);
    own_folder_remove(&own);
}

static void a_bad_file_stops_neither_the_user_s_others_nor_the_factory_s(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "a-bad.ttl", NOT_TURTLE);
    own_folder_write(&own, "b-good.ttl", MY_FEET MY_GROOVE);
    own_folder_write(&own, "c-odd.ttl", WRONG_STEPS);
    Bank* const bare = own_bank(NULL, NULL);
    Bank* const bank = own_bank(own.folder, NULL);
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const EntryKind of = (EntryKind)kind;
        check_case("kind %d", kind);
        CHECK_INT(bank_count(bank, of),
                  bank_count(bare, of) + (of == ENTRY_FEET) + (of == ENTRY_GROOVE));
    }
    CHECK(diagnostic_of(bank, "a-bad.ttl:6") != NULL);
    CHECK(diagnostic_of(bank, "c-odd.ttl:8") != NULL);
    bank_free(bank);
    bank_free(bare);
    own_folder_remove(&own);
}

static void a_folder_that_is_not_there_is_no_mistake(void)
{
    Bank* const bare = own_bank(NULL, NULL);
    Bank* const bank = own_bank("/no/such/folder", NULL);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    CHECK_INT(bank_count(bank, ENTRY_GROOVE), bank_count(bare, ENTRY_GROOVE));
    bank_free(bank);
    bank_free(bare);
}

/* Opens the plugin with the folder as the user's data home, and plays 4 s of a
   groove at 120. */
static void play_own(const char* const data_home, const int feet)
{
    char why[HOST_WHY_ROOM] = "";
    setenv("XDG_DATA_HOME", data_home, 1);
    stage.host = host_open(FOURLIMB_BUILD "/lv2/fourlimb.lv2", STAGE_RATE, why);
    stage_open(&stage, 120.0, 4, 4);
    stage_set(&stage, "groove", 3);
    stage_set(&stage, "feet", 0);
    CHECK(host_set(stage.host, "feet", (float)feet, why));
    stage_tell(&stage, 0.0, 1.0);
    stage_run(&stage, 4 * STAGE_RATE, 1024);
    stage_close(&stage);
}

/* Seven over two quarters: 48,000 frames over 7, to the nearest. */
static void the_plugin_plays_a_user_s_figure(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "mine.ttl", MY_FEET);
    play_own(own.root, 1001);
    for (int i = 0; i < 28; ++i) {
        const int64_t frame = ((int64_t)i * 2 * 48000 + 7) / 14;
        check_case("stroke %d", i + 1);
        CHECK_INT(stage_struck(&stage, 36, frame, frame + 1), 1);
    }
    own_folder_remove(&own);
}

static void the_plugin_plays_on_beside_a_bad_file(void)
{
    own_folder_make(&own);
    own_folder_write(&own, "a-bad.ttl", NOT_TURTLE);
    play_own(own.root, 50);
    CHECK_INT(stage_struck(&stage, 36, 0, 4 * STAGE_RATE), 32);
    own_folder_remove(&own);
}

int main(void)
{
    RUN(the_folder_is_fourlimb_in_the_data_home);
    RUN(without_a_data_home_it_is_in_local_share);
    RUN(without_a_home_there_is_no_folder);
    RUN(a_user_s_entries_are_read_beside_the_factory_s);
    RUN(a_user_s_groove_plays_factory_hands_over_the_user_s_feet);
    RUN(an_id_of_the_factory_s_range_is_refused_with_a_message);
    RUN(only_ids_of_the_user_s_range_are_read);
    RUN(an_id_of_the_factory_s_never_takes_its_place);
    RUN(a_bad_file_stops_neither_the_user_s_others_nor_the_factory_s);
    RUN(a_folder_that_is_not_there_is_no_mistake);
    RUN(the_plugin_plays_a_user_s_figure);
    RUN(the_plugin_plays_on_beside_a_bad_file);
    return tests_end();
}

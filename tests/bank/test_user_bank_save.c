// SPDX-License-Identifier: ISC
/* test_user_bank_save.c - figures saved into the user's folder, whatever stands in it: each in its
   own file, what a person wrote stays, and refusals say what to do. */
#include "../../plugin/bank/model.h"
#include "user_bank_folder.h"

#include <sys/stat.h>

static void a_saved_figure_is_in_the_bank_and_has_a_file_of_its_own(void)
{
    const BankFolder folder = bank_folder_make();
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 190, "O.oo")), FIRST);
    CHECK_INT(save(folder.path, gallop("Fog Gallop", 0, "Ooo.")), FIRST + 1);
    CHECK_TEXT(why, "");
    Bank* const bank = open_own(&folder);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, FIRST);
    CHECK_TEXT(info ? info->label : NULL, "Salt Gallop");
    char name[64];
    snprintf(name, sizeof name, "my:salt-gallop-%d", FIRST);
    CHECK_TEXT(info ? info->name : NULL, name);
    const Figure* const figure = library_figure(bank_library(bank), FIGURE_FEET, FIRST + 1);
    CHECK_INT(figure ? figure->stroke_count : 0, 3);
    CHECK(strstr(contents(feet_file(&folder, FIRST)), "\"Salt Gallop\""));
    CHECK(strstr(contents(feet_file(&folder, FIRST + 1)), "\"Fog Gallop\""));
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void the_folder_is_made_if_there_is_none(void)
{
    const BankFolder folder = bank_folder_make();
    BankFolder deep;
    snprintf(deep.path, sizeof deep.path, "%.400s/share/fourlimb", folder.path);
    CHECK_INT(save(deep.path, gallop("Salt Gallop", 0, "O.oo")), FIRST);
    bank_folder_remove(&deep);
    CHECK(rmdir(bank_folder_file(&folder, "share")) == 0);
    bank_folder_remove(&folder);
}

static void saving_over_an_entry_changes_its_file_alone(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    save(folder.path, gallop("Two", 0, "Oo.."));
    save(folder.path, gallop("Three", 0, "Ooo."));
    char* const one = strdup(contents(feet_file(&folder, FIRST)));
    char* const three = strdup(contents(feet_file(&folder, FIRST + 2)));
    CHECK_INT(save(folder.path, gallop("Two, mended", FIRST + 1, "O.O.")), FIRST + 1);
    Bank* const bank = open_own(&folder);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, FIRST + 1);
    CHECK_TEXT(info ? info->label : NULL, "Two, mended");
    char name[64];
    snprintf(name, sizeof name, "my:two-%d", FIRST + 1);
    CHECK_TEXT(info ? info->name : NULL, name); /* as sessions know it */
    CHECK_TEXT(contents(feet_file(&folder, FIRST)), one);
    CHECK_TEXT(contents(feet_file(&folder, FIRST + 2)), three);
    snprintf(name, sizeof name, "feet-%d.ttl.bak", FIRST + 1);
    CHECK(strstr(contents(bank_folder_file(&folder, name)), "\"Two\""));
    free(one);
    free(three);
    bank_free(bank);
    bank_folder_remove(&folder);
}

/* ---- What people write */

/* Puts `with` for the first `words` in a file. */
static void edit_by_hand(const BankFolder* const folder, const char* const name,
                         const char* const words, const char* const with)
{
    char* const before = strdup(contents(bank_folder_file(folder, name)));
    char* const at = strstr(before, words);
    char* const after = malloc(strlen(before) + strlen(with) + 1);
    if (CHECK(at && after)) {
        *at = '\0';
        const int length = sprintf(after, "%s%s%s", before, with, at + strlen(words));
        bank_folder_write(folder, name, after, (size_t)length);
    }
    free(after);
    free(before);
}

typedef struct {
    const char* what;
    const char* words;
    const char* with;
} Edit;

/* Comments, other properties, further sentences, another name, other lines' ends. */
static void what_a_person_changed_in_a_saved_file_is_never_written_over(void)
{
    static const Edit edits[] = {
        {"a comment", "\tfl:bars", "\t# for the second verse\n\tfl:bars"},
        {"another property", "rdfs:label", "rdfs:seeAlso <urn:my:notebook> ;\n\trdfs:label"},
        {"another sentence", "@prefix", "<urn:my:b> <urn:my:says> \"more\" .\n@prefix"},
        {"another label", "\"Salt Gallop\"", "\"Salt Gallop, slow\""},
        {"one stroke", "\"O.oo", "\"O.o."},
        {"the line on top", "# Saved", "# Once saved"},
        {"a line's end", "\n@prefix", "\r\n@prefix"},
        {"something broken", "fl:line", "fl:line [ [ \""},
    };
    for (size_t i = 0; i < sizeof edits / sizeof *edits; ++i) {
        const BankFolder folder = bank_folder_make();
        char name[64];
        check_case("%s", edits[i].what);
        static const char text[] =
            "@prefix fl: <urn:fourlimb:terms#> .\n"
            "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
            "<urn:a> a fl:FeetFigure ; rdfs:label \"Salt Gallop\" ; fl:bars 1 ; fl:line [ fl:limb "
            "fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.oo .... .... ....\" ] .\n";
        CHECK_INT(save(folder.path, text), FIRST);
        snprintf(name, sizeof name, "feet-%d.ttl", FIRST);
        edit_by_hand(&folder, name, edits[i].words, edits[i].with);
        char* const by_hand = strdup(contents(feet_file(&folder, FIRST)));
        CHECK_INT(save(folder.path, gallop("Salt Gallop", FIRST, "Oooo")), FIRST + 1);
        CHECK_TEXT(why, "");
        CHECK_TEXT(contents(feet_file(&folder, FIRST)), by_hand);
        CHECK(strstr(contents(feet_file(&folder, FIRST + 1)), "\"Oooo"));
        CHECK_INT(files_with(&folder, ".bak"), 0);
        free(by_hand);
        bank_folder_remove(&folder);
    }
}

#define BY_HAND                                                                                    \
    "# My own, by hand: \xE2\x99\xA5\n"                                                            \
    "@prefix fl: <urn:fourlimb:terms#> .\n"                                                        \
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"                                    \
    "@prefix my: <urn:fourlimb:mine:> .\n"                                                         \
    "\n"                                                                                           \
    "my:good a fl:FeetFigure ; fl:id %d ; rdfs:label \"Good. And more\" ; # mine.\n"               \
    "    fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] .\n"  \
    "\n"                                                                                           \
    "# This one is broken:\n"                                                                      \
    "my:bad a fl:FeetFigure ; fl:id %d ; rdfs:label \"Bad ;\n"                                     \
    "    fl:line [ fl:steps \"O.\n"                                                                \
    "\n"                                                                                           \
    "my:new-words a fl:Wheel ; fl:spokes 12 .\n"                                                   \
    "# the end, without a line's end"

static void a_file_that_a_person_wrote_is_never_written_to(void)
{
    const BankFolder folder = bank_folder_make();
    char text[2048];
    snprintf(text, sizeof text, BY_HAND, FIRST + 7, FIRST + 9);
    bank_folder_write(&folder, "mine.ttl", text, strlen(text));
    CHECK_INT(save(folder.path, gallop("Over the good one", FIRST + 7, "O.oo")), FIRST);
    CHECK_INT(save(folder.path, gallop("Over the broken one", FIRST + 9, "O.oo")), FIRST + 1);
    CHECK_TEXT(why, "");
    CHECK_TEXT(contents(bank_folder_file(&folder, "mine.ttl")), text);
    Bank* const bank = open_own(&folder);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, FIRST + 7);
    CHECK_TEXT(info ? info->label : NULL, "Good. And more");
    CHECK(bank_info(bank, ENTRY_FEET, FIRST + 1));
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void a_file_of_garbage_is_left_alone(void)
{
    static const char garbage[] = "\x00\xFF\xFE not Turtle \"\"\" at all <<<< [ [ [ fl:id 1";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", garbage, sizeof garbage - 1);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), FIRST);
    CHECK(!memcmp(contents(bank_folder_file(&folder, "mine.ttl")), garbage, sizeof garbage - 1));
    bank_folder_remove(&folder);
}

/* People name their files as they like: an unchanged one stays the plugin's. */
static void a_saved_file_may_have_another_name(void)
{
    const BankFolder folder = bank_folder_make();
    char from[PATH_ROOM];
    save(folder.path, gallop("Salt Gallop", 0, "O.oo"));
    snprintf(from, sizeof from, "%s", feet_file(&folder, FIRST));
    CHECK(rename(from, bank_folder_file(&folder, "salt gallop.ttl")) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", FIRST, "Oooo")), FIRST);
    CHECK(strstr(contents(bank_folder_file(&folder, "salt gallop.ttl")), "\"Oooo"));
    CHECK(!contents(feet_file(&folder, FIRST)));
    bank_folder_remove(&folder);
}

static void a_link_to_a_file_elsewhere_stays_a_link(void)
{
    const BankFolder folder = bank_folder_make();
    const BankFolder elsewhere = bank_folder_make();
    char target[PATH_ROOM];
    struct stat kind;
    save(elsewhere.path, gallop("Salt Gallop", 0, "O.oo"));
    snprintf(target, sizeof target, "%s", feet_file(&elsewhere, FIRST));
    CHECK(symlink(target, bank_folder_file(&folder, "linked.ttl")) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", FIRST, "Oooo")), FIRST);
    CHECK(lstat(bank_folder_file(&folder, "linked.ttl"), &kind) == 0 && S_ISLNK(kind.st_mode));
    CHECK(strstr(contents(target), "\"Oooo"));
    bank_folder_remove(&elsewhere);
    bank_folder_remove(&folder);
}

/* ---- The rest */

static void kit_maps_are_saved_in_the_same_manner(void)
{
    const BankFolder folder = bank_folder_make();
    char text[8192] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                      "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                      "<urn:test:kit> a fl:Kit ; rdfs:label \"Attic\" ; fl:key ";
    static const char* const voices[VOICE_COUNT] = {
        "kick",    "kickLeft", "snare",   "sideStick",  "hatClosed", "hatHalfOpen",
        "hatOpen", "hatPedal", "ride",    "rideBell",   "crash",     "crash2",
        "china",   "splash",   "tomHigh", "tomMid",     "tomLow",    "tomFloor",
        "cowbell", "choke",    "click",   "clickAccent"};
    for (int i = 0; i < VOICE_COUNT; ++i) {
        const size_t at = strlen(text);
        snprintf(text + at, sizeof text - at, "%s[ fl:voice fl:%s ; fl:note %d ]", i ? ", " : "",
                 voices[i], 20 + i);
    }
    strcat(text, " .\n");
    CHECK_INT(save(folder.path, text), FIRST);
    CHECK_TEXT(why, "");
    Bank* const bank = open_own(&folder);
    const Kit* const kit = library_kit(bank_library(bank), FIRST);
    CHECK(kit && kit->notes[VOICE_CLICK_ACCENT] == 20 + VOICE_COUNT - 1);
    CHECK_INT(files_with(&folder, "kit-"), 1);
    bank_free(bank);
    bank_folder_remove(&folder);
}

/* Each that is told to be saved is in the bank; then it is refused, and no file is left. */
static void a_file_more_than_the_bank_reads_is_refused(void)
{
    const BankFolder folder = bank_folder_make();
    const int fill = FILES_MOST - 20;
    for (int i = 0; i < fill; ++i) {
        char name[32];
        snprintf(name, sizeof name, "other-%d.ttl", i);
        bank_folder_write(&folder, name, "#\n", 2);
    }
    uint32_t saved = 0;
    while (saved < 40 && save(folder.path, gallop("Salt Gallop", 0, "O.oo"))) {
        ++saved;
    }
    CHECK(saved > 0 && saved < 20);
    CHECK(strstr(why, "bank files are there") && strstr(why, "save again"));
    CHECK_INT(files_with(&folder, "feet-"), saved);
    Bank* const bank = open_own(&folder);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    CHECK_INT(entries_beginning(bank, "urn:fourlimb:mine:"), saved);
    bank_free(bank);
    check_case("over an entry there is room");
    CHECK_INT(save(folder.path, gallop("Fog Gallop", FIRST, "O.oo")), FIRST);
    bank_folder_remove(&folder);
}

static void more_bytes_than_the_bank_reads_are_refused(void)
{
    const BankFolder folder = bank_folder_make();
    char* const text = malloc(FILE_BYTES_MOST);
    memset(text, '#', FILE_BYTES_MOST);
    bank_folder_write(&folder, "one.ttl", text, FILE_BYTES_MOST);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), FIRST);
    bank_folder_write(&folder, "two.ttl", text, FILE_BYTES_MOST - 1000000);
    CHECK_INT(save(folder.path, gallop("Fog Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "MB") && strstr(why, "save again"));
    CHECK_INT(files_with(&folder, "feet-"), 1);
    free(text);
    bank_folder_remove(&folder);
}

static void refusals_say_what_to_do(void)
{
    const BankFolder folder = bank_folder_make();
    char path[2048];
    CHECK_INT(save(NULL, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "set HOME"));
    CHECK_INT(save(folder.path, gallop("", 0, "O.oo")), 0);
    CHECK(strstr(why, "give it one"));
    CHECK_INT(save(folder.path, gallop("Wrong", 0, "O.xx")), 0);
    CHECK(strstr(why, "is not a step"));
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "a-file"));
    bank_folder_write(&folder, "a-file", "", 0);
    CHECK_INT(save(path, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "move it away"));
    strcat(path, "/fourlimb");
    CHECK_INT(save(path, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "make this folder"));
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(a_saved_figure_is_in_the_bank_and_has_a_file_of_its_own);
    RUN(the_folder_is_made_if_there_is_none);
    RUN(saving_over_an_entry_changes_its_file_alone);
    RUN(what_a_person_changed_in_a_saved_file_is_never_written_over);
    RUN(a_file_that_a_person_wrote_is_never_written_to);
    RUN(a_file_of_garbage_is_left_alone);
    RUN(a_saved_file_may_have_another_name);
    RUN(a_link_to_a_file_elsewhere_stays_a_link);
    RUN(kit_maps_are_saved_in_the_same_manner);
    RUN(a_file_more_than_the_bank_reads_is_refused);
    RUN(more_bytes_than_the_bank_reads_are_refused);
    RUN(refusals_say_what_to_do);
    return tests_end();
}

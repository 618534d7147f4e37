// SPDX-License-Identifier: ISC
/* test_shelf.c - figures saved into the user's file, whatever stands in it: only
   the entry changes, ids are new, and refusals say what to do. */
#include "shelf_folder.h"

static void a_saved_figure_is_in_the_bank_from_1000_on(void)
{
    const BankFolder folder = bank_folder_make();
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 190, "O.oo")), 1000);
    CHECK_INT(save(folder.path, gallop("Fog Gallop", 0, "Ooo.")), 1001);
    Bank* const bank = open_own(&folder);
    CHECK_INT(bank_complaints(bank)->count, 0);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 1000);
    CHECK_TEXT(info ? info->label : NULL, "Salt Gallop");
    CHECK_TEXT(info ? info->name : NULL, "my:salt-gallop-1000");
    const Figure* const figure = library_figure(bank_library(bank), FIGURE_FEET, 1001);
    CHECK_INT(figure ? figure->stroke_count : 0, 3);
    bank_free(bank);
    remove_all(&folder);
}

static void the_folder_is_made_if_there_is_none(void)
{
    const BankFolder folder = bank_folder_make();
    char deep[1024];
    snprintf(deep, sizeof deep, "%s/share/fourlimb", folder.path);
    CHECK_INT(save(deep, gallop("Salt Gallop", 0, "O.oo")), 1000);
    char path[2048];
    static const char* const files[] = {"mine.ttl", "mine.ttl.lock"};
    for (int i = 0; i < 2; ++i) {
        snprintf(path, sizeof path, "%s/%s", deep, files[i]);
        CHECK(remove(path) == 0);
    }
    rmdir(deep);
    snprintf(path, sizeof path, "%s/share", folder.path);
    rmdir(path);
    remove_all(&folder);
}

static void saving_over_an_entry_changes_that_entry_alone(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    save(folder.path, gallop("Two", 0, "Oo.."));
    save(folder.path, gallop("Three", 0, "Ooo."));
    CHECK_INT(save(folder.path, gallop("Two, mended", 1001, "O.O.")), 1001);
    Bank* const bank = open_own(&folder);
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 1000)->label, "One");
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 1001)->label, "Two, mended");
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 1001)->name, "my:two-1001");
    CHECK_TEXT(bank_info(bank, ENTRY_FEET, 1002)->label, "Three");
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    CHECK(strstr(text, "Two, mended") < strstr(text, "Three")); /* where it stood */
    CHECK(strstr(contents(bank_folder_file(&folder, "mine.ttl.bak")), "\"Two\""));
    bank_free(bank);
    remove_all(&folder);
}

static void an_id_is_not_given_again_after_its_entry_was_deleted(void)
{
    const BankFolder folder = bank_folder_make();
    save(folder.path, gallop("One", 0, "O..."));
    save(folder.path, gallop("Two", 0, "Oo.."));
    remove(bank_folder_file(&folder, "mine.ttl"));
    CHECK_INT(save(folder.path, gallop("Three", 0, "Ooo.")), 1002);
    remove_all(&folder);
}

static void ids_of_other_files_and_of_the_session_are_not_given_again(void)
{
    const BankFolder folder = bank_folder_make();
    const char* const other = gallop("By hand", 1411, "O...");
    bank_folder_write(&folder, "other.ttl", other, strlen(other));
    CHECK_INT(save(folder.path, gallop("Mine", 0, "O...")), 1412);
    CHECK_INT(save(folder.path, gallop("Over theirs", 1411, "Oo..")), 0);
    CHECK(strstr(why, "1411"));
    const char* const text = gallop("After the session's", 0, "O...");
    CHECK_INT(shelf_save(folder.path, text, strlen(text), 1500, why), 1500);
    remove_all(&folder);
}

static const char by_hand[] =
    "# My own, by hand: \xE2\x99\xA5\n"
    "@prefix fl: <urn:fourlimb:terms#> .\n"
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
    "@prefix my: <urn:else:where:> .\n"
    "\n"
    "my:good a fl:FeetFigure ; fl:id 1007 ; rdfs:label \"Good. And more\" ; # mine.\n"
    "    fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] .\n"
    "\n"
    "# This one is broken:\n"
    "my:bad a fl:FeetFigure ; fl:id 1009 ; rdfs:label \"Bad ;\n"
    "    fl:line [ fl:steps \"O.\n"
    "\n"
    "my:new-words a fl:Wheel ; fl:spokes 12 .\n"
    "my:wrong a fl:FeetFigure ; fl:id 1008 ; rdfs:label \"Wrong\" ; fl:line [ fl:grid 99 ] .\n"
    "# the end, without a line's end";

static void what_people_wrote_stays_byte_for_byte(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", by_hand, sizeof by_hand - 1);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 1010);
    CHECK_TEXT(why, "");
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    CHECK(text && !strncmp(text, by_hand, sizeof by_hand - 1));
    Bank* const bank = open_own(&folder);
    CHECK(bank_info(bank, ENTRY_FEET, 1007));
    CHECK(bank_info(bank, ENTRY_FEET, 1010));
    bank_free(bank);
    remove_all(&folder);
}

/* All of the file but the sentence itself. */
static void replacing_an_entry_of_a_file_by_hand_leaves_the_rest(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", by_hand, sizeof by_hand - 1);
    CHECK_INT(save(folder.path, gallop("Better", 1007, "O.oo")), 1007);
    CHECK_TEXT(why, "");
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    const char* const before = strstr(by_hand, "my:good");
    const char* const after = strstr(by_hand, "\n# This one is broken");
    CHECK(text && !strncmp(text, by_hand, (size_t)(before - by_hand)));
    CHECK(text && strstr(text, after));
    CHECK(text && !strstr(text, "Good. And more"));
    Bank* const bank = open_own(&folder);
    const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 1007);
    CHECK_TEXT(info ? info->label : NULL, "Better");
    CHECK_TEXT(info ? info->uri : NULL, "urn:else:where:good");
    bank_free(bank);
    remove_all(&folder);
}

/* Where fl: stands for something else, our words need their own prefix. */
static void prefixes_of_their_own_are_respected(void)
{
    static const char other_words[] =
        "@prefix x: <urn:fourlimb:terms#> .\n"
        "@prefix r: <http://www.w3.org/2000/01/rdf-schema#> .\n"
        "@prefix fl: <urn:else:> .\n"
        "<urn:me:a> a x:FeetFigure ; x:id 1007 ; r:label \"A\" ;\n"
        "    x:line [ x:limb x:rightFoot ; x:voice x:kick ; x:grid 4 ; x:steps \"O.\" ] .\n"
        "<urn:me:b> a fl:Thing ; fl:says \"stays\" .\n"
        "<urn:me:c> a x:FeetFigure ; x:id 1008 ; r:label \"C\" ;\n"
        "    x:line [ x:limb x:rightFoot ; x:voice x:kick ; x:grid 4 ; x:steps \"O.\" ] .\n";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", other_words, sizeof other_words - 1);
    CHECK_INT(save(folder.path, gallop("Better", 1007, "O.oo")), 1007);
    CHECK_INT(save(folder.path, gallop("Another", 0, "O.oo")), 1009);
    CHECK_TEXT(why, "");
    Bank* const bank = open_own(&folder);
    CHECK_INT(bank_complaints(bank)->count, 0);
    static const char* const labels[] = {"Better", "C", "Another"};
    for (uint32_t i = 0; i < 3; ++i) {
        const EntryInfo* const info = bank_info(bank, ENTRY_FEET, 1007 + i);
        CHECK_TEXT(info ? info->label : NULL, labels[i]);
    }
    CHECK(strstr(contents(bank_folder_file(&folder, "mine.ttl")), "a fl:Thing ; fl:says"));
    bank_free(bank);
    remove_all(&folder);
}

static void a_file_of_garbage_is_kept_before_the_entry(void)
{
    static const char garbage[] = "\x00\xFF\xFE not Turtle \"\"\" at all <<<< [ [ [";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", garbage, sizeof garbage - 1);
    const uint32_t id = save(folder.path, gallop("Salt Gallop", 0, "O.oo"));
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s", bank_folder_file(&folder, "mine.ttl"));
    const char* const text = contents(path);
    CHECK(!memcmp(text, garbage, sizeof garbage - 1));
    CHECK(id == 1000 || strstr(why, "mend it"));
    remove_all(&folder);
}

/* A mark for bytes of UTF-8 and Windows' line ends. */
static void windows_lines_and_marks_stay(void)
{
    static const char windows[] = "\xEF\xBB\xBF@prefix fl: <urn:fourlimb:terms#> .\r\n# mine\r\n";
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", windows, sizeof windows - 1);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 1000);
    const char* const text = contents(bank_folder_file(&folder, "mine.ttl"));
    CHECK(!strncmp(text, windows, sizeof windows - 1));
    remove_all(&folder);
}

static void a_link_to_a_file_elsewhere_stays_a_link(void)
{
    const BankFolder folder = bank_folder_make();
    const BankFolder elsewhere = bank_folder_make();
    char target[PATH_ROOM];
    snprintf(target, sizeof target, "%s", bank_folder_file(&elsewhere, "kept.ttl"));
    bank_folder_write(&elsewhere, "kept.ttl", by_hand, sizeof by_hand - 1);
    CHECK(symlink(target, bank_folder_file(&folder, "mine.ttl")) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 1010);
    struct stat kind;
    CHECK(lstat(bank_folder_file(&folder, "mine.ttl"), &kind) == 0 && S_ISLNK(kind.st_mode));
    CHECK(strstr(contents(target), "Salt Gallop"));
    remove_all(&elsewhere);
    remove_all(&folder);
}

static void kit_maps_are_saved_in_the_same_manner(void)
{
    Bank* const factory =
        bank_open((BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"});
    const BankFolder folder = bank_folder_make();
    char text[8192] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                      "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                      "<urn:test:kit> a fl:Kit ; rdfs:label \"Attic\" ; fl:key ";
    static const char* const voices[VOICE_COUNT] = {
        "kick",     "kickLeft", "snare",    "sideStick", "hatClosed", "hatHalfOpen", "hatOpen",
        "hatPedal", "ride",     "rideBell", "crash",     "crash2",    "china",       "splash",
        "tomHigh",  "tomMid",   "tomLow",   "tomFloor",  "cowbell",   "click",       "clickAccent"};
    for (int i = 0; i < VOICE_COUNT; ++i) {
        const size_t at = strlen(text);
        snprintf(text + at, sizeof text - at, "%s[ fl:voice fl:%s ; fl:note %d ]", i ? ", " : "",
                 voices[i], 20 + i);
    }
    strcat(text, " .\n");
    CHECK_INT(save(folder.path, text), 1000);
    CHECK_TEXT(why, "");
    Bank* const bank = open_own(&folder);
    const Kit* const kit = library_kit(bank_library(bank), 1000);
    CHECK(kit && kit->notes[VOICE_CLICK_ACCENT] == 20 + VOICE_COUNT - 1);
    bank_free(bank);
    bank_free(factory);
    remove_all(&folder);
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
    CHECK(mkdir(bank_folder_file(&folder, "mine.ttl"), 0700) == 0);
    CHECK_INT(save(folder.path, gallop("Salt Gallop", 0, "O.oo")), 0);
    CHECK(strstr(why, "can't be read"));
    CHECK(rmdir(bank_folder_file(&folder, "mine.ttl")) == 0);
    remove_all(&folder);
}

static void when_all_ids_are_taken_it_says_so(void)
{
    const BankFolder folder = bank_folder_make();
    CHECK_INT(save(folder.path, gallop("Last", 1999, "O...")), 1999);
    CHECK_INT(save(folder.path, gallop("One more", 0, "O...")), 0);
    CHECK(strstr(why, "1000 to 1999, are taken"));
    remove_all(&folder);
}

int main(void)
{
    RUN(a_saved_figure_is_in_the_bank_from_1000_on);
    RUN(the_folder_is_made_if_there_is_none);
    RUN(saving_over_an_entry_changes_that_entry_alone);
    RUN(an_id_is_not_given_again_after_its_entry_was_deleted);
    RUN(ids_of_other_files_and_of_the_session_are_not_given_again);
    RUN(what_people_wrote_stays_byte_for_byte);
    RUN(replacing_an_entry_of_a_file_by_hand_leaves_the_rest);
    RUN(prefixes_of_their_own_are_respected);
    RUN(a_file_of_garbage_is_kept_before_the_entry);
    RUN(windows_lines_and_marks_stay);
    RUN(a_link_to_a_file_elsewhere_stays_a_link);
    RUN(kit_maps_are_saved_in_the_same_manner);
    RUN(refusals_say_what_to_do);
    RUN(when_all_ids_are_taken_it_says_so);
    return tests_end();
}

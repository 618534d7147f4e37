// SPDX-License-Identifier: ISC
/* test_kept_list.c - what a session keeps: slots that don't move, and selections that play as
   they did when they were kept, whatever becomes of drafts, files and the user's bank. */
#include "kept_rig.h"

enum { GALLOP = 12, RUN_16 = 50 }; /* feet of the factory */

static BankFolder own_folder(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "mine.ttl", kept_own_bank, strlen(kept_own_bank));
    return folder;
}

static void slots_fill_from_the_first_and_do_not_move(void)
{
    Session session = kept_session(NULL);
    CHECK(kept_put(&session, 0, "a", 1, 0) && kept_put(&session, 0, "b", 2, 0));
    CHECK(kept_put(&session, 5, "e", 3, 0) && kept_put(&session, 0, "c", 1, 0));
    CHECK_TEXT(kept_names(&session), "a b c . e");
    CHECK(session_drop_kept(&session, 2, kept_why));
    CHECK_TEXT(kept_names(&session), "a . c . e");
    CHECK(kept_put(&session, 0, "f", 1, 0));
    CHECK_TEXT(kept_names(&session), "a f c . e");
    session_clear(&session);
}

static void the_seventeenth_is_refused_and_says_what_to_do(void)
{
    Session session = kept_session(NULL);
    for (int i = 0; i < KEPT_MAX; ++i) {
        CHECK(kept_put(&session, 0, "x", 1, 0));
    }
    CHECK(!kept_put(&session, 0, "y", 1, 0));
    CHECK_TEXT(kept_why, "all 16 slots are full; drop something that is kept first");
    CHECK(kept_put(&session, 16, "y", 1, 0)); /* one that is named is replaced */
    CHECK_TEXT(kept_list_at(session.kept, 16)->name, "y");
    CHECK(!kept_put(&session, 17, "z", 1, 0));
    session_clear(&session);
}

static void what_was_dropped_or_replaced_comes_back(void)
{
    Session session = kept_session(NULL);
    CHECK(kept_put(&session, 3, "a", 1, 0));
    CHECK(session_drop_kept(&session, 3, kept_why));
    CHECK_TEXT(kept_names(&session), "");
    CHECK(session_take_back_kept(&session, kept_why));
    CHECK_TEXT(kept_names(&session), ". . a");
    CHECK(kept_put(&session, 3, "b", 2, 0) && session_take_back_kept(&session, kept_why));
    CHECK_TEXT(kept_names(&session), ". . a");
    CHECK(session_take_back_kept(&session, kept_why)); /* and again: what was taken back */
    CHECK_TEXT(kept_names(&session), ". . b");
    CHECK(!session_drop_kept(&session, 9, kept_why));
    CHECK_TEXT(kept_why, "nothing is kept in slot 9");
    session_clear(&session);
}

static void a_kept_selection_has_another_name_and_plays_the_same(void)
{
    Session session = kept_session(NULL);
    CHECK(kept_put(&session, 1, "a", 1, GALLOP));
    CHECK(session_name_kept(&session, 1, "Verse, with gallop", kept_why));
    const KeptSelection* const kept = kept_list_at(session.kept, 1);
    CHECK_TEXT(kept->name, "Verse, with gallop");
    CHECK_INT(kept->values[CONTROL_FEET], GALLOP);
    CHECK(!session_name_kept(&session, 2, "b", kept_why));
    session_clear(&session);
}

static void names_are_cut_between_whole_letters(void)
{
    Session session = kept_session(NULL);
    char name[2 * KEPT_NAME_ROOM + 2] = "a";
    for (int i = 0; i < KEPT_NAME_ROOM; ++i) {
        strcat(name, "\xC3\xA9"); /* two bytes each: one too many for an odd place */
    }
    CHECK(kept_put(&session, 1, name, 1, 0));
    CHECK_INT(strlen(kept_list_at(session.kept, 1)->name), KEPT_NAME_ROOM - 1);
    CHECK(is_utf8(kept_list_at(session.kept, 1)->name));
    CHECK(kept_put(&session, 2, "two\nlines\xFF", 1, 0));
    CHECK_TEXT(kept_list_at(session.kept, 2)->name, "two lines?");
    session_clear(&session);
}

/* Whole: the user's groove, and the figures that it plays and that were picked. */
static void what_is_kept_plays_where_the_users_bank_is_missing(void)
{
    const BankFolder folder = own_folder();
    Session session = kept_session(&folder);
    CHECK(kept_put(&session, 4, "Ostrel", 1007, 0) && kept_put(&session, 9, "Salt", 1, 1023));
    Session again = kept_again(&session, NULL);
    Snapshot* const snapshot = session_snapshot(&again);
    CHECK_TEXT(snapshot_messages(snapshot), "");
    CHECK(!snapshot_has(snapshot, ENTRY_GROOVE, 1007)); /* it has none of it by itself */
    const Selection ostrel = kept_selects(snapshot, 4), salt = kept_selects(snapshot, 9);
    CHECK_INT(ostrel.groove->id, 1007);
    CHECK_TEXT(kept_steps(ostrel.groove->parts[0].feet), "oooo....oooo....");
    CHECK_TEXT(kept_steps(ostrel.groove->parts[1].feet), "O..o.oo.O..o.ooo");
    CHECK(ostrel.groove->parts[0].hands && ostrel.groove->parts[0].hands->id < ID_FIRST_OWN);
    CHECK_TEXT(kept_steps(salt.feet), "O..o.oo.O..o.ooo");
    snapshot_free(snapshot);
    session_clear(&again);
    session_clear(&session);
    bank_folder_remove(&folder);
}

static void what_is_kept_has_the_draft_of_when_it_was_kept(void)
{
    Session session = kept_session(NULL);
    char why_not[SINGLE_WHY_ROOM];
    const char* const first = gallop("First", RUN_16, "o...o...o...o...");
    CHECK(kept_put(&session, 1, "as the bank has it", 1, RUN_16));
    CHECK(session_draft(&session, FIGURE_FEET, first, strlen(first), why_not));
    CHECK(kept_put(&session, 2, "first", 1, RUN_16) && kept_put(&session, 3, "others", 1, GALLOP));
    const char* const second = gallop("Second", RUN_16, "oo..oo..oo..oo..");
    CHECK(session_draft(&session, FIGURE_FEET, second, strlen(second), why_not));
    Session again = kept_again(&session, NULL);
    Snapshot* const snapshot = session_snapshot(&again);
    char as_written[17]; /* cycles of a quarter note roll on */
    strcpy(as_written, kept_steps(library_figure(bank_library(session.bank), FIGURE_FEET, RUN_16)));
    CHECK_TEXT(as_written, "oooo............");
    CHECK_TEXT(kept_steps(kept_selects(snapshot, 1).feet), as_written);
    CHECK_TEXT(kept_steps(kept_selects(snapshot, 2).feet), "o...o...o...o...");
    CHECK_TEXT(kept_steps(library_figure(snapshot_library(snapshot), FIGURE_FEET, RUN_16)),
               "oo..oo..oo..oo..");
    CHECK(!kept_list_at(again.kept, 3)->plays.drafts.drafts[FIGURE_FEET]); /* it plays others */
    snapshot_free(snapshot);
    session_clear(&again);
    session_clear(&session);
}

static void what_is_kept_has_the_file_of_when_it_was_kept(void)
{
    const BankFolder folder = bank_folder_make();
    const char* const then = gallop("Then", 1000, "o...o...o...o...");
    bank_folder_write(&folder, "a.ttl", then, strlen(then));
    Session session = kept_session(&folder);
    CHECK(kept_put(&session, 1, "then", 1, 1000));
    const char* const now = gallop("Now", 1000, "ooooooooo.o.o.o.");
    bank_folder_write(&folder, "a.ttl", now, strlen(now));
    CHECK(session_reopen(&session, ENTRY_FEET, 1000));
    CHECK(kept_put(&session, 2, "now", 1, 1000));
    Session again = kept_again(&session, &folder);
    Snapshot* const snapshot = session_snapshot(&again);
    CHECK_TEXT(kept_steps(kept_selects(snapshot, 1).feet), "o...o...o...o...");
    CHECK_TEXT(kept_steps(kept_selects(snapshot, 2).feet), "ooooooooo.o.o.o.");
    snapshot_free(snapshot);
    session_clear(&again);
    session_clear(&session);
    bank_folder_remove(&folder);
}

static void what_is_kept_already_is_kept_again_whole(void)
{
    Session session = kept_session(NULL);
    char why_not[SINGLE_WHY_ROOM];
    float values[CONTROL_COUNT];
    const char* const draft = gallop("Draft", RUN_16, "o...o...o...o...");
    CHECK(session_draft(&session, FIGURE_FEET, draft, strlen(draft), why_not));
    CHECK(kept_put(&session, 1, "a", 1, RUN_16));
    CHECK(session_draft(&session, FIGURE_FEET, "", 0, why_not));
    kept_normal(values);
    values[CONTROL_KEPT] = 1.0f;
    CHECK(session_keep(&session, 7, "b", values, kept_why));
    Snapshot* const snapshot = session_snapshot(&session);
    CHECK_TEXT(kept_steps(kept_selects(snapshot, 7).feet), "o...o...o...o...");
    snapshot_free(snapshot);
    session_clear(&session);
}

/* Every control that belongs to a selection, at a value of its own, and no other. */
static void every_control_of_a_selection_is_kept(void)
{
    Session session = kept_session(NULL);
    float values[CONTROL_COUNT];
    kept_normal(values);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const ControlRow* const row = &control_rows[i];
        values[i] = row->most > 100.0f || i == CONTROL_KEPT ? row->normal : row->most;
    }
    values[CONTROL_SWING_RATIO] = 1.667f;
    CHECK(session_keep(&session, 1, "all", values, kept_why));
    Session again = kept_again(&session, NULL);
    const KeptSelection* const kept = kept_list_at(again.kept, 1);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        check_case("%s", control_rows[i].symbol);
        CHECK_NEAR(kept->values[i],
                   control_rows[i].is_selection ? values[i] : control_rows[i].normal, 0.0);
    }
    session_clear(&again);
    session_clear(&session);
}

static void a_slot_that_is_empty_plays_what_is_picked(void)
{
    Session session = kept_session(NULL);
    CHECK(kept_put(&session, 2, "a", 1, GALLOP));
    Snapshot* const snapshot = session_snapshot(&session);
    CHECK(!kept_selects(snapshot, 3).feet && kept_selects(snapshot, 2).feet);
    snapshot_free(snapshot);
    session_clear(&session);
}

/* What goes on from it by its ids: entries and drafts of its own come along. */
static void what_is_kept_is_used_by_its_ids_without_the_users_bank(void)
{
    const BankFolder folder = own_folder();
    Session session = kept_session(&folder);
    char why_not[SINGLE_WHY_ROOM];
    const char* const draft = gallop("Edited", 1023, "oo..oo..oo..oo..");
    CHECK(session_draft(&session, FIGURE_FEET, draft, strlen(draft), why_not));
    CHECK(kept_put(&session, 1, "Ostrel", 1007, 0) && kept_put(&session, 2, "plain", 1, RUN_16));
    Session again = kept_again(&session, NULL);
    CHECK(session_draft(&again, FIGURE_FEET, "", 0, why_not));
    CHECK(session_use_kept(&again, 1, kept_why));
    Snapshot* snapshot = session_snapshot(&again);
    const Groove* const groove = library_groove(snapshot_library(snapshot), 1007);
    CHECK(groove);
    if (groove) {
        CHECK_TEXT(kept_steps(groove->parts[0].feet), "oooo....oooo....");
        CHECK_TEXT(kept_steps(groove->parts[1].feet), "oo..oo..oo..oo..");
    }
    snapshot_free(snapshot);
    CHECK(session_use_kept(&again, 2, kept_why)); /* a draft of other feet isn't in its way */
    CHECK(*again.texts.of[FIGURE_FEET]);
    const char* const run = gallop("Edited run", RUN_16, "oo..oo..oo..oo..");
    CHECK(session_draft(&again, FIGURE_FEET, run, strlen(run), why_not));
    CHECK(session_use_kept(&again, 2, kept_why)); /* one of its own is */
    CHECK_TEXT(again.texts.of[FIGURE_FEET], "");
    CHECK(!session_use_kept(&again, 3, kept_why));
    session_clear(&again);
    session_clear(&session);
    bank_folder_remove(&folder);
}

int main(void)
{
    RUN(slots_fill_from_the_first_and_do_not_move);
    RUN(the_seventeenth_is_refused_and_says_what_to_do);
    RUN(what_was_dropped_or_replaced_comes_back);
    RUN(a_kept_selection_has_another_name_and_plays_the_same);
    RUN(names_are_cut_between_whole_letters);
    RUN(what_is_kept_plays_where_the_users_bank_is_missing);
    RUN(what_is_kept_has_the_draft_of_when_it_was_kept);
    RUN(what_is_kept_has_the_file_of_when_it_was_kept);
    RUN(what_is_kept_already_is_kept_again_whole);
    RUN(every_control_of_a_selection_is_kept);
    RUN(a_slot_that_is_empty_plays_what_is_picked);
    RUN(what_is_kept_is_used_by_its_ids_without_the_users_bank);
    return tests_end();
}

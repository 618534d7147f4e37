// SPDX-License-Identifier: ISC
/* test_keeping.c - what is edited is kept: in the user's bank, in a session, and where
   neither is possible it plays on and the window says why.  Keys are learned from pads. */
#include "bench.h"
#include "kept.h"

#include <lv2/state/state.h>
#include <sys/resource.h>

/* ---- The user's bank */

static void a_saved_figure_is_listed_and_picked_at_once(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, ONE);
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_save(bench, "Salt step");
    CHECK(bench_notes(bench, "Saved as \"Salt step\""));
    CHECK_INT(times(bench_bank(), "\"Salt step\""), 1);
    const Entry* const entry = listed(bench, ENTRY_FEET, "Salt step");
    if (CHECK(entry)) {
        CHECK(entry->id >= 1000 && entry->id != ONE);
        CHECK_INT(control_of(bench, "feet"), entry->id);
        CHECK_INT(bench_view(bench)->values[CONTROL_FEET], entry->id);
    }
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    check_case("the draft is needed no more");
    CHECK(!bench->stage.model.editor.drafts[FIGURE_FEET].single);
    bench_pick(bench, CONTROL_FEET, ONE);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    CHECK_INT(bench->refused, 0);
    bench_close(bench);
}

static void under_its_own_name_it_goes_over_itself(void)
{
    Bench* const bench = bench_open();
    const Entry* const entry = listed(bench, ENTRY_FEET, "Salt step");
    const int id = entry ? entry->id : 0;
    bench_pick(bench, CONTROL_FEET, id);
    bench_click(bench, LEFT_FOOT, 3.0);
    bench_save(bench, "Salt step");
    CHECK_INT(times(bench_bank(), "\"Salt step\""), 1);
    CHECK_INT(control_of(bench, "feet"), id);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    check_case("under another it is another");
    bench_click(bench, LEFT_FOOT, 2.0);
    bench_save(bench, "Salt step two");
    CHECK_INT(times(bench_bank(), "\"Salt step\""), 1);
    CHECK(control_of(bench, "feet") != id);
    bench_pick(bench, CONTROL_FEET, id);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    bench_close(bench);
}

/* The name of the saved file that an entry has at first. */
static const char* file_of(const int id)
{
    static char name[64];
    snprintf(name, sizeof name, "fourlimb/feet-%d.ttl", id);
    return name;
}

static void what_was_changed_by_hand_meanwhile_stays_and_the_window_says_so(void)
{
    Bench* const bench = bench_open();
    const Entry* const entry = listed(bench, ENTRY_FEET, "Salt step");
    const int id = entry ? entry->id : 0;
    bench_pick(bench, CONTROL_FEET, id);
    bench_click(bench, LEFT_FOOT, 2.0);
    char* const text = strdup(bench_read(file_of(id)));
    char* const changed = malloc(strlen(text) + 64);
    sprintf(changed, "%s# for the second verse\n", text);
    bench_write(file_of(id), changed);
    bench_save(bench, "Salt step");
    CHECK(bench_notes(bench, "Saved as \"Salt step\" in your own bank, as a new one"));
    CHECK_TEXT(bench_read(file_of(id)), changed);
    CHECK(control_of(bench, "feet") != id);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...o...o...");
    check_case("which the next saving goes over");
    const int fresh = control_of(bench, "feet");
    bench_click(bench, LEFT_FOOT, 2.0);
    bench_save(bench, "Salt step");
    CHECK_INT(control_of(bench, "feet"), fresh);
    CHECK(!strstr(bench_view(bench)->edit.note, "as a new one"));
    bench_pick(bench, CONTROL_FEET, id);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    free(changed);
    free(text);
    bench_close(bench);
}

static void a_figure_of_the_groove_keeps_its_draft(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_save(bench, "Fog feet");
    CHECK_INT(control_of(bench, "feet"), 0);
    CHECK(listed(bench, ENTRY_FEET, "Fog feet"));
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    check_case("and can go on being edited, back beyond the saving");
    CHECK_INT(bench_view(bench)->edit.undo, 1);
    bench_click(bench, LEFT_FOOT, 3.0);
    bench_item(bench, EDIT_SAVE);
    CHECK_INT(times(bench_bank(), "\"Fog feet\""), 1);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    check_case("saved, it makes room for another");
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "........o.......");
    bench_close(bench);
}

/* What a person wrote into a file of the bank's stays as it was written. */
static void a_figure_written_by_hand_is_left_alone(void)
{
    Bench* const bench = bench_open();
    char* const file = strdup(bench_read("fourlimb/bench.ttl"));
    bench_pick(bench, CONTROL_FEET, ONE);
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_item(bench, EDIT_SAVE);
    CHECK(bench_notes(bench, "Saved as \"One bar\""));
    CHECK(control_of(bench, "feet") != ONE);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    CHECK_TEXT(bench_read("fourlimb/bench.ttl"), file);
    free(file);
    bench_close(bench);
}

static void without_a_name_nothing_is_saved(void)
{
    Bench* const bench = bench_open();
    bench_item(bench, EDIT_SAVE);
    CHECK(bench_notes(bench, "Nothing is being edited"));
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_save(bench, "");
    CHECK(bench_view(bench)->is_typing);
    CHECK(strstr(bench_view(bench)->refused, "give it a name first"));
    CHECK_INT(bench->said, 1);
    bench_close(bench);
}

/* Between Save and its answer a person may click. */
static void a_change_made_while_saving_is_not_lost(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, ONE);
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_name(bench, "Too early");
    stage_click(&bench->stage, (TargetId){TARGET_EDIT, EDIT_SAVE});
    bench_button(bench, LEFT_FOOT, 3.0, 1, 0);
    bench_settle(bench);
    CHECK(listed(bench, ENTRY_FEET, "Too early"));
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    CHECK_INT(control_of(bench, "feet"), ONE);
    check_case("it is unsaved: another figure waits");
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK(bench_notes(bench, "Save or drop"));
    bench_close(bench);
}

/* ---- Where saving can't be */

static void check_refused_and_kept(Bench* const bench, const char* const why)
{
    bench_save(bench, "Not to be");
    CHECK(bench_notes(bench, why));
    CHECK_INT(bench->refused, 1);
    CHECK_INT(bench_view(bench)->edit.undo, 2);
    CHECK_TEXT(bench_view(bench)->edit.name, "Not to be");
    CHECK(!listed(bench, ENTRY_FEET, "Not to be"));
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
}

static Bench* with_two_strokes(void)
{
    Bench* const bench = bench_open();
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_click(bench, LEFT_FOOT, 3.0);
    return bench;
}

/* setrlimit(2): a write beyond RLIMIT_FSIZE fails with EFBIG; its signal, which ends a
   program that doesn't handle it, the plugin keeps to itself. */
static void a_full_disk_is_told_of_and_loses_nothing(void)
{
    Bench* const bench = with_two_strokes();
    struct rlimit before;
    char* const file = strdup(bench_bank());
    getrlimit(RLIMIT_FSIZE, &before);
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){100, before.rlim_max});
    bench_save(bench, "Not to be");
    setrlimit(RLIMIT_FSIZE, &before);
    CHECK_TEXT(bench_bank(), file);
    bench->refused = 0;
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){100, before.rlim_max});
    check_refused_and_kept(bench, "make room");
    setrlimit(RLIMIT_FSIZE, &before);
    check_case("with room again");
    bench_item(bench, EDIT_SAVE);
    CHECK(listed(bench, ENTRY_FEET, "Not to be"));
    free(file);
    bench_close(bench);
}

static void a_folder_that_may_not_be_written_is_told_of(void)
{
    Bench* const bench = with_two_strokes();
    const bool is_root = geteuid() == 0;
    chmod(bench_home(), 0755);
    chmod(bench_path("fourlimb"), 0555);
    if (is_root && seteuid(65534)) {
        test_skip("the superuser can't become nobody here");
    } else {
        bench_save(bench, "Never");
        if (is_root && seteuid(0)) {
            exit(2);
        }
        CHECK(bench_notes(bench, "allow writing"));
        CHECK_INT(bench->refused, 1);
        CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    }
    chmod(bench_path("fourlimb"), 0755);
    bench_item(bench, EDIT_SAVE);
    CHECK(listed(bench, ENTRY_FEET, "Never"));
    bench_close(bench);
}

/* ---- A session */

/* The window of a session that is opened again: another desk on another instance. */
static void an_edit_comes_back_with_its_session_and_can_go_on(void)
{
    Kept kept;
    Bench* const before = with_two_strokes();
    keep(before, &kept);
    bench_close(before);
    Bench* const bench = bench_open();
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    bring_back(bench, &kept);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    check_case("a figure of its kind waits");
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK(bench_notes(bench, "Save or drop the edit of \"One bar\""));
    bench_pick(bench, CONTROL_FEET, 0);
    check_case("and it goes on");
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...o...o...");
    CHECK_TEXT(bench_view(bench)->edit.name, "One bar");
    check_case("still unsaved");
    bench_pick(bench, CONTROL_FEET, TWO);
    bench_click(bench, LEFT_FOOT, 2.0);
    CHECK(bench_notes(bench, "Save or drop the edit of \"One bar\""));
    bench_pick(bench, CONTROL_FEET, 0);
    bench_item(bench, EDIT_DROP);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    bench_close(bench);
    forget(&kept);
}

/* The window was never told: it asks for all there is when it opens. */
static void a_window_opened_later_edits_the_draft_that_plays(void)
{
    Kept kept;
    Bench* const before = with_two_strokes();
    keep(before, &kept);
    bench_close(before);
    Bench* const bench = bench_open();
    bring_back(bench, &kept);
    bench->is_deaf = true;
    bench_settle(bench);
    bench->is_deaf = false;
    bench_view(bench)->has_place = false; /* as a window that has just opened */
    bench_run(bench, 2 * BENCH_RATE);
    bench_click(bench, LEFT_FOOT, 0.0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o...o.......o...");
    bench_close(bench);
    forget(&kept);
}

static void a_session_opened_under_the_window_is_what_counts(void)
{
    Kept kept;
    Bench* const bench = with_two_strokes();
    keep(bench, &kept);
    bench_click(bench, LEFT_FOOT, 2.0);
    bring_back(bench, &kept);
    bench_settle(bench);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o.......o...");
    bench_click(bench, LEFT_FOOT, 0.0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "o...o.......o...");
    bench_close(bench);
    forget(&kept);
}

int main(void)
{
    bench_move_in();
    RUN(a_saved_figure_is_listed_and_picked_at_once);
    RUN(under_its_own_name_it_goes_over_itself);
    RUN(what_was_changed_by_hand_meanwhile_stays_and_the_window_says_so);
    RUN(a_figure_of_the_groove_keeps_its_draft);
    RUN(a_figure_written_by_hand_is_left_alone);
    RUN(without_a_name_nothing_is_saved);
    RUN(a_change_made_while_saving_is_not_lost);
    RUN(a_full_disk_is_told_of_and_loses_nothing);
    RUN(a_folder_that_may_not_be_written_is_told_of);
    RUN(an_edit_comes_back_with_its_session_and_can_go_on);
    RUN(a_window_opened_later_edits_the_draft_that_plays);
    RUN(a_session_opened_under_the_window_is_what_counts);
    bench_move_out();
    return tests_end();
}

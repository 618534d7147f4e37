// SPDX-License-Identifier: ISC
/* test_kept_slots.c - what a person keeps in the window, with the real plugin behind it: by
   keys, heard in its MIDI. */
#include "../../ui/desk/kept_slots.h"
#include "bench.h"

#define ONE_BAR "o.......o......."
#define THREES "o..o..o..o..o..o"

/* A key by its place with Shift, whatever the layout types: as the pane tells it. */
static void shift(Bench* const bench, const uint32_t place, const uint32_t typed)
{
    controller_input(&bench->stage.model,
                     &(PaneEvent){.kind = PANE_KEY,
                                  .key = typed,
                                  .text = typed,
                                  .place = place >= '0' && place <= '9' ? place : 0,
                                  .modifiers = PANE_SHIFT});
    bench_settle(bench);
}

static void key(Bench* const bench, const uint32_t typed)
{
    stage_key(&bench->stage, typed);
    bench_settle(bench);
}

static const KeptRow* row(Bench* const bench, const int slot)
{
    return &bench_view(bench)->kept.rows[slot - 1];
}

/* Feet of one kind in slot 1, of another in slot 2. */
static Bench* bench_kept(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, ONE);
    key(bench, 's');
    bench_pick(bench, CONTROL_FEET, THREE);
    key(bench, 's');
    return bench;
}

static void s_keeps_what_is_selected_by_a_name_that_says_it(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_pick(bench, CONTROL_VARIATION, 1);
    key(bench, 's');
    CHECK(bench_notes(bench, "Kept in 1: thinned, Threes, Bench"));
    CHECK(row(bench, 1)->is_there && !row(bench, 2)->is_there);
    CHECK_TEXT(row(bench, 1)->name, "thinned, Threes, Bench");
    CHECK(!strncmp(row(bench, 1)->told, "Bench, feet: Threes, ", strlen("Bench, feet: Threes, ")));
    CHECK(row(bench, 1)->is_picked);
    bench_pick(bench, CONTROL_FEET, ONE);
    CHECK(!row(bench, 1)->is_picked);
    CHECK_INT(bench->refused, 0);
    bench_close(bench);
}

static void shift_and_a_number_play_it_and_again_what_is_picked(void)
{
    Bench* const bench = bench_kept();
    bench_pick(bench, CONTROL_FEET, 0);
    shift(bench, '2', '"'); /* as on a British keyboard */
    CHECK_INT(control_of(bench, "kept"), 2);
    CHECK_TEXT(bench_bar(bench, 0, KICK), THREES);
    CHECK_INT(bench_view(bench)->values[CONTROL_FEET], THREE); /* what plays is shown */
    CHECK_INT(control_of(bench, "feet"), 0);                   /* and the port left alone */
    shift(bench, '1', '1');                                    /* as on a French one */
    CHECK_TEXT(bench_bar(bench, 0, KICK), ONE_BAR);
    shift(bench, '1', '!');
    CHECK_INT(control_of(bench, "kept"), 0);
    CHECK_INT(bench_view(bench)->values[CONTROL_FEET], 0);
    check_case("an empty slot says so");
    shift(bench, '5', '%');
    CHECK_INT(control_of(bench, "kept"), 0);
    CHECK(bench_notes(bench, "Nothing is kept in slot 5"));
    bench_close(bench);
}

static void numbers_without_shift_are_limbs_as_ever(void)
{
    Bench* const bench = bench_kept();
    key(bench, '1');
    CHECK_INT(control_of(bench, "right_hand"), 0);
    CHECK_INT(control_of(bench, "kept"), 0);
    bench_close(bench);
}

static void x_goes_back_and_forth_between_the_last_two(void)
{
    Bench* const bench = bench_kept();
    key(bench, 'x');
    CHECK(bench_notes(bench, "X swaps the two that were played last"));
    shift(bench, '1', '!');
    shift(bench, '2', '@');
    key(bench, 'x');
    CHECK_INT(control_of(bench, "kept"), 1);
    key(bench, 'x');
    CHECK_INT(control_of(bench, "kept"), 2);
    CHECK_TEXT(bench_bar(bench, 0, KICK), THREES);
    bench_close(bench);
}

static void shift_0_shows_the_other_eight(void)
{
    Bench* const bench = bench_kept();
    kept_slots_keep_as(&bench->stage.model, 11, "eleven");
    bench_settle(bench);
    shift(bench, '0', ')');
    CHECK_INT(bench_view(bench)->kept.lot, 0); /* eleven was shown as it was kept */
    shift(bench, '0', ')');
    shift(bench, '3', '#');
    CHECK_INT(control_of(bench, "kept"), 11);
    bench_close(bench);
}

/* What the ports say then plays by itself what was kept, but for what was picked. */
static void picking_goes_on_from_what_is_kept(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, THREE);
    bench_pick(bench, CONTROL_FEET_SHIFT, 1);
    key(bench, 's');
    bench_pick(bench, CONTROL_FEET, 0);
    bench_pick(bench, CONTROL_FEET_SHIFT, 0);
    shift(bench, '1', '!');
    model_nudge(&bench->stage.model, CONTROL_TURNAROUND, TURNAROUND_NONE);
    bench_settle(bench);
    CHECK_INT(control_of(bench, "kept"), 0);
    CHECK_INT(control_of(bench, "feet"), THREE);
    CHECK_INT(control_of(bench, "feet_shift"), 1);
    CHECK_INT(control_of(bench, "turnaround"), TURNAROUND_NONE);
    CHECK_TEXT(bench_bar(bench, 0, KICK), ".o..o..o..o..o..");
    check_case("what is no pick doesn't");
    shift(bench, '1', '!');
    model_nudge(&bench->stage.model, CONTROL_LEVEL, 90.0f);
    CHECK_INT(control_of(bench, "kept"), 1);
    bench_close(bench);
}

/* A draft of then isn't the draft of now: it comes along. */
static void going_on_from_what_is_kept_takes_its_drafts_along(void)
{
    Bench* const bench = bench_open();
    bench_pick(bench, CONTROL_FEET, ONE);
    bench_click(bench, LEFT_FOOT, 1.0);
    bench_settle(bench);
    key(bench, 's');
    bench_item(bench, EDIT_UNDO);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    shift(bench, '1', '!');
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    model_nudge(&bench->stage.model, CONTROL_HANDS, 1.0f);
    bench_settle(bench);
    CHECK_INT(control_of(bench, "kept"), 0);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "....o...........");
    bench_close(bench);
}

static void an_edit_goes_on_from_what_is_kept_and_does_not_get_into_it(void)
{
    Bench* const bench = bench_kept();
    shift(bench, '1', '!');
    bench_stand(bench, 0);
    bench_click(bench, LEFT_FOOT, 2.0);
    bench_settle(bench);
    CHECK_INT(control_of(bench, "kept"), 0);
    CHECK_INT(control_of(bench, "feet"), ONE);
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "........o.......");
    shift(bench, '1', '!');
    CHECK_TEXT(bench_bar(bench, 0, KICK_LEFT), "................");
    bench_close(bench);
}

static void shift_s_drops_what_plays_and_puts_it_back(void)
{
    Bench* const bench = bench_kept();
    shift(bench, 's', 's');
    CHECK(bench_notes(bench, "Nothing that is kept plays"));
    shift(bench, '1', '!');
    shift(bench, 's', 's');
    CHECK(!row(bench, 1)->is_there && row(bench, 2)->is_there);
    CHECK_INT(control_of(bench, "kept"), 0);
    shift(bench, 's', 's');
    CHECK(row(bench, 1)->is_there);
    CHECK_INT(bench->refused, 0);
    bench_close(bench);
}

static void all_slots_full_is_said_and_nothing_lost(void)
{
    Bench* const bench = bench_open();
    for (int i = 0; i <= KEPT_MAX; ++i) {
        key(bench, 's');
    }
    CHECK(bench_notes(bench, "All 16 slots are full"));
    CHECK(row(bench, 16)->is_there);
    CHECK_INT(bench->refused, 0);
    kept_slots_name(&bench->stage.model, 16, "By hand");
    bench_settle(bench);
    CHECK_TEXT(row(bench, 16)->name, "By hand");
    bench_close(bench);
}

static void r_names_what_plays(void)
{
    Bench* const bench = bench_kept();
    key(bench, 'r');
    CHECK(bench_notes(bench, "Nothing that is kept plays"));
    shift(bench, '2', '@');
    key(bench, 'r');
    for (int i = 0; i < TYPED_ROOM; ++i) {
        stage_key(&bench->stage, PANE_KEY_BACKSPACE);
    }
    stage_text(&bench->stage, "Verse B");
    key(bench, PANE_KEY_ENTER);
    CHECK_TEXT(row(bench, 2)->name, "Verse B");
    CHECK_INT(control_of(bench, "kept"), 2);
    key(bench, 'r');
    stage_text(&bench->stage, "!");
    key(bench, PANE_KEY_ESCAPE);
    CHECK_TEXT(row(bench, 2)->name, "Verse B");
    bench_close(bench);
}

/* The folder is asked for once, as for a MIDI file; what is kept and plays is what is written. */
static void a_makes_a_folder_of_what_plays(void)
{
    Bench* const bench = bench_kept();
    shift(bench, '2', '@');
    key(bench, 'a');
    CHECK(bench_view(bench)->asked.is_open);
    snprintf(bench_view(bench)->asked.folder, FOLDER_ROOM, "%s", bench_home());
    key(bench, PANE_KEY_ENTER);
    CHECK(bench_notes(bench, "Written: "));
    char name[4 * KEPT_SHOWN_ROOM];
    snprintf(name, sizeof name, "%s/%s.ttl", row(bench, 2)->name, row(bench, 2)->name);
    CHECK_INT(times(bench_read(name), "a fl:Groove"), 1);
    CHECK_INT(times(bench_read(name), "fl:steps \"o..\""), 1); /* feet of the user's own */
    key(bench, 'a');
    CHECK(bench_notes(bench, " 2")); /* another folder, and no question */
    static const char* const endings[] = {"ttl", "mid", "pdf", "txt"};
    for (int i = 0; i < 8; ++i) {
        snprintf(name, sizeof name, "%s%s/%s.%s", row(bench, 2)->name, i / 4 ? " 2" : "",
                 row(bench, 2)->name, endings[i % 4]);
        CHECK_INT(unlink(bench_path(name)), 0);
    }
    for (int i = 0; i < 2; ++i) {
        snprintf(name, sizeof name, "%s%s", row(bench, 2)->name, i ? " 2" : "");
        CHECK_INT(rmdir(bench_path(name)), 0);
    }
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(s_keeps_what_is_selected_by_a_name_that_says_it);
    RUN(shift_and_a_number_play_it_and_again_what_is_picked);
    RUN(numbers_without_shift_are_limbs_as_ever);
    RUN(x_goes_back_and_forth_between_the_last_two);
    RUN(shift_0_shows_the_other_eight);
    RUN(picking_goes_on_from_what_is_kept);
    RUN(going_on_from_what_is_kept_takes_its_drafts_along);
    RUN(an_edit_goes_on_from_what_is_kept_and_does_not_get_into_it);
    RUN(shift_s_drops_what_plays_and_puts_it_back);
    RUN(all_slots_full_is_said_and_nothing_lost);
    RUN(r_names_what_plays);
    RUN(a_makes_a_folder_of_what_plays);
    bench_move_out();
    return tests_end();
}

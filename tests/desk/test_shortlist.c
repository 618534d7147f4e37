// SPDX-License-Identifier: ISC
/* The shortlist with the plugin behind it: rows beside what is heard of them, walked through,
   what waits and what sounds. */
#include "../../plugin/engine/varied/variation.h"
#include "../../ui/scene/coming.h"
#include "bench.h"

static Bench* bench;

static void shift(const uint32_t key)
{
    controller_input(&bench->stage.model,
                     &(PaneEvent){.kind = PANE_KEY, .key = key, .modifiers = PANE_SHIFT});
    bench_settle(bench);
}

static void press(const uint32_t key)
{
    stage_key(&bench->stage, key);
    bench_settle(bench);
}

/* In slot 1 the feet of "One bar", in 2 a step later. */
static void keep_two(void)
{
    bench = bench_open();
    bench_pick(bench, CONTROL_FEET, ONE);
    press('s');
    bench_pick(bench, CONTROL_VARIATION, VARIATION_LATER);
    press('s');
}

/* The row's strokes in sixteenths. */
static const char* steps_of(const int slot)
{
    static char steps[17];
    const FeetRow* const row = &bench_view(bench)->shortlist.rows[slot].feet;
    memset(steps, '.', 16);
    for (uint32_t i = 0; i < row->count; ++i) {
        steps[row->strokes[i].tick / (Q / 4) % 16] = 'o';
    }
    return steps;
}

static void j_opens_it_and_goes_back(void)
{
    keep_two();
    press('v');
    press('j');
    CHECK_INT(bench_view(bench)->panel, PANEL_SHORTLIST);
    CHECK_INT(bench_view(bench)->focus.kind, TARGET_KEPT);
    press('j');
    CHECK_INT(bench_view(bench)->panel, PANEL_VARY);
    bench_close(bench);
}

static void a_rows_strokes_are_what_is_heard_of_it(void)
{
    static const char* const want[] = {"o.......o.......", ".o.......o......"};
    keep_two();
    press('j');
    for (int slot = 0; slot < 2; ++slot) {
        shift('1' + (uint32_t)slot);
        check_case("slot %d", slot + 1);
        CHECK_TEXT(steps_of(slot), want[slot]);
        CHECK_TEXT(bench_bar(bench, 0, KICK), want[slot]);
        CHECK_INT(bench_view(bench)->shortlist.rows[slot].feet.verdict.playable, PLAYABLE_YES);
        CHECK_INT(bench_view(bench)->kept.playing, slot + 1);
    }
    bench_close(bench);
}

static void up_and_down_hear_one_after_the_other(void)
{
    keep_two();
    press('j');
    press(PANE_KEY_DOWN);
    CHECK_INT(control_of(bench, "kept"), 2);
    press(PANE_KEY_UP);
    CHECK_INT(control_of(bench, "kept"), 1);
    press(PANE_KEY_UP); /* the ends hold */
    CHECK_INT(control_of(bench, "kept"), 1);
    bench_close(bench);
}

static void the_dial_over_the_rows_is_typed_and_stepped(void)
{
    keep_two();
    press('j');
    stage_click(&bench->stage, (TargetId){TARGET_DIAL, CONTROL_KEPT});
    press('2');
    press(PANE_KEY_ENTER);
    CHECK_INT(control_of(bench, "kept"), 2);
    CHECK_TEXT(bench_bar(bench, 0, KICK), ".o.......o......");
    press(PANE_KEY_DOWN);
    CHECK_INT(control_of(bench, "kept"), 1);
    press(PANE_KEY_DELETE);
    CHECK_INT(control_of(bench, "kept"), 0);
    bench_close(bench);
}

static void type_over(const char* const name)
{
    for (int i = 0; i < TYPED_ROOM; ++i) {
        stage_key(&bench->stage, PANE_KEY_BACKSPACE);
    }
    stage_text(&bench->stage, name);
}

static const char* name_of(const int slot)
{
    return bench_view(bench)->kept.rows[slot].name;
}

/* Though nothing that is kept plays. */
static void r_names_the_row_that_has_the_keys(void)
{
    keep_two();
    press('j');
    CHECK_INT(control_of(bench, "kept"), 0);
    press('r');
    type_over("Verse, r and j");
    press(PANE_KEY_ENTER);
    CHECK_TEXT(name_of(0), "Verse, r and j");
    check_case("Esc");
    press('r');
    type_over("Chorus");
    press(PANE_KEY_ESCAPE);
    CHECK_TEXT(name_of(0), "Verse, r and j");
    CHECK_INT(bench_view(bench)->panel, PANEL_SHORTLIST);
    check_case("an empty row");
    shift('2');
    press(PANE_KEY_DOWN);
    press('r');
    CHECK(!bench_view(bench)->asked.is_open);
    CHECK(bench_notes(bench, "Nothing is kept in slot 3"));
    bench_close(bench);
}

/* A lane goes on while somebody types. */
static void a_name_goes_to_what_it_was_asked_for(void)
{
    keep_two();
    press('j');
    shift('2');
    press('r');
    type_over("Chorus");
    bench_pick(bench, CONTROL_KEPT, 1);
    press(PANE_KEY_ENTER);
    CHECK_TEXT(name_of(1), "Chorus");
    CHECK(strcmp(name_of(0), "Chorus") != 0);
    bench_close(bench);
}

static void the_row_that_is_asked_to_play_has_the_keys(void)
{
    keep_two();
    press('j');
    shift('2');
    CHECK_INT(bench_view(bench)->shortlist.cursor, 1);
    shift('1');
    CHECK_INT(bench_view(bench)->shortlist.cursor, 0);
    press('x');
    CHECK_INT(bench_view(bench)->shortlist.cursor, 1);
    CHECK(view_target_same(bench_view(bench)->focus, (TargetId){TARGET_KEPT, 1}));
    bench_close(bench);
}

static void an_empty_slot_is_walked_over_and_changes_nothing(void)
{
    keep_two();
    press('j');
    shift('2');
    press(PANE_KEY_DOWN);
    press(PANE_KEY_DOWN);
    CHECK_INT(control_of(bench, "kept"), 2);
    CHECK(bench_notes(bench, "Nothing is kept in slot"));
    bench_close(bench);
}

static void the_other_eight_come_with_a_row_that_has_the_keys(void)
{
    keep_two();
    press('j');
    shift('0');
    TargetList targets;
    model_targets(&bench->stage.model, &targets);
    CHECK_INT(bench_view(bench)->kept.lot, 8);
    CHECK(bench_view(bench)->shortlist.cursor >= 8);
    CHECK(targets_find(&targets, bench_view(bench)->focus));
    bench_close(bench);
}

static void what_waits_is_told_by_slot_and_name_until_its_line(void)
{
    Coming coming;
    char words[COMING_ROOM];
    keep_two();
    shift('1');
    bench->frame = bench->count = 0;
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
    bench_run(bench, QUARTER_FRAMES);
    shift('2'); /* half a second on */
    CHECK(coming_of(bench_view(bench), &coming));
    coming_words(&coming, words);
    CHECK(!strncmp(words, "next: 2 a step later", strlen("next: 2 a step later")));
    coming_brief(&coming, words);
    CHECK_TEXT(words, "kept 2");
    CHECK_INT(bench_view(bench)->kept.playing, 1);
    bench_run(bench, 7 * QUARTER_FRAMES - BENCH_RATE / 2);
    CHECK_TEXT(bench_steps(bench, KICK, 4, 32), "o.......o......."
                                                ".o.......o......");
    CHECK_INT(bench_view(bench)->kept.playing, 2);
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(j_opens_it_and_goes_back);
    RUN(a_rows_strokes_are_what_is_heard_of_it);
    RUN(up_and_down_hear_one_after_the_other);
    RUN(the_dial_over_the_rows_is_typed_and_stepped);
    RUN(r_names_the_row_that_has_the_keys);
    RUN(a_name_goes_to_what_it_was_asked_for);
    RUN(the_row_that_is_asked_to_play_has_the_keys);
    RUN(an_empty_slot_is_walked_over_and_changes_nothing);
    RUN(the_other_eight_come_with_a_row_that_has_the_keys);
    RUN(what_waits_is_told_by_slot_and_name_until_its_line);
    bench_move_out();
    return tests_end();
}

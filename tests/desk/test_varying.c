// SPDX-License-Identifier: ISC
/* The page of variations, with the plugin behind it: its rows beside what the plugin says and
   what is heard.  What a step later, every second and so on are, is counted by hand here. */
#include "../../plugin/engine/varied/variation.h"
#include "bench.h"

static Bench* bench;

static VaryPage* page(void)
{
    return &bench_view(bench)->vary;
}

static float asked(void)
{
    return bench_view(bench)->values[CONTROL_VARIATION];
}

/* At bar 0 with these feet, the page open and looked through. */
static void open_with(const int feet)
{
    bench = bench_open();
    bench_pick(bench, CONTROL_FEET, feet);
    stage_key(&bench->stage, 'v');
    bench_settle(bench);
}

static void leave(void)
{
    bench_close(bench);
}

static void walk_to(const int row)
{
    while (page()->cursor < row) {
        stage_key(&bench->stage, PANE_KEY_DOWN);
    }
    while (page()->cursor > row) {
        stage_key(&bench->stage, PANE_KEY_UP);
    }
    bench_settle(bench);
}

/* ---- Rows */

static void v_opens_the_page_with_its_keys_on_what_plays(void)
{
    open_with(ONE);
    CHECK_INT(bench_view(bench)->panel, PANEL_VARY);
    CHECK_INT(bench_view(bench)->focus.kind, TARGET_VARY);
    CHECK_INT(page()->cursor, 0);
    CHECK_INT(page()->count, VARIATION_COUNT);
    CHECK_TEXT(page()->rows[0].name, "as chosen");
    leave();
}

static const char* const widest[] = {"Gallop", "Sixteenths", "Herta over the bar"};

/* The plan of these rows: at least 18. */
static void of_a_gallop_a_herta_and_running_sixteenths_enough_is_offered(void)
{
    for (size_t i = 0; i < sizeof widest / sizeof *widest; ++i) {
        open_with(ONE);
        const Entry* const feet = listed(bench, ENTRY_FEET, widest[i]);
        check_case("%s", widest[i]);
        if (CHECK(feet)) {
            bench_pick(bench, CONTROL_FEET, feet->id);
            CHECK(page()->offered >= 18);
        }
        leave();
    }
}

/* Written ticks, limbs and levels of the feet in the bar shown, as the plugin tells them. */
static void check_beside_the_plugin(const VaryRow* const row)
{
    const SeenBar* const bar = view_bar(bench_view(bench), view_shown(bench_view(bench)));
    uint32_t at = 0;
    for (uint32_t i = 0; CHECK(bar) && i < bar->count; ++i) {
        const SeenStroke* const stroke = &bar->strokes[i];
        if (limb_is_foot(stroke->limb) && !stroke->free && !stroke->is_grace) {
            check_case("%s, stroke %u", row->name, at);
            if (CHECK(at < row->feet.count)) {
                CHECK_INT(row->feet.strokes[at].tick, stroke->written);
                CHECK_INT(row->feet.strokes[at].limb, stroke->limb);
                CHECK_INT(row->feet.strokes[at].level, stroke->level);
            }
            ++at;
        }
    }
    CHECK(at > 0);
    CHECK_INT(row->feet.count, at);
}

static void the_row_that_plays_has_the_strokes_that_the_plugin_tells(void)
{
    static const int rows[] = {0, VARIATION_LATER, VARIATION_FIVES, VARIATION_FILLED};
    open_with(THREE);
    for (int bar = 0; bar < 3; ++bar) {
        for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
            walk_to(rows[i]);
            stage_roll(&bench->stage, bar, 0.0f, 0.0f);
            bench_settle(bench);
            if (CHECK(!*page()->rows[rows[i]].why)) {
                check_beside_the_plugin(&page()->rows[rows[i]]);
            }
        }
    }
    leave();
}

/* A phrase is four bars there; it grows with each. */
static void the_row_that_the_feet_have_grown_to_is_the_one_that_plays(void)
{
    int others = 0;
    open_with(THREE);
    bench_pick(bench, CONTROL_GROW_EVERY, 1);
    for (int phrase = 0; phrase < 4; ++phrase) {
        stage_roll(&bench->stage, 4 * phrase, 0.0f, 0.0f);
        bench_settle(bench);
        const int grown = page()->grown[0];
        if (CHECK(grown >= 0 && grown < VARIATION_COUNT)) {
            page()->first = grown; /* in sight */
            bench_settle(bench);
            check_beside_the_plugin(&page()->rows[grown]);
            others += grown > 0;
        }
    }
    CHECK(others >= 3);
    bench_pick(bench, CONTROL_GROW_EVERY, 0);
    CHECK_INT(page()->grown[0], -1);
    leave();
}

static void rows_are_anothers_where_the_feet_are(void)
{
    open_with(ONE);
    const int before = page()->offered;
    const FeetRow row = page()->rows[0].feet;
    bench_pick(bench, CONTROL_FEET, THREE);
    CHECK(page()->offered != before);
    CHECK(page()->rows[0].feet.count != row.count);
    leave();
}

/* Ticks as the window has them: 60 a second. */
static void no_tick_looks_at_more_than_a_few_rows(void)
{
    int known = 0;
    open_with(ONE);
    bench_set(bench, CONTROL_FEET, THREE);
    for (int tick = 1; tick < 100 && known < VARIATION_COUNT; ++tick) {
        known = 0;
        controller_tick(&bench->stage.model, bench->stage.seconds);
        for (int row = 0; row < page()->count; ++row) {
            known += page()->rows[row].is_known;
        }
        check_case("tick %d", tick);
        CHECK(known <= 3 * tick);
    }
    CHECK_INT(known, VARIATION_COUNT);
    leave();
}

/* ---- Walking */

/* The kicks of "One bar" are on one and three, written in sixteenths. */
static void a_row_is_heard_from_the_next_bar_line_on(void)
{
    open_with(ONE);
    bench->frame = bench->count = 0;
    stage_roll(&bench->stage, 0, 0.0f, 1.0f);
    bench_run(bench, QUARTER_FRAMES);
    walk_to(VARIATION_LATER); /* half a second on */
    CHECK_INT(page()->playing[0], 0);
    CHECK(bench_view(bench)->place.waiting);
    bench_run(bench, 7 * QUARTER_FRAMES - BENCH_RATE / 2);
    CHECK_TEXT(bench_steps(bench, KICK, 4, 32), "o.......o......."
                                                ".o.......o......");
    CHECK_INT(page()->playing[0], VARIATION_LATER);
    leave();
}

static void what_is_not_offered_is_walked_over_and_says_why(void)
{
    char words[VARY_WHY_ROOM];
    open_with(ONE);
    int row = 2;
    while (row < VARIATION_COUNT && (!*page()->rows[row].why || *page()->rows[row - 1].why)) {
        ++row;
    }
    if (CHECK(row < VARIATION_COUNT)) {
        walk_to(row);
        CHECK_INT(page()->cursor, row);
        CHECK_INT((int)asked(), row - 1);
        snprintf(words, sizeof words, "%s", page()->rows[row].why);
        CHECK(*words);
    }
    leave();
}

static void the_walk_ends_at_the_ends(void)
{
    open_with(ONE);
    stage_key(&bench->stage, PANE_KEY_UP);
    CHECK_INT(page()->cursor, 0);
    stage_key(&bench->stage, PANE_KEY_END);
    CHECK_INT(page()->cursor, VARIATION_COUNT - 1);
    stage_key(&bench->stage, PANE_KEY_DOWN);
    CHECK_INT(page()->cursor, VARIATION_COUNT - 1);
    stage_key(&bench->stage, PANE_KEY_HOME);
    CHECK_INT(page()->cursor, 0);
    leave();
}

static void the_row_with_the_keys_is_always_seen(void)
{
    open_with(ONE);
    for (int i = 0; i < VARIATION_COUNT; ++i) {
        TargetList targets;
        model_targets(&bench->stage.model, &targets);
        check_case("row %d", page()->cursor);
        CHECK(targets_find(&targets, (TargetId){TARGET_VARY, page()->cursor}));
        CHECK_INT(bench_view(bench)->focus.index, page()->cursor);
        stage_key(&bench->stage, PANE_KEY_DOWN);
    }
    leave();
}

static void a_click_goes_to_a_row(void)
{
    open_with(ONE);
    stage_click(&bench->stage, (TargetId){TARGET_VARY, VARIATION_LATER});
    CHECK_INT((int)asked(), VARIATION_LATER);
    CHECK_INT(page()->cursor, VARIATION_LATER);
    leave();
}

static void what_a_lane_asks_for_is_gone_to(void)
{
    open_with(ONE);
    bench_pick(bench, CONTROL_VARIATION, VARIATION_ROUND);
    CHECK_INT(page()->cursor, VARIATION_ROUND);
    leave();
}

static void escape_plays_what_was_chosen(void)
{
    open_with(ONE);
    walk_to(VARIATION_LATER);
    stage_key(&bench->stage, PANE_KEY_RIGHT);
    walk_to(VARIATION_DOUBLED);
    stage_key(&bench->stage, PANE_KEY_ESCAPE);
    bench_settle(bench);
    CHECK_INT((int)asked(), 0);
    CHECK_INT(control_of(bench, "variation_then"), 0);
    CHECK_INT(page()->cursor, 0);
    CHECK_TEXT(bench_bar(bench, 0, KICK), "o.......o.......");
    leave();
}

/* One and three, a step later; every second of them left out: the first alone. */
static void a_second_variation_is_made_of_the_first(void)
{
    open_with(ONE);
    walk_to(VARIATION_LATER);
    stage_key(&bench->stage, PANE_KEY_RIGHT);
    CHECK_TEXT(page()->rows[0].name, "nothing more");
    walk_to(VARIATION_SECONDS);
    CHECK_INT((int)asked(), VARIATION_LATER);
    CHECK_INT(control_of(bench, "variation_then"), VARIATION_SECONDS);
    CHECK_TEXT(bench_bar(bench, 0, KICK), ".o..............");
    stage_key(&bench->stage, PANE_KEY_LEFT);
    CHECK_INT(page()->cursor, VARIATION_LATER);
    leave();
}

/* ---- Keeping */

static void enter_keeps_it_as_ones_own(void)
{
    open_with(ONE);
    walk_to(VARIATION_LATER);
    stage_key(&bench->stage, PANE_KEY_ENTER);
    bench_settle(bench);
    bench_settle(bench);
    const Entry* const kept = listed(bench, ENTRY_FEET, "One bar, a step later");
    CHECK_INT(bench->refused, 0);
    CHECK(bench_notes(bench, "Saved as \"One bar, a step later\""));
    if (CHECK(kept)) {
        CHECK(kept->is_own);
        CHECK_INT(control_of(bench, "feet"), kept->id);
    }
    CHECK_INT(control_of(bench, "variation"), 0);
    CHECK_INT(times(bench_bank(), "One bar, a step later"), 1);
    CHECK_TEXT(bench_bar(bench, 0, KICK), ".o.......o......");
    leave();
}

static void as_chosen_there_is_nothing_to_keep(void)
{
    open_with(ONE);
    const int said = bench->said;
    stage_key(&bench->stage, PANE_KEY_ENTER);
    CHECK_INT(bench->said, said);
    CHECK(bench_notes(bench, "As chosen"));
    leave();
}

int main(void)
{
    bench_move_in();
    RUN(v_opens_the_page_with_its_keys_on_what_plays);
    RUN(of_a_gallop_a_herta_and_running_sixteenths_enough_is_offered);
    RUN(the_row_that_plays_has_the_strokes_that_the_plugin_tells);
    RUN(the_row_that_the_feet_have_grown_to_is_the_one_that_plays);
    RUN(rows_are_anothers_where_the_feet_are);
    RUN(no_tick_looks_at_more_than_a_few_rows);
    RUN(a_row_is_heard_from_the_next_bar_line_on);
    RUN(what_is_not_offered_is_walked_over_and_says_why);
    RUN(the_walk_ends_at_the_ends);
    RUN(the_row_with_the_keys_is_always_seen);
    RUN(a_click_goes_to_a_row);
    RUN(what_a_lane_asks_for_is_gone_to);
    RUN(escape_plays_what_was_chosen);
    RUN(a_second_variation_is_made_of_the_first);
    RUN(enter_keeps_it_as_ones_own);
    RUN(as_chosen_there_is_nothing_to_keep);
    bench_move_out();
    return tests_end();
}

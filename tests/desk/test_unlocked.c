// SPDX-License-Identifier: ISC
/* What an edit can't be lost in: a name that is the factory's, and an edit of another figure
   that plays nowhere any more. */
#include "bench.h"

static Bench* bench;
static View* view;

static void begin(void)
{
    bench = bench_open();
    view = bench_view(bench);
}

static const Entry* factorys(const EntryKind kind)
{
    const Shelf* const shelf = &view->shelves[kind];
    for (int i = 0; i < shelf->count; ++i) {
        if (shelf->entries[i].id > 0 && shelf->entries[i].id < 1000 && shelf->entries[i].figure &&
            shelf->entries[i].figure->bars == 1) {
            return &shelf->entries[i];
        }
    }
    return NULL;
}

static int count_named(const EntryKind kind, const char* const label)
{
    int count = 0;
    for (int i = 0; i < view->shelves[kind].count; ++i) {
        count += !strcmp(view->shelves[kind].entries[i].label, label);
    }
    return count;
}

static void a_factorys_figure_is_not_saved_under_its_own_name(void)
{
    char name[TYPED_ROOM];
    begin();
    const Entry* const entry = factorys(ENTRY_FEET);
    if (!CHECK(entry)) {
        return;
    }
    snprintf(name, sizeof name, "%s", entry->label);
    bench_pick(bench, CONTROL_FEET, entry->id);
    bench_click(bench, LEFT_FOOT, 1.25);
    bench_item(bench, EDIT_SAVE);
    CHECK_INT(count_named(ENTRY_FEET, name), 1);
    CHECK_INT(times(bench_bank(), name), 0);
    CHECK(view->is_typing && strstr(view->refused, "the factory's"));
    CHECK_TEXT(view->typed, name); /* to be changed */
    stage_text(&bench->stage, " of mine");
    stage_key(&bench->stage, PANE_KEY_ENTER);
    bench_item(bench, EDIT_SAVE);
    CHECK_INT(count_named(ENTRY_FEET, name), 1);
    strcat(name, " of mine");
    CHECK_INT(count_named(ENTRY_FEET, name), 1);
    bench_close(bench);
}

/* "GALLOP" is "Gallop" to who reads a list; a hands figure may be called as feet are. */
static void case_makes_no_other_name_and_kind_does(void)
{
    char name[TYPED_ROOM];
    begin();
    bench_click(bench, LEFT_FOOT, 1.5);
    const Entry* const feet = factorys(ENTRY_FEET);
    snprintf(name, sizeof name, "%s", feet ? feet->label : "");
    for (char* at = name; *at; ++at) {
        *at = *at >= 'a' && *at <= 'z' ? (char)(*at - 32) : *at;
    }
    bench_save(bench, name);
    CHECK_INT(count_named(ENTRY_FEET, name), 0);
    stage_key(&bench->stage, PANE_KEY_ESCAPE);
    const Entry* const hands = factorys(ENTRY_HANDS);
    snprintf(name, sizeof name, "%s", hands ? hands->label : "");
    CHECK_INT(count_named(ENTRY_FEET, name), 0);
    bench_save(bench, name);
    CHECK_INT(count_named(ENTRY_FEET, name), 1);
    bench_close(bench);
}

static void ones_own_name_is_saved_over(void)
{
    begin();
    bench_click(bench, LEFT_FOOT, 1.5);
    bench_save(bench, "Quay");
    bench_click(bench, LEFT_FOOT, 2.5);
    bench_item(bench, EDIT_SAVE);
    CHECK_INT(count_named(ENTRY_FEET, "Quay"), 1);
    CHECK(!view->is_typing);
    bench_close(bench);
}

/* A fill of a beat, edited; then the feet; then another fill, of which two clicks are tried:
   the first edit plays nowhere any more. */
static void two_clicks_in_another_fill_lock_nobody_out(void)
{
    begin();
    bench_pick(bench, CONTROL_TURNAROUND, 1003);
    bench_stand(bench, 3);
    bench_hands(bench);
    bench_click(bench, LEFT_HAND, 3.75);
    CHECK_TEXT(view->edit.name, "A beat");
    bench_item(bench, EDIT_PAIR);
    bench_item(bench, EDIT_PAIR);
    bench_pick(bench, CONTROL_TURNAROUND, 1002);
    bench_click(bench, LEFT_HAND, 2.5);
    CHECK(bench_notes(bench, "Save or drop the edit of \"A beat\" first"));
    bench_click(bench, LEFT_HAND, 2.5);
    CHECK_TEXT(view->edit.name, "A beat"); /* it is open, */
    bench_item(bench, EDIT_DROP);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 2.5);
    CHECK_TEXT(view->edit.name, "All turn"); /* and now the other is */
    CHECK_INT(view->edit.undo, 1);
    bench_close(bench);
}

static void or_the_first_is_saved(void)
{
    begin();
    bench_pick(bench, CONTROL_TURNAROUND, 1003);
    bench_stand(bench, 3);
    bench_hands(bench);
    bench_click(bench, LEFT_HAND, 3.75);
    bench_item(bench, EDIT_PAIR);
    bench_item(bench, EDIT_PAIR);
    bench_pick(bench, CONTROL_TURNAROUND, 1002);
    bench_click(bench, LEFT_HAND, 2.5);
    bench_save(bench, "A beat more");
    CHECK(listed(bench, ENTRY_TURNAROUND, "A beat more"));
    bench_pick(bench, CONTROL_TURNAROUND, 1002);
    bench_stand(bench, 3);
    bench_click(bench, LEFT_HAND, 2.5);
    CHECK_TEXT(view->edit.name, "All turn");
    bench_close(bench);
}

int main(void)
{
    bench_move_in();
    RUN(a_factorys_figure_is_not_saved_under_its_own_name);
    RUN(case_makes_no_other_name_and_kind_does);
    RUN(ones_own_name_is_saved_over);
    RUN(two_clicks_in_another_fill_lock_nobody_out);
    RUN(or_the_first_is_saved);
    bench_move_out();
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* The open list in the order of a column: each line against the one before it, by what the line
   itself says; lines that are alike stay as they stood. */
#include "../help/check.h"
#include "fresh_desk.h"

#include <pango/pango.h>

static const Entry* entry_at(const int line)
{
    return &own->model.view.shelves[list()->shelf].entries[list()->rows[line].entry];
}

static double meter_said(const Entry* const entry)
{
    int beats = 0, unit = 1;
    sscanf(entry->meter, "%d/%d", &beats, &unit);
    return (double)beats / unit;
}

static double tempo_said(const Entry* const entry)
{
    return strtod(entry->tempo, NULL);
}

static double difficulty_said(const Entry* const entry)
{
    return entry->difficulty;
}

/* The cases of letters set aside, by Unicode's folding. */
static double by_name(const Entry* const before, const Entry* const entry)
{
    char* const a = g_utf8_casefold(before->label, -1);
    char* const b = g_utf8_casefold(entry->label, -1);
    const int apart = strcmp(b, a);
    g_free(a);
    g_free(b);
    return apart;
}

/* How far a line is beyond the one before; `said` NULL: by name. */
static double apart(const int line, double (*const said)(const Entry* entry))
{
    return said ? said(entry_at(line)) - said(entry_at(line - 1))
                : by_name(entry_at(line - 1), entry_at(line));
}

static void check_order(double (*const said)(const Entry* entry), const bool falls)
{
    CHECK(list()->count > 2);
    int alike = 0;
    for (int line = 1; line < list()->count; ++line) {
        const double d = apart(line, said);
        check_case("line %d: %s after %s", line, entry_at(line)->label, entry_at(line - 1)->label);
        CHECK(!list()->rows[line].is_heading);
        CHECK(falls ? d <= 0.0 : d >= 0.0);
        if (d <= 0.0 && d >= 0.0) {
            ++alike;
            CHECK(list()->rows[line].entry > list()->rows[line - 1].entry);
        }
    }
    CHECK(alike > 0 || !said);
}

typedef struct {
    ListColumn column;
    double (*said)(const Entry* entry);
} Column;

static const Column columns[] = {{LIST_BY_NAME, NULL},
                                 {LIST_BY_METER, meter_said},
                                 {LIST_BY_TEMPO, tempo_said},
                                 {LIST_BY_DIFFICULTY, difficulty_said}};
enum { COLUMNS = sizeof columns / sizeof *columns };

static void a_click_at_a_heading_sorts_and_another_turns_it_round(void)
{
    for (int i = 0; i < COLUMNS; ++i) {
        const TargetId head = {TARGET_HEAD, (int)columns[i].column};
        fresh();
        own_key(own, 'g', 0);
        const int lines = list()->count;
        own_click(own, head);
        check_order(columns[i].said, false);
        own_click(own, head);
        check_order(columns[i].said, true);
        own_click(own, head);
        CHECK_INT(list()->count, lines);
        CHECK(list()->rows[0].is_heading);
    }
}

static void left_and_right_go_through_the_columns_and_tab_turns_round(void)
{
    fresh();
    own_key(own, 'g', 0);
    for (int i = 0; i < 3; ++i) { /* name, meter, tempo */
        own_key(own, PANE_KEY_RIGHT, 0);
        check_order(columns[i].said, false);
    }
    own_key(own, PANE_KEY_TAB, 0);
    check_order(tempo_said, true);
    own_key(own, PANE_KEY_LEFT, 0);
    check_order(meter_said, false);
    own_key(own, PANE_KEY_LEFT, 0);
    own_key(own, PANE_KEY_LEFT, 0);
    CHECK(list()->rows[0].is_heading);
    own_key(own, PANE_KEY_LEFT, 0); /* a list of grooves ends with the difficulty */
    check_order(difficulty_said, false);
}

static void feet_are_sorted_by_what_they_ask(void)
{
    fresh();
    own_key(own, 'f', 0);
    own_click(own, (TargetId){TARGET_HEAD, LIST_BY_RIGHT});
    own_click(own, (TargetId){TARGET_HEAD, LIST_BY_RIGHT});
    CHECK(own->model.view.demands[0].is_known);
    double before = 1e9;
    int seen = 0;
    for (int line = 0; line < list()->count; ++line) {
        own_key(own, line ? PANE_KEY_DOWN : PANE_KEY_HOME, 0); /* those in sight are measured */
        const double rate = own->model.view.demands[line].feet[0].rate;
        check_case("line %d: %s", line, entry_at(line)->label);
        CHECK(own->model.view.demands[line].is_known);
        CHECK(rate <= before);
        before = rate;
        ++seen;
    }
    CHECK(seen > 20 && before < 3.0);
}

static void the_order_is_kept_for_each_kind_while_the_window_is_open(void)
{
    fresh();
    own_key(own, 'g', 0);
    own_click(own, (TargetId){TARGET_HEAD, LIST_BY_TEMPO});
    own_key(own, PANE_KEY_ESCAPE, 0);
    own_key(own, 'f', 0);
    CHECK(list()->rows[0].is_heading || list()->rows[1].is_heading);
    own_key(own, PANE_KEY_ESCAPE, 0);
    own_key(own, 'g', 0);
    check_order(tempo_said, false);
}

static void what_plays_stays_chosen_and_in_sight(void)
{
    fresh();
    const Shelf* const shelf = &own->model.view.shelves[ENTRY_FEET];
    const int32_t id = shelf->entries[shelf->count / 2].id;
    own_say(own, CONTROL_FEET, (float)id);
    own_key(own, 'f', 0);
    own_click(own, (TargetId){TARGET_HEAD, LIST_BY_NAME});
    const Geometry g = geometry_of(&own->model.view);
    CHECK_INT(entry_at(list()->selected)->id, id);
    CHECK(list()->selected >= list()->first &&
          list()->selected < list()->first + geometry_list_rows(&g));
    CHECK_NEAR(own_value(own, CONTROL_FEET), id, 0.0);
}

int main(void)
{
    RUN(a_click_at_a_heading_sorts_and_another_turns_it_round);
    RUN(left_and_right_go_through_the_columns_and_tab_turns_round);
    RUN(feet_are_sorted_by_what_they_ask);
    RUN(the_order_is_kept_for_each_kind_while_the_window_is_open);
    RUN(what_plays_stays_chosen_and_in_sight);
    own_desk_close(own);
    return tests_end();
}

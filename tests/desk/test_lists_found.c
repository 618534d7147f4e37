// SPDX-License-Identifier: ISC
/* What is typed into an open list: words, grid, limit and tempo (ui/find/wish.h), the best first.
   Strokes a second by arithmetic: sixteenths at 180 are twelve, six of each foot. */
#include "../help/check.h"
#include "../../ui/desk/list.h"
#include "fresh_desk.h"

static const Entry* entry_in(const int line)
{
    return &own->model.view.shelves[list()->shelf].entries[list()->rows[line].entry];
}

static int entries_found(void)
{
    int found = 0;
    for (int line = 0; line < list()->count; ++line) {
        found += !list()->rows[line].is_heading;
    }
    return found;
}

static bool is_found(const char* const label)
{
    for (int line = 0; line < list()->count; ++line) {
        if (!list()->rows[line].is_heading && !strcmp(entry_in(line)->label, label)) {
            return true;
        }
    }
    return false;
}

static void looking_for(const char* const typed, const float tempo)
{
    fresh();
    check_case("typed: %s", typed);
    own_port(own, (uint32_t)(PORT_FIRST_READOUT + READOUT_TEMPO_NOW), tempo);
    own_key(own, 'f', 0);
    own_type(own, typed);
}

static void the_best_comes_first_under_words_that_say_where(void)
{
    looking_for("gallop", 120.0f);
    CHECK(list()->rows[0].is_heading);
    CHECK_TEXT(list()->rows[0].words, "the name");
    CHECK_TEXT(entry_in(1)->label, "Gallop");
    CHECK(list()->rows[2].is_heading);
    CHECK_TEXT(list()->rows[2].words, "in the name");
    for (int i = 0; i < 6; ++i) {
        own_key(own, PANE_KEY_BACKSPACE, 0);
    }
    CHECK(list()->rows[0].is_heading || !*entry_in(0)->family);
    for (int line = 0; line < list()->count; ++line) {
        CHECK(!list()->rows[line].words);
    }
}

static void down_lets_the_best_be_heard_first(void)
{
    looking_for("herta", 120.0f);
    own_key(own, PANE_KEY_DOWN, 0);
    CHECK_NEAR(own->value, entry_in(1)->id, 0.0);
    own_key(own, PANE_KEY_DOWN, 0);
    own_key(own, PANE_KEY_DOWN, 0);
    own_type(own, " ");
    own_key(own, PANE_KEY_DOWN, 0); /* anew, from the best on */
    CHECK_NEAR(own->value, entry_in(1)->id, 0.0);
}

static void no_line_has_more_than_the_limit_and_each_says_what_it_has(void)
{
    looking_for("under 6 at 180", 60.0f);
    CHECK_TEXT(list()->says, "at most 5 a second at 180");
    CHECK(entries_found() > 50 && !is_found("Sixteenths") && is_found("Eighths, foot to foot"));
    int seen = 0;
    for (int line = 0; line < list_rows_seen(&own->model); ++line) {
        const Demand* const demand = &own->model.view.demands[line];
        if (!list()->rows[line].is_heading) {
            check_case("%s", entry_in(line)->label);
            CHECK(demand->is_known && demand->feet[0].rate <= 5.0 && demand->feet[1].rate <= 5.0);
            ++seen;
        }
    }
    CHECK(seen > 2);
    looking_for("Sixteenths limit 6 at 180", 60.0f);
    CHECK(is_found("Sixteenths"));
    CHECK_NEAR(own->model.view.demands[1].feet[0].rate, 6.0, 0.0);
    CHECK_NEAR(own->model.view.demands[1].feet[1].rate, 6.0, 0.0);
}

static void a_limit_without_a_tempo_goes_with_the_tempo_now(void)
{
    looking_for("sixteenths limit 6", 180.0f);
    CHECK(is_found("Sixteenths"));
    own_port(own, (uint32_t)(PORT_FIRST_READOUT + READOUT_TEMPO_NOW), 182.0f);
    CHECK(!is_found("Sixteenths"));
    own_port(own, (uint32_t)(PORT_FIRST_READOUT + READOUT_TEMPO_NOW), 120.0f);
    CHECK(is_found("Sixteenths"));
}

static void typing_along_to_a_number_keeps_what_is_found(void)
{
    looking_for("gallop", 120.0f);
    const int found = entries_found();
    for (const char* more = " at 180"; *more; ++more) {
        own_key(own, (uint32_t)*more, 0);
        check_case("typed: %s", list()->find);
        CHECK(entries_found() == found || !strcmp(list()->find, "gallop a"));
    }
}

static void nothing_found_says_what_to_leave_out(void)
{
    looking_for("gallop limit 2 at 180", 120.0f);
    CHECK_INT(list()->count, 0);
    CHECK(strstr(list()->says, "nothing: without gallop "));
    CHECK(strstr(list()->says, "without at most 2 a second 1"));
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK_TEXT(list()->says, "");
}

/* A meter and a grid in the lists of grooves and fills; kit maps have neither. */
static void other_lists_are_looked_through_alike(void)
{
    static const char keys[] = {'g', 'h'};
    for (int i = 0; i < 2; ++i) {
        fresh();
        own_key(own, (uint32_t)keys[i], 0);
        const int all = entries_found();
        own_type(own, "7/8");
        check_case("key %c", keys[i]);
        CHECK(entries_found() > 3 && entries_found() < all);
        for (int line = 0; line < list()->count && keys[i] == 'g'; ++line) {
            CHECK(list()->rows[line].is_heading || !strcmp(entry_in(line)->meter, "7/8"));
        }
    }
    fresh();
    focus(TARGET_CARD, ENTRY_KIT);
    own_key(own, PANE_KEY_ENTER, 0);
    own_type(own, "on triplets");
    CHECK_INT(list()->count, 0);
}

int main(void)
{
    RUN(the_best_comes_first_under_words_that_say_where);
    RUN(down_lets_the_best_be_heard_first);
    RUN(no_line_has_more_than_the_limit_and_each_says_what_it_has);
    RUN(a_limit_without_a_tempo_goes_with_the_tempo_now);
    RUN(typing_along_to_a_number_keeps_what_is_found);
    RUN(nothing_found_says_what_to_leave_out);
    RUN(other_lists_are_looked_through_alike);
    own_desk_close(own);
    return tests_end();
}

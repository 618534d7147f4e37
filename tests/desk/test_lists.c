// SPDX-License-Identifier: ISC
/* The open list: finding in any script, walking, hearing, keeping and going back. */
#include "../help/check.h"
#include "fresh_desk.h"

static void every_list_shows_every_entry(void)
{
    for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
        fresh();
        focus(TARGET_CARD, shelf);
        own_key(own, PANE_KEY_ENTER, 0);
        int entries = 0;
        check_case("shelf %d", shelf);
        for (int line = 0; line < list()->count; ++line) {
            entries += !list()->rows[line].is_heading;
            CHECK(line + 1 < list()->count || !list()->rows[line].is_heading);
        }
        CHECK_INT(entries, own->model.view.shelves[shelf].count);
    }
}

/* Groove 1 and feet 190 as presets/ have them; kit maps have nothing of the kind. */
static void each_line_tells_meter_grid_length_tempo_and_how_hard(void)
{
    fresh();
    const Entry* const groove = view_entry(&own->model.view, ENTRY_GROOVE, 1);
    const Entry* const feet = view_entry(&own->model.view, ENTRY_FEET, 190);
    const Entry* const kit = view_entry(&own->model.view, ENTRY_KIT, 1);
    CHECK_TEXT(groove->told, "4/4, grid 2 4, 8 bars, 160 (110-200)");
    CHECK_TEXT(feet->told, "grid 4, 1 quarter, 100-220");
    CHECK_TEXT(kit->told, "");
    own_key(own, 'g', 0);
    own_key(own, PANE_KEY_ESCAPE, 0);
    own_key(own, 'f', 0);
    CHECK(groove->difficulty >= 1 && feet->difficulty >= 1);
    CHECK_INT(kit->difficulty, 0);
}

static int graded(const EntryKind shelf)
{
    int count = 0;
    for (int i = 0; i < own->model.view.shelves[shelf].count; ++i) {
        count += own->model.view.shelves[shelf].entries[i].is_graded;
    }
    return count;
}

/* It takes a hundredth of a second for all of them: a window that opens needn't wait. */
static void how_hard_an_entry_is_is_asked_when_it_is_shown(void)
{
    fresh();
    CHECK(graded(ENTRY_HANDS) <= 1 && graded(ENTRY_FEET) <= 1);
    CHECK_INT(graded(ENTRY_GROOVE), 0);
    own_key(own, 'g', 0);
    CHECK_INT(graded(ENTRY_GROOVE), own->model.view.shelves[ENTRY_GROOVE].count);
    CHECK(graded(ENTRY_FEET) <= 1);
}

static void walking_a_list_lets_it_be_heard_and_escape_goes_back(void)
{
    fresh();
    own_say(own, CONTROL_FEET, 3.0f);
    own_key(own, 'f', 0);
    own_key(own, PANE_KEY_DOWN, 0);
    const float heard = own_value(own, CONTROL_FEET);
    CHECK(heard > 3.0f || heard < 3.0f);
    CHECK_NEAR(own->value, heard, 0.0);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK(!list()->is_open);
    CHECK_NEAR(own_value(own, CONTROL_FEET), 3.0, 0.0);
    CHECK_NEAR(own->value, 3.0, 0.0);
}

/* Hands 24 left the bank, and 1 has the same strokes: presets/hands.ttl. */
static void a_port_that_says_one_that_left_shows_what_plays_in_its_place(void)
{
    fresh();
    own_say(own, CONTROL_HANDS, 24.0f);
    own_key(own, 'h', 0);
    const int line = list()->selected;
    CHECK_INT(line >= 0 ? own->model.view.shelves[ENTRY_HANDS].entries[list()->rows[line].entry].id
                        : -1,
              1);
    const Entry* const shown = view_entry(&own->model.view, ENTRY_HANDS, 24);
    CHECK_INT(shown ? shown->id : -1, 1);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK_NEAR(own_value(own, CONTROL_HANDS), 24.0, 0.0); /* the host's, until another is picked */
}

static void enter_keeps_what_is_heard(void)
{
    fresh();
    own_key(own, 'f', 0);
    own_key(own, PANE_KEY_DOWN, 0);
    own_key(own, PANE_KEY_DOWN, 0);
    const float heard = own_value(own, CONTROL_FEET);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK(!list()->is_open);
    CHECK_NEAR(own_value(own, CONTROL_FEET), heard, 0.0);
}

static void a_click_outside_keeps_it_too_and_counts(void)
{
    fresh();
    own_key(own, 'f', 0);
    own_key(own, PANE_KEY_DOWN, 0);
    const float heard = own_value(own, CONTROL_FEET);
    own_click(own, (TargetId){TARGET_DIAL, CONTROL_ENABLED});
    CHECK(!list()->is_open);
    CHECK_NEAR(own_value(own, CONTROL_FEET), heard, 0.0);
    CHECK_NEAR(own_value(own, CONTROL_ENABLED), 0.0, 0.0);
}

static void a_click_chooses_a_line_and_a_double_click_keeps_it(void)
{
    fresh();
    own_key(own, 'f', 0);
    own_click(own, (TargetId){TARGET_LIST_ROW, 4});
    CHECK(list()->is_open);
    CHECK_INT(list()->selected, 4);
    const Entry* const entry = &own->model.view.shelves[ENTRY_FEET].entries[list()->rows[4].entry];
    CHECK_NEAR(own_value(own, CONTROL_FEET), entry->id, 0.0);
    own_double_click(own, (TargetId){TARGET_LIST_ROW, 4});
    CHECK(!list()->is_open);
    CHECK_NEAR(own_value(own, CONTROL_FEET), entry->id, 0.0);
}

static void typing_finds_names_and_families(void)
{
    fresh();
    own_key(own, 'f', 0);
    own_type(own, "GaLLop");
    CHECK_TEXT(list()->find, "GaLLop");
    int entries = 0;
    for (int line = 0; line < list()->count; ++line) {
        const Entry* const entry =
            &own->model.view.shelves[ENTRY_FEET].entries[list()->rows[line].entry];
        CHECK(strstr(entry->label, "allop") || strstr(entry->family, "allop"));
        entries += !list()->rows[line].is_heading;
    }
    CHECK(entries > 3);
    own_type(own, "zzz");
    CHECK_INT(list()->count, 0);
    own_key(own, PANE_KEY_DOWN, 0); /* nothing there to walk */
    own_key(own, PANE_KEY_PAGE_UP, 0);
    CHECK_INT(own->writes, 0);
    for (int i = 0; i < 3; ++i) {
        own_key(own, PANE_KEY_BACKSPACE, 0);
    }
    CHECK_TEXT(list()->find, "GaLLop");
    own_key(own, PANE_KEY_ESCAPE, 0); /* first the letters, then the list */
    CHECK_TEXT(list()->find, "");
    CHECK(list()->is_open);
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK(!list()->is_open);
}

static int find(const uint32_t* const letters)
{
    own_key(own, 'f', 0);
    for (int i = 0; letters[i]; ++i) {
        own_key(own, letters[i], 0);
    }
    int found = 0;
    for (int line = 0; line < list()->count; ++line) {
        found += !list()->rows[line].is_heading;
    }
    own_key(own, PANE_KEY_ESCAPE, 0);
    own_key(own, PANE_KEY_ESCAPE, 0);
    return found;
}

/* Case folding of the Unicode Standard (3.13, default caseless matching): sharp s
   is "ss", and both small sigmas are one. */
static void letters_of_any_script_are_found_whatever_their_case(void)
{
    static const uint32_t tower[] = {0x431, 0x430, 0x448, 0x43D, 0}; /* bashn- */
    static const uint32_t street[] = {'s', 't', 'r', 'a', 's', 's', 'e', 0};
    static const uint32_t umlaut[] = {0xE4, 'r', 0};
    static const uint32_t sigma[] = {0x3C3, 0x3C4, 0x3AC, 0x3C3, 0x3B7, 0x3C3, 0};
    static const uint32_t salt[] = {0x5869, 0};
    static const uint32_t none[] = {0x448, 0x448, 0x448, 0};
    fresh();
    Entry* const entries = own->model.entries[ENTRY_FEET];
    entries[2].label = "\xD0\x91\xD0\x90\xD0\xA8\xD0\x9D\xD0\xAF"; /* BASHNYA */
    entries[3].label = "Salzstra\xC3\x9F"
                       "e";
    entries[4].label = "\xC3\x84RGER";
    entries[5].label = "\xCE\xA3\xCE\xA4\xCE\x86\xCE\xA3\xCE\x97\xCE\xA3"; /* STASIS */
    entries[6].label = "\xE5\xA1\xA9\xE9\x81\x93";                         /* salt road */
    CHECK_INT(find(tower), 1);
    CHECK_INT(find(street), 1);
    CHECK_INT(find(umlaut), 1);
    CHECK_INT(find(sigma), 1);
    CHECK_INT(find(salt), 1);
    CHECK_INT(find(none), 0);
}

static void backspace_takes_back_a_whole_letter(void)
{
    fresh();
    own_key(own, 'f', 0);
    own_key(own, 'a', 0);
    own_key(own, 0x5869, 0);
    own_key(own, PANE_KEY_BACKSPACE, 0);
    CHECK_TEXT(list()->find, "a");
    own_key(own, PANE_KEY_BACKSPACE, 0);
    own_key(own, PANE_KEY_BACKSPACE, 0);
    CHECK_TEXT(list()->find, "");
}

static void what_is_no_letter_is_not_typed(void)
{
    static const uint32_t odd[] = {0xD800, 0xDFFF, 0x10FFFF, 0x7F, 0x85, 0xFFFE, 0x200000};
    fresh();
    own_key(own, 'f', 0);
    for (size_t i = 0; i < sizeof odd / sizeof *odd; ++i) {
        const PaneEvent event = {.kind = PANE_KEY, .key = odd[i], .text = odd[i]};
        controller_input(&own->model, &event);
    }
    CHECK_TEXT(list()->find, "");
}

static void the_selected_line_stays_in_sight(void)
{
    static const int heights[] = {420, 540, 760};
    for (int i = 0; i < 3; ++i) {
        fresh();
        controller_resize(&own->model, 960, heights[i], 1.0);
        own_key(own, 'f', 0);
        const Geometry g = geometry_of(&own->model.view);
        const int lines = geometry_list_rows(&g);
        own_key(own, PANE_KEY_END, 0);
        for (int step = 0; step < 300; ++step) {
            const int selected = list()->selected;
            check_case("height %d, step %d", heights[i], step);
            CHECK(selected >= list()->first && selected < list()->first + lines);
            own_key(own,
                    step % 50 == 49 ? PANE_KEY_HOME
                    : step % 3      ? PANE_KEY_DOWN
                                    : PANE_KEY_PAGE_DOWN,
                    0);
        }
        own_key(own, PANE_KEY_HOME, 0);
        CHECK_INT(list()->first, 0);
    }
}

/* What a figure asks of the feet, beside it in the list, is what the plugin says
   once it plays: sixteenths at 120 are eight a second, four a foot (arithmetic). */
static const Demand* asked_by_sixteenths(int32_t* const id, const float tempo)
{
    static const Demand none;
    own_port(own, (uint32_t)(PORT_FIRST_READOUT + READOUT_TEMPO_NOW), tempo);
    own_key(own, 'f', 0);
    own_type(own, "Sixteenths");
    for (int line = 0; line < list()->count; ++line) {
        const Entry* const entry =
            &own->model.view.shelves[ENTRY_FEET].entries[list()->rows[line].entry];
        if (!list()->rows[line].is_heading && !strcmp(entry->label, "Sixteenths")) {
            *id = entry->id;
            return &own->model.view.demands[line];
        }
    }
    return &none;
}

static void the_list_says_what_a_figure_asks(void)
{
    int32_t id = 0;
    fresh();
    const Demand* const demand = asked_by_sixteenths(&id, 120.0f);
    CHECK(demand->is_known);
    CHECK_NEAR(demand->feet[0].rate, 4.0, 1.0);
    CHECK_NEAR(demand->feet[0].gap_ms, 250.0, 0.5);
}

/* A draft plays in the figure's place: quarters at 120 are two a second. */
static void the_list_says_what_its_draft_asks(void)
{
    int32_t id = 0;
    char text[512];
    fresh();
    asked_by_sixteenths(&id, 120.0f);
    while (list()->is_open) {
        own_key(own, PANE_KEY_ESCAPE, 0);
    }
    snprintf(text, sizeof text,
             "@prefix fl: <urn:fourlimb:terms#> .\n<urn:d> a fl:FeetFigure ; fl:id %d ;\n"
             "fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps \"O\" ] .\n",
             (int)id);
    CHECK(drafts_put(&own->model, FIGURE_FEET, text));
    const Demand* const demand = asked_by_sixteenths(&id, 120.0f);
    CHECK(demand->is_known);
    CHECK_NEAR(demand->feet[0].rate, 2.0, 0.5);
    CHECK_NEAR(demand->feet[0].gap_ms, 500.0, 0.5);
}

/* 120 is what hosts begin with: common practice, no source. */
static void before_a_tempo_is_told_the_feet_are_those_at_120(void)
{
    int32_t id = 0;
    fresh();
    const Demand* const demand = asked_by_sixteenths(&id, 0.0f);
    CHECK(demand->is_known);
    CHECK_NEAR(demand->feet[0].rate, 4.0, 1.0);
    CHECK_NEAR(demand->feet[0].gap_ms, 250.0, 0.5);
}

int main(void)
{
    RUN(every_list_shows_every_entry);
    RUN(each_line_tells_meter_grid_length_tempo_and_how_hard);
    RUN(how_hard_an_entry_is_is_asked_when_it_is_shown);
    RUN(walking_a_list_lets_it_be_heard_and_escape_goes_back);
    RUN(a_port_that_says_one_that_left_shows_what_plays_in_its_place);
    RUN(enter_keeps_what_is_heard);
    RUN(a_click_outside_keeps_it_too_and_counts);
    RUN(a_click_chooses_a_line_and_a_double_click_keeps_it);
    RUN(typing_finds_names_and_families);
    RUN(letters_of_any_script_are_found_whatever_their_case);
    RUN(backspace_takes_back_a_whole_letter);
    RUN(what_is_no_letter_is_not_typed);
    RUN(the_selected_line_stays_in_sight);
    RUN(the_list_says_what_a_figure_asks);
    RUN(the_list_says_what_its_draft_asks);
    RUN(before_a_tempo_is_told_the_feet_are_those_at_120);
    own_desk_close(own);
    return tests_end();
}

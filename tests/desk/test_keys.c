// SPDX-License-Identifier: ISC
/* The keyboard: every short cut, typing, and the open list. */
#include "../help/check.h"
#include "own_desk.h"

static OwnDesk* own;

static void fresh(void)
{
    if (own) {
        own_desk_close(own);
    }
    own = own_desk_open();
    desk_tick(&own->desk, 100.0);
}

static void focus(const TargetKind kind, const int index)
{
    own->desk.view.focus = (TargetId){kind, index};
}

static const List* list(void)
{
    return &own->desk.view.list;
}

/* ---- Short cuts */

static void letters_open_the_lists(void)
{
    static const struct {
        uint32_t key;
        ShelfKind shelf;
    } rows[] = {{'g', SHELF_GROOVE}, {'h', SHELF_HANDS}, {'f', SHELF_FEET}};
    for (int i = 0; i < 3; ++i) {
        fresh();
        own_key(own, rows[i].key, 0);
        CHECK(list()->is_open);
        CHECK_INT(list()->shelf, rows[i].shelf);
        CHECK_INT(own->writes, 0); /* looking changes nothing */
    }
}

static void figures_turn_the_limbs(void)
{
    fresh();
    for (uint32_t limb = 0; limb < LIMB_COUNT; ++limb) {
        own_key(own, '1' + limb, 0);
        CHECK_NEAR(own_value(own, (Control)(CONTROL_RIGHT_HAND + limb)), 0.0, 0.0);
        own_key(own, '1' + limb, 0);
        CHECK_NEAR(own_value(own, (Control)(CONTROL_RIGHT_HAND + limb)), 1.0, 0.0);
    }
}

static void check_limbs(const float hands, const float feet)
{
    CHECK_NEAR(own_value(own, CONTROL_RIGHT_HAND), hands, 0.0);
    CHECK_NEAR(own_value(own, CONTROL_LEFT_HAND), hands, 0.0);
    CHECK_NEAR(own_value(own, CONTROL_RIGHT_FOOT), feet, 0.0);
    CHECK_NEAR(own_value(own, CONTROL_LEFT_FOOT), feet, 0.0);
}

static void six_is_hands_alone_seven_feet_alone_nought_all(void)
{
    fresh();
    own_key(own, '6', 0);
    check_limbs(1.0f, 0.0f);
    own_key(own, '7', 0);
    check_limbs(0.0f, 1.0f);
    own_key(own, '0', 0);
    check_limbs(1.0f, 1.0f);
}

static void five_turns_the_click(void)
{
    fresh();
    own_key(own, '5', 0);
    CHECK_NEAR(own_value(own, CONTROL_CLICK), CLICK_ALWAYS, 0.0);
    own_key(own, '5', 0);
    CHECK_NEAR(own_value(own, CONTROL_CLICK), CLICK_OFF, 0.0);
}

static void c_turns_the_clock_p_the_panel_and_l_loops(void)
{
    fresh();
    own_key(own, 'c', 0);
    CHECK_NEAR(own_value(own, CONTROL_CLOCK), 1.0, 0.0);
    own_key(own, 'c', 0);
    CHECK_NEAR(own_value(own, CONTROL_CLOCK), 0.0, 0.0);
    for (int panel = 1; panel <= PANEL_COUNT; ++panel) {
        own_key(own, 'p', 0);
        CHECK_INT(own->desk.view.panel, panel % PANEL_COUNT);
    }
    own->desk.view.place.phrase_bars = 8;
    own->desk.view.place.bar = own->desk.view.place.phrase + 3;
    own_key(own, 'l', 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 4.0, 0.0);
    own_key(own, 'l', 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 0.0, 0.0);
}

/* A place that makes no sense, as a host could say it. */
static void a_bar_outside_the_phrase_cannot_be_looped(void)
{
    static const int64_t bars[] = {16, -5, 1000000000000};
    fresh();
    own->desk.view.place.phrase_bars = 8;
    for (int i = 0; i < 3; ++i) {
        own->desk.view.place.bar = bars[i];
        own->desk.view.place.phrase = bars[i] < 0 ? 8 : 0;
        own_key(own, 'l', 0);
    }
    CHECK_INT(own->writes, 0);
}

static void t_and_figures_set_the_tempo(void)
{
    fresh();
    own_key(own, 't', 0);
    own_type(own, "92.5");
    CHECK(own->desk.view.is_typing);
    CHECK_TEXT(own->desk.view.typed, "92.5");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 92.5, 0.0);
    CHECK(!own->desk.view.is_typing);
}

/* A host's own short cuts come with Control or Alt. */
static void short_cuts_of_the_host_are_left_alone(void)
{
    fresh();
    for (uint32_t key = ' '; key < 127; ++key) {
        own_key(own, key, PANE_CONTROL);
        own_key(own, key, PANE_ALT);
    }
    CHECK_INT(own->writes, 0);
    CHECK(!list()->is_open);
}

/* ---- Typing */

static void escape_leaves_a_value_as_it_was(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "3");
    own_key(own, PANE_KEY_ESCAPE, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), 14.0, 0.0);
    CHECK(!own->desk.view.is_typing);
    CHECK_INT(own->writes, 0);
}

static void what_is_typed_can_be_taken_back(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "29");
    own_key(own, PANE_KEY_BACKSPACE, 0);
    own_type(own, "0");
    CHECK_TEXT(own->desk.view.typed, "20");
    for (int i = 0; i < 5; ++i) {
        own_key(own, PANE_KEY_BACKSPACE, 0);
    }
    CHECK_TEXT(own->desk.view.typed, "");
    own_type(own, "7 ms");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), 7.0, 0.0);
}

static void a_ratio_can_be_typed_as_one(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_SWING_RATIO);
    own_type(own, "3:2");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_SWING_RATIO), 1.5, 1e-6);
}

static void junk_that_was_typed_sets_nothing(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "3xyz");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_INT(own->writes, 0);
}

static void more_than_there_is_room_for_is_left_out(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    for (int i = 0; i < 200; ++i) {
        own_type(own, "1");
    }
    CHECK_INT(strlen(own->desk.view.typed), TYPED_ROOM - 1);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), 30.0, 0.0);
}

static void clicking_elsewhere_ends_typing_without_a_change(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "3");
    own_click(own, (TargetId){TARGET_TAB, PANEL_RHYTHM});
    CHECK(!own->desk.view.is_typing);
    CHECK_NEAR(own_value(own, CONTROL_LOOSENESS), 14.0, 0.0);
}

/* ---- What has the focus */

static void arrows_step_a_dial(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_TOUCH);
    static const struct {
        uint32_t key, modifiers;
        double value;
    } rows[] = {
        {PANE_KEY_UP, 0, 51.0},      {PANE_KEY_UP, PANE_SHIFT, 51.1},   {PANE_KEY_DOWN, 0, 50.1},
        {PANE_KEY_PAGE_UP, 0, 60.1}, {PANE_KEY_PAGE_DOWN, 0, 50.1},     {PANE_KEY_END, 0, 100.0},
        {PANE_KEY_UP, 0, 100.0},     {PANE_KEY_HOME, 0, 0.0},           {PANE_KEY_DOWN, 0, 0.0},
        {PANE_KEY_DELETE, 0, 50.0},  {PANE_KEY_DOWN, PANE_SHIFT, 49.9},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        own_key(own, rows[i].key, rows[i].modifiers);
        check_case("key %zu", i);
        CHECK_NEAR(own_value(own, CONTROL_TOUCH), rows[i].value, 1e-4);
    }
    CHECK_INT(own->held, 0);
    CHECK_INT(own->unbalanced, 0);
}

static void enter_goes_round_the_words_of_a_choice(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_CHANGE_AT); /* at 2 of 0 to 3 */
    static const double values[] = {3.0, 0.0, 1.0, 2.0};
    for (int i = 0; i < 4; ++i) {
        own_key(own, PANE_KEY_ENTER, 0);
        CHECK_NEAR(own_value(own, CONTROL_CHANGE_AT), values[i], 0.0);
    }
}

static void enter_turns_a_switch(void)
{
    fresh();
    focus(TARGET_DIAL, CONTROL_ENABLED);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_ENABLED), 0.0, 0.0);
    focus(TARGET_CLICK, 0);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_CLICK), CLICK_ALWAYS, 0.0);
}

static void enter_on_a_bar_loops_it(void)
{
    fresh();
    own->desk.view.place.phrase_bars = 4;
    focus(TARGET_BAR, 2);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 3.0, 0.0);
}

/* From the first entry of each shelf down to the last: each once. */
static void down_walks_every_entry_of_a_card(void)
{
    for (int shelf = 0; shelf < SHELF_COUNT; ++shelf) {
        fresh();
        const Shelf* const entries = &own->desk.view.shelves[shelf];
        const Control control = shelf_control((ShelfKind)shelf);
        own_say(own, control, (float)entries->entries[0].id);
        focus(TARGET_CARD, shelf);
        check_case("shelf %d", shelf);
        const bool own_first = shelf == SHELF_HANDS || shelf == SHELF_FEET;
        const int first = own_first ? 1 : 0; /* "as the groove has it" is where it begins */
        for (int i = first; i < entries->count; ++i) {
            if (i > 0) {
                own_key(own, PANE_KEY_DOWN, 0);
            }
            CHECK_NEAR(own_value(own, control), entries->entries[i].id, 0.0);
        }
        own_key(own, PANE_KEY_DOWN, 0); /* the end holds */
        CHECK_NEAR(own_value(own, control), entries->entries[entries->count - 1].id, 0.0);
        CHECK_INT(own->wrong, 0);
    }
}

static void page_down_goes_to_the_next_family(void)
{
    fresh();
    const Shelf* const feet = &own->desk.view.shelves[SHELF_FEET];
    own_say(own, CONTROL_FEET, (float)feet->entries[1].id);
    focus(TARGET_CARD, SHELF_FEET);
    const char* const before = feet->entries[1].family;
    own_key(own, PANE_KEY_PAGE_DOWN, 0);
    const Entry* const entry =
        view_entry(&own->desk.view, SHELF_FEET, (int32_t)own_value(own, CONTROL_FEET));
    CHECK(entry && strcmp(entry->family, before) != 0);
    CHECK(entry && entry > feet->entries && strcmp(entry[-1].family, before) == 0);
    own_key(own, PANE_KEY_PAGE_UP, 0);
    CHECK_NEAR(own_value(own, CONTROL_FEET), feet->entries[1].id, 0.0);
    own_key(own, PANE_KEY_DELETE, 0);
    CHECK_NEAR(own_value(own, CONTROL_FEET), 0.0, 0.0);
}

/* ---- The list */

static void every_list_shows_every_entry(void)
{
    for (int shelf = 0; shelf < SHELF_COUNT; ++shelf) {
        fresh();
        focus(TARGET_CARD, shelf);
        own_key(own, PANE_KEY_ENTER, 0);
        int entries = 0;
        check_case("shelf %d", shelf);
        for (int line = 0; line < list()->count; ++line) {
            entries += !list()->lines[line].is_heading;
            CHECK(line + 1 < list()->count || !list()->lines[line].is_heading);
        }
        CHECK_INT(entries, own->desk.view.shelves[shelf].count);
    }
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
    own_click(own, (TargetId){TARGET_LINE, 4});
    CHECK(list()->is_open);
    CHECK_INT(list()->selected, 4);
    const Entry* const entry = &own->desk.view.shelves[SHELF_FEET].entries[list()->lines[4].entry];
    CHECK_NEAR(own_value(own, CONTROL_FEET), entry->id, 0.0);
    own_double_click(own, (TargetId){TARGET_LINE, 4});
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
            &own->desk.view.shelves[SHELF_FEET].entries[list()->lines[line].entry];
        CHECK(strstr(entry->label, "allop") || strstr(entry->family, "allop"));
        entries += !list()->lines[line].is_heading;
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
        found += !list()->lines[line].is_heading;
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
    Entry* const entries = own->desk.entries[SHELF_FEET];
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
        desk_input(&own->desk, &event);
    }
    CHECK_TEXT(list()->find, "");
}

static void the_selected_line_stays_in_sight(void)
{
    static const int heights[] = {420, 540, 760};
    for (int i = 0; i < 3; ++i) {
        fresh();
        desk_resize(&own->desk, 960, heights[i], 1.0);
        own_key(own, 'f', 0);
        const Geometry g = geometry_of(&own->desk.view);
        const int lines = geometry_list_lines(&g);
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
static void the_list_says_what_a_figure_asks(void)
{
    fresh();
    own_port(own, (uint32_t)(PORT_FIRST_READOUT + READOUT_TEMPO_NOW), 120.0f);
    own_key(own, 'f', 0);
    own_type(own, "Sixteenths");
    for (int line = 0; line < list()->count; ++line) {
        const Entry* const entry =
            &own->desk.view.shelves[SHELF_FEET].entries[list()->lines[line].entry];
        if (!list()->lines[line].is_heading && !strcmp(entry->label, "Sixteenths")) {
            const Demand* const demand = &own->desk.view.demands[line];
            CHECK(demand->is_known);
            CHECK_NEAR(demand->feet[0].rate, 4.0, 1.0);
            CHECK_NEAR(demand->feet[0].gap_ms, 250.0, 0.5);
            return;
        }
    }
    CHECK(false);
}

int main(void)
{
    RUN(letters_open_the_lists);
    RUN(figures_turn_the_limbs);
    RUN(six_is_hands_alone_seven_feet_alone_nought_all);
    RUN(five_turns_the_click);
    RUN(c_turns_the_clock_p_the_panel_and_l_loops);
    RUN(a_bar_outside_the_phrase_cannot_be_looped);
    RUN(t_and_figures_set_the_tempo);
    RUN(short_cuts_of_the_host_are_left_alone);
    RUN(escape_leaves_a_value_as_it_was);
    RUN(what_is_typed_can_be_taken_back);
    RUN(a_ratio_can_be_typed_as_one);
    RUN(junk_that_was_typed_sets_nothing);
    RUN(more_than_there_is_room_for_is_left_out);
    RUN(clicking_elsewhere_ends_typing_without_a_change);
    RUN(arrows_step_a_dial);
    RUN(enter_goes_round_the_words_of_a_choice);
    RUN(enter_turns_a_switch);
    RUN(enter_on_a_bar_loops_it);
    RUN(down_walks_every_entry_of_a_card);
    RUN(page_down_goes_to_the_next_family);
    RUN(every_list_shows_every_entry);
    RUN(walking_a_list_lets_it_be_heard_and_escape_goes_back);
    RUN(enter_keeps_what_is_heard);
    RUN(a_click_outside_keeps_it_too_and_counts);
    RUN(a_click_chooses_a_line_and_a_double_click_keeps_it);
    RUN(typing_finds_names_and_families);
    RUN(letters_of_any_script_are_found_whatever_their_case);
    RUN(backspace_takes_back_a_whole_letter);
    RUN(what_is_no_letter_is_not_typed);
    RUN(the_selected_line_stays_in_sight);
    RUN(the_list_says_what_a_figure_asks);
    own_desk_close(own);
    return tests_end();
}

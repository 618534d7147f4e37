// SPDX-License-Identifier: ISC
/* The keyboard: every short cut, what is the host's, and what has the focus. */
#include "../../plugin/engine/groove/settings.h"
#include "../help/check.h"
#include "fresh_desk.h"

/* ---- Short cuts */

static void letters_open_the_lists(void)
{
    static const struct {
        uint32_t key;
        EntryKind shelf;
    } rows[] = {{'g', ENTRY_GROOVE}, {'h', ENTRY_HANDS}, {'f', ENTRY_FEET}};
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
    for (int panel = 1; panel <= PANEL_EDIT; ++panel) { /* the pages, not the states */
        own_key(own, 'p', 0);
        CHECK_INT(own->model.view.panel, panel % PANEL_EDIT);
    }
    own->model.view.place.phrase_bars = 8;
    own->model.view.place.bar = own->model.view.place.phrase + 3;
    own_key(own, 'l', 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 4.0, 0.0);
    own_key(own, 'l', 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 0.0, 0.0);
}

static void o_and_esc_go_back_to_the_page(void)
{
    static const uint32_t back[] = {'o', PANE_KEY_ESCAPE};
    for (int i = 0; i < 2; ++i) {
        fresh();
        own_click(own, (TargetId){TARGET_TAB, PANEL_FILLS});
        own_key(own, 'o', 0);
        CHECK_INT(own->model.view.panel, PANEL_OUTPUT);
        own_key(own, back[i], 0);
        CHECK_INT(own->model.view.panel, PANEL_FILLS);
        own_key(own, 'e', 0);
        own_key(own, PANE_KEY_ESCAPE, 0); /* out of the row, */
        CHECK_INT(own->model.view.panel, PANEL_EDIT);
        own_key(own, 'o', 0);
        own_key(own, 'p', 0); /* the page after the one that states took the place of */
        CHECK_INT(own->model.view.panel, PANEL_FILLS + 1);
    }
}

/* A place that makes no sense, as a host could say it. */
static void a_bar_outside_the_phrase_cannot_be_looped(void)
{
    static const int64_t bars[] = {16, -5, 1000000000000};
    fresh();
    own->model.view.place.phrase_bars = 8;
    for (int i = 0; i < 3; ++i) {
        own->model.view.place.bar = bars[i];
        own->model.view.place.phrase = bars[i] < 0 ? 8 : 0;
        own_key(own, 'l', 0);
    }
    CHECK_INT(own->writes, 0);
}

static void t_and_figures_set_the_tempo(void)
{
    fresh();
    own_key(own, 't', 0);
    own_type(own, "92.5");
    CHECK(own->model.view.is_typing);
    CHECK_TEXT(own->model.view.typed, "92.5");
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_TEMPO), 92.5, 0.0);
    CHECK(!own->model.view.is_typing);
}

/* Whatever has the focus. */
static const TargetId places[] = {
    {TARGET_DIAL, CONTROL_LOOSENESS},
    {TARGET_DIAL, CONTROL_ENABLED},
    {TARGET_DIAL, CONTROL_CLOCK},
    {TARGET_CLICK, 0},
    {TARGET_CARD, ENTRY_FEET},
    {TARGET_TAB, PANEL_RHYTHM},
    {TARGET_BAR, 0},
    {TARGET_THEME, 0},
    {TARGET_EDIT, EDIT_SAVE},
    {TARGET_CARD, ENTRY_GROOVE},
};
enum { PLACES = sizeof places / sizeof *places };

/* A key of each kind, named or typed. */
static bool is_none_used(const uint32_t modifiers)
{
    bool none = true;
    for (uint32_t key = ' '; key < 127; ++key) {
        none = none && !own_key(own, key, modifiers);
    }
    for (uint32_t key = PANE_KEY_UP; key <= PANE_KEY_F12; ++key) {
        none = none && !own_key(own, key, modifiers);
    }
    return none;
}

/* A host's own short cuts come with Control, Alt or Super. */
static void short_cuts_of_the_host_are_left_alone(void)
{
    static const uint32_t modifiers[] = {PANE_CONTROL, PANE_ALT, PANE_SUPER,
                                         PANE_CONTROL | PANE_SHIFT};
    for (int i = 0; i < 4; ++i) {
        for (int place = 0; place < PLACES; ++place) {
            fresh();
            focus(places[place].kind, places[place].index);
            CHECK(is_none_used(modifiers[i]));
            CHECK(view_target_same(own->model.view.focus, places[place]));
            CHECK_INT(own->writes, 0);
            CHECK(!list()->is_open);
        }
        own_key(own, 'f', 0); /* nor in a list */
        CHECK(is_none_used(modifiers[i]));
        CHECK(list()->is_open);
        fresh();
        focus(TARGET_DIAL, CONTROL_LOOSENESS); /* nor while typing */
        own_type(own, "3");
        CHECK(is_none_used(modifiers[i]));
        CHECK(own->model.view.is_typing);
        CHECK_INT(own->writes, 0);
    }
}

/* Space is what hosts start and stop by. */
static void space_is_the_hosts_but_in_what_is_typed(void)
{
    for (int place = 0; place < PLACES; ++place) {
        fresh();
        focus(places[place].kind, places[place].index);
        check_case("place %d", place);
        CHECK(!own_key(own, ' ', 0));
        CHECK(!own_key(own, 'q', 0));
        CHECK(!own_key(own, PANE_KEY_F1, 0));
        if (page_rows[own->model.view.panel].group != PAGES_STATE) {
            CHECK(!own_key(own, PANE_KEY_ESCAPE, 0)); /* nothing is dragged */
        }
        CHECK_INT(own->writes, 0);
    }
    fresh();
    own_key(own, 'f', 0);
    CHECK(own_key(own, ' ', 0));
    CHECK_TEXT(list()->find, " ");
    fresh();
    focus(TARGET_DIAL, CONTROL_LOOSENESS);
    own_type(own, "3");
    CHECK(own_key(own, ' ', 0));
    CHECK(own_key(own, PANE_KEY_LEFT, 0)); /* as in any field */
    CHECK(!own_key(own, PANE_KEY_F1, 0));
}

/* Those of the README's table. */
static void keys_that_do_something_are_kept_from_the_host(void)
{
    static const char letters[] = "12345670fhgctzywlp";
    for (const char* letter = letters; *letter; ++letter) {
        fresh();
        check_case("%c", *letter);
        CHECK(own_key(own, (uint32_t)*letter, 0));
    }
    static const uint32_t keys[] = {
        PANE_KEY_TAB,       PANE_KEY_LEFT,    PANE_KEY_RIGHT, PANE_KEY_UP,
        PANE_KEY_DOWN,      PANE_KEY_HOME,    PANE_KEY_END,   '9',
        PANE_KEY_PAGE_DOWN, PANE_KEY_PAGE_UP, PANE_KEY_DELETE};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; ++i) {
        fresh();
        focus(TARGET_DIAL, CONTROL_LOOSENESS);
        check_case("key %zu", i);
        CHECK(own_key(own, keys[i], 0));
    }
    fresh();
    focus(TARGET_DIAL, CONTROL_ENABLED);
    CHECK(own_key(own, PANE_KEY_ENTER, 0));
    own_key(own, 'f', 0);
    CHECK(own_key(own, PANE_KEY_ESCAPE, 0));
    own_press(own, (TargetId){TARGET_DIAL, CONTROL_LOOSENESS}, 0);
    CHECK(own_key(own, PANE_KEY_ESCAPE, 0)); /* puts back what is dragged */
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
    own->model.view.place.phrase_bars = 4;
    focus(TARGET_BAR, 2);
    own_key(own, PANE_KEY_ENTER, 0);
    CHECK_NEAR(own_value(own, CONTROL_LOOP_BAR), 3.0, 0.0);
}

/* From the first entry of each shelf down to the last: each once. */
static void down_walks_every_entry_of_a_card(void)
{
    for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
        fresh();
        const Shelf* const entries = &own->model.view.shelves[shelf];
        const Control control = kind_controls[shelf];
        own_say(own, control, (float)entries->entries[0].id);
        focus(TARGET_CARD, shelf);
        check_case("shelf %d", shelf);
        const bool own_first = shelf == ENTRY_HANDS || shelf == ENTRY_FEET;
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
    const Shelf* const feet = &own->model.view.shelves[ENTRY_FEET];
    own_say(own, CONTROL_FEET, (float)feet->entries[1].id);
    focus(TARGET_CARD, ENTRY_FEET);
    const char* const before = feet->entries[1].family;
    own_key(own, PANE_KEY_PAGE_DOWN, 0);
    const Entry* const entry =
        view_entry(&own->model.view, ENTRY_FEET, (int32_t)own_value(own, CONTROL_FEET));
    CHECK(entry && strcmp(entry->family, before) != 0);
    CHECK(entry && entry > feet->entries && strcmp(entry[-1].family, before) == 0);
    own_key(own, PANE_KEY_PAGE_UP, 0);
    CHECK_NEAR(own_value(own, CONTROL_FEET), feet->entries[1].id, 0.0);
    own_key(own, PANE_KEY_DELETE, 0);
    CHECK_NEAR(own_value(own, CONTROL_FEET), 0.0, 0.0);
}

int main(void)
{
    RUN(letters_open_the_lists);
    RUN(figures_turn_the_limbs);
    RUN(six_is_hands_alone_seven_feet_alone_nought_all);
    RUN(five_turns_the_click);
    RUN(c_turns_the_clock_p_the_panel_and_l_loops);
    RUN(o_and_esc_go_back_to_the_page);
    RUN(a_bar_outside_the_phrase_cannot_be_looped);
    RUN(t_and_figures_set_the_tempo);
    RUN(short_cuts_of_the_host_are_left_alone);
    RUN(space_is_the_hosts_but_in_what_is_typed);
    RUN(keys_that_do_something_are_kept_from_the_host);
    RUN(arrows_step_a_dial);
    RUN(enter_goes_round_the_words_of_a_choice);
    RUN(enter_turns_a_switch);
    RUN(enter_on_a_bar_loops_it);
    RUN(down_walks_every_entry_of_a_card);
    RUN(page_down_goes_to_the_next_family);
    own_desk_close(own);
    return tests_end();
}

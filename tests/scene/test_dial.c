// SPDX-License-Identifier: ISC
/* Every control port is on the screen once, in the words and the range that the
   bundle's Turtle states: read by lilv, an outside library (LV2's reference). */
#include "../../plugin/engine/varied/variation.h"
#include "../../ui/scene/cells.h"
#include "../../ui/scene/target_choice.h"
#include "../desk/own_desk.h"
#include "../help/check.h"
#include "../plugin/bundle.h"

#define PORT_PROPS "http://lv2plug.in/ns/ext/port-props#"

#include <locale.h>

static OwnDesk* own;
static Host* host;

/* ---- On the screen */

/* Which control a target sets; CONTROL_COUNT: none. */
static Control control_of(const TargetId id)
{
    return id.kind == TARGET_DIAL   ? (Control)id.index
           : id.kind == TARGET_CARD ? kind_controls[id.index]
                                    : CONTROL_COUNT;
}

static void count_targets(int counts[CONTROL_COUNT], const bool panel_only)
{
    static TargetList targets;
    const Geometry g = geometry_of(&own->model.view);
    targets_of(&own->model.view, &g, &targets);
    for (int i = 0; i < targets.count; ++i) {
        const Control control = control_of(targets.targets[i].id);
        if (control < CONTROL_COUNT && (!panel_only || targets.targets[i].group == GROUP_PANEL)) {
            ++counts[control];
        }
    }
}

static void check_all_once(const int width, const int height, const int pages)
{
    int counts[CONTROL_COUNT] = {0};
    View* const view = &own->model.view;
    controller_resize(&own->model, width, height, 1.0);
    for (int panel = 0; panel < PANEL_COUNT; ++panel) {
        for (int page = 0; page < pages; ++page) {
            view->panel = (Panel)panel;
            view->page = page;
            if (page && !cells_have_rows(view->panel)) {
                continue;
            }
            count_targets(counts, panel || page);
        }
    }
    for (int control = 0; control < CONTROL_COUNT; ++control) {
        check_case("%s at %d by %d", control_rows[control].symbol, width, height);
        CHECK_INT(counts[control], 1);
    }
    view->panel = PANEL_FEEL;
    view->page = 0;
}

static void every_control_is_on_the_screen_once(void)
{
    check_all_once(960, 540, 1);
    check_all_once(720, 420, 2);
}

static void the_click_has_a_switch_beside_its_row_too(void)
{
    Target target;
    controller_resize(&own->model, 960, 540, 1.0);
    CHECK(own_find(own, (TargetId){TARGET_CLICK, 0}, &target));
}

/* ---- Ranges */

static const LilvPort* port_of(const Control control)
{
    return lilv_plugin_get_port_by_index(host_plugin(host),
                                         (uint32_t)(PORT_FIRST_CONTROL + control));
}

static bool has_property(const Control control, const char* const uri)
{
    LilvNode* const node = lilv_new_uri(host_world(host), uri);
    const bool has = lilv_port_has_property(host_plugin(host), port_of(control), node);
    lilv_node_free(node);
    return has;
}

static void ranges_and_defaults_are_those_of_the_turtle(void)
{
    const uint32_t count = lilv_plugin_get_num_ports(host_plugin(host));
    float* const least = calloc(count, sizeof *least);
    float* const most = calloc(count, sizeof *most);
    float* const normal = calloc(count, sizeof *normal);
    lilv_plugin_get_port_ranges_float(host_plugin(host), least, most, normal);
    for (int control = 0; control < CONTROL_COUNT; ++control) {
        const uint32_t port = (uint32_t)(PORT_FIRST_CONTROL + control);
        check_case("%s", control_rows[control].symbol);
        CHECK_NEAR(dial_fit((Control)control, -1e9), least[port], 0.0);
        CHECK_NEAR(dial_fit((Control)control, 1e9), most[port], 0.0);
        CHECK_NEAR(own_value(own, (Control)control), normal[port], 0.0);
        CHECK_NEAR(dial_share((Control)control, least[port]), 0.0, 0.0);
        CHECK_NEAR(dial_share((Control)control, most[port]), 1.0, 0.0);
    }
    free(least);
    free(most);
    free(normal);
}

static void whole_numbers_are_those_that_the_turtle_calls_so(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const Control control = (Control)i;
        const bool is_whole = has_property(control, LV2_CORE "integer") ||
                              has_property(control, LV2_CORE "toggled") ||
                              has_property(control, LV2_CORE "enumeration");
        check_case("%s", control_rows[control].symbol);
        CHECK_INT(dial_of(control)->fine >= 1.0, is_whole);
    }
}

static void switches_are_those_that_the_turtle_toggles(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const Control control = (Control)i;
        check_case("%s", control_rows[control].symbol);
        const bool is_trigger = has_property(control, PORT_PROPS "trigger");
        CHECK_INT(dial_of(control)->kind == DIAL_SWITCH,
                  has_property(control, LV2_CORE "toggled") && !is_trigger);
        CHECK_INT(dial_of(control)->kind == DIAL_TRIGGER, is_trigger);
    }
}

/* ---- Words */

static void words_cover_the_range(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const Dial* const dial = dial_of((Control)i);
        check_case("%s", control_rows[i].symbol);
        CHECK(*dial->label && *dial->help);
        CHECK_INT(dial->form == FORM_WORDS, dial->words != NULL);
        for (int word = 0; dial->words && word < target_choice_words((Control)i); ++word) {
            CHECK(dial->words[word] && *dial->words[word]);
            for (int other = 0; other < word; ++other) {
                CHECK(strcmp(dial->words[word], dial->words[other]) != 0);
            }
        }
    }
}

/* An lv2:enumeration has no values but its scale points: a word for each of them. */
static void an_enumeration_has_a_word_for_each_of_its_points(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        LilvScalePoints* const points =
            lilv_port_get_scale_points(host_plugin(host), port_of((Control)i));
        const bool is_picked = dial_of((Control)i)->kind == DIAL_PICK;
        if (has_property((Control)i, LV2_CORE "enumeration") && !is_picked) {
            check_case("%s", control_rows[i].symbol);
            const bool is_varied = dial_of((Control)i)->form == FORM_VARIED;
            const int words = is_varied ? VARIATION_COUNT : target_choice_words((Control)i);
            CHECK(is_varied || dial_of((Control)i)->form == FORM_WORDS);
            CHECK_INT(lilv_scale_points_size(points), words);
        }
        lilv_scale_points_free(points);
    }
}

static void what_is_written_is_short_enough_for_its_buffer(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const float span = control_rows[i].most - control_rows[i].least;
        for (int step = 0; step <= 1000; ++step) {
            char text[DIAL_TEXT_ROOM] = "";
            const char* unit = NULL;
            const float value = control_rows[i].least + span * (float)step / 1000.0f;
            dial_text(&own->model.view, (Control)i, value, text, &unit);
            check_case("%s at %g", control_rows[i].symbol, (double)value);
            CHECK(*text && unit && strlen(text) + 1 < DIAL_TEXT_ROOM);
        }
    }
}

/* A number as it is written, its unit beside it, is read as itself. */
static void a_number_written_is_read_again(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const Control control = (Control)i;
        const Dial* const dial = dial_of(control);
        float value = control_rows[i].least;
        while (dial->kind == DIAL_VALUE && dial->form == FORM_NUMBER &&
               value < control_rows[i].most) {
            char text[DIAL_TEXT_ROOM];
            char typed[2 * DIAL_TEXT_ROOM];
            const char* unit = "";
            char why[DIAL_WHY_ROOM];
            float read = -999.0f;
            dial_text(&own->model.view, control, value, text, &unit);
            snprintf(typed, sizeof typed, "%s %s", text, unit);
            check_case("%s: \"%s\"", control_rows[i].symbol, typed);
            const bool is_word = dial->zero && !strcmp(text, dial->zero);
            CHECK_INT(dial_parse(control, typed, &read, why), !is_word);
            CHECK(is_word || fabsf(read - value) <= 0.051f);
            value = dial_step(control, value, 1.0, true);
        }
    }
}

static void check_parse(const Control control, const char* const typed, const double wanted)
{
    float value = -999.0f;
    char why[DIAL_WHY_ROOM] = "";
    check_case("%s: \"%s\"", control_rows[control].symbol, typed);
    CHECK(dial_parse(control, typed, &value, why));
    CHECK_TEXT(why, "");
    CHECK_NEAR(value, wanted, 1e-5);
}

static void values_are_read_as_people_type_them(void)
{
    check_parse(CONTROL_SWING_RATIO, "2:1", 2.0);
    check_parse(CONTROL_SWING_RATIO, "2 : 1", 2.0);
    check_parse(CONTROL_SWING_RATIO, "3/2", 1.5);
    check_parse(CONTROL_SWING_RATIO, "1.67", 1.67);
    check_parse(CONTROL_LOOSENESS, "12 ms", 12.0);
    check_parse(CONTROL_LOOSENESS, "12ms", 12.0);
    check_parse(CONTROL_LOOSENESS, " 12 ", 12.0);
    check_parse(CONTROL_TOUCH, "35%", 35.0);
    check_parse(CONTROL_TEMPO, "92.5 bpm", 92.5);
    check_parse(CONTROL_TEMPO, "92,5", 92.5);
    check_parse(CONTROL_PUSH_SNARE, "-10", -10.0);
    check_parse(CONTROL_FEET_CYCLE, "3 steps", 3.0);
    check_parse(CONTROL_FEET_CYCLE, "3.0", 3.0);
    check_parse(CONTROL_TEMPO, "400", 400.0);
    check_parse(CONTROL_HANDS_SHIFT, "-32", -32.0);
}

/* Nothing is cut, rounded or brought into range behind a person's back. */
static void what_a_dial_cannot_take_is_refused_with_its_range(void)
{
    static const struct {
        Control control;
        const char* typed;
        const char* why;
    } rows[] = {
        {CONTROL_TEMPO, "5000", "Tempo: \"5000\" is not a number from 20 to 400 bpm"},
        {CONTROL_TEMPO, "-5", "Tempo: \"-5\" is not a number from 20 to 400 bpm"},
        {CONTROL_TEMPO, "1e9", "Tempo: \"1e9\" is not a number from 20 to 400 bpm"},
        {CONTROL_LOOSENESS, "9x", "Looseness: \"9x\" is not a number from 0 to 30 ms"},
        {CONTROL_FEET_CYCLE, "3.4", "Feet cycle: \"3.4\" is not a whole number from 0 to 64 steps"},
        {CONTROL_HANDS_SHIFT, "-99",
         "Hands shift: \"-99\" is not a whole number from -32 to 32 steps"},
        {CONTROL_SWING_RATIO, "4:1", "Swing: \"4:1\" is not a number from 1 to 3"},
        {CONTROL_HANDS_GRID, "13", "Hands grid: \"13\" is not a whole number from 0 to 12"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        char why[DIAL_WHY_ROOM] = "";
        float value = 7.0f;
        CHECK(!dial_parse(rows[i].control, rows[i].typed, &value, why));
        CHECK_TEXT(why, rows[i].why);
        CHECK_NEAR(value, 7.0, 0.0);
    }
}

/* Some hosts set the numbers' locale to the user's. */
static void a_host_with_decimal_commas_changes_nothing(void)
{
    if (!setlocale(LC_NUMERIC, "de_DE.UTF-8") && !setlocale(LC_NUMERIC, "fr_FR.UTF-8")) {
        test_skip("this machine has no locale with a decimal comma");
        return;
    }
    check_parse(CONTROL_TEMPO, "92.5", 92.5);
    check_parse(CONTROL_TEMPO, "92,5", 92.5);
    a_number_written_is_read_again();
    setlocale(LC_NUMERIC, "C");
}

static void junk_is_no_value(void)
{
    static const char* const junk[] = {
        "",    " ",   "-",    ".",       "abc", "12 cm", "1:",   "1:0",  ":1",   "2:1x",
        "nan", "inf", "-inf", "12 ms x", "0x",  "--1",   "1..2", "2:-1", "2:nan"};
    for (size_t i = 0; i < sizeof junk / sizeof *junk; ++i) {
        for (int control = 0; control < CONTROL_COUNT; ++control) {
            float value = 7.0f;
            char why[DIAL_WHY_ROOM] = "";
            check_case("%s: \"%s\"", control_rows[control].symbol, junk[i]);
            CHECK(!dial_parse((Control)control, junk[i], &value, why));
            CHECK(strstr(why, junk[i]));
            CHECK_NEAR(value, 7.0, 0.0);
        }
    }
}

/* ---- Steps */

static void steps_stay_in_range_and_on_the_grid(void)
{
    static const double moves[] = {1.0, -1.0, 10.0, -10.0, 0.3, 1e9, -1e9};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        float value = control_rows[i].normal;
        for (int step = 0; step < 70; ++step) {
            const bool fine = step % 3 == 0;
            value = dial_step((Control)i, value, moves[step % 7], fine);
            check_case("%s, step %d: %g", control_rows[i].symbol, step, (double)value);
            CHECK(value >= control_rows[i].least && value <= control_rows[i].most);
            const double steps = (double)value / dial_of((Control)i)->fine;
            CHECK_NEAR(steps, floor(steps + 0.5), 1e-3);
        }
    }
}

static void a_step_up_and_one_down_is_where_it_was(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const float span = control_rows[i].most - control_rows[i].least;
        const float middle = dial_fit((Control)i, (double)control_rows[i].least + (double)span / 2);
        const float value = dial_step((Control)i, middle, 0.0, true);
        const float up = dial_step((Control)i, value, 1.0, false);
        check_case("%s", control_rows[i].symbol);
        CHECK(up > value || span < 2.0f);
        if (up > value) {
            CHECK_NEAR(dial_step((Control)i, up, -1.0, false), value, 1e-5);
        }
    }
}

static void what_is_no_number_becomes_the_default(void)
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        CHECK_NEAR(dial_fit((Control)i, (double)NAN), control_rows[i].normal, 0.0);
    }
}

int main(void)
{
    own = own_desk_open();
    host = bundle_host(48000.0);
    RUN(every_control_is_on_the_screen_once);
    RUN(the_click_has_a_switch_beside_its_row_too);
    RUN(ranges_and_defaults_are_those_of_the_turtle);
    RUN(whole_numbers_are_those_that_the_turtle_calls_so);
    RUN(switches_are_those_that_the_turtle_toggles);
    RUN(words_cover_the_range);
    RUN(an_enumeration_has_a_word_for_each_of_its_points);
    RUN(what_is_written_is_short_enough_for_its_buffer);
    RUN(a_number_written_is_read_again);
    RUN(values_are_read_as_people_type_them);
    RUN(what_a_dial_cannot_take_is_refused_with_its_range);
    RUN(a_host_with_decimal_commas_changes_nothing);
    RUN(junk_is_no_value);
    RUN(steps_stay_in_range_and_on_the_grid);
    RUN(a_step_up_and_one_down_is_where_it_was);
    RUN(what_is_no_number_becomes_the_default);
    host_close(host);
    own_desk_close(own);
    return tests_end();
}

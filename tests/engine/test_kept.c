// SPDX-License-Identifier: ISC
/* test_kept.c - a kept selection is all that says what is written, and nothing else; it is
   found in a library of its own. */
#include "../../plugin/engine/groove/selection.h"
#include "../help/check.h"

#include <math.h>
#include <string.h>

static void fill(float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
}

static float other_value(const int control)
{
    const ControlRow* const row = &control_rows[control];
    return row->normal < row->most ? row->most : row->least;
}

/* A bar that loops is practised, not written; a trigger is of one block; which line a change
   waits for isn't part of what comes in there. */
static bool says_what_is_written(const Settings* const a, const Settings* const b)
{
    return !settings_play_alike(a, b) || fabs(a->swing_ratio - b->swing_ratio) > 0.0 ||
           a->swing_sixteenths != b->swing_sixteenths || a->swing_follow != b->swing_follow;
}

static void what_is_written_is_the_selection(void)
{
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        fill(values);
        const Settings before = settings_from_controls(values);
        values[i] = other_value(i);
        const Settings after = settings_from_controls(values);
        check_case("%s", control_rows[i].symbol);
        if (i != CONTROL_LOOP_BAR) {
            CHECK_INT(control_rows[i].is_selection, says_what_is_written(&before, &after));
        }
    }
    check_case("loop_bar");
    CHECK(!control_rows[CONTROL_LOOP_BAR].is_selection);
}

static void what_is_kept_takes_the_place_of_all_picks_and_of_nothing_else(void)
{
    float ports[CONTROL_COUNT], kept[CONTROL_COUNT];
    fill(ports);
    fill(kept);
    ports[CONTROL_FEET] = 7.0f;
    ports[CONTROL_LEVEL] = 100.0f;
    kept[CONTROL_FEET] = 50.0f;
    kept[CONTROL_LEVEL] = 1.0f;
    kept[CONTROL_SWING_RATIO] = 2.0f;
    const Settings settings = settings_of_kept(ports, 3, kept);
    CHECK_INT(settings.kept, 3);
    CHECK_INT(settings.feet, 50);
    CHECK_NEAR(settings.swing_ratio, 2.0, 0.0);
    CHECK_INT(settings.feel.level, 100);
    CHECK_INT(settings_from_controls(ports).kept, 0);
}

static void two_that_are_kept_are_a_change_even_with_the_same_picks(void)
{
    float values[CONTROL_COUNT];
    fill(values);
    const Settings a = settings_of_kept(values, 1, values);
    const Settings b = settings_of_kept(values, 2, values);
    CHECK(!settings_play_alike(&a, &b));
    CHECK(settings_play_alike(&a, &a));
}

static void the_swing_of_what_is_kept_comes_with_it(void)
{
    float values[CONTROL_COUNT], swung[CONTROL_COUNT];
    fill(values);
    fill(swung);
    swung[CONTROL_SWING_RATIO] = 2.0f;
    Settings played = settings_from_controls(values);
    const Settings asked = settings_of_kept(values, 1, swung);
    settings_take_at_once(&played, &asked);
    CHECK_NEAR(played.swing_ratio, 1.0, 0.0); /* until its line */
    const Settings ports = settings_from_controls(swung);
    settings_take_at_once(&played, &ports);
    CHECK_NEAR(played.swing_ratio, 2.0, 0.0); /* a port's own moves at once */
}

static const Stroke kick = {.limb = RIGHT_FOOT, .voice = VOICE_KICK};

static Figure one_stroke(const uint32_t id)
{
    Figure figure = {.id = id,
                     .kind = FIGURE_FEET,
                     .cycle_ticks = TICKS_PER_QUARTER,
                     .step_ticks = TICKS_PER_QUARTER,
                     .stroke_count = 1,
                     .strokes = &kick};
    figure_note(&figure);
    return figure;
}

static void what_is_kept_is_found_in_its_own_library(void)
{
    const Figure now = one_stroke(12), then = one_stroke(12);
    const Groove groove = {.id = 1, .meter = {4.0, 4}, .tempo = 120.0, .form_bars = 1};
    const Kit kits[2] = {{.id = 1}, {.id = 1000}};
    Library then_library = {.grooves = &groove, .groove_count = 1, .kits = kits, .kit_count = 1};
    then_library.figures[FIGURE_FEET] = &then;
    then_library.figure_counts[FIGURE_FEET] = 1;
    Library library = then_library;
    library.figures[FIGURE_FEET] = &now;
    library.kit_count = 2;
    library.kept[1] = &then_library;
    float values[CONTROL_COUNT];
    fill(values);
    values[CONTROL_FEET] = 12.0f;
    values[CONTROL_KIT] = 1000.0f;
    const Settings picked = settings_from_controls(values);
    const Settings kept = settings_of_kept(values, 2, values);
    const Settings gone = settings_of_kept(values, 3, values);
    CHECK(selection_make(&library, &picked, 120.0).feet == &now);
    CHECK(selection_make(&library, &kept, 120.0).feet == &then);
    CHECK(selection_make(&library, &gone, 120.0).feet == &now);
    CHECK_INT(selection_make(&library, &kept, 120.0).kit->id, 1000); /* output is no selection */
}

int main(void)
{
    RUN(what_is_written_is_the_selection);
    RUN(what_is_kept_takes_the_place_of_all_picks_and_of_nothing_else);
    RUN(two_that_are_kept_are_a_change_even_with_the_same_picks);
    RUN(the_swing_of_what_is_kept_comes_with_it);
    RUN(what_is_kept_is_found_in_its_own_library);
    return tests_end();
}

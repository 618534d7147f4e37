// SPDX-License-Identifier: ISC
/* What waits for its line is named before it comes in, and is what plays then: the plugin in
   a host says both.  And a fill's bar names its fill. */
#include "../../ui/scene/coming.h"
#include "../../ui/scene/news.h"
#include "../../plugin/engine/groove/settings.h"
#include "../help/check.h"
#include "shown_text.h"

static void pick(Stage* const stage, const Control control, const int id)
{
    char why[HOST_WHY_ROOM];
    const float value = (float)id;
    host_set(stage->host, control_rows[control].symbol, value, why);
    incoming_port_event(&stage->model, (uint32_t)(PORT_FIRST_CONTROL + control), sizeof value, 0,
                        &value);
}

/* Names as presets/grooves.ttl has them: Weighbridge begins with cross-stick eighths over
   "One and three". */
static void a_groove_that_waits_is_named_with_its_bar_and_in_both_cards(void)
{
    static const char* const scenes[] = {"groove-waits", "groove-waits-least"};
    for (int i = 0; i < 2; ++i) {
        Stage* const stage = stage_play(stage_scene(scenes[i]));
        shown_draw(&stage->model.view);
        check_case("%s", scenes[i]);
        if (i == 0) {
            CHECK_INT(shown_times("next: Weighbridge"), 1);
            CHECK_INT(shown_times(", bar 1"), 1);
            CHECK_INT(shown_times("next:"), 2);
            CHECK_INT(shown_times("Cross-stick eighths"), 1);
        } else {
            CHECK_INT(shown_times("next: Weighbridge, bar 1"), 1);
            CHECK_INT(shown_times("next: Cross-stick eighths"), 1);
        }
        CHECK_INT(shown_times("One and three"), 1);
        CHECK_INT(shown_times("Lower Station"), 1);
        CHECK_INT(shown_times("next: changed"), 0);
        stage_end(stage);
    }
}

/* On another page than that of variations, which has a row of this name. */
static void a_variation_that_waits_is_named_over_the_groove_and_in_the_feets_card(void)
{
    Stage* const stage = stage_play(stage_scene("vary-waits"));
    stage->model.view.panel = PANEL_FEEL;
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("next feet: doubled"), 1);
    CHECK_INT(shown_times("next:"), 1);
    CHECK_INT(shown_times("doubled"), 1); /* the card has a line for each */
    check_case("back to the figure");
    pick(stage, CONTROL_VARIATION, 0);
    stage_run(stage, 0.1);
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("next feet: as chosen"), 1);
    CHECK_INT(shown_times("as chosen"), 1);
    check_case("come in");
    stage_run(stage, 10.0);
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times("next"), 0);
    stage_end(stage);
}

/* The second of the two goes, the first stays: its feet wait. */
static void what_is_left_of_two_variations_is_named(void)
{
    Coming coming;
    Stage* const stage = stage_play(stage_scene("vary-deep"));
    View* const view = &stage->model.view;
    char words[COMING_ROOM];
    stage_run(stage, 3.0);
    CHECK(view->vary.playing[0] && view->vary.playing[1]);
    pick(stage, CONTROL_CHANGE_AT, CHANGE_AT_PHRASE);
    pick(stage, CONTROL_VARIATION_THEN, 0);
    for (int i = 0; i < 20 && !view->place.waiting; ++i) {
        stage_run(stage, 0.02);
    }
    CHECK(coming_of(view, &coming));
    coming_words(&coming, words);
    CHECK_TEXT(words, "next feet: in threes over the bar");
    stage_end(stage);
}

static void a_fills_bar_names_its_fill(void)
{
    char text[NEWS_ROOM];
    Stage* const stage = stage_play(stage_scene("fill"));
    news_fill(&stage->model.view, text);
    CHECK_TEXT(text, "fill: Last beat down the toms, 1 beat");
    shown_draw(&stage->model.view);
    CHECK_INT(shown_times(text), 1);
    CHECK_INT(shown_times("fill: Last beat down the toms"), 1); /* in the hands' card */
    stage_click(stage, (TargetId){TARGET_BAR, 2});
    news_words(&stage->model.view, text);
    CHECK_TEXT(text, "");
    stage_end(stage);
}

/* Lower Station's form is AAABAAAB and B has feet of its own, as presets/grooves.ttl has it:
   a new fill that comes in with bar 4 isn't new feet. */
static void another_letters_feet_are_not_taken_for_new_ones(void)
{
    Coming coming;
    Stage* const stage = stage_play(stage_scene("standing"));
    const Shelf* const fills = &stage->model.view.shelves[ENTRY_TURNAROUND];
    stage_roll(stage, 2, 0.5f, 1.0f);
    stage_run(stage, 0.3);
    pick(stage, CONTROL_TURNAROUND, fills->entries[fills->count - 1].id);
    stage_run(stage, 0.3);
    CHECK(coming_of(&stage->model.view, &coming));
    CHECK_TEXT(coming.what, "fill");
    CHECK(coming.entry == &fills->entries[fills->count - 1]);
    CHECK_INT(coming.bar, 4);
    stage_end(stage);
}

/* ---- Whatever waits */

static int id_at(const View* const view, const EntryKind kind, const uint32_t random)
{
    const Shelf* const shelf = &view->shelves[kind];
    return shelf->entries[random % (uint32_t)shelf->count].id;
}

static uint32_t next(uint32_t* const random)
{
    *random = *random * 1664525U + 1013904223U; /* Numerical Recipes, quick generator */
    return *random >> 8;
}

/* What the bar shown plays of a kind. */
static int32_t plays(const View* const view, const char* const what)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    return !bar                      ? -1
           : !strcmp(what, "groove") ? (int32_t)bar->groove
           : !strcmp(what, "hands")  ? (int32_t)bar->hands
                                     : (int32_t)bar->feet;
}

static void check_coming(Stage* const stage, int* const told, int* const within)
{
    Coming coming;
    const View* const view = &stage->model.view;
    for (int i = 0; i < 10 && !view->place.waiting; ++i) {
        stage_run(stage, 0.02);
    }
    stage_run(stage, 0.12); /* until the bars are told */
    if (!coming_of(view, &coming)) {
        return; /* it has come in, or nothing is other */
    }
    const int64_t line = view->place.change_bar + (view->place.change_tick > 0);
    const int in_phrase = coming.bar;
    const bool is_within = view->place.change_tick > 0;
    const bool is_named = coming.entry && strcmp(coming.what, "fill") != 0;
    while (view->place.waiting || view->place.bar < line) {
        stage_run(stage, 0.05);
    }
    stage_run(stage, 0.1);
    if (view_bar(view, line)) {
        check_case("%s in bar %d", coming.what, in_phrase);
        CHECK(!is_named || plays(view, coming.what) == coming.entry->id);
        *told += is_named;
        *within += is_named && is_within;
    }
}

static void what_is_named_is_what_plays_then(void)
{
    static const EntryKind kinds[] = {ENTRY_GROOVE, ENTRY_HANDS, ENTRY_FEET};
    static const int lines[] = {CHANGE_AT_BEAT, CHANGE_AT_BAR, CHANGE_AT_PHRASE};
    Stage* const stage = stage_play(stage_scene("playing-dark"));
    const View* const view = &stage->model.view;
    uint32_t random = 14;
    int told = 0, within = 0;
    pick(stage, CONTROL_PHRASE_BARS, 2);
    stage->tempo = 90.0f;
    stage_roll(stage, 0, 0.0f, 1.0f);
    stage_run(stage, 6.0);
    for (int i = 0; i < 60; ++i) {
        const EntryKind kind = kinds[next(&random) % 3];
        pick(stage, CONTROL_CHANGE_AT, lines[next(&random) % 3]);
        stage_run(stage, 0.05 + 0.01 * (double)(next(&random) % 70));
        pick(stage, kind_controls[kind], id_at(view, kind, next(&random)));
        check_coming(stage, &told, &within);
    }
    CHECK(told > 25);
    CHECK(within > 5);
    stage_end(stage);
}

int main(void)
{
    RUN(a_groove_that_waits_is_named_with_its_bar_and_in_both_cards);
    RUN(a_variation_that_waits_is_named_over_the_groove_and_in_the_feets_card);
    RUN(what_is_left_of_two_variations_is_named);
    RUN(a_fills_bar_names_its_fill);
    RUN(another_letters_feet_are_not_taken_for_new_ones);
    RUN(what_is_named_is_what_plays_then);
    return tests_end();
}

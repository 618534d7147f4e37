// SPDX-License-Identifier: ISC
/* What a person picked stays when the groove becomes another: the window says so, and puts
   it back.  What the groove has itself is asked of the plugin: it is what plays where nothing
   is picked. */
#include "../../ui/scene/picked.h"
#include "../help/check.h"
#include "stage.h"

#include <string.h>

static void pick(Stage* const stage, const Control control, const int id)
{
    char why[HOST_WHY_ROOM];
    const float value = (float)id;
    host_set(stage->host, control_rows[control].symbol, value, why);
    incoming_port_event(&stage->model, (uint32_t)(PORT_FIRST_CONTROL + control), sizeof value, 0,
                        &value);
}

static void check_words(Stage* const stage, const char* const want)
{
    char words[PICKED_ROOM];
    picked_words(&stage->model.view, words);
    CHECK_TEXT(words, want);
}

static const View* kept(Stage** const stage)
{
    *stage = stage_play(stage_scene("kept"));
    check_words(*stage, "hands, feet changed");
    CHECK(picked_here(&(*stage)->model.view, ENTRY_HANDS));
    CHECK(picked_here(&(*stage)->model.view, ENTRY_FEET));
    return &(*stage)->model.view;
}

static void check_own(const View* const view, const EntryKind kind, const char* const want)
{
    const Entry* const own = picked_own(view, kind);
    CHECK_TEXT(own ? own->label : "none", want);
}

/* Weighbridge's first bar, as presets/grooves.ttl has it. */
static void the_window_names_what_the_groove_has_itself(void)
{
    Stage* stage = NULL;
    const View* const view = kept(&stage);
    check_own(view, ENTRY_HANDS, "Cross-stick eighths");
    check_own(view, ENTRY_FEET, "One and three");
    stage_end(stage);
}

/* To the next bar line, where the change comes in, and on until all bars are told. */
static void wait_for_line(Stage* const stage)
{
    stage_run(stage, 4.0);
}

static void backspace_puts_everything_back(void)
{
    Stage* stage = NULL;
    const View* const view = kept(&stage);
    pick(stage, CONTROL_TURNAROUND, -1);
    wait_for_line(stage);
    check_words(stage, "hands, feet, fill changed");
    stage_key(stage, PANE_KEY_BACKSPACE);
    wait_for_line(stage);
    check_words(stage, "");
    CHECK(!picked_here(view, ENTRY_FEET));
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        CHECK_NEAR(view->values[kind_controls[kind]], 0.0, 0.0);
    }
    stage_end(stage);
}

static void a_click_on_what_was_changed_puts_all_of_it_back(void)
{
    Stage* stage = NULL;
    kept(&stage);
    stage_click(stage, (TargetId){TARGET_PUT_BACK, ENTRY_KINDS});
    wait_for_line(stage);
    check_words(stage, "");
    stage_end(stage);
}

static void a_click_in_a_card_puts_back_that_alone(void)
{
    Stage* stage = NULL;
    const View* const view = kept(&stage);
    stage_click(stage, (TargetId){TARGET_PUT_BACK, ENTRY_FEET});
    CHECK(!view->list.is_open);
    wait_for_line(stage);
    check_words(stage, "hands changed");
    stage_end(stage);
}

static void what_waits_for_its_line_is_not_said_to_play(void)
{
    Stage* const stage = stage_play(stage_scene("playing-dark"));
    pick(stage, CONTROL_FEET, stage->model.view.shelves[ENTRY_FEET].entries[1].id);
    stage_run(stage, 0.4);
    CHECK(stage->model.view.place.waiting);
    check_words(stage, "");
    wait_for_line(stage);
    check_words(stage, "feet changed");
    stage_end(stage);
}

/* ---- Whatever is picked */

typedef struct {
    uint32_t ids[FIGURE_KINDS][FORM_BARS_MAX];
} Plays;

static void look(Stage* const stage, Plays* const plays)
{
    const View* const view = &stage->model.view;
    stage_run(stage, 0.6);
    memset(plays, 0, sizeof *plays);
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        if (CHECK(bar && i < FORM_BARS_MAX)) {
            plays->ids[FIGURE_HANDS][i] = bar->hands;
            plays->ids[FIGURE_FEET][i] = bar->feet;
            plays->ids[FIGURE_TURNAROUND][i] = bar->fill;
        }
    }
}

static bool differ(const Plays* const a, const Plays* const b, const int kind)
{
    return memcmp(a->ids[kind], b->ids[kind], sizeof a->ids[kind]) != 0;
}

static int id_at(const View* const view, const EntryKind kind, const uint32_t random)
{
    const Shelf* const shelf = &view->shelves[kind];
    return shelf->entries[random % (uint32_t)shelf->count].id;
}

static void whatever_is_picked_is_said_where_the_plugin_plays_another(void)
{
    Stage* const stage = stage_play(stage_scene("standing"));
    const View* const view = &stage->model.view;
    uint32_t random = 20260;
    int said = 0;
    for (int i = 0; i < 60; ++i) {
        Plays own, plays;
        random = random * 1664525U + 1013904223U; /* Numerical Recipes, quick generator */
        pick(stage, CONTROL_GROOVE, id_at(view, ENTRY_GROOVE, random >> 8));
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            pick(stage, kind_controls[kind], 0);
        }
        look(stage, &own);
        check_words(stage, "");
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            random = random * 1664525U + 1013904223U;
            if (random >> 31) {
                pick(stage, kind_controls[kind], id_at(view, (EntryKind)kind, random >> 8));
            }
        }
        look(stage, &plays);
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            check_case("round %d, kind %d", i, kind);
            CHECK_INT(picked_in_phrase(view, (EntryKind)kind), differ(&own, &plays, kind));
            said += picked_in_phrase(view, (EntryKind)kind);
        }
    }
    CHECK(said > 20);
    stage_end(stage);
}

int main(void)
{
    RUN(the_window_names_what_the_groove_has_itself);
    RUN(backspace_puts_everything_back);
    RUN(a_click_on_what_was_changed_puts_all_of_it_back);
    RUN(a_click_in_a_card_puts_back_that_alone);
    RUN(what_waits_for_its_line_is_not_said_to_play);
    RUN(whatever_is_picked_is_said_where_the_plugin_plays_another);
    return tests_end();
}

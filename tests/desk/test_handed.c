// SPDX-License-Identifier: ISC
/* Left-handed: the window changes over who plays what, the plugin plays on as it did.  What
   the other way round means is what a mirror does: right and left, twice over as before. */
#include "../../ui/scene/handed.h"
#include "../scene/stage.h"
#include "../help/check.h"

#include <math.h>
#include <string.h>

static const Control switches[] = {CONTROL_RIGHT_HAND, CONTROL_LEFT_HAND, CONTROL_RIGHT_FOOT,
                                   CONTROL_LEFT_FOOT};
static const int others[] = {1, 0, 3, 2};

static Stage* stage;
static View* view;

static void begin(void)
{
    stage = stage_play(stage_scene("playing-dark"));
    view = &stage->model.view;
}

static void turn(void)
{
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_OUTPUT});
    stage_click(stage, (TargetId){TARGET_OPTION, OPTION_HANDED});
}

static const SeenBar* shown(void)
{
    return view_bar(view, view_shown(view));
}

static void each_stroke_is_the_other_sides_and_nothing_else_of_it(void)
{
    begin();
    static SeenBar before;
    before = *shown();
    turn();
    const SeenBar* const after = shown();
    CHECK(view->left_handed);
    CHECK(before.count > 8);
    CHECK_INT(after->count, before.count);
    for (uint32_t i = 0; i < before.count; ++i) {
        SeenStroke stroke = before.strokes[i];
        stroke.limb = (uint8_t)others[stroke.limb];
        check_case("stroke %u", i);
        CHECK(!memcmp(&stroke, &after->strokes[i], sizeof stroke));
    }
    turn();
    CHECK(!memcmp(&before, shown(), sizeof before));
    stage_end(stage);
}

/* A bar that is told later, as well as those told before. */
static void bars_told_later_are_so_too(void)
{
    begin();
    turn();
    stage_run(stage, 20.0); /* another phrase */
    int hats = 0, wrong = 0;
    for (uint32_t i = 0; i < shown()->count; ++i) {
        const SeenStroke* const stroke = &shown()->strokes[i];
        const bool is_hat = stroke->voice == VOICE_HAT_HALF_OPEN;
        hats += is_hat;
        wrong += is_hat && stroke->limb != LEFT_HAND; /* the hand that keeps the time */
    }
    CHECK(hats > 0);
    CHECK_INT(wrong, 0);
    stage_end(stage);
}

static void nothing_is_told_to_the_plugin(void)
{
    begin();
    static float before[CONTROL_COUNT];
    memcpy(before, view->values, sizeof before);
    turn();
    CHECK(!memcmp(before, view->values, sizeof before));
    stage_end(stage);
}

static void keys_and_switches_are_the_limbs_that_they_name(void)
{
    begin();
    turn();
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        check_case("limb %d", limb);
        stage_key(stage, (uint32_t)('1' + limb));
        CHECK_NEAR(view->values[switches[others[limb]]], 0.0, 0.0);
        CHECK_INT(handed_switch(view, limb), switches[others[limb]]);
        stage_click(stage, (TargetId){TARGET_DIAL, (int)switches[others[limb]]});
        CHECK_NEAR(view->values[switches[others[limb]]], 1.0, 0.0);
    }
    stage_end(stage);
}

/* The switch stands in the row where the limb's strokes are drawn. */
static void a_switch_stands_by_its_own_row(void)
{
    begin();
    turn();
    TargetList targets;
    const Geometry g = geometry_of(view);
    targets_of(view, &g, &targets);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const TargetId id = {TARGET_DIAL, (int)switches[others[limb]]};
        const Target* const target = targets_find(&targets, id);
        check_case("limb %d", limb);
        CHECK(target && target->box.y <= g.line[limb] &&
              target->box.y + 60.0 > g.line[limb] - 10.0);
        CHECK(target && fabs(target->box.y - geometry_label(&g, limb).box.y) < 0.01);
    }
    stage_end(stage);
}

static void a_foots_rate_is_that_of_its_own_strokes(void)
{
    begin();
    view->readouts[READOUT_RIGHT_FOOT_RATE] = 6.0f;
    view->readouts[READOUT_LEFT_FOOT_RATE] = 4.0f;
    view->readouts[READOUT_RIGHT_FOOT_GAP] = 90.0f;
    view->readouts[READOUT_LEFT_FOOT_GAP] = 120.0f;
    CHECK_NEAR(handed_rate(view, 0).rate, 6.0, 0.0);
    turn();
    CHECK_NEAR(handed_rate(view, 0).rate, 4.0, 0.0);
    CHECK_NEAR(handed_rate(view, 1).rate, 6.0, 0.0);
    CHECK_NEAR(handed_rate(view, 0).gap_ms, 120.0, 0.0);
    stage_end(stage);
}

static void words_that_name_a_limb_are_changed_over(void)
{
    static const char* const rows[][2] = {
        {"right", "left"},
        {"Left foot's own key", "Right foot's own key"},
        {"Lead foot: left swaps the feet", "Lead foot: right swaps the feet"},
        {"the kit map's left kick", "the kit map's right kick"},
        {"bright, leftover, copyright", "bright, leftover, copyright"},
        {"", ""},
    };
    static View one;
    char text[64];
    for (int i = 0; i < 6; ++i) {
        one.left_handed = true;
        handed_words(&one, rows[i][0], text, sizeof text);
        CHECK_TEXT(text, rows[i][1]);
        one.left_handed = false;
        handed_words(&one, rows[i][0], text, sizeof text);
        CHECK_TEXT(text, rows[i][0]);
    }
    one.left_handed = true;
    char small[5];
    handed_words(&one, "right left", small, sizeof small);
    CHECK_TEXT(small, "left");
}

/* An edit in the row of the right foot changes what the right foot is seen to play. */
static void an_edit_falls_on_the_row_that_was_clicked(void)
{
    begin();
    turn();
    stage_roll(stage, 1, 0.0f, 0.0f);
    stage_run(stage, 0.5);
    stage_click(stage, (TargetId){TARGET_TAB, PANEL_EDIT});
    int before[LIMB_COUNT] = {0}, after[LIMB_COUNT] = {0};
    for (uint32_t i = 0; i < shown()->count; ++i) {
        ++before[shown()->strokes[i].limb];
    }
    stage_click(stage, (TargetId){TARGET_ROW, RIGHT_FOOT}); /* its middle: no stroke is there */
    stage_run(stage, 0.5);
    for (uint32_t i = 0; i < shown()->count; ++i) {
        ++after[shown()->strokes[i].limb];
    }
    CHECK(after[RIGHT_FOOT] != before[RIGHT_FOOT]);
    CHECK_INT(after[LEFT_FOOT], before[LEFT_FOOT]);
    stage_end(stage);
}

int main(void)
{
    RUN(each_stroke_is_the_other_sides_and_nothing_else_of_it);
    RUN(bars_told_later_are_so_too);
    RUN(nothing_is_told_to_the_plugin);
    RUN(keys_and_switches_are_the_limbs_that_they_name);
    RUN(a_switch_stands_by_its_own_row);
    RUN(a_foots_rate_is_that_of_its_own_strokes);
    RUN(words_that_name_a_limb_are_changed_over);
    RUN(an_edit_falls_on_the_row_that_was_clicked);
    return tests_end();
}

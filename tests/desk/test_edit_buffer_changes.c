// SPDX-License-Identifier: ISC
/* test_edit_buffer_changes.c - one change of a figure after the other: levels, voices, places,
   lengths.  What limbs can strike and how levels follow each other is common practice, no
   source. */
#include "../../ui/desk/edit_buffer.h"
#include "../help/check.h"

enum { Q = TICKS_PER_QUARTER };

/* A bar of 4/4 in sixteenths with one stroke of the left hand, or right foot. */
static void begin_with(EditBuffer* const buffer, const FigureKind kind, const Stroke stroke)
{
    const Figure figure = {.id = 1,
                           .kind = kind,
                           .cycle_ticks = 4 * Q,
                           .step_ticks = Q / 4,
                           .bars = 1,
                           .stroke_count = 1,
                           .strokes = &stroke};
    edit_buffer_begin(buffer, &figure);
}

static const Stroke snare_on_two = {Q, LEFT_HAND, VOICE_SNARE, LEVEL_NORMAL, true};
static const Stroke kick_on_one = {0, RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL, true};

static int level_at(const EditBuffer* const buffer, const uint8_t limb, const int64_t tick)
{
    const int index = edit_buffer_find(buffer, limb, tick);
    return index < 0 ? LEVEL_REST : buffer->now.strokes[index].level;
}

static void levels_follow_each_other_as_documented(void)
{
    static const Level hands[] = {LEVEL_NORMAL, LEVEL_ACCENT, LEVEL_GHOST,
                                  LEVEL_FLAM,   LEVEL_DRAG,   LEVEL_REST};
    static const Level feet[] = {LEVEL_NORMAL, LEVEL_ACCENT, LEVEL_GHOST, LEVEL_REST};
    static EditBuffer buffer;
    begin_with(&buffer, FIGURE_HANDS, snare_on_two);
    for (int i = 0; i < 12; ++i) {
        CHECK(edit_buffer_cycle(&buffer, RIGHT_HAND, 2 * Q));
        CHECK_INT(level_at(&buffer, RIGHT_HAND, 2 * Q), hands[i % 6]);
    }
    begin_with(&buffer, FIGURE_FEET, kick_on_one);
    for (int i = 0; i < 8; ++i) {
        CHECK(edit_buffer_cycle(&buffer, LEFT_FOOT, 2 * Q));
        CHECK_INT(level_at(&buffer, LEFT_FOOT, 2 * Q), feet[i % 4]);
    }
}

static void the_last_stroke_stays(void)
{
    static EditBuffer buffer;
    begin_with(&buffer, FIGURE_FEET, kick_on_one);
    CHECK(!edit_buffer_level(&buffer, RIGHT_FOOT, 0, LEVEL_REST));
    CHECK_INT(buffer.now.count, 1);
    CHECK(edit_buffer_level(&buffer, RIGHT_FOOT, 0, LEVEL_GHOST));
    CHECK(!edit_buffer_cycle(&buffer, RIGHT_FOOT, 0));
    CHECK(!edit_buffer_length(&buffer, 0, 0));
    CHECK(!edit_buffer_length(&buffer, 4 * Q, EDIT_BUFFER_BARS_MAX + 1));
    CHECK(!edit_buffer_length(&buffer, 4 * Q + 1, 2)); /* no two equal bars */
    begin_with(&buffer, FIGURE_HANDS, snare_on_two);
    CHECK(!edit_buffer_length(&buffer, Q, 0)); /* beat 2 would be cut off */
    CHECK_INT(buffer.undo, 0);
}

static void limbs_go_round_through_what_they_can_strike(void)
{
    static EditBuffer buffer;
    for (uint8_t limb = 0; limb < LIMB_COUNT; ++limb) {
        bool met[VOICE_COUNT] = {false};
        Stroke stroke = limb_is_foot(limb) ? kick_on_one : snare_on_two;
        stroke.limb = limb;
        begin_with(&buffer, limb_is_foot(limb) ? FIGURE_FEET : FIGURE_HANDS, stroke);
        for (int i = 0; i < 2 * VOICE_COUNT; ++i) {
            edit_buffer_voice(&buffer, limb, stroke.tick, 1);
            met[buffer.now.strokes[0].voice] = true;
        }
        for (int voice = 0; voice < VOICE_COUNT; ++voice) {
            const bool foot =
                voice == VOICE_KICK || (voice == VOICE_HAT_PEDAL && limb == LEFT_FOOT);
            const bool none = voice == VOICE_KICK || voice == VOICE_KICK_LEFT ||
                              voice == VOICE_HAT_PEDAL || voice == VOICE_CLICK ||
                              voice == VOICE_CLICK_ACCENT;
            check_case("limb %d, voice %d", limb, voice);
            CHECK_INT(met[voice], limb_is_foot(limb) ? foot : !none);
        }
        const uint8_t before = buffer.now.strokes[0].voice;
        edit_buffer_voice(&buffer, limb, stroke.tick, 1);
        edit_buffer_voice(&buffer, limb, stroke.tick, -1);
        CHECK_INT(buffer.now.strokes[0].voice, before);
    }
    CHECK(!edit_buffer_voice(&buffer, LEFT_FOOT, 2 * Q, 1)); /* nothing is there */
}

static void a_new_stroke_strikes_what_its_limb_strikes_nearest(void)
{
    static EditBuffer buffer;
    begin_with(&buffer, FIGURE_HANDS, (Stroke){Q, RIGHT_HAND, VOICE_RIDE, LEVEL_NORMAL, true});
    CHECK(edit_buffer_cycle(&buffer, RIGHT_HAND, 3 * Q));
    CHECK(edit_buffer_voice(&buffer, RIGHT_HAND, 3 * Q, 1));
    CHECK(edit_buffer_cycle(&buffer, RIGHT_HAND, Q + Q / 4));
    CHECK_INT(buffer.now.strokes[1].voice, VOICE_RIDE);
    CHECK(edit_buffer_cycle(&buffer, RIGHT_HAND, 3 * Q - Q / 4));
    CHECK_INT(buffer.now.strokes[2].voice, VOICE_RIDE_BELL);
    CHECK(edit_buffer_cycle(&buffer, LEFT_HAND, 0));
    CHECK_INT(buffer.now.strokes[0].voice, VOICE_SNARE);
}

static void a_moved_stroke_takes_the_place_of_what_is_there(void)
{
    static EditBuffer buffer;
    begin_with(&buffer, FIGURE_HANDS, snare_on_two);
    CHECK(edit_buffer_level(&buffer, LEFT_HAND, 3 * Q, LEVEL_FLAM));
    CHECK(edit_buffer_level(&buffer, RIGHT_HAND, 3 * Q, LEVEL_ACCENT));
    CHECK(edit_buffer_move(&buffer, LEFT_HAND, 3 * Q, Q));
    CHECK_INT(buffer.now.count, 2);
    CHECK_INT(level_at(&buffer, LEFT_HAND, Q), LEVEL_FLAM);
    CHECK_INT(level_at(&buffer, LEFT_HAND, 3 * Q), LEVEL_REST);
    CHECK_INT(level_at(&buffer, RIGHT_HAND, 3 * Q), LEVEL_ACCENT);
    check_case("to where it is, from nothing, out of the cycle");
    const int undo = buffer.undo;
    CHECK(!edit_buffer_move(&buffer, LEFT_HAND, Q, Q));
    CHECK(!edit_buffer_move(&buffer, LEFT_HAND, 2 * Q, 0));
    CHECK(!edit_buffer_move(&buffer, LEFT_HAND, Q, 4 * Q));
    CHECK(!edit_buffer_move(&buffer, LEFT_HAND, Q, -Q));
    CHECK_INT(buffer.undo, undo);
}

static void lengths_are_whole_steps_of_the_grid_or_whole_bars(void)
{
    static EditBuffer buffer;
    begin_with(&buffer, FIGURE_FEET, kick_on_one);
    CHECK_INT(edit_buffer_next_length(&buffer, 1), 8 * Q);
    CHECK_INT(edit_buffer_next_length(&buffer, -1), 0);
    CHECK(edit_buffer_length(&buffer, 3 * Q / 4, 0));
    CHECK_INT(edit_buffer_next_length(&buffer, 1), Q);
    CHECK_INT(edit_buffer_next_length(&buffer, -1), Q / 2);
    check_case("three sixteenths on a grid of fives");
    buffer.grid = 5;
    CHECK_INT(edit_buffer_next_length(&buffer, 1), 4 * Q / 5);
    CHECK_INT(edit_buffer_next_length(&buffer, -1), 3 * Q / 5);
}

static void a_length_leaves_out_what_is_beyond_it(void)
{
    static EditBuffer buffer;
    begin_with(&buffer, FIGURE_FEET, kick_on_one);
    CHECK(edit_buffer_cycle(&buffer, LEFT_FOOT, 3 * Q));
    CHECK(edit_buffer_length(&buffer, 3 * Q, 0));
    CHECK_INT(buffer.now.count, 1);
    CHECK_INT(buffer.now.bars, 0);
    CHECK(edit_buffer_length(&buffer, 8 * Q, 2));
    CHECK_INT(buffer.now.count, 1);
    CHECK(edit_buffer_undo(&buffer) && edit_buffer_undo(&buffer));
    CHECK_INT(buffer.now.count, 2);
    CHECK_INT(buffer.now.bars, 1);
}

/* What a figure's promise of limits.h allows, and no more. */
static void a_full_figure_takes_no_more_strokes(void)
{
    static EditBuffer buffer;
    static Stroke strokes[FIGURE_STROKES_MAX];
    for (int i = 0; i < FIGURE_STROKES_MAX; ++i) {
        strokes[i] = (Stroke){i / 2 * (Q / 12), (uint8_t)(RIGHT_FOOT + i % 2), VOICE_KICK,
                              LEVEL_NORMAL, false};
    }
    const Figure figure = {.id = 1,
                           .kind = FIGURE_FEET,
                           .cycle_ticks = 100 * Q,
                           .step_ticks = Q / 12,
                           .stroke_count = FIGURE_STROKES_MAX,
                           .strokes = strokes};
    edit_buffer_begin(&buffer, &figure);
    CHECK(!edit_buffer_cycle(&buffer, RIGHT_FOOT, 90 * Q));
    CHECK_INT(buffer.now.count, FIGURE_STROKES_MAX);
    CHECK(edit_buffer_level(&buffer, RIGHT_FOOT, 0, LEVEL_REST));
    CHECK(edit_buffer_cycle(&buffer, RIGHT_FOOT, 90 * Q));
}

int main(void)
{
    RUN(levels_follow_each_other_as_documented);
    RUN(the_last_stroke_stays);
    RUN(limbs_go_round_through_what_they_can_strike);
    RUN(a_new_stroke_strikes_what_its_limb_strikes_nearest);
    RUN(a_moved_stroke_takes_the_place_of_what_is_there);
    RUN(lengths_are_whole_steps_of_the_grid_or_whole_bars);
    RUN(a_length_leaves_out_what_is_beyond_it);
    RUN(a_full_figure_takes_no_more_strokes);
    return tests_end();
}

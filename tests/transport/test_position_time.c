// SPDX-License-Identifier: ISC
/* Time in all directions, positions anywhere in a block, blocks of any length,
   and a whole day. */
#include "hand_played.h"

/* ---- Time in all directions */

static void bars_before_the_song_are_silent(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(-2 * QUARTER_FRAMES, 1), 0);
        play_to(&player, 2 * BAR_FRAMES, 256);
        CHECK_INT(frame_of_stroke(&player, HAT_KEY, 0, 0), 2 * QUARTER_FRAMES);
        check_hats(&player, 2 * QUARTER_FRAMES, 2 * BAR_FRAMES);
        check_bars(&player, 2 * QUARTER_FRAMES, BAR_FRAMES, 2 * BAR_FRAMES, 0);
    }
    close_player(&player);
}

/* Rolls over a bar line at a speed and checks how far apart strokes are. */
static void play_at_speed(const double speed)
{
    Player player;
    check_case("speed %g", speed);
    if (open_player(&player)) {
        for (int64_t frame = 0; frame < 2 * BAR_FRAMES; frame += 400) {
            Told told = position_at((int64_t)((double)frame * speed), speed);
            tell(&player, told, 0);
            play_to(&player, frame + 400, 400);
        }
        check_hats_apart(&player, 0, (double)SIXTEENTH_FRAMES / speed, 2 * BAR_FRAMES);
        check_bars(&player, 0, llround((double)BAR_FRAMES / speed), 2 * BAR_FRAMES, 0);
    }
    close_player(&player);
}

static void strokes_are_as_far_apart_as_the_speed_makes_them(void)
{
    play_at_speed(0.5);
    play_at_speed(0.25);
    play_at_speed(1.5);
    play_at_speed(2.0);
    play_at_speed(4.0);
}

static void time_that_stands_or_runs_backward_is_silent(void)
{
    const double speeds[] = {0.0, -0.5, -1.0, -2.0};
    for (size_t i = 0; i < sizeof speeds / sizeof *speeds; ++i) {
        Player player;
        check_case("speed %g", speeds[i]);
        if (open_player(&player)) {
            for (int64_t frame = 0; frame < BAR_FRAMES; frame += 400) {
                const double moved = (double)frame * speeds[i];
                tell(&player, position_at(BAR_FRAMES + (int64_t)moved, speeds[i]), 0);
                play_to(&player, frame + 400, 400);
            }
            CHECK_INT(note_ons(&player), 0);
        }
        close_player(&player);
    }
}

/* What a shuttle might send in its last moments.  It may sound like anything,
   but in bounded time, and the next place is right. */
static void speeds_beyond_sense_do_no_lasting_harm(void)
{
    const double speeds[] = {1e-300, 1e-30, 1e-9, 100.0, 1e4, 1e6, 1e9, 1e15, 1e30, 1e300};
    for (size_t i = 0; i < sizeof speeds / sizeof *speeds; ++i) {
        Player player;
        check_case("speed %g", speeds[i]);
        if (open_player(&player)) {
            tell(&player, position_at(0, 1), 0);
            play_to(&player, 1024, 256);
            tell(&player, one_field(SPEED, 'D', speeds[i]), 0);
            play_to(&player, 4096, 256);
            tell(&player, position_at(BAR_FRAMES, 1), 0);
            play_to(&player, 4096 + BAR_FRAMES, 256);
            check_hats(&player, 4096, 4096 + BAR_FRAMES);
        }
        close_player(&player);
    }
}

/* ---- Where in a block */

static void a_start_inside_a_block_counts_from_its_frame(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 100);
        play_to(&player, BAR_FRAMES, 256);
        CHECK_INT(frame_of_stroke(&player, HAT_KEY, 0, 0), 100);
        check_hats(&player, 100, BAR_FRAMES);
    }
    close_player(&player);
}

static void a_jump_inside_a_block_plays_both_sides_of_it(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 2000, 2000);
        tell(&player, position_at(BAR_FRAMES, 1), 1500);
        play_to(&player, 2000 + BAR_FRAMES, 2000);
        CHECK_INT(frame_of_stroke(&player, bar_keys[0], 0, 0), 0);
        CHECK_INT(frame_of_stroke(&player, bar_keys[1], 0, 0), 3500);
        check_hats(&player, 3500, 2000 + BAR_FRAMES);
    }
    close_player(&player);
}

/* Outside the block, an event is taken at its nearest end. */
static void events_outside_the_block_are_taken_at_its_ends(void)
{
    const int64_t offsets[] = {INT64_MIN, -1, 256, 257, 100000, INT64_MAX};
    for (size_t i = 0; i < sizeof offsets / sizeof *offsets; ++i) {
        Player player;
        check_case("offset %" PRId64, offsets[i]);
        if (open_player(&player)) {
            const int64_t start = offsets[i] < 0 ? 0 : 256;
            tell(&player, position_at(0, 1), offsets[i]);
            play_to(&player, BAR_FRAMES, 256);
            CHECK_INT(frame_of_stroke(&player, HAT_KEY, 0, 0), start);
            check_hats(&player, start, BAR_FRAMES);
        }
        close_player(&player);
    }
}

/* The start looks back a little for a stroke that a rounded place would miss,
   but not for one that sounded just before the stop. */
static void a_stop_just_after_a_stroke_does_not_double_it(void)
{
    const int64_t stop = SIXTEENTH_FRAMES + 20;
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 0);
        play_to(&player, stop, 1024);
        tell(&player, position_at(stop, 0), 0);
        play_to(&player, stop + 1000, 1000);
        tell(&player, position_at(stop, 1), 0);
        play_to(&player, 2 * SIXTEENTH_FRAMES + 1000, 1024);
        CHECK_INT(frame_of_stroke(&player, HAT_KEY, 0, 1), SIXTEENTH_FRAMES);
        CHECK_INT(frame_of_stroke(&player, HAT_KEY, 0, 2), -1);
        play_to(&player, BAR_FRAMES, 1024);
        check_hats(&player, 2 * SIXTEENTH_FRAMES + 1000, BAR_FRAMES);
    }
    close_player(&player);
}

/* Where its frame can't be written, the last one of the block will do. */
static void a_stop_outside_the_block_ends_notes_inside_it(void)
{
    const int64_t offsets[] = {-1, 255, 256, 100000};
    for (size_t i = 0; i < sizeof offsets / sizeof *offsets; ++i) {
        Player player;
        check_case("offset %" PRId64, offsets[i]);
        if (open_player(&player)) {
            tell(&player, position_at(0, 1), 0);
            play_to(&player, 256, 256);
            CHECK(player.sounding_count > 0);
            tell(&player, position_at(512, 0), offsets[i]);
            play_to(&player, 512, 256);
            CHECK_INT(player.sounding_count, 0);
        }
        close_player(&player);
    }
}

static void events_out_of_order_are_taken_in_the_order_of_their_frames(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 200);
        tell(&player, position_at(BAR_FRAMES, 1), 100);
        play_to(&player, BAR_FRAMES, 256);
        check_hats(&player, 200, BAR_FRAMES);
        CHECK_INT(frame_of_stroke(&player, bar_keys[1], 0, 0), 100);
        CHECK_INT(frame_of_stroke(&player, bar_keys[0], 0, 0), 200);
    }
    close_player(&player);
}

static void blocks_of_no_frames_take_positions_and_play_nothing(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 0);
        player_run(&player, 0);
        CHECK_INT(player.count, 0);
        while (player.now < BAR_FRAMES) {
            player_run(&player, 0);
            player_run(&player, 300);
            tell(&player, position_at(player.now, 1), 0);
            player_run(&player, 0);
        }
        check_hats(&player, 0, BAR_FRAMES);
    }
    close_player(&player);
}

static void a_stop_in_a_block_of_no_frames_ends_what_sounds(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 0);
        play_to(&player, 64, 64);
        CHECK(player.sounding_count > 0);
        tell(&player, position_at(64, 0), 0);
        player_run(&player, 0);
        CHECK_INT(player.sounding_count, 0);
    }
    close_player(&player);
}

/* Some hosts run blocks larger than they declared, untold. */
static void a_block_of_any_length_is_played_whole(void)
{
    Player player;
    if (open_player(&player)) {
        tell(&player, position_at(0, 1), 0);
        player_run(&player, 10 * BAR_FRAMES);
        check_hats(&player, 0, 10 * BAR_FRAMES);
        check_bars(&player, 0, BAR_FRAMES, 10 * BAR_FRAMES, 0);
    }
    close_player(&player);
}

/* ---- A whole day */

/* Doubles this large have ten bits left behind the point. */
static const double half_a_frame = 0.501;

typedef struct {
    int64_t count;
    double worst; /* frames off */
} Hats;

/* Hats against their exact frames; the first is line `line` of the song, and
   frame 0 of the player the host's `begin`. */
static Hats hats_against_lines(const Player* const player, const double begin,
                               const double sixteenth, const int64_t line)
{
    Hats hats = {0, 0.0};
    for (size_t i = 0; i < player->count; ++i) {
        const Note note = player->notes[i];
        if ((note.bytes[0] & 0xF0U) == LV2_MIDI_MSG_NOTE_ON && note.bytes[1] == HAT_KEY) {
            const double exact = (double)(line + hats.count++) * sixteenth - begin;
            hats.worst = fmax(hats.worst, fabs((double)note.frame - exact));
        }
    }
    return hats;
}

static Told day_position(const double frame, const float tempo)
{
    const double beats = frame / RATE / 60.0 * (double)tempo;
    Told told = position_at(0, 1);
    set_field(&told, FRAME, frame);
    set_field(&told, BAR, floor(beats / 4.0));
    set_field(&told, BAR_BEAT, beats - 4.0 * floor(beats / 4.0));
    set_field(&told, BEAT, beats);
    set_field(&told, BEATS_PER_MINUTE, (double)tempo);
    return told;
}

static void a_locate_to_the_end_of_a_day_is_exact(void)
{
    const float tempi[] = {60.0f, 120.0f, 133.7f, 199.99f};
    for (size_t i = 0; i < sizeof tempi / sizeof *tempi; ++i) {
        const double begin = 4.1e9, sixteenth = 15.0 * RATE / (double)tempi[i];
        Player player;
        check_case("tempo %g", (double)tempi[i]);
        if (open_player(&player)) {
            tell(&player, day_position(begin, tempi[i]), 0);
            play_to(&player, INT64_C(10) * RATE, 1024);
            const double first = ceil((begin - 0.5) / sixteenth);
            const Hats hats = hats_against_lines(&player, begin, sixteenth, (int64_t)first);
            CHECK_INT(hats.count, ceil((begin + 10 * RATE - 0.5) / sixteenth) - first);
            CHECK_NEAR(hats.worst, 0, half_a_frame);
        }
        close_player(&player);
    }
}

static void a_day_played_through_stays_exact(void)
{
    const float tempo = 133.7f;
    const int64_t day = INT64_C(86400) * RATE;
    Player player;
    if (open_player(&player)) {
        tell(&player, day_position(0.0, tempo), 0);
        play_to(&player, day, 1 << 20);
        const double sixteenth = 15.0 * RATE / (double)tempo;
        const Hats hats = hats_against_lines(&player, 0, sixteenth, 0);
        CHECK_INT(hats.count, ceil(((double)day - 0.5) / sixteenth));
        CHECK_NEAR(hats.worst, 0, half_a_frame);
    }
    close_player(&player);
}

static void run_all(void)
{
    RUN(bars_before_the_song_are_silent);
    RUN(strokes_are_as_far_apart_as_the_speed_makes_them);
    RUN(time_that_stands_or_runs_backward_is_silent);
    RUN(speeds_beyond_sense_do_no_lasting_harm);
    RUN(a_start_inside_a_block_counts_from_its_frame);
    RUN(a_jump_inside_a_block_plays_both_sides_of_it);
    RUN(events_outside_the_block_are_taken_at_its_ends);
    RUN(a_stop_just_after_a_stroke_does_not_double_it);
    RUN(a_stop_outside_the_block_ends_notes_inside_it);
    RUN(events_out_of_order_are_taken_in_the_order_of_their_frames);
    RUN(blocks_of_no_frames_take_positions_and_play_nothing);
    RUN(a_stop_in_a_block_of_no_frames_ends_what_sounds);
    RUN(a_block_of_any_length_is_played_whole);
    RUN(a_locate_to_the_end_of_a_day_is_exact);
    RUN(a_day_played_through_stays_exact);
}

int main(void)
{
    return run_in_folder(run_all);
}

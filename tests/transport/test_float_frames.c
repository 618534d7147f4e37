// SPDX-License-Identifier: ISC
/* Hosts whose frames go through a 32-bit float: 24 binary digits (IEEE 754-2019, table
   3.2), so that past 2^24 frames, six minutes at 48 kHz, they tell the nearest second,
   fourth, eighth frame.  That is no jump. */
#include "hand_played.h"

static Told through_a_float(const int64_t frame, const bool with_place)
{
    Told told = position_at(frame, 1);
    set_field(&told, FRAME, (double)(float)frame);
    told.types[0] = 'F';
    const uint32_t place = 1U << BAR | 1U << BAR_BEAT | 1U << BEAT;
    return some_fields(&told, with_place ? UINT32_MAX : ~place);
}

static void frames_cut_to_24_binary_digits_move_no_stroke(void)
{
    Player player;
    const bool good = open_player(&player);
    const int64_t bars[] = {0, 200, 400, 700, 1500, 4000}; /* the last: rounded to 32 frames */
    for (int i = 0; good && i < 24; ++i) {
        const int64_t number = bars[i / 4], first = number * BAR_FRAMES, end = 2 * BAR_FRAMES;
        const uint32_t block = i / 2 % 2 ? 441 : 13;
        begin_anew(&player);
        check_case("from bar %d, blocks of %d, %s", (int)number, (int)block,
                   i % 2 ? "bar and beat told" : "frame alone");
        while (player.now < end) { /* no multiples of what is rounded to */
            tell(&player, through_a_float(first + player.now, i % 2), 0);
            play_to(&player, player.now + block < end ? player.now + block : end, block);
        }
        check_hats(&player, 0, end);
        check_bars(&player, 0, BAR_FRAMES, end, bars[i / 4]);
    }
    check_case("after all of them");
    close_player(&player);
}

/* A locate by little is still one where all digits are told. */
static void a_jump_of_half_a_sixteenth_is_followed_however_late_it_is(void)
{
    Player player;
    const bool good = open_player(&player);
    for (int i = 0; good && i < 2; ++i) {
        const int64_t first = i ? 4000 * BAR_FRAMES : 0, jump = 2 * BAR_FRAMES;
        const int64_t by = 3008; /* a float has that frame there */
        begin_anew(&player);
        check_case("from bar %d", i ? 4000 : 0);
        tell(&player, through_a_float(first, true), 0);
        play_to(&player, jump, 441);
        tell(&player, through_a_float(first + jump + by, true), 0);
        play_to(&player, jump + BAR_FRAMES, 441);
        check_hats_apart(&player, jump + SIXTEENTH_FRAMES - by, (double)SIXTEENTH_FRAMES,
                         jump + BAR_FRAMES);
    }
    check_case("after all of them");
    close_player(&player);
}

static void run_all(void)
{
    RUN(frames_cut_to_24_binary_digits_move_no_stroke);
    RUN(a_jump_of_half_a_sixteenth_is_followed_however_late_it_is);
}

int main(void)
{
    return run_in_folder(run_all);
}

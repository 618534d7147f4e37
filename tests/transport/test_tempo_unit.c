// SPDX-License-Identifier: ISC
/* What a host's tempo counts, quarters or beats of its meter, isn't told: it is
   found from evidence that adds up, holds through varispeed and locates, and is
   given up again where the host turns out to mean the other. */
#include "storm.h"

/* Hats from a bar line of the host's on, told alone at this frame. */
static void check_sixteenths_from_line(StormHost* const host)
{
    const Piece* const piece = piece_at(host, 0.0);
    const double sixteenth = 15.0 * RATE / piece->tempo;
    host->frame = (int64_t)ceil(4.0 * piece->beats * beat_frames(piece));
    const double late = (double)host->frame - 4.0 * piece->beats * beat_frames(piece);
    host->player->count = 0;
    const int64_t now = host->player->now;
    storm_blocks(host, (uint32_t)(20.0 * sixteenth / host->block) + 2);
    for (size_t i = 1; i < 20; ++i) {
        const double exact = (double)now + (double)i * sixteenth - late;
        CHECK_NEAR(frame_of_stroke(host->player, HAT_KEY, now + 100, i - 1), exact, 0.6);
    }
}

/* Twice as fast or half as fast for some blocks, in every meter and some tempi;
   then a locate, with one position told and no more. */
static void varispeed_leaves_what_a_tempo_counts(void)
{
    Player player;
    const bool good = open_player(&player);
    for (uint32_t trial = 0; good && trial < 64; ++trial) {
        const StormMeter meter = storm_meters[trial % STORM_METERS];
        StormHost host = {.player = &player,
                          .chance = trial * 2654435761U + 1U,
                          .places = trial % 3 ? TICK_PLACES : EXACT_PLACES,
                          .block = 256,
                          .speed = 1.0};
        begin_anew(&player);
        make_map(&host, meter, 1);
        host.pieces[0].tempo = trial ? host.pieces[0].tempo : 284.0;
        check_case("trial %u, %g/%d at %g", trial, meter.beats, meter.unit, host.pieces[0].tempo);
        for (int i = 0; i < 12; ++i) {
            change_speed(&host);
            storm_blocks(&host, 1 + below(&host.chance, 30));
        }
        host.speed = 1.0;
        storm_block(&host);
        host.telling = TELLS_CHANGES;
        check_sixteenths_from_line(&host);
    }
    close_player(&player);
}

/* In a map with more tempi, frame 217989 in 5/8 at 300.09 is beat 22.718: by chance
   near 22.714, where it were had the tempo always been that, in eighths. */
static void one_coincidence_of_place_and_frame_decides_nothing(void)
{
    const float beats[] = {2.718f, 2.7177083f /* on 1/1920 */};
    for (size_t i = 0; i < sizeof beats / sizeof *beats; ++i) {
        const double sixteenth = 15.0 * RATE / 300.09;
        Player player;
        check_case("beat %.9g", (double)beats[i]);
        if (open_player(&player)) {
            Told told = position_at(217989, 1);
            set_field(&told, BAR, 4.0);
            set_field(&told, BAR_BEAT, (double)beats[i]);
            set_field(&told, BEATS_PER_BAR, 5.0);
            set_field(&told, BEAT_UNIT, 8.0);
            set_field(&told, BEATS_PER_MINUTE, 300.09);
            told = some_fields(&told, ~(1U << BEAT));
            tell(&player, told, 0);
            play_to(&player, 48000, 256);
            /* An eighth has two sixteenths. */
            const double first =
                (ceil((double)beats[i] * 2.0) - (double)beats[i] * 2.0) * sixteenth;
            for (size_t line = 0; line < 10; ++line) {
                CHECK_NEAR(frame_of_stroke(&player, HAT_KEY, 0, line),
                           first + (double)line * sixteenth, 0.6);
            }
        }
        close_player(&player);
    }
}

/* Beats, then quarters, then beats again: each time right again after 8 beats. */
static void a_host_that_comes_to_count_otherwise_is_followed(void)
{
    Player player;
    const bool good = open_player(&player);
    for (uint32_t meter = 0; good && meter < STORM_METERS; ++meter) {
        StormHost host = {.player = &player, .chance = meter + 1, .block = 256, .speed = 1.0};
        begin_anew(&player);
        make_map(&host, storm_meters[meter], 1);
        for (int turn = 0; turn < 3; ++turn) {
            check_case("%g/%d, turn %d", storm_meters[meter].beats, storm_meters[meter].unit, turn);
            host.counts_beats = turn % 2 == 0;
            storm_blocks(&host, (uint32_t)(8.0 * beat_frames(host.pieces) / host.block) + 1);
            check_sixteenths_from_line(&host);
        }
    }
    close_player(&player);
}

static void run_all(void)
{
    RUN(varispeed_leaves_what_a_tempo_counts);
    RUN(one_coincidence_of_place_and_frame_decides_nothing);
    RUN(a_host_that_comes_to_count_otherwise_is_followed);
}

int main(void)
{
    return run_in_folder(run_all);
}

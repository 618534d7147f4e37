// SPDX-License-Identifier: ISC
/* The ends of what a host may tell: the fastest and slowest, the farthest, meters of
   one beat and of hundreds.  Readouts stay in their ranges, a block's work is
   bounded, and the next place is right.  Sanitized, this finds numbers that
   overflow on their way to whole ones. */
#include "storm.h"

#include "../../plugin/engine/groove/settings.h"

#include <math.h>

enum { BLOCK = 256 };

static const double frames[] = {0,    1,     -1,   -1e6,   1e9,     -1e9,     4294967296.0,
                                1e12, -1e12, 9e12, 8.9e15, -8.9e15, 9.2233e18};
static const double speeds[] = {1, 1, 1, 1, 0, 1e-300, 1e-9, 0.001, 0.5, 16, 1000, 1001, -1, -1000};
static const double tempi[] = {1, 1.5, 120, 333.3, 1999, 2000, 2001, 0.5};
static const double beats[] = {0.5, 1, 4, 7, 12.5, 255.5, 256};
static const double bars[] = {0, 1, -1, 9999999, -9999999, 10000000, 9e15, -9e18};

#define PICK(list) (list)[below(chance, sizeof(list) / sizeof *(list))]

static Told extreme(uint32_t* const chance)
{
    Told told = position_at(0, PICK(speeds));
    const double beat_count = PICK(beats);
    set_field(&told, FRAME, PICK(frames));
    set_field(&told, BEATS_PER_MINUTE, PICK(tempi));
    set_field(&told, BEAT_UNIT, (double)(1U << below(chance, 6)));
    set_field(&told, BEATS_PER_BAR, beat_count);
    set_field(&told, BAR, PICK(bars));
    set_field(&told, BAR_BEAT, below(chance, 2) ? 0.0 : beat_count * below(chance, 1000) / 1000.0);
    told.types[SPEED] = 'D';
    told = some_fields(&told, ~(1U << BEAT));
    return below(chance, 2) ? told : some_fields(&told, next_random(chance));
}

static bool check_readouts(const Player* const player)
{
    bool good = true;
    for (int i = 0; i < READOUT_COUNT; ++i) {
        const ControlRow row = readout_rows[i];
        const float value = host_get(player->host, row.symbol);
        if (!(value >= row.least && value <= row.most)) {
            printf("# %s reads %g, which is outside %g to %g\n", row.symbol, (double)value,
                   (double)row.least, (double)row.most);
            good = CHECK(value >= row.least && value <= row.most);
        }
    }
    return good;
}

static void set_by_chance(Player* const player, uint32_t* const chance)
{
    const char* const symbols[] = {"practice_rate", "clock", "count_in", "ladder_step", "click"};
    const float most[] = {5, 1, 4, 20, 2};
    char why[HOST_WHY_ROOM];
    const uint32_t i = below(chance, 5);
    const float value = below(chance, 2) ? most[i] : 0.0f;
    CHECK(host_set(player->host, symbols[i], value, why));
}

/* Long enough now and then for a phrase to be looked through. */
static void play_extremes(Player* const player, const uint32_t seed)
{
    uint32_t chance = seed * 2654435761U + 1U;
    bool good = true;
    for (int i = 0; good && i < 40; ++i) {
        tell(player, extreme(&chance), 0);
        if (below(&chance, 4) == 0) {
            set_by_chance(player, &chance);
        }
        for (uint32_t block = below(&chance, 8) ? 2 : 40; good && block > 0; --block) {
            player_run(player, BLOCK);
            good = check_readouts(player);
        }
    }
}

static void whatever_is_told_readouts_stay_in_range_and_the_next_place_is_right(void)
{
    const double rates[] = {RATE, RATE, 1000, 192000, 10000000};
    for (size_t i = 0; i < sizeof rates / sizeof *rates; ++i) {
        Player player;
        if (!CHECK(player_open(&player, folder.path, rates[i]))) {
            continue;
        }
        for (uint32_t seed = 1; seed <= 60; ++seed) {
            check_case("rate %g, seed %u", rates[i], seed);
            begin_anew(&player);
            play_extremes(&player, seed + 1000 * (uint32_t)i);
        }
        host_play_exactly(player.host);
        player_run(&player, BLOCK);
        if (rates[i] == RATE) {
            const int64_t now = player.now;
            tell(&player, position_at(BAR_FRAMES, 1), 0);
            play_to(&player, now + BAR_FRAMES, BLOCK);
            check_hats(&player, now, now + BAR_FRAMES);
        }
        close_player(&player);
    }
}

/* 2000 quarter notes a minute, whatever tempo and speed they are made of, are four
   times the fastest of drummers' rolls in quarters: what is faster is winding. */
static void what_runs_faster_than_2000_quarters_a_minute_is_not_played(void)
{
    const struct {
        double tempo, speed;
        bool plays;
    } rows[] = {{2000, 1, true},     {1000, 2, true},  {125, 16, true},
                {2000, 1.01, false}, {1001, 2, false}, {2000, 1000, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        Player player;
        check_case("%g at speed %g", rows[i].tempo, rows[i].speed);
        if (open_player(&player)) {
            Told told = position_at(0, rows[i].speed);
            set_field(&told, BEATS_PER_MINUTE, rows[i].tempo);
            tell(&player, told, 0);
            play_to(&player, 14400, BLOCK);
            if (rows[i].plays) {
                check_hats_apart(&player, 0, 360.0, 14400);
            } else {
                CHECK_INT(note_ons(&player), 0);
            }
            /* And the place at which it slows down is where it plays. */
            tell(&player, position_at(BAR_FRAMES, 1), 0);
            play_to(&player, 14400 + BAR_FRAMES, BLOCK);
            check_hats(&player, 14400, 14400 + BAR_FRAMES);
        }
        close_player(&player);
    }
}

static void run_all(void)
{
    RUN(whatever_is_told_readouts_stay_in_range_and_the_next_place_is_right);
    RUN(what_runs_faster_than_2000_quarters_a_minute_is_not_played);
}

int main(void)
{
    return run_in_folder(run_all);
}

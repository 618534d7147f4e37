// SPDX-License-Identifier: ISC
/* replay.h - plays a recording to the plugin, in the blocks it was recorded in
   or cut anew: what was told stands at the same frames either way. */
#pragma once

#include "player.h"

/* How to cut: AS_RECORDED, a block size, or RANDOM_CUTS | seed. */
enum { AS_RECORDED = 0, RANDOM_CUTS = 1 << 30, RANDOM_MOST = 3000 };

typedef struct {
    uint32_t cut;
    uint32_t chance; /* of the random cuts; never 0 */
    size_t block;
} Cutter;

static inline uint32_t next_random(uint32_t* const state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static inline uint32_t next_cut(Cutter* const cutter, const Recording* const recording)
{
    if (cutter->cut == AS_RECORDED) {
        return recording->blocks[cutter->block++];
    }
    if (cutter->cut < RANDOM_CUTS) {
        return cutter->cut;
    }
    /* Small blocks as often as large ones. */
    const uint32_t most = 1U + next_random(&cutter->chance) % RANDOM_MOST;
    return 1U + next_random(&cutter->chance) % most;
}

/* Tells what falls before `end`; a reset ends the block there.  The end of the block. */
static inline int64_t tell_until(Player* const player, const Recording* const recording,
                                 size_t* const next, const int64_t end)
{
    for (; *next < recording->moment_count && recording->moments[*next].at < end; ++*next) {
        const Moment* const moment = &recording->moments[*next];
        const int64_t offset = moment->at - player->now;
        if (moment->kind == TOLD_POSITION) {
            player_tell(player, &moment->told, offset);
        } else if (moment->kind == TOLD_GET) {
            player_ask(player, offset);
        } else if (offset == 0) {
            player_reset(player);
        } else {
            return moment->at;
        }
    }
    return end;
}

/* False if the last position told before `until` lets the transport roll. */
static inline bool stands_still(const Recording* const recording, const size_t next)
{
    for (size_t i = next; i > 0; --i) {
        const Moment* const moment = &recording->moments[i - 1];
        if (moment->kind == TOLD_RESET) {
            return true;
        }
        if (moment->kind == TOLD_POSITION) {
            return !(told_value(&moment->told, SPEED, 0.0) > 0.0);
        }
    }
    return true;
}

/* Plays up to `frames` of it; the player keeps the notes. */
static inline void replay(Player* const player, const Recording* const recording,
                          const uint32_t cut, const int64_t frames)
{
    Cutter cutter = {cut, (cut & 0xFFFFU) * 2654435761U + 1U, 0};
    const int64_t all = frames < recording->frames ? frames : recording->frames;
    size_t next = 0;
    while (player->now < all) {
        const int64_t wanted = player->now + next_cut(&cutter, recording);
        const int64_t end = tell_until(player, recording, &next, wanted < all ? wanted : all);
        player_run(player, (uint32_t)(end - player->now));
        if (player->sounding_count && stands_still(recording, next)) {
            player_fault(player, player->now, "a note that sounds on after the stop");
        }
    }
}

/* Stops the transport as every host does in the end: nothing may sound on. */
static inline void replay_stop(Player* const player)
{
    const Told stop = {1, {SPEED}, {'F'}, {0.0}};
    player_tell(player, &stop, 0);
    player_run(player, 64);
    if (player->sounding_count) {
        player_fault(player, player->now, "a note that never ends");
    }
}

// SPDX-License-Identifier: ISC
/* worst.c - looks for the block that costs most: a host that is out for it turns every dial and
   tells jumps, tempi, meters and stops every few frames.  What it does is a function of a seed,
   so that a bad one can be run again.  64 frames a block.
   Usage: worst BUNDLES SEED BLOCKS */
#include "stand.h"

#include "../../plugin/engine/groove/controls.h"

#include <stdio.h>
#include <stdlib.h>

enum { BLOCK = 64, FACTORY_IDS = 230 };

static const StandPlugin fourlimb = {"fourlimb",
                                     "fourlimb.lv2/fourlimb.so",
                                     "urn:fourlimb:groove",
                                     PORT_CONTROL,
                                     PORT_MIDI_OUT,
                                     PORT_NOTIFY,
                                     -1,
                                     CONTROL_COUNT + READOUT_COUNT,
                                     PORT_FIRST_CONTROL};

typedef enum { JUMPS, SHUTTLES, TEMPI, METERS, STOPS, LOOKS, NOTES, ROLLS, ALL, HABITS } Habit;

typedef struct {
    uint64_t chance;
    Habit habit;
    uint32_t apart; /* frames from event to event */
    bool turns;     /* dials in each block */
    StandPlace place;
    double beats; /* since bar 0 */
} Enemy;

/* Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003. */
static uint32_t draw(Enemy* const enemy, const uint32_t below)
{
    uint64_t x = enemy->chance;
    x ^= x << 13;
    x ^= x >> 7;
    x ^= x << 17;
    enemy->chance = x;
    return (uint32_t)(x >> 32) % below;
}

static void turn(Enemy* const enemy, Stand* const stand, const uint32_t control)
{
    const ControlRow row = control_rows[control];
    const float most = row.most > 1000.0f ? (float)FACTORY_IDS : row.most;
    const uint32_t steps = (uint32_t)(most - row.least);
    const float extreme = draw(enemy, 2) ? most : (float)draw(enemy, steps + 1) + row.least;
    *stand_control(stand, control) = draw(enemy, 3) ? extreme : row.normal;
}

static void begin(Enemy* const enemy, Stand* const stand, const uint64_t seed)
{
    *enemy = (Enemy){.chance = (seed + 1) * UINT64_C(0x9E3779B97F4A7C15)};
    for (int i = 0; i < 8; ++i) {
        draw(enemy, 2);
    }
    enemy->habit = (Habit)draw(enemy, HABITS);
    enemy->apart = 1U << draw(enemy, 7);
    enemy->turns = !draw(enemy, 3);
    enemy->place = (StandPlace){.speed = 1.0f,
                                .tempo = draw(enemy, 2) ? 2000.0f : 40.0f + (float)draw(enemy, 300),
                                .beats_per_bar = 4.0f,
                                .beat_unit = 4};
    for (uint32_t i = 0; i < CONTROL_COUNT; ++i) {
        turn(enemy, stand, i);
    }
    *stand_control(stand, CONTROL_ENABLED) = 1.0f;
    *stand_control(stand, CONTROL_CLOCK) = (float)!draw(enemy, 4);
}

static void move(Enemy* const enemy, const uint32_t frames)
{
    const double beat = 60.0 * 48000.0 / (double)enemy->place.tempo;
    enemy->beats += (double)frames / beat * (double)enemy->place.speed;
    enemy->place.frame += (int64_t)((float)frames * enemy->place.speed);
}

static void jump(Enemy* const enemy, const double beats)
{
    enemy->beats = beats;
    enemy->place.frame = (int64_t)(beats * 60.0 * 48000.0 / (double)enemy->place.tempo);
}

static void tell(Enemy* const enemy, Stand* const stand, const uint32_t at)
{
    const double beats_per_bar = (double)enemy->place.beats_per_bar;
    enemy->place.at = at;
    enemy->place.bar = (int64_t)(enemy->beats / beats_per_bar);
    enemy->place.bar_beat = (float)(enemy->beats - (double)enemy->place.bar * beats_per_bar);
    stand_place(stand, &enemy->place);
}

static void strike(Enemy* const enemy, Stand* const stand, const uint32_t at)
{
    const uint8_t note = (uint8_t)(35 + draw(enemy, 40));
    stand_midi(stand, at, (const uint8_t[]){draw(enemy, 3) ? 0x99 : 0x89, note, 100});
}

static void act(Enemy* const enemy, Stand* const stand, const Habit habit, const uint32_t at)
{
    switch (habit) {
    case JUMPS:
        jump(enemy, draw(enemy, 4000) / 8.0);
        break;
    case SHUTTLES:
        jump(enemy, draw(enemy, 2) * 16.0);
        break;
    case TEMPI:
        enemy->place.tempo = 30.0f + (float)draw(enemy, 1970);
        break;
    case METERS:
        enemy->place.beats_per_bar = (float)(1 + draw(enemy, 9));
        enemy->place.beat_unit = 1 << draw(enemy, 6);
        break;
    case STOPS:
        enemy->place.speed = enemy->place.speed > 0.0f ? 0.0f : 1.0f;
        break;
    case LOOKS:
        stand_look(stand, at);
        return;
    case NOTES:
        strike(enemy, stand, at);
        return;
    case ROLLS:
    case ALL:
    case HABITS:
        break;
    }
    tell(enemy, stand, at);
}

static void play(Enemy* const enemy, Stand* const stand, const long block)
{
    if (enemy->turns) {
        turn(enemy, stand, CONTROL_GROOVE + draw(enemy, CONTROL_COUNT - CONTROL_GROOVE));
    }
    if (!block) {
        jump(enemy, draw(enemy, 64) / 4.0);
        tell(enemy, stand, 0);
    }
    for (uint32_t at = 0; at < BLOCK; at += enemy->apart) {
        const bool rolls = enemy->habit == ROLLS && at;
        const Habit habit = enemy->habit == ALL ? (Habit)draw(enemy, ALL) : enemy->habit;
        if (!rolls) {
            act(enemy, stand, habit, at);
        }
        move(enemy, enemy->apart);
    }
    stand_run(stand, BLOCK);
}

int main(const int count, char** const arguments)
{
    static Stand stand;
    Enemy enemy;
    if (count != 4 || !stand_open(&stand, &fourlimb, arguments[1], 1)) {
        fprintf(stderr, "usage: worst BUNDLES SEED BLOCKS\n");
        return 2;
    }
    begin(&enemy, &stand, strtoull(arguments[2], NULL, 10));
    printf("habit %d every %u frames, dials %d, tempo %g\n", enemy.habit, enemy.apart, enemy.turns,
           (double)enemy.place.tempo);
    for (long block = 0; block < strtol(arguments[3], NULL, 10); ++block) {
        play(&enemy, &stand, block);
    }
    stand_close(&stand);
    return 0;
}

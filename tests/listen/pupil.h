// SPDX-License-Identifier: ISC
/* pupil.h - somebody who plays what is written with known faults. */
#pragma once

#include "../../plugin/engine/listen/told.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

typedef struct {
    double mean_ms[LIMB_COUNT];
    double sd_ms[LIMB_COUNT];
    double late_ms;          /* the set-up, all limbs */
    int drops[LIMB_COUNT];   /* every so many strokes; 0: none */
    int doubles[LIMB_COUNT]; /* the same: another stroke where none is written */
    bool is_pink;
} Pupil;

enum { PUPIL_STROKES = 2048, PUPIL_COSINES = 24 };

typedef struct {
    uint32_t written_count, played_count;
    ToldWritten written[PUPIL_STROKES];
    ToldPlayed played[PUPIL_STROKES];
    uint32_t dropped[LIMB_COUNT], doubled[LIMB_COUNT];
    double n[LIMB_COUNT], sum[LIMB_COUNT], squares[LIMB_COUNT]; /* of what was really played */
} PupilTake;

/* The same on every machine but for libm's last bits (Knuth's MMIX generator). */
static uint64_t pupil_state = 1;
static inline double pupil_drawn(void)
{
    pupil_state = pupil_state * 6364136223846793005U + 1442695040888963407U;
    return ((double)(pupil_state >> 11) + 0.5) / 9007199254740992.0;
}

/* A normal deviate (Box and Muller 1958). */
static inline double pupil_normal(void)
{
    return sqrt(-2.0 * log(pupil_drawn())) * cos(6.283185307179586 * pupil_drawn());
}

/* 1/f noise of sd 1: cosines an octave apart carry the same power, with phases drawn. */
typedef struct {
    double phases[PUPIL_COSINES];
} PupilDrift;

static inline PupilDrift pupil_drift(void)
{
    PupilDrift drift;
    for (int k = 0; k < PUPIL_COSINES; ++k) {
        drift.phases[k] = 6.283185307179586 * pupil_drawn();
    }
    return drift;
}

/* Octaves from two strokes to `most`. */
static inline double pupil_pink(const PupilDrift* const drift, const double at)
{
    double sum = 0.0;
    const int octaves = 9;
    for (int k = 0; k < octaves; ++k) {
        sum += cos(6.283185307179586 * at / (2.3 * pow(2.0, k)) + drift->phases[k]);
    }
    return sum * sqrt(2.0 / octaves);
}

/* What its strokes were. */
static inline double pupil_mean(const PupilTake* const take, const int limb)
{
    return take->sum[limb] / take->n[limb];
}

static inline double pupil_sd(const PupilTake* const take, const int limb)
{
    const double mean = pupil_mean(take, limb);
    return sqrt((take->squares[limb] - take->n[limb] * mean * mean) / (take->n[limb] - 1.0));
}

static inline int pupil_by_time(const void* const a, const void* const b)
{
    const double d = ((const ToldPlayed*)a)->ms - ((const ToldPlayed*)b)->ms;
    return d < 0.0 ? -1 : d > 0.0;
}

static inline void pupil_write(PupilTake* const take, const double ms, const Limb limb,
                               const Voice voice, const Level level)
{
    take->written[take->written_count++] = (ToldWritten){
        ms, {.limb = (uint8_t)limb, .voice = (uint8_t)voice, .level = (uint8_t)level}};
}

/* Eighths on the hat, backbeats, sixteenths foot to foot: bars of 4/4. */
static inline void pupil_write_rock(PupilTake* const take, const double tempo, const int bars)
{
    const double step = 15000.0 / tempo;
    take->written_count = 0;
    for (int i = 0; i < 16 * bars; ++i) {
        if (i % 2 == 0) {
            pupil_write(take, step * i, RIGHT_HAND, VOICE_HAT_CLOSED, LEVEL_NORMAL);
        }
        if (i % 8 == 4) {
            pupil_write(take, step * i, LEFT_HAND, VOICE_SNARE, LEVEL_ACCENT);
        }
        pupil_write(take, step * i, i % 2 ? LEFT_FOOT : RIGHT_FOOT, VOICE_KICK, LEVEL_NORMAL);
    }
}

static inline void pupil_strike(PupilTake* const take, const Kit* const kit, const double ms,
                                const Stroke stroke)
{
    const int velocity = (stroke.level == LEVEL_ACCENT ? 110 : 80) + (int)(6.0 * pupil_normal());
    take->played[take->played_count++] =
        (ToldPlayed){ms, kit->notes[stroke.voice], (uint8_t)(velocity > 127 ? 127 : velocity)};
}

static inline void pupil_play(const Pupil* const pupil, const Kit* const kit, PupilTake* const take)
{
    PupilDrift drifts[LIMB_COUNT];
    int counts[LIMB_COUNT] = {0};
    take->played_count = 0;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        drifts[limb] = pupil_drift();
        take->dropped[limb] = take->doubled[limb] = 0;
        take->n[limb] = take->sum[limb] = take->squares[limb] = 0.0;
    }
    for (uint32_t i = 0; i < take->written_count; ++i) {
        const Stroke stroke = take->written[i].stroke;
        const int limb = stroke.limb;
        const int number = ++counts[limb];
        const double noise = pupil->is_pink ? pupil_pink(&drifts[limb], number) : pupil_normal();
        if (pupil->drops[limb] && number % pupil->drops[limb] == 0) {
            ++take->dropped[limb];
            continue;
        }
        const double off = pupil->mean_ms[limb] + pupil->sd_ms[limb] * noise;
        take->n[limb] += 1.0;
        take->sum[limb] += off;
        take->squares[limb] += off * off;
        pupil_strike(take, kit, take->written[i].ms + pupil->late_ms + off, stroke);
        if (pupil->doubles[limb] && number % pupil->doubles[limb] == 0) {
            ++take->doubled[limb];
            pupil_strike(take, kit, take->written[i].ms + pupil->late_ms + 1000.0 * 0.045, stroke);
        }
    }
    qsort(take->played, take->played_count, sizeof *take->played, pupil_by_time);
}

// SPDX-License-Identifier: ISC
#include "difficulty.h"

#include "play_entry.h"

#include <math.h>
#include <stddef.h>

static const double part_share = 0.7; /* of a groove's load: a figure that is as hard */
static const double quarters_least = 32.0;
static const double run_full = 64.0;

/* ---- What each stream has to do */

static double share_of(const Playability* const playability, const int stream)
{
    const PlayDemand* const found = &playability->found[stream];
    const double closest = found->closest_ms > 0.0 ? 1000.0 / found->closest_ms : 0.0;
    const double most = playability->limits.rate[stream];
    return (found->rate / most + found->mean / most + fmin(closest / most, 2.0)) / 3.0;
}

static double stream_load(const Playability* const playability, const int stream)
{
    const bool are_hands =
        stream == PLAY_HANDS || (stream < LIMB_COUNT && !limb_is_foot((uint8_t)stream));
    const double run = fmin(fmax(playability->found[stream].run_strokes, 1.0), run_full);
    const double share = pow(share_of(playability, stream), are_hands ? 1.5 : 1.0);
    return share * (0.75 + 0.25 * log2(run) / log2(run_full));
}

static double worst_move(const Playability* const playability)
{
    double worst = 0.0;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const PlayMove move = playability->found[limb].worst;
        if (move.needs_ms > 0.0) {
            worst = fmax(worst, move.needs_ms / move.has_ms);
        }
    }
    return fmin(worst, 1.5);
}

/* ---- What limbs have to do beside each other */

/* Moments at which a limb of the set strikes. */
static uint32_t moments_of(const Playability* const playability, const uint32_t limbs)
{
    uint32_t moments = 0;
    for (uint32_t set = 1; set < PLAY_SETS; ++set) {
        moments += set & limbs ? playability->together[set] : 0;
    }
    return moments;
}

static double independent(const Playability* const playability, const uint32_t a, const uint32_t b)
{
    const double fewer = fmin(moments_of(playability, a), moments_of(playability, b));
    return fmin(fewer, moments_of(playability, a | b) / 2.0);
}

static double independence(const Playability* const playability)
{
    const double quarters = (double)playability->end / (double)TICKS_PER_QUARTER;
    double strokes = 0.0;
    for (uint32_t a = 0; a < LIMB_COUNT; ++a) {
        for (uint32_t b = a + 1; b < LIMB_COUNT; ++b) {
            strokes += independent(playability, 1U << a, 1U << b);
        }
    }
    return strokes / (quarters * 60.0 / playability->tempo);
}

double difficulty_load(const Playability* const playability)
{
    double most = 0.0;
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        most = fmax(most, stream_load(playability, stream));
    }
    return most + 0.15 * worst_move(playability) + 0.03 * independence(playability);
}

double difficulty_groove_load(const Groove* const groove, const double tempo,
                              Playability* const room)
{
    const PlayLimits limits = play_limits_default();
    play_entry_groove(groove, tempo, quarters_least, &limits, room);
    return difficulty_load(room);
}

double difficulty_figure_load(const Figure* const figure, const double tempo,
                              Playability* const room)
{
    const PlayLimits limits = play_limits_default();
    play_entry_figure(figure, tempo, quarters_least, &limits, room);
    return difficulty_load(room);
}

/* ---- Grades */

static int grade(const double load)
{
    static const double from[] = {0.42, 0.55, 0.75, 1.0};
    int grade = 1;
    for (size_t i = 0; i < sizeof from / sizeof *from; ++i) {
        grade += load >= from[i];
    }
    return grade;
}

int difficulty_of_groove(const Groove* const groove, const double tempo, Playability* const room)
{
    return grade(difficulty_groove_load(groove, tempo, room));
}

int difficulty_of_figure(const Figure* const figure, const double tempo, Playability* const room)
{
    return grade(difficulty_figure_load(figure, tempo, room) / part_share);
}

double difficulty_tempo(const int tempo_low, const int tempo_high)
{
    return tempo_low && tempo_high ? sqrt((double)tempo_low * tempo_high) : 120.0;
}

// SPDX-License-Identifier: ISC
#include "told.h"

#include <math.h>
#include <stddef.h>

/* ---- Where all strokes lie together */

/* Set-ups come late by up to 80 ms, people early by up to 57 (the tenth that is earliest; Baath
   & Madison 2012): both, and a little. */
static const double shift_least = -140.0;
static const double shift_most = 140.0;
static const double shift_step = 2.0;
static const double near_ms = 25.0;     /* strokes nearer than that speak for a shift */
static const double habit_share = 5e-4; /* of all strokes, for each ms from the last shift */

/* How well one stream's strokes fit where played ones are moved by `shift`. */
static double fit_of(const ToldRoom* const room, const uint32_t written, const uint32_t played,
                     const double shift)
{
    double fit = 0.0;
    uint32_t at = 0;
    for (uint32_t i = 0; i < written; ++i) {
        const double place = room->written[i] + shift;
        while (at + 1 < played &&
               fabs(room->played[at + 1] - place) <= fabs(room->played[at] - place)) {
            ++at;
        }
        const double apart = played ? fabs(room->played[at] - place) : near_ms;
        fit += apart < near_ms ? 1.0 - apart / near_ms : 0.0;
    }
    return fit;
}

/* Lays a stream out: its written and played strokes. */
static void gather(const ToldTask* const task, const PadStream stream, ToldRoom* const room,
                   uint32_t* const written, uint32_t* const played)
{
    *written = *played = 0;
    for (uint32_t i = 0; i < task->written_count && *written < PAIRING_STROKES_MAX; ++i) {
        if (pads_of_stroke(task->kit, task->split, task->written[i].stroke) == stream) {
            room->written[*written] = task->written[i].ms;
            room->written_index[(*written)++] = i;
        }
    }
    for (uint32_t i = 0; i < task->played_count && *played < PAIRING_STROKES_MAX; ++i) {
        if (pads_of_key(task->kit, task->split, task->played[i].key) == stream) {
            room->played[*played] = task->played[i].ms;
            room->played_index[(*played)++] = i;
        }
    }
}

enum { SHIFTS = 141 };

static double find_shift(const ToldTask* const task, const double last, ToldRoom* const room)
{
    double fits[SHIFTS] = {0.0};
    double best = last;
    double most = -1e30;
    for (int stream = 0; stream < PAD_STREAMS; ++stream) {
        uint32_t written = 0;
        uint32_t played = 0;
        gather(task, (PadStream)stream, room, &written, &played);
        for (int i = 0; written && played && i < SHIFTS; ++i) {
            fits[i] += fit_of(room, written, played, shift_least + shift_step * i);
        }
    }
    for (int i = 0; i < SHIFTS; ++i) {
        const double shift = shift_least + shift_step * i;
        const double fit = fits[i] - habit_share * task->written_count * fabs(shift - last);
        best = fit > most ? shift : best;
        most = fit > most ? fit : most;
    }
    return best < shift_most ? best : shift_most;
}

/* ---- Sums */

/* Of a limb's pairs: offsets against their time, and velocities by written level. */
typedef struct {
    uint32_t count;
    double t, tt, d, dd, td;
    uint32_t levels[LEVEL_DRAG + 1];
    double v[LEVEL_DRAG + 1], vv[LEVEL_DRAG + 1];
} ToldSums;

static void add(ToldSums* const sums, const double t, const double d, const uint8_t level,
                const double velocity)
{
    ++sums->count;
    sums->t += t;
    sums->tt += t * t;
    sums->d += d;
    sums->dd += d * d;
    sums->td += t * d;
    ++sums->levels[level];
    sums->v[level] += velocity;
    sums->vv[level] += velocity * velocity;
}

static double not_below_0(const double value)
{
    return value > 0.0 ? value : 0.0;
}

static void tell_levels(ToldLimb* const limb, const ToldSums* const sums)
{
    double all = 0.0;
    double strays = 0.0;
    uint32_t free = 0;
    for (int level = 0; level <= LEVEL_DRAG; ++level) {
        const uint32_t n = sums->levels[level];
        all += sums->v[level];
        strays += n ? not_below_0(sums->vv[level] - sums->v[level] * sums->v[level] / n) : 0.0;
        free += n ? n - 1 : 0;
    }
    limb->level = all / sums->count;
    limb->level_sd = free ? sqrt(strays / free) : 0.0;
}

/* `span`: ms from the stretch's first written stroke to its last. */
static void tell(ToldLimb* const limb, const ToldSums* const sums, const double span)
{
    const double n = sums->count;
    limb->struck = sums->count;
    limb->missed = limb->written - limb->struck;
    if (sums->count) {
        const double tt = sums->tt - sums->t * sums->t / n;
        limb->mean_ms = sums->d / n;
        limb->drift_ms = tt > 0.0 ? (sums->td - sums->t * sums->d / n) / tt * span : 0.0;
        tell_levels(limb, sums);
    }
    if (sums->count > 1) {
        limb->sd_ms = sqrt(not_below_0(sums->dd - sums->d * sums->d / n) / (n - 1.0));
    }
}

/* ---- All streams */

/* The limb whose stroke of the stream is written nearest to a note that has none. */
static uint8_t limb_of_extra(const ToldTask* const task, const ToldRoom* const room,
                             const uint32_t written, const double ms)
{
    uint32_t best = 0;
    for (uint32_t i = 1; i < written; ++i) {
        best = fabs(room->written[i] - ms) < fabs(room->written[best] - ms) ? i : best;
    }
    return task->written[room->written_index[best]].stroke.limb;
}

static void count_extras(const ToldTask* const task, const ToldRoom* const room,
                         const uint32_t written, const uint32_t played, Told* const told)
{
    uint32_t next = 0; /* pairs are in order */
    for (uint32_t j = 0; j < played; ++j) {
        while (next < written &&
               (room->found[next] == PAIRING_NONE || room->found[next] < (int32_t)j)) {
            ++next;
        }
        if (written && (next == written || room->found[next] != (int32_t)j)) {
            ++told->limbs[limb_of_extra(task, room, written, room->played[j])].extra;
        }
    }
}

static void take_stream(const ToldTask* const task, const PadStream stream, Told* const told,
                        ToldSums sums[LIMB_COUNT], int32_t* const pairs, ToldRoom* const room)
{
    uint32_t written = 0;
    uint32_t played = 0;
    gather(task, stream, room, &written, &played);
    for (uint32_t j = 0; j < played; ++j) {
        room->played[j] -= told->shift_ms;
    }
    told->strays += written ? 0 : played;
    pairing_find(room->written, written, room->played, played, room->found, &room->pairing);
    for (uint32_t i = 0; i < written; ++i) {
        const uint32_t index = room->written_index[i];
        const Stroke stroke = task->written[index].stroke;
        ++told->limbs[stroke.limb].written;
        if (room->found[i] != PAIRING_NONE) {
            const uint32_t note = room->played_index[room->found[i]];
            const double d = task->played[note].ms - task->written[index].ms;
            add(&sums[stroke.limb], task->written[index].ms - task->written[0].ms, d, stroke.level,
                task->played[note].velocity);
            if (pairs) {
                pairs[index] = (int32_t)note;
            }
        }
    }
    count_extras(task, room, written, played, told);
}

static void tell_apart(Told* const told, const ToldSums sums[LIMB_COUNT])
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        double others = 0.0;
        uint32_t count = 0;
        for (int other = 0; other < LIMB_COUNT; ++other) {
            others += other != limb ? sums[other].d : 0.0;
            count += other != limb ? sums[other].count : 0;
        }
        told->limbs[limb].apart_ms =
            count && sums[limb].count ? told->limbs[limb].mean_ms - others / count : 0.0;
    }
}

static uint32_t count_strays(const ToldTask* const task)
{
    uint32_t strays = 0;
    for (uint32_t i = 0; i < task->played_count; ++i) {
        strays += pads_of_key(task->kit, task->split, task->played[i].key) == PAD_NONE;
    }
    return strays;
}

void told_make(Told* const told, const ToldTask* const task, const double shift_ms,
               int32_t* const pairs, ToldRoom* const room)
{
    ToldSums sums[LIMB_COUNT] = {{0}};
    const uint32_t count = task->written_count;
    *told = (Told){.shift_ms = find_shift(task, shift_ms, room), .strays = count_strays(task)};
    for (uint32_t i = 0; pairs && i < count; ++i) {
        pairs[i] = PAIRING_NONE;
    }
    for (int stream = 0; stream < PAD_STREAMS; ++stream) {
        take_stream(task, (PadStream)stream, told, sums, pairs, room);
    }
    const double span = count ? task->written[count - 1].ms - task->written[0].ms : 0.0;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        tell(&told->limbs[limb], &sums[limb], span);
    }
    tell_apart(told, sums);
}

bool told_is_clean(const Told* const told, const double spread_ms, const uint32_t misses)
{
    for (int i = 0; i < LIMB_COUNT; ++i) {
        const ToldLimb* const limb = &told->limbs[i];
        const double wrong = 32.0 * (limb->missed + limb->extra);
        if (limb->written && (wrong > (double)misses * limb->written || limb->sd_ms > spread_ms)) {
            return false;
        }
    }
    return true;
}

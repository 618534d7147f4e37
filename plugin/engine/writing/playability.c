// SPDX-License-Identifier: ISC
#include "playability.h"

#include <math.h>
#include <string.h>

static const double slack = 1e-9; /* what computing in doubles may be off, of 1 */

static double exact_second(const Playability* const playability)
{
    return playability->tempo / 60.0 * (double)TICKS_PER_QUARTER;
}

static double ms_of(const Playability* const playability, const int64_t ticks)
{
    return (double)ticks / exact_second(playability) * 1000.0;
}

static double usable_tempo(const double tempo)
{
    return !(tempo > TEMPO_LEAST) ? TEMPO_LEAST : tempo < TEMPO_MOST ? tempo : TEMPO_MOST;
}

uint32_t playability_bars(const double minutes, const Meter meter, const double tempo)
{
    const double ticks = minutes * usable_tempo(tempo) * (double)TICKS_PER_QUARTER;
    const double bars = ceil(ticks / (double)meter_bar_ticks(meter) * (1.0 - slack));
    return !(bars > 1.0) ? 1 : bars < (double)UINT32_MAX ? (uint32_t)bars : UINT32_MAX;
}

void playability_start(Playability* const playability, const Selection* const selection,
                       const Meter meter, const double tempo, const uint32_t bars,
                       const PlayLimits* const limits)
{
    const int64_t bar_ticks = meter_bar_ticks(meter);
    const int64_t most = INT64_MAX / 4;
    const Selection looked_at = *selection; /* may be the one in here */
    const PlayLimits held = *limits;
    memset(playability, 0, sizeof *playability); /* too large for a stack */
    playability->selection = looked_at;
    playability->meter = meter;
    playability->tempo = usable_tempo(tempo);
    playability->limits = held;
    playability->end = bars <= most / bar_ticks ? bar_ticks * bars : most;
    playability->moment = -1;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        playability->selection.limbs[limb] = true;
    }
}

/* ---- One stroke of a stream, after the one before it */

static void count_run(const Playability* const playability, const PlayStream stream,
                      PlayEar* const ear, PlayDemand* const found, const int64_t tick)
{
    const double gap_ms = ms_of(playability, tick - ear->tally.last);
    const double most_ms = playability->limits.run_gap_ms[stream];
    if (!ear->tally.struck || gap_ms > most_ms * (1.0 + slack)) {
        ear->run = 0;
        ear->run_begin = tick;
    }
    if (++ear->run > found->run_strokes) {
        found->run_strokes = ear->run;
        found->run_seconds = ms_of(playability, tick - ear->run_begin) / 1000.0;
        found->run_at = ear->run_begin;
    }
}

static void count_burst(const Playability* const playability, const PlayStream stream,
                        PlayEar* const ear, PlayDemand* const found, const int64_t tick)
{
    const double gap = ms_of(playability, tick - ear->tally.last) / 1000.0;
    const PlayLimits* const limits = &playability->limits;
    const double most = limits->rate[stream];
    const double share = (int)stream < LIMB_COUNT ? limits->burst_share[stream] : 1.0;
    const bool struck = ear->tally.struck;
    found->doubles += struck && gap * most < 1.0 - slack;
    ear->burst = struck && gap * most * share < 1.0 - slack ? ear->burst + 1 : 1;
    if (ear->burst > found->burst) {
        found->burst = ear->burst;
        found->burst_at = tick;
    }
}

static void count_band(const PlayEar* const ear, PlayDemand* const found, const int64_t gap)
{
    const uint32_t count = ear->tally.count;
    PlayBand* const band = &found->bands[count < PLAY_BANDS ? count : PLAY_BANDS - 1];
    if (count > 1) { /* the gap lies within the second */
        ++band->gaps;
        band->ticks += gap;
    }
}

static void hear(Playability* const playability, const PlayStream stream, const int64_t tick)
{
    PlayEar* const ear = &playability->ears[stream];
    PlayDemand* const found = &playability->found[stream];
    const int64_t gap = tick - ear->tally.last;
    if (ear->tally.struck && !gap) {
        return;
    }
    count_run(playability, stream, ear, found, tick);
    count_burst(playability, stream, ear, found, tick);
    const LimbTally* const tally = &ear->tally;
    const uint32_t busiest = tally->busiest;
    const int64_t closest = tally->closest;
    limb_tally_strike(&ear->tally, tick, limb_tally_second(playability->tempo));
    found->rate_at = tally->busiest > busiest ? tick : found->rate_at;
    found->closest_at = tally->closest != closest ? tick : found->closest_at;
    count_band(ear, found, gap);
    ++found->strokes;
}

/* ---- A limb's voices */

static void count_move(Playability* const playability, const Stroke stroke)
{
    const PlayEar* const ear = &playability->ears[stroke.limb];
    PlayDemand* const found = &playability->found[stroke.limb];
    const PlayMove move = {
        .tick = stroke.tick,
        .from = ear->voice,
        .to = stroke.voice,
        .has_ms = ms_of(playability, stroke.tick - ear->tally.last),
        .needs_ms = play_limits_move_ms(&playability->limits, ear->voice, stroke.voice),
    };
    if (!(move.needs_ms > 0.0)) {
        return;
    }
    found->moves += move.has_ms < move.needs_ms * (1.0 - slack);
    if (!(found->worst.needs_ms > 0.0) ||
        move.has_ms * found->worst.needs_ms < found->worst.has_ms * move.needs_ms) {
        found->worst = move;
    }
}

static void count_at_once(Playability* const playability, const Stroke stroke)
{
    const bool goes_on = stroke.tick == playability->moment;
    const uint32_t before = goes_on ? playability->moment_limbs : 0;
    const uint32_t limbs = before | 1U << stroke.limb;
    playability->together[before] -= before != 0;
    ++playability->together[limbs];
    playability->moment_strokes = goes_on ? playability->moment_strokes + 1 : 1;
    playability->moment_limbs = limbs;
    playability->moment = stroke.tick;
    if (playability->moment_strokes > playability->at_once) {
        playability->at_once = playability->moment_strokes;
    }
}

static void count_torn(PlayDemand* const found, const int64_t tick, const bool at_once)
{
    if (at_once && !found->torn++) {
        found->torn_at = tick;
    }
}

/* Strokes at once come in order of limb, then voice; the same twice is one. */
static void take(Playability* const playability, const Stroke stroke)
{
    PlayEar* const ear = &playability->ears[stroke.limb];
    const bool at_once = ear->tally.struck && ear->tally.last == stroke.tick;
    if (at_once && ear->voice == stroke.voice) {
        return;
    }
    count_at_once(playability, stroke);
    count_torn(&playability->found[stroke.limb], stroke.tick, at_once);
    if (!at_once && ear->tally.struck && !limb_is_foot(stroke.limb)) {
        count_move(playability, stroke);
    }
    ear->voice = stroke.voice;
    hear(playability, (PlayStream)stroke.limb, stroke.tick);
    hear(playability, limb_is_foot(stroke.limb) ? PLAY_FEET : PLAY_HANDS, stroke.tick);
}

/* ---- The song */

static void finish(Playability* const playability)
{
    const double seconds = ms_of(playability, playability->end) / 1000.0;
    for (int stream = 0; stream < PLAY_STREAMS; ++stream) {
        const LimbTally* const tally = &playability->ears[stream].tally;
        PlayDemand* const found = &playability->found[stream];
        found->rate = tally->busiest;
        found->mean = found->strokes / seconds;
        found->closest_ms = ms_of(playability, tally->closest);
    }
}

bool playability_step(Playability* const playability)
{
    if (playability->at >= playability->end) {
        return false;
    }
    const int64_t next = playability->at + TICKS_PER_QUARTER;
    const int64_t end = next < playability->end ? next : playability->end;
    StrokeList* const list = &playability->strokes;
    groove_strokes(&playability->selection, playability->meter, playability->at, end, list);
    for (uint32_t i = 0; i < list->count; ++i) {
        take(playability, list->strokes[i]);
    }
    playability->dropped += list->dropped;
    playability->at = end;
    if (end == playability->end) {
        finish(playability);
    }
    return true;
}

void playability_run(Playability* const playability, const Selection* const selection,
                     const Meter meter, const double tempo, const uint32_t bars,
                     const PlayLimits* const limits)
{
    playability_start(playability, selection, meter, tempo, bars, limits);
    while (playability_step(playability)) {
    }
}

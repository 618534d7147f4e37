// SPDX-License-Identifier: ISC
/* storm.h - a host made up by chance, and what is done to it: locates, edits of
   tempo and meter, stops, varispeed, other block sizes.  Its song is a map of
   pieces with exact arithmetic; what it tells of it is rounded, left out and late
   as hosts were seen to do (recorded/README.md, scenarios.h). */
#pragma once

#include "hand_played.h"

/* How places are rounded: not at all; to the nearest 1/1920 of a beat; cut to
   1/384 of one.  Both steps were recorded. */
typedef enum { EXACT_PLACES, TICK_PLACES, CUT_PLACES } PlaceKind;
typedef enum { TELLS_EVERY_BLOCK, TELLS_CHANGES, TELLS_BEATS } Telling;

/* From a frame of the host's on. */
typedef struct {
    double frame;
    int64_t bar;  /* the bar that it begins in, and how many */
    double beat;  /*   beats of it are over by then */
    double beats; /* in a bar */
    int32_t unit; /* 2, 4, 8 or 16 */
    double tempo; /* quarters a minute */
} Piece;

enum { PIECES_MAX = 24 };

typedef struct {
    Player* player;
    uint32_t chance;
    PlaceKind places;
    Telling telling;
    bool counts_beats;      /* its tempo; else quarters */
    bool quarter_fractions; /* inside the beats of x/8 and x/16 */
    Piece pieces[PIECES_MAX];
    int piece_count;
    uint32_t block;
    int64_t frame;
    double speed;
    bool stopped;
    Told last;          /* told last */
    int64_t last_frame; /* where the host will be if nothing happens */
} StormHost;

static inline uint32_t below(uint32_t* const chance, const uint32_t end)
{
    return next_random(chance) % end;
}

static inline const Piece* piece_at(const StormHost* const host, const double frame)
{
    int i = host->piece_count - 1;
    while (i > 0 && host->pieces[i].frame > frame) {
        --i;
    }
    return &host->pieces[i];
}

static inline double beat_frames(const Piece* const piece)
{
    return 60.0 * RATE / piece->tempo * 4.0 / piece->unit;
}

/* Beats since the line of the piece's first bar. */
static inline double beats_at(const Piece* const piece, const double frame)
{
    return piece->beat + (frame - piece->frame) / beat_frames(piece);
}

/* What places are rounded to, in beats; 0: they aren't. */
static inline double place_step(const PlaceKind kind)
{
    return kind == EXACT_PLACES ? 0.0 : kind == TICK_PLACES ? 1.0 / 1920.0 : 1.0 / 384.0;
}

/* As the host rounds it, and counts inside its beats. */
static inline double told_beat(const StormHost* const host, const double beats, const int32_t unit)
{
    const double step = place_step(host->places);
    const double shrunk = host->quarter_fractions && unit > 4 ? 4.0 / unit : 1.0;
    const double whole = floor(beats), inside = (beats - whole) * shrunk;
    if (host->places == EXACT_PLACES) {
        return whole + inside;
    }
    const double steps = inside / step;
    const double rounded = host->places == TICK_PLACES ? floor(steps + 0.5) : floor(steps + 1e-9);
    return rounded * step < shrunk ? whole + rounded * step : whole + 1.0;
}

static inline Told storm_position(const StormHost* const host, const double speed)
{
    const Piece* const piece = piece_at(host, (double)host->frame);
    /* To the next beat first, so that the last tick of a bar is in the next. */
    const double beats = told_beat(host, beats_at(piece, (double)host->frame), piece->unit);
    const double bars = floor(beats / piece->beats);
    Told told = position_at(host->frame, speed);
    set_field(&told, BAR, (double)piece->bar + bars);
    set_field(&told, BAR_BEAT, beats - bars * piece->beats);
    set_field(&told, BEATS_PER_BAR, piece->beats);
    set_field(&told, BEAT_UNIT, piece->unit);
    set_field(&told, BEATS_PER_MINUTE,
              piece->tempo * (host->counts_beats ? piece->unit / 4.0 : 1.0));
    return some_fields(&told, ~(1U << BEAT));
}

static inline bool tells_now(const StormHost* const host, const Told* const told)
{
    const Field watched[] = {SPEED, BEATS_PER_BAR, BEAT_UNIT, BEATS_PER_MINUTE};
    bool changed = host->frame != host->last_frame || !host->last.count;
    for (size_t i = 0; i < sizeof watched / sizeof *watched; ++i) {
        const double now = told_value(told, watched[i], 0.0);
        const double before = told_value(&host->last, watched[i], 0.0);
        changed |= now < before || now > before;
    }
    const bool beat =
        told_value(told, BAR, 0.0) > told_value(&host->last, BAR, 0.0) ||
        floor(told_value(told, BAR_BEAT, 0.0)) != floor(told_value(&host->last, BAR_BEAT, 0.0));
    return changed || host->telling == TELLS_EVERY_BLOCK || (host->telling == TELLS_BEATS && beat);
}

/* One block, at the host's speed or standing. */
static inline void storm_block(StormHost* const host)
{
    const double speed = host->stopped ? 0.0 : host->speed;
    const Told told = storm_position(host, speed);
    if (tells_now(host, &told)) {
        player_tell(host->player, &told, 0);
        host->last = told;
    }
    player_run(host->player, host->block);
    host->frame += (int64_t)((double)host->block * speed);
    host->last_frame = host->frame;
}

static inline void storm_blocks(StormHost* const host, const uint32_t count)
{
    for (uint32_t i = 0; i < count; ++i) {
        storm_block(host);
    }
}

/* ---- What is done to it */

static inline double random_tempo(uint32_t* const chance)
{
    return below(chance, 3) ? 40.0 + below(chance, 260)
                            : (double)(4000 + below(chance, 26000)) / 100.0;
}

typedef struct {
    double beats;
    int32_t unit;
} StormMeter;

static const StormMeter storm_meters[] = {{4, 4}, {3, 4},  {5, 4}, {7, 8},
                                          {5, 8}, {12, 8}, {2, 2}, {7, 16}};
enum { STORM_METERS = sizeof storm_meters / sizeof *storm_meters };

/* A piece that goes on from the last one at so many beats of it. */
static inline void add_piece(StormHost* const host, const double beats, const StormMeter meter,
                             const double tempo)
{
    const Piece* const last = &host->pieces[host->piece_count - 1];
    const double bars = floor(beats / last->beats + 1e-9);
    if (host->piece_count < PIECES_MAX) {
        host->pieces[host->piece_count++] =
            (Piece){last->frame + (beats - last->beat) * beat_frames(last),
                    last->bar + (int64_t)bars,
                    fmax(0.0, beats - bars * last->beats),
                    meter.beats,
                    meter.unit,
                    tempo};
    }
}

static inline StormMeter meter_of(const Piece* const piece)
{
    return (StormMeter){piece->beats, piece->unit};
}

/* What is behind the place is cut off the map. */
static inline void end_map_here(StormHost* const host)
{
    while (host->piece_count > 1 &&
           host->pieces[host->piece_count - 1].frame > (double)host->frame) {
        --host->piece_count;
    }
}

/* The tempo becomes another somewhere inside the block that comes next. */
static inline void edit_tempo(StormHost* const host)
{
    end_map_here(host);
    const Piece* const last = &host->pieces[host->piece_count - 1];
    const double at = (double)host->frame + below(&host->chance, host->block);
    add_piece(host, beats_at(last, at), meter_of(last), random_tempo(&host->chance));
}

/* The meter becomes another at the next bar line. */
static inline void edit_meter(StormHost* const host)
{
    end_map_here(host);
    const Piece* const last = &host->pieces[host->piece_count - 1];
    const double bar = floor(beats_at(last, (double)host->frame) / last->beats) + 1.0;
    add_piece(host, bar * last->beats, storm_meters[below(&host->chance, STORM_METERS)],
              last->tempo);
}

/* A map of up to four pieces, the last of them in this meter; what it makes of the
   place is told whatever it is. */
static inline void make_map(StormHost* const host, const StormMeter meter, const uint32_t pieces)
{
    uint32_t* const chance = &host->chance;
    const bool one_meter = below(chance, 2) || pieces == 1;
    const StormMeter first = one_meter ? meter : storm_meters[below(chance, STORM_METERS)];
    host->last.count = 0;
    host->piece_count = 1;
    host->pieces[0] = (Piece){0, 0, 0, first.beats, first.unit, random_tempo(chance)};
    for (uint32_t i = 1; i < pieces; ++i) {
        const Piece* const last = &host->pieces[host->piece_count - 1];
        const double bars = 1.0 + below(chance, 12);
        const StormMeter next =
            one_meter || i + 1 == pieces ? meter : storm_meters[below(chance, STORM_METERS)];
        add_piece(host, bars * last->beats, next, random_tempo(chance));
    }
}

static inline void locate(StormHost* const host)
{
    uint32_t* const chance = &host->chance;
    const double end = host->pieces[host->piece_count - 1].frame + 60.0 * RATE;
    host->frame = below(chance, (uint32_t)end);
    if (below(chance, 3) == 0) { /* to a bar line, or the frame after it */
        const Piece* const piece = piece_at(host, (double)host->frame);
        const double bars = floor(beats_at(piece, (double)host->frame) / piece->beats);
        const double on = (bars * piece->beats - piece->beat) * beat_frames(piece);
        host->frame = (int64_t)fmax(0.0, ceil(piece->frame + on));
    }
    /* To where it was a moment ago can't be told from standing there. */
    host->frame += told_value(&host->last, FRAME, -1.0) == (double)host->frame;
    host->stopped = below(chance, 2);
    storm_blocks(host, host->stopped ? 1 + below(chance, 2) : 0);
    host->stopped = false;
}

static inline void stop_a_while(StormHost* const host)
{
    host->stopped = true;
    storm_blocks(host, 1 + below(&host->chance, 5));
    host->stopped = false;
}

static inline void change_speed(StormHost* const host)
{
    const double speeds[] = {0.5, 1.0, 2.0};
    host->speed = speeds[below(&host->chance, 3)];
}

static inline void change_block(StormHost* const host)
{
    const uint32_t sizes[] = {32, 64, 256, 500, 1024, 2048};
    host->block = sizes[below(&host->chance, 6)];
}

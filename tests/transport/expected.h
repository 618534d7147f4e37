// SPDX-License-Identifier: ISC
/* expected.h - what a host's transport ought to sound like, from first
   principles: where its frames say it is, and the song's tempo and bars as the
   scenario was set up.  Knows nothing of the plugin but what it promises. */
#pragma once

#include "groove_folder.h"
#include "recording.h"

#include <math.h>

/* Tempo from a frame of the host on: quarters a minute, growing by so many with
   every quarter (a ramp even in beats, as every host recorded plays it). */
typedef struct {
    double frame;
    double quarter; /* the place at that frame */
    double tempo;   /* 0: no such piece */
    double growth;
} Tempo;

enum { TEMPI_MAX = 4, LEGS_MAX = 4, BARS_MAX = 3 };

/* The song's tempo as it holds from a frame of the recording on.  Most have one
   leg; more where somebody edits the tempo or the host changes its mind. */
typedef struct {
    int64_t since;
    Tempo tempi[TEMPI_MAX];
} Leg;

/* Bars from a place in the song on. */
typedef struct {
    double quarter;
    double length; /* in quarters; 0: no such piece */
    double beat;   /* the beat unit, in quarters */
    int64_t number;
} Bars;

typedef struct {
    const char* name; /* of the recording */
    Leg legs[LEGS_MAX];
    Bars bars[BARS_MAX];
    double slack;   /* frames that a stroke may be off, over half a frame */
    int64_t settle; /* frames after a start in which strokes aren't judged */
} Scenario;

typedef struct {
    double frame; /* of the recording, exact */
    int key;
    bool may_miss; /* so near the edge of a stretch that either is right */
} Stroke;

typedef struct {
    double slowed; /* quarters of the groove to one of the host: given */
    Stroke* strokes;
    size_t count, room;
    int64_t* starts; /* where stretches began */
    size_t start_count, start_room;
} Expected;

/* A stretch in which the host's frames go on evenly. */
typedef struct {
    int64_t begin, end; /* in the recording */
    double frame;       /* the host's, at begin */
    double speed;
    bool afresh; /* after a stop or jump */
} Stretch;

static inline const Tempo* tempo_at(const Leg* const leg, const double quarter)
{
    int i = 0;
    while (i + 1 < TEMPI_MAX && leg->tempi[i + 1].tempo > 0.0 &&
           quarter >= leg->tempi[i + 1].quarter) {
        ++i;
    }
    return &leg->tempi[i];
}

/* The host's frame where a place in the song falls. */
static inline double frame_of(const Leg* const leg, const double quarter, const double rate)
{
    const Tempo* const tempo = tempo_at(leg, quarter);
    const double on = quarter - tempo->quarter;
    const double minutes = tempo->growth > 0.0
                               ? log1p(tempo->growth * on / tempo->tempo) / tempo->growth
                               : on / tempo->tempo;
    return tempo->frame + minutes * 60.0 * rate;
}

static inline const Bars* bars_at(const Scenario* const scenario, const double quarter)
{
    int i = 0;
    while (i + 1 < BARS_MAX && scenario->bars[i + 1].length > 0.0 &&
           quarter >= scenario->bars[i + 1].quarter) {
        ++i;
    }
    return &scenario->bars[i];
}

static inline const Leg* leg_at(const Scenario* const scenario, const int64_t at)
{
    int i = 0;
    while (i + 1 < LEGS_MAX && scenario->legs[i + 1].tempi[0].tempo > 0.0 &&
           at >= scenario->legs[i + 1].since) {
        ++i;
    }
    return &scenario->legs[i];
}

static inline void expect(Expected* const expected, const Stroke stroke)
{
    void* strokes = expected->strokes;
    if (grow(&strokes, expected->count, &expected->room, sizeof(Stroke))) {
        expected->strokes = (Stroke*)strokes;
        expected->strokes[expected->count++] = stroke;
    }
}

static inline void note_start(Expected* const expected, const int64_t at)
{
    void* starts = expected->starts;
    if (grow(&starts, expected->start_count, &expected->start_room, sizeof(int64_t))) {
        expected->starts = (int64_t*)starts;
        expected->starts[expected->start_count++] = at;
    }
}

static inline void expect_line(Expected* const expected, const Scenario* const scenario,
                               const double quarter, const double frame, const bool may_miss)
{
    expect(expected, (Stroke){frame, HAT_KEY, may_miss});
    const Bars* const bars = bars_at(scenario, quarter);
    const double bar = (quarter - bars->quarter) * expected->slowed / bars->length;
    const bool begins = fabs(bar - round(bar)) < 1e-9;
    expect(expected, (Stroke){frame, begins ? CLICK_ACCENT_KEY : CLICK_KEY, may_miss});
    if (begins) {
        const int64_t number = bars->number + llround(bar);
        expect(expected, (Stroke){frame, bar_keys[number % BAR_KEYS], may_miss});
    }
}

/* Whether a sixteenth line at `exact` belongs to the stretch.  At a fresh start
   those up to 1/384 beat before it are promised to sound at the start. */
static inline void expect_in_stretch(Expected* const expected, const Scenario* const scenario,
                                     const Stretch stretch, const double quarter,
                                     const double exact, const double back)
{
    const double edge = scenario->slack + 0.01;
    const double begin = (double)stretch.begin - 0.5 - (stretch.afresh ? back : 0.0);
    const double end = (double)stretch.end - 0.5;
    const bool inside = exact >= begin && exact < end;
    const bool near = fabs(exact - begin) < edge || fabs(exact - end) < edge;
    if (inside || near) {
        const double first = (double)stretch.begin, last = (double)stretch.end - 1.0;
        expect_line(expected, scenario, quarter, fmin(fmax(exact, first), last), near);
    }
}

static inline void expect_stretch(Expected* const expected, const Scenario* const scenario,
                                  const double rate, const Stretch stretch)
{
    const Leg* const leg = leg_at(scenario, stretch.begin);
    if (stretch.afresh) {
        note_start(expected, stretch.begin);
    }
    for (int64_t line = 0;; ++line) {
        const double quarter = (double)line / 4.0 / expected->slowed;
        const double frame = frame_of(leg, quarter, rate);
        const double exact = (double)stretch.begin + (frame - stretch.frame) / stretch.speed;
        const double beat = bars_at(scenario, quarter)->beat * 60.0 * rate /
                            tempo_at(leg, quarter)->tempo / stretch.speed;
        if (exact > (double)stretch.end + scenario->slack) {
            return;
        }
        expect_in_stretch(expected, scenario, stretch, quarter, exact, beat / 384.0);
    }
}

/* Walks through a recording and cuts it into stretches. */
typedef struct {
    const Scenario* scenario;
    double rate;
    bool rolling;
    Stretch stretch; /* going on, if rolling */
    Expected* expected;
    int64_t last_at; /* when the last position came, and what it said */
    double last_frame;
    double last_speed; /* 0 before any */
} Walk;

static inline void end_stretch(Walk* const walk, const int64_t at)
{
    if (walk->rolling && at > walk->stretch.begin) {
        walk->stretch.end = at;
        expect_stretch(walk->expected, walk->scenario, walk->rate, walk->stretch);
    }
    walk->rolling = false;
}

/* Frames that went through a 32-bit float are off by half their last digit. */
static inline bool as_expected(const double frame, const double expected)
{
    return fabs(frame - expected) <= fmax(1.0, fabs(frame) / 16777216.0);
}

static inline bool goes_on(const Walk* const walk, const int64_t at, const double frame)
{
    const double on = (double)(at - walk->stretch.begin) * walk->stretch.speed;
    const Scenario* const scenario = walk->scenario;
    return walk->rolling && as_expected(frame, walk->stretch.frame + on) &&
           leg_at(scenario, at) == leg_at(scenario, walk->stretch.begin);
}

static inline void walk_position(Walk* const walk, const int64_t at, const Told* const told)
{
    const double frame = told_value(told, FRAME, 0.0);
    const double speed = told_value(told, SPEED, 0.0);
    /* Said to roll, and yet at the very same frame: time stands still. */
    const bool stuck =
        walk->last_speed > 0.0 && at > walk->last_at && fabs(frame - walk->last_frame) < 0.5;
    if (!(speed > 0.0) || stuck) {
        end_stretch(walk, at);
    } else if (!goes_on(walk, at, frame)) {
        end_stretch(walk, at);
        walk->rolling = true;
        walk->stretch = (Stretch){at, at, frame, speed, true};
    }
    walk->last_at = at;
    walk->last_frame = frame;
    walk->last_speed = speed;
}

static inline void expected_make(Expected* const expected, const Scenario* const scenario,
                                 const Recording* const recording)
{
    *expected = (Expected){.slowed = expected->slowed};
    Walk walk = {.scenario = scenario, .rate = recording->rate, .expected = expected};
    for (size_t i = 0; i < recording->moment_count; ++i) {
        const Moment* const moment = &recording->moments[i];
        if (moment->kind == TOLD_POSITION) {
            walk_position(&walk, moment->at, &moment->told);
        } else if (moment->kind == TOLD_RESET) {
            end_stretch(&walk, moment->at);
            walk.last_speed = 0.0;
        }
    }
    end_stretch(&walk, recording->frames);
}

static inline void expected_free(Expected* const expected)
{
    free(expected->strokes);
    free(expected->starts);
    *expected = (Expected){.count = 0};
}

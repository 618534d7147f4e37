// SPDX-License-Identifier: ISC
/* The strokes that stay are counted up from the figure's start: counts[i] stay before
   stroke i.  How many a turn keeps being given, every condition bounds the difference of two
   such counts, so the largest counts are found as shortest paths are (Bellman and Ford),
   whole numbers by themselves, and the largest keep the earliest strokes. */
#include "lighten.h"

enum { FIRST_OF_RUN, ACCENTED, NORMAL_ON_BEAT, NORMAL_OFF_BEAT, GHOST, STRENGTHS };

/* The limb's strokes, in order. */
typedef struct {
    uint32_t count;
    uint32_t most;
    uint16_t index[FIGURE_STROKES_MAX];   /* into the figure's strokes */
    uint8_t strength[FIGURE_STROKES_MAX]; /* 0 the strongest */
    bool stays[FIGURE_STROKES_MAX];       /* so far */
    uint32_t beyond[FIGURE_STROKES_MAX];  /* the first that a span from here hasn't; turns on */
    int32_t counts[FIGURE_STROKES_MAX];
} Thinning;

static int64_t tick_of(const Thinning* const thinning, const Figure* const figure, const uint32_t i)
{
    const int64_t turn = (int64_t)(i / thinning->count) * figure->cycle_ticks;
    return turn + figure->strokes[thinning->index[i % thinning->count]].tick;
}

static int64_t span_ticks(const double seconds, const double tempo)
{
    return whole_number(seconds * (tempo / 60.0 * (double)TICKS_PER_QUARTER));
}

static uint8_t strength_of(const Stroke stroke, const int64_t beat)
{
    if (stroke.level >= LEVEL_ACCENT) {
        return ACCENTED;
    }
    if (stroke.level == LEVEL_GHOST) {
        return GHOST;
    }
    return stroke.tick % beat ? NORMAL_OFF_BEAT : NORMAL_ON_BEAT;
}

static void rank_strokes(Thinning* const thinning, const Figure* const figure,
                         const LightenLimit* const limit)
{
    const double second = limit->tempo / 60.0 * (double)TICKS_PER_QUARTER;
    bool any_first = false;
    for (uint32_t i = 0; i < thinning->count; ++i) {
        const uint32_t before = i + thinning->count - 1; /* a turn later, as i is */
        const int64_t gap =
            tick_of(thinning, figure, i + thinning->count) - tick_of(thinning, figure, before);
        const bool first = (double)gap / second * 1000.0 > limit->run_gap_ms * (1.0 + 1e-9);
        const Stroke stroke = figure->strokes[thinning->index[i]];
        thinning->strength[i] = first ? FIRST_OF_RUN : strength_of(stroke, limit->beat);
        any_first = any_first || first;
    }
    if (!any_first) {
        thinning->strength[0] = FIRST_OF_RUN;
    }
}

/* A span can be many turns long: whole turns of it are skipped. */
static void find_spans(Thinning* const thinning, const Figure* const figure,
                       const LightenLimit* const limit)
{
    const int64_t span = span_ticks(limit->seconds, limit->tempo);
    const uint32_t turns = (uint32_t)(span / figure->cycle_ticks);
    for (uint32_t i = 0; i < thinning->count; ++i) {
        uint32_t beyond = i + turns * thinning->count;
        while (tick_of(thinning, figure, beyond) - tick_of(thinning, figure, i) < span) {
            ++beyond;
        }
        thinning->beyond[i] = beyond;
    }
}

static bool lower(int32_t* const count, const int64_t bound)
{
    if (*count <= bound) {
        return false;
    }
    *count = (int32_t)bound;
    return true;
}

/* One stroke's conditions: itself, and the span that begins with it. */
static bool tighten(Thinning* const thinning, const uint32_t i, const uint8_t weakest,
                    const int64_t total)
{
    int32_t* const counts = thinning->counts;
    const uint32_t next = (i + 1) % thinning->count;
    const uint32_t beyond = thinning->beyond[i] % thinning->count;
    const int64_t turn = next ? 0 : total;
    const bool may = thinning->stays[i] || thinning->strength[i] == weakest;
    const int64_t turns = thinning->beyond[i] / thinning->count;
    bool lowered = lower(&counts[next], (int64_t)counts[i] + may - turn);
    lowered |= lower(&counts[i], counts[next] + turn - thinning->stays[i]);
    return lower(&counts[beyond], (int64_t)counts[i] + thinning->most - total * turns) || lowered;
}

/* Can a turn keep so many in all, those that stay and some of the weakest sort?  If so,
   `counts` are the largest. */
static bool can_keep(Thinning* const thinning, const uint8_t weakest, const uint32_t total)
{
    for (uint32_t i = 0; i < thinning->count; ++i) {
        thinning->counts[i] = i ? (int32_t)thinning->count : 0;
    }
    bool lowered = true;
    for (uint32_t pass = 0; lowered && pass <= thinning->count; ++pass) {
        lowered = false;
        for (uint32_t i = 0; i < thinning->count; ++i) {
            lowered |= tighten(thinning, i, weakest, total);
        }
        if (thinning->counts[0] < 0) {
            return false; /* the start would have to be before itself */
        }
    }
    return !lowered;
}

/* The most that a turn can keep lies where it turns from can to cannot: fewer always can. */
static void keep_sort(Thinning* const thinning, const uint8_t sort, uint32_t* const kept)
{
    uint32_t can = *kept;
    uint32_t cannot = thinning->count + 1;
    while (cannot - can > 1) {
        const uint32_t between = can + (cannot - can) / 2;
        const bool does = can_keep(thinning, sort, between);
        can = does ? between : can;
        cannot = does ? cannot : between;
    }
    if (can == *kept || !can_keep(thinning, sort, can)) {
        return;
    }
    for (uint32_t i = 0; i < thinning->count; ++i) {
        const bool last = i + 1 == thinning->count;
        thinning->stays[i] = (last ? (int32_t)can : thinning->counts[i + 1]) > thinning->counts[i];
    }
    *kept = can;
}

static uint32_t choose(Thinning* const thinning, const Figure* const figure,
                       const LightenLimit* const limit)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        if (figure->strokes[i].limb == limit->limb) {
            thinning->stays[thinning->count] = false;
            thinning->index[thinning->count++] = (uint16_t)i;
        }
    }
    if (thinning->count) {
        rank_strokes(thinning, figure, limit);
        find_spans(thinning, figure, limit);
    }
    for (uint8_t sort = 0; thinning->count && sort < STRENGTHS; ++sort) {
        keep_sort(thinning, sort, &kept);
    }
    return kept;
}

Lightened lighten_figure(const Figure* const figure, const LightenLimit limit,
                         Stroke* const strokes)
{
    Thinning thinning = {.count = 0, .most = limit.most};
    Lightened result = {.taken = 0};
    const uint32_t kept = choose(&thinning, figure, &limit);
    result.taken = thinning.count - kept;
    uint32_t own = 0;
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        const bool is_own = figure->strokes[i].limb == limit.limb;
        if (!is_own || thinning.stays[own]) {
            strokes[result.count++] = figure->strokes[i];
        }
        own += is_own;
    }
    return result;
}

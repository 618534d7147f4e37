// SPDX-License-Identifier: ISC
#include "lookahead.h"

/* Places told by hosts are rounded: what is this close is the same place. */
enum { SAME_PLACE = TICKS_PER_QUARTER / 384 };

static bool hit_before(const Hit a, const Hit b)
{
    return a.tick != b.tick ? a.tick < b.tick : a.limb < b.limb;
}

static void wait_for(Lookahead* const lookahead, const Hit hit)
{
    HitList* const waiting = &lookahead->waiting;
    if (waiting->count == HITS_MAX) {
        ++lookahead->dropped;
        return;
    }
    uint32_t place = waiting->count++;
    for (; place > 0 && hit_before(hit, waiting->hits[place - 1]); --place) {
        waiting->hits[place] = waiting->hits[place - 1];
    }
    waiting->hits[place] = hit;
}

/* Late strokes of the place left are owed still. */
static void keep_late(HitList* const waiting, const Jump jump)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; jump.rolling && i < waiting->count; ++i) {
        Hit hit = waiting->hits[i];
        if (!hit.is_grace && (double)hit.written < jump.from - (double)SAME_PLACE) {
            hit.tick = hit.written = jump.seam;
            waiting->hits[kept++] = hit;
        }
    }
    waiting->count = kept;
}

void lookahead_start(Lookahead* const lookahead)
{
    lookahead->waiting.count = lookahead->due.count = lookahead->ahead_count = 0;
    lookahead->drawn_until = 0;
    lookahead->dropped = 0;
    performed_forget(&lookahead->performed);
}

void lookahead_jump(Lookahead* const lookahead, const Jump jump)
{
    const int64_t distance = whole_number(jump.to - jump.from);
    uint32_t kept = 0;
    for (uint32_t i = 0; jump.rolling && i < lookahead->ahead_count; ++i) {
        Hit hit = lookahead->ahead[i];
        if ((double)hit.written >= jump.from - (double)SAME_PLACE) {
            hit.written += distance;
            lookahead->ahead[kept++] = hit;
        }
    }
    lookahead->ahead_count = kept;
    keep_late(&lookahead->waiting, jump);
    lookahead->drawn_until = jump.seam;
}

void lookahead_shift(Lookahead* const lookahead, const int64_t delta)
{
    for (uint32_t i = 0; i < lookahead->waiting.count; ++i) {
        lookahead->waiting.hits[i].tick += delta;
        lookahead->waiting.hits[i].written += delta;
    }
    for (uint32_t i = 0; i < lookahead->ahead_count; ++i) {
        lookahead->ahead[i].written += delta;
    }
    lookahead->drawn_until += delta;
}

void lookahead_take_back(Lookahead* const lookahead, const int64_t tick)
{
    HitList* const waiting = &lookahead->waiting;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < waiting->count; ++i) {
        if (waiting->hits[i].written < tick) {
            waiting->hits[kept++] = waiting->hits[i];
        }
    }
    waiting->count = kept;
    if (lookahead->drawn_until > tick) {
        lookahead->drawn_until = tick;
    }
}

static bool is_same_place(const int64_t a, const int64_t b)
{
    return a < b ? b - a <= SAME_PLACE : a - b <= SAME_PLACE;
}

/* A limb that strikes something else, or as loud as another level, at the same
   place is another stroke: a loop's first crash isn't the hat of the bar after. */
static bool is_same_stroke(const Hit a, const Hit b)
{
    return a.limb == b.limb && a.voice == b.voice && a.level == b.level &&
           a.is_grace == b.is_grace && is_same_place(a.written, b.written);
}

/* How often a hit was played already: a main stroke once at most, of a drag's two
   grace strokes the first of them. */
static uint32_t played_ahead(const Lookahead* const lookahead, const Hit hit)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < lookahead->ahead_count; ++i) {
        count += is_same_stroke(lookahead->ahead[i], hit);
    }
    return count;
}

/* From the section's own ticks to the groove's.  As many milliseconds before its line
   are more ticks or fewer at the tempo that goes there. */
static void move_to_line(const Score* const score, Hit* const hit)
{
    hit->tick += score->origin;
    hit->written += score->origin;
    if (score->lead > 0.0 && hit->tick < score->line) {
        hit->tick = score->line + (int64_t)((double)(hit->tick - score->line) * score->lead);
    }
}

static void draw_stroke(Lookahead* const lookahead, const Score* const score, const Stroke stroke)
{
    Hit hits[ARTICULATION_MAX];
    const uint32_t count = articulation_of(score, stroke, &lookahead->performed.strokes, hits);
    for (uint32_t i = 0; i < count; ++i) {
        move_to_line(score, &hits[i]);
    }
    if (played_ahead(lookahead, hits[0])) {
        return;
    }
    const uint32_t graces = count > 1 ? played_ahead(lookahead, hits[1]) : 0;
    wait_for(lookahead, hits[0]);
    for (uint32_t i = 1 + graces; i < count; ++i) {
        wait_for(lookahead, hits[i]);
    }
}

/* More than there is room for around it: these alone. */
static void draw_crowd(Lookahead* const lookahead, const Score* const score, const PerformedKey key,
                       const int64_t from, const int64_t to)
{
    StrokeList crowd;
    performed_crowd(&lookahead->performed, key, score->selection, score->swing, from, to, &crowd);
    lookahead->dropped += crowd.dropped;
    for (uint32_t i = 0; i < crowd.count; ++i) {
        draw_stroke(lookahead, score, crowd.strokes[i]);
    }
}

void lookahead_draw(Lookahead* const lookahead, const Score* const score, const PerformedKey key,
                    const int64_t until)
{
    const Performed* const performed = &lookahead->performed;
    const int64_t from = lookahead->drawn_until - score->origin;
    const int64_t to = until - score->origin;
    if (from >= to) {
        return;
    }
    lookahead->drawn_until = until;
    performed_look(&lookahead->performed, key, score->selection, score->swing, from, to);
    if (performed->strokes.dropped) {
        draw_crowd(lookahead, score, key, from, to);
        return;
    }
    const StrokeList* const list = &performed->strokes;
    for (uint32_t i = stroke_list_first(list, from); i < list->count && list->strokes[i].tick < to;
         ++i) {
        draw_stroke(lookahead, score, list->strokes[i]);
    }
}

/* Remembers a hit whose written place is still to come. */
static void remember_ahead(Lookahead* const lookahead, const Hit hit)
{
    if (lookahead->ahead_count == AHEAD_MAX) {
        for (uint32_t i = 1; i < AHEAD_MAX; ++i) {
            lookahead->ahead[i - 1] = lookahead->ahead[i];
        }
        --lookahead->ahead_count;
    }
    lookahead->ahead[lookahead->ahead_count++] = hit;
}

static void forget_ahead(Lookahead* const lookahead, const int64_t until)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < lookahead->ahead_count; ++i) {
        if (lookahead->ahead[i].written >= until) {
            lookahead->ahead[kept++] = lookahead->ahead[i];
        }
    }
    lookahead->ahead_count = kept;
}

void lookahead_take(Lookahead* const lookahead, const int64_t until, const LimbsHeard heard)
{
    HitList* const waiting = &lookahead->waiting;
    uint32_t taken = 0;
    lookahead->due.count = 0;
    for (; taken < waiting->count && waiting->hits[taken].tick < until; ++taken) {
        const Hit hit = waiting->hits[taken];
        const bool* const limbs = hit.written < heard.line ? heard.limbs : heard.limbs_after;
        if (limbs[hit.limb]) {
            lookahead->due.hits[lookahead->due.count++] = hit;
        }
        if (hit.written >= until) {
            remember_ahead(lookahead, hit);
        }
    }
    for (uint32_t i = taken; taken && i < waiting->count; ++i) {
        waiting->hits[i - taken] = waiting->hits[i];
    }
    waiting->count -= taken;
    forget_ahead(lookahead, until);
}

// SPDX-License-Identifier: ISC
#include "performer.h"

/* Places told by hosts are rounded: what is this close is the same place. */
enum { SAME_PLACE = TICKS_PER_QUARTER / 384 };

static bool hit_before(const Hit a, const Hit b)
{
    return a.tick != b.tick ? a.tick < b.tick : a.limb < b.limb;
}

static void wait_for(Performer* const performer, const Hit hit)
{
    HitList* const waiting = &performer->waiting;
    if (waiting->count == HITS_MAX) {
        ++performer->dropped;
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

void performer_jump(Performer* const performer, const Jump jump)
{
    const int64_t distance = whole_number(jump.to - jump.from);
    uint32_t kept = 0;
    for (uint32_t i = 0; jump.rolling && i < performer->ahead_count; ++i) {
        Hit hit = performer->ahead[i];
        if ((double)hit.written >= jump.from - (double)SAME_PLACE) {
            hit.written += distance;
            performer->ahead[kept++] = hit;
        }
    }
    performer->ahead_count = kept;
    keep_late(&performer->waiting, jump);
    performer->drawn_until = jump.seam;
}

void performer_shift(Performer* const performer, const int64_t delta)
{
    for (uint32_t i = 0; i < performer->waiting.count; ++i) {
        performer->waiting.hits[i].tick += delta;
        performer->waiting.hits[i].written += delta;
    }
    for (uint32_t i = 0; i < performer->ahead_count; ++i) {
        performer->ahead[i].written += delta;
    }
    performer->drawn_until += delta;
}

void performer_take_back(Performer* const performer, const int64_t tick)
{
    HitList* const waiting = &performer->waiting;
    uint32_t kept = 0;
    for (uint32_t i = 0; i < waiting->count; ++i) {
        if (waiting->hits[i].written < tick) {
            waiting->hits[kept++] = waiting->hits[i];
        }
    }
    waiting->count = kept;
    if (performer->drawn_until > tick) {
        performer->drawn_until = tick;
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
static uint32_t played_ahead(const Performer* const performer, const Hit hit)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < performer->ahead_count; ++i) {
        count += is_same_stroke(performer->ahead[i], hit);
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

static void draw_stroke(Performer* const performer, const Score* const score, const Stroke stroke)
{
    Hit hits[RENDITION_MAX];
    const uint32_t count = rendition_of(score, stroke, &performer->around, hits);
    for (uint32_t i = 0; i < count; ++i) {
        move_to_line(score, &hits[i]);
    }
    if (played_ahead(performer, hits[0])) {
        return;
    }
    const uint32_t graces = count > 1 ? played_ahead(performer, hits[1]) : 0;
    wait_for(performer, hits[0]);
    for (uint32_t i = 1 + graces; i < count; ++i) {
        wait_for(performer, hits[i]);
    }
}

void performer_draw(Performer* const performer, const Score* const score, const int64_t until)
{
    if (performer->drawn_until >= until) {
        return;
    }
    const int64_t from = performer->drawn_until - score->origin;
    const int64_t to = until - score->origin;
    performer->drawn_until = until;
    Choice choice = *score->choice;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        choice.limbs[limb] = true; /* silenced when their time comes */
    }
    choice_strokes(&choice, score->meter, from, to, &performer->strokes);
    performer->dropped += performer->strokes.dropped;
    if (!performer->strokes.count) {
        return;
    }
    choice_strokes(&choice, score->meter, from - TICKS_PER_QUARTER, to + TICKS_PER_QUARTER,
                   &performer->around);
    for (uint32_t i = 0; i < performer->strokes.count; ++i) {
        draw_stroke(performer, score, performer->strokes.strokes[i]);
    }
}

/* Remembers a hit whose written place is still to come. */
static void remember_ahead(Performer* const performer, const Hit hit)
{
    if (performer->ahead_count == AHEAD_MAX) {
        for (uint32_t i = 1; i < AHEAD_MAX; ++i) {
            performer->ahead[i - 1] = performer->ahead[i];
        }
        --performer->ahead_count;
    }
    performer->ahead[performer->ahead_count++] = hit;
}

static void forget_ahead(Performer* const performer, const int64_t until)
{
    uint32_t kept = 0;
    for (uint32_t i = 0; i < performer->ahead_count; ++i) {
        if (performer->ahead[i].written >= until) {
            performer->ahead[kept++] = performer->ahead[i];
        }
    }
    performer->ahead_count = kept;
}

void performer_take(Performer* const performer, const int64_t until, const LimbsHeard heard)
{
    HitList* const waiting = &performer->waiting;
    uint32_t taken = 0;
    performer->due.count = 0;
    for (; taken < waiting->count && waiting->hits[taken].tick < until; ++taken) {
        const Hit hit = waiting->hits[taken];
        const bool* const limbs = hit.written < heard.line ? heard.limbs : heard.limbs_after;
        if (limbs[hit.limb]) {
            performer->due.hits[performer->due.count++] = hit;
        }
        if (hit.written >= until) {
            remember_ahead(performer, hit);
        }
    }
    for (uint32_t i = taken; taken && i < waiting->count; ++i) {
        waiting->hits[i - taken] = waiting->hits[i];
    }
    waiting->count -= taken;
    forget_ahead(performer, until);
}

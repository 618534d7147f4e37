// SPDX-License-Identifier: ISC
#include "performer.h"

#include "grace.h"

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
    const int64_t distance = (int64_t)(jump.to - jump.from);
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

static int64_t distance(const int64_t a, const int64_t b)
{
    const int64_t apart = a < b ? b - a : a - b;
    return apart < TICKS_PER_QUARTER ? apart : TICKS_PER_QUARTER;
}

/* Looks at the strokes a quarter note around this one. */
static Surroundings look_around(const StrokeList* const around, const Stroke stroke,
                                const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    Surroundings seen = {TICKS_PER_QUARTER,
                         TICKS_PER_QUARTER,
                         TICKS_PER_QUARTER,
                         floor_mod(stroke.tick, bar),
                         floor_mod(stroke.tick, 2 * bar),
                         2 * bar};
    for (uint32_t i = 0; i < around->count; ++i) {
        const Stroke other = around->strokes[i];
        const int64_t apart = distance(other.tick, stroke.tick);
        const bool same_limb = other.limb == stroke.limb;
        if (!apart || !(same_limb || other.voice == stroke.voice)) {
            continue;
        }
        seen.near = apart < seen.near ? apart : seen.near;
        int64_t* const side = other.tick < stroke.tick ? &seen.limb_before : &seen.limb_after;
        if (same_limb && apart < *side) {
            *side = apart;
        }
    }
    return seen;
}

/* How many hits of a limb for the place were played already: of a main stroke one
   at most, of its grace strokes the first of them. */
static uint32_t played_ahead(const Performer* const performer, const int64_t written,
                             const uint8_t limb, const bool is_grace)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < performer->ahead_count; ++i) {
        const Hit* const hit = &performer->ahead[i];
        count += hit->limb == limb && hit->is_grace == is_grace &&
                 distance(hit->written, written) <= SAME_PLACE;
    }
    return count;
}

static void draw_stroke(Performer* const performer, const Score* const score, const Stroke stroke)
{
    if (played_ahead(performer, stroke.tick, stroke.limb, false)) {
        return;
    }
    const Surroundings seen = look_around(&performer->around, stroke, score->meter);
    const Hit main = {
        .tick = stroke.tick + feel_offset(score->feel, stroke, &seen, score->tempo),
        .written = stroke.tick,
        .limb = stroke.limb,
        .voice = stroke.voice,
        .velocity = feel_velocity(score->feel, stroke, &seen, score->tempo),
    };
    wait_for(performer, main);
    const Graces graces = grace_strokes(stroke, &performer->around, score->tempo);
    const uint32_t played = played_ahead(performer, stroke.tick, graces.limb, true);
    for (uint32_t i = played; i < graces.count; ++i) {
        Hit grace = main;
        grace.tick -= graces.leads[i];
        grace.limb = graces.limb;
        grace.velocity = grace_velocity(main.velocity);
        grace.is_grace = true;
        wait_for(performer, grace);
    }
}

void performer_draw(Performer* const performer, const Score* const score, const int64_t until)
{
    const int64_t from = performer->drawn_until;
    if (from >= until) {
        return;
    }
    performer->drawn_until = until;
    Choice choice = *score->choice;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        choice.limbs[limb] = true; /* silenced when their time comes */
    }
    choice_strokes(&choice, score->meter, from, until, &performer->strokes);
    performer->dropped += performer->strokes.dropped;
    if (!performer->strokes.count) {
        return;
    }
    choice_strokes(&choice, score->meter, from - TICKS_PER_QUARTER, until + TICKS_PER_QUARTER,
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

void performer_take(Performer* const performer, const int64_t until, const bool limbs[LIMB_COUNT])
{
    HitList* const waiting = &performer->waiting;
    uint32_t taken = 0;
    performer->due.count = 0;
    for (; taken < waiting->count && waiting->hits[taken].tick < until; ++taken) {
        const Hit hit = waiting->hits[taken];
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

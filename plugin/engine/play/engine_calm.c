// SPDX-License-Identifier: ISC
/* Between two strokes nothing happens for hundreds of blocks: how long that lasts is found
   once, and until then, or until something is told, the clock alone goes on. */
#include "engine_inside.h"

#include "../groove/lines.h"

static const Calm none = {.frame = INT64_MIN};
static const Calm endless = {INT64_MAX, INT64_MAX, INT64_MAX, 0};

void engine_stir(Engine* const engine)
{
    engine->calm = none;
    ++engine->stirs;
}

static int64_t first_of(const int64_t a, const int64_t b)
{
    return a < b ? a : b;
}

/* The frame at which a note is to end first. */
static int64_t first_end(const Scheduler* const scheduler)
{
    int64_t first = INT64_MAX;
    for (uint32_t i = 0; i < scheduler->count; ++i) {
        first = first_of(first, scheduler->notes[i].off_frame);
    }
    return first;
}

/* The tick at which a hit is due first, or one played ahead is in its place. */
static int64_t first_hit(const Lookahead* const lookahead)
{
    int64_t first = lookahead->waiting.count ? lookahead->waiting.hits[0].tick : INT64_MAX;
    for (uint32_t i = 0; i < lookahead->ahead_count; ++i) {
        first = first_of(first, lookahead->ahead[i].written);
    }
    return first;
}

/* The tick of the next click that is heard, or of the next quarter note line. */
static int64_t first_click(Engine* const engine, const Passage* const passage)
{
    const ClickSettings click = passage->entry->settings.click;
    const int64_t from = engine->groove_clock.played_until - passage->origin;
    if (click.when == CLICK_OFF || (click.when == CLICK_COUNT_IN && from >= 0)) {
        return INT64_MAX;
    }
    const int64_t line = line_next(from + 1, passage->meter, TICKS_PER_QUARTER);
    const ClickList* const list = &engine->clicks;
    uint32_t i = 0;
    click_strokes(&passage->entry->selection, click, passage->meter, from, line, &engine->clicks);
    while (i < list->count && list->clicks[i].is_silent) {
        ++i;
    }
    return passage->origin + (i < list->count ? list->clicks[i].tick : line);
}

static Calm rolling_calm(Engine* const engine)
{
    const GrooveClock* const groove_clock = &engine->groove_clock;
    const Passage sounding = passage_sounding(engine);
    const int64_t line =
        sounding.end == INT64_MAX ? INT64_MAX : clock_frame(&groove_clock->clock, sounding.end);
    const int64_t rise =
        groove_clock->clock.now + groove_clock_frames_to_rise(groove_clock, UINT32_MAX);
    const int64_t before_rise = groove_clock->rise_tick - 1; /* there the tempo is another */
    const int64_t hit = first_hit(&engine->lookahead);
    return (Calm){.frame = first_of(first_of(line, rise), first_end(&engine->scheduler)),
                  .tick = first_of(first_of(hit, before_rise), first_click(engine, &sounding)),
                  .drawn = engine_draws_next(engine),
                  .reach = engine_reach(engine)};
}

void engine_find_calm(Engine* const engine, const uint32_t revision)
{
    const bool is_silenced = !engine_settings(engine)->enabled || !engine->groove_clock.rolling;
    engine->calm = none;
    if (engine->revision == revision && !(is_silenced && engine->scheduler.count) &&
        engine_has_foot_load(engine) && engine_is_varied(engine)) {
        engine->calm = engine->groove_clock.rolling ? rolling_calm(engine) : endless;
    }
}

/* False if strokes are to be drawn, or one is due. */
static bool goes_on_calmly(Engine* const engine, const int64_t now)
{
    Lookahead* const lookahead = &engine->lookahead;
    const int64_t end = clock_first_tick(&engine->groove_clock.clock, now);
    const int64_t drawn = end + engine->calm.reach;
    if (end > engine->calm.tick || drawn > engine->calm.drawn) {
        return false;
    }
    lookahead->drawn_until = drawn > lookahead->drawn_until ? drawn : lookahead->drawn_until;
    return true;
}

bool engine_wait(Engine* const engine, const uint32_t frames)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    const int64_t now = groove_clock->clock.now + frames;
    if (now > engine->calm.frame || (groove_clock->rolling && !goes_on_calmly(engine, now))) {
        return false;
    }
    groove_clock_advance(groove_clock, &engine->position, frames);
    return true;
}

void engine_hold(Engine* const engine, const uint32_t frames)
{
    engine_stir(engine);
    engine->position.clock.now += frames;
    engine->groove_clock.clock.now = engine->position.clock.now;
}

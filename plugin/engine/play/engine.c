// SPDX-License-Identifier: ISC
#include "engine_inside.h"

static void follow_groove(Engine* const engine, const Meter meter)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    const Meter old = groove_clock->meter;
    const int64_t before = groove_clock->played_until;
    if (groove_clock->own) {
        groove_clock_change_meter(groove_clock, meter);
    } else {
        groove_clock_look(groove_clock, &engine->position);
    }
    if (!meter_equal(old, groove_clock->meter)) {
        engine_move(engine, groove_clock->played_until - before);
    }
}

/* Grooves have a tempo and a meter of their own for hosts that name none. */
static void watch_groove(Engine* const engine)
{
    const GrooveClock* const groove_clock = &engine->groove_clock;
    const Groove* const groove = passage_entry(engine)->selection.groove;
    if (!groove) {
        return;
    }
    const bool is_new = position_fallback(&engine->position, groove->meter, groove->tempo);
    if (groove_clock->own ? !meter_equal(groove->meter, groove_clock->meter) : is_new) {
        follow_groove(engine, groove->meter);
    }
}

void engine_init(Engine* const engine, const Library* const library, const double frames_per_second)
{
    float normal[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        normal[i] = control_rows[i].normal;
    }
    const Settings settings = settings_from_controls(normal);
    engine->library = library;
    varied_forget(&engine->varied);
    engine->scheduler = (Scheduler){.count = 0};
    engine->foot_load = (FootLoad){.at = 0};
    lookahead_start(&engine->lookahead);
    engine->revision = 1;
    engine->stirs = 0;
    engine_stir(engine);
    engine->foot_load_of = 0;
    engine->varying = (Varying){.turn = VARIED_STAYS, .turn_heard = VARIED_STAYS};
    engine->out.count = engine->out.room = 0;
    position_init(&engine->position, frames_per_second);
    groove_clock_go(&engine->groove_clock, &engine->position, &settings, engine->position.meter, 1);
    engine_begin_plan(engine, &settings);
    watch_groove(engine);
    engine->swing = passage_swing_now(engine);
    engine_restart_foot_load(engine);
}

void engine_set(Engine* const engine, const Settings* const settings)
{
    if (!engine->is_song) {
        engine_ask(engine, settings);
    }
}

void engine_use(Engine* const engine, const Library* const library)
{
    engine->library = library;
    varied_forget(&engine->varied); /* figures may be gone */
    engine_find(engine);
    if (engine->groove_clock.rolling) {
        lookahead_take_back(&engine->lookahead, engine->groove_clock.played_until);
    }
    engine_restart_foot_load(engine); /* its figures may be gone */
}

/* Stopped or elsewhere: what waited is in effect at once. */
static void break_off(Engine* const engine, const Jump jump, const uint32_t offset)
{
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    lookahead_jump(&engine->lookahead, jump);
    engine_forget_fill(engine);
    engine_settle(engine);
    engine_take_swing(engine, passage_swing_now(engine));
}

/* What calm and readouts depend on of a position that standing or going on as before
   leaves alone. */
typedef struct {
    Clock clock;
    Meter meter;
    double tempo; /* as told, where it stands; else it is the clock's */
    int64_t played_until;
    bool rolling;
} Course;

static Course course_of(const Position* const position)
{
    const bool rolling = position->rolling;
    return (Course){position->clock, position->meter, rolling ? 0.0 : position_tempo(position),
                    position->played_until, rolling};
}

/* Where it stands it stands at each frame. */
static bool courses_alike(const Course* const a, const Course* const b)
{
    return a->rolling == b->rolling && a->played_until == b->played_until &&
           (!a->rolling || a->clock.anchor_frame == b->clock.anchor_frame) &&
           !differs(a->clock.anchor_tick, b->clock.anchor_tick) &&
           !differs(a->clock.ticks_per_frame, b->clock.ticks_per_frame) &&
           !differs(a->tempo, b->tempo) && meter_equal(a->meter, b->meter);
}

void engine_report(Engine* const engine, const Report* const report, const uint32_t offset)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    const Course course = course_of(&engine->position);
    const Meter meter = groove_clock->meter;
    const int64_t before = groove_clock->played_until;
    Jump jump = {.from = clock_tick(&groove_clock->clock, groove_clock->clock.now),
                 .rolling = groove_clock->rolling};
    const PositionEvent event = position_report(&engine->position, report);
    const Course now = course_of(&engine->position);
    if (event == POSITION_BROKE || !courses_alike(&course, &now)) {
        engine_stir(engine);
    }
    if (groove_clock->own) {
        return;
    }
    groove_clock_look(groove_clock, &engine->position);
    engine->revision += !meter_equal(meter, groove_clock->meter);
    if (event == POSITION_BROKE) {
        jump.to = clock_tick(&groove_clock->clock, groove_clock->clock.now);
        jump.seam = groove_clock->played_until;
        jump.rolling = jump.rolling && groove_clock->rolling;
        break_off(engine, jump, offset);
    } else if (!meter_equal(meter, groove_clock->meter)) {
        engine_move(engine, groove_clock->played_until - before);
    }
}

void engine_locate(Engine* const engine, const Meter meter, const double tempo, const int64_t tick)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    engine_stir(engine);
    position_locate(&engine->position, meter, tempo, (double)tick);
    groove_clock_look(groove_clock, &engine->position);
    break_off(engine, (Jump){.seam = groove_clock->played_until}, 0);
}

void engine_stop(Engine* const engine, const uint32_t offset)
{
    engine_stir(engine);
    position_stop(&engine->position);
    groove_clock_look(&engine->groove_clock, &engine->position);
    break_off(engine, (Jump){.seam = engine->groove_clock.played_until}, offset);
}

/* Settings of the clock come into effect with a block: in place, or the groove
   goes on elsewhere. */
static void watch_groove_clock(Engine* const engine, const uint32_t offset)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    const PlanEntry* entry = passage_entry(engine);
    if (groove_clock_holds(groove_clock, &entry->settings)) {
        groove_clock_pace(groove_clock, &entry->settings, entry->selection.phrase_bars);
        return;
    }
    Jump jump = {.from = clock_tick(&groove_clock->clock, groove_clock->clock.now),
                 .rolling = groove_clock->rolling && !groove_clock->own};
    engine_settle(engine);
    entry = passage_entry(engine);
    const Groove* const groove = entry->selection.groove;
    groove_clock_go(groove_clock, &engine->position, &entry->settings,
                    groove ? groove->meter : groove_clock->meter, entry->selection.phrase_bars);
    jump.to = clock_tick(&groove_clock->clock, groove_clock->clock.now);
    jump.seam = groove_clock->played_until;
    jump.rolling = jump.rolling && groove_clock->rolling && !groove_clock->own;
    break_off(engine, jump, offset);
    ++engine->revision;
}

void engine_begin(Engine* const engine, const uint32_t room)
{
    engine->out.count = 0;
    engine->out.room = room < MIDI_LIST_MAX ? room : MIDI_LIST_MAX;
}

static void add_clicks(Engine* const engine, const Passage* const passage, const Span span)
{
    const ClickSettings click = passage->entry->settings.click;
    if (span.begin >= span.end || click.when == CLICK_OFF) {
        return; /* standing, a span is at no tick */
    }
    const int64_t origin = passage->origin;
    const int64_t begin = span.begin - origin, end = span.end - origin;
    if (click.when == CLICK_COUNT_IN && begin >= 0) {
        return;
    }
    click_strokes(&passage->entry->selection, click, passage->meter, begin, end, &engine->clicks);
    for (uint32_t i = 0; i < engine->clicks.count; ++i) {
        engine->clicks.clicks[i].tick += origin;
    }
    engine->lookahead.dropped += click_join(&engine->clicks, click, &engine->lookahead.due);
}

static void play(Engine* const engine, const Span span, const Stretch stretch)
{
    const Passage now = passage_sounding(engine);
    const Settings* const asked = &now.entry->settings;
    const Output output = {now.entry->selection.kit, asked->channel, asked->click.channel,
                           asked->split_feet};
    lookahead_take(
        &engine->lookahead, span.end,
        (LimbsHeard){now.end, asked->limbs, now.next ? now.next->settings.limbs : asked->limbs});
    add_clicks(engine, &now, span);
    if (!asked->enabled) {
        engine->lookahead.due.count = 0;
    }
    scheduler_play(&engine->scheduler, &engine->lookahead.due, output, &engine->groove_clock.clock,
                   stretch, &engine->out);
}

/* Frames until the line that what sounds lasts to, at most `frames`; none or fewer: it
   has come. */
static int64_t frames_to_line(const Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->groove_clock.clock;
    const int64_t line = engine->groove_clock.rolling ? passage_sounding(engine).end : INT64_MAX;
    if (line == INT64_MAX) {
        return frames;
    }
    const int64_t left = clock_frame(clock, line) - clock->now;
    return left < frames ? left : frames;
}

/* The old ends at its line, and the next begins. */
static void end_at_line(Engine* const engine, const uint32_t offset)
{
    const int64_t now = engine->groove_clock.clock.now;
    const int64_t line = passage_sounding(engine).end;
    play(engine, (Span){line, line}, (Stretch){now, now, offset});
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    engine_turn(engine);
}

/* Plays up to `frames` frames, to a line at most; how many it were: none where a line
   has come.  Unless `may_end` no line ends anything: a plan that contradicts its host
   could go round in a circle. */
static uint32_t advance(Engine* const engine, const uint32_t offset, const uint32_t frames,
                        const bool may_end)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    watch_groove_clock(engine, offset);
    watch_groove(engine);
    if (groove_clock->rolling) {
        engine_draw_ahead(engine, frames);
    } else if (engine->is_song) {
        engine_settle(engine); /* a host that stands may move */
    }
    const int64_t left = frames_to_line(engine, frames);
    if (may_end && left <= 0) {
        end_at_line(engine, offset);
        return 0;
    }
    groove_clock_rise(groove_clock);
    const uint32_t part =
        groove_clock_frames_to_rise(groove_clock, left > 0 ? (uint32_t)left : frames);
    const Stretch stretch = {groove_clock->clock.now, groove_clock->clock.now + part, offset};
    const Span span = groove_clock_advance(groove_clock, &engine->position, part);
    play(engine, groove_clock->rolling ? span : (Span){INT64_MIN, INT64_MIN}, stretch);
    return part;
}

static void advance_all(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    const uint32_t revision = engine->revision;
    uint32_t lines = 0;
    engine_stir(engine);
    engine_vary(engine, frames);
    if (!engine_settings(engine)->enabled) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    }
    for (uint32_t done = 0; done < frames;) {
        const uint32_t part = advance(engine, offset + done, frames - done, lines < PLAN_MAX);
        lines += !part;
        done += part;
    }
    engine_step_foot_load(engine);
    engine_find_calm(engine, revision);
}

void engine_advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    if (frames && !engine_wait(engine, frames)) {
        advance_all(engine, offset, frames);
    }
}

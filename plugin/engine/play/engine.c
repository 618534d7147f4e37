// SPDX-License-Identifier: ISC
#include "engine_inside.h"

#include "../groove/lines.h"

double engine_tempo(const Engine* const engine)
{
    return groove_clock_tempo(&engine->groove_clock, &engine->position);
}

/* Something that the readouts depend on has changed. */
void engine_restart_foot_load(Engine* const engine)
{
    ++engine->revision;
    engine->realign_bars = selection_realign_bars(&engine->selection, engine->groove_clock.meter);
    foot_load_start(&engine->foot_load, &engine->selection, engine->groove_clock.meter,
                    engine_tempo(engine));
}

void engine_choose(Engine* const engine)
{
    engine_look_into_plan(engine);
    ++engine->revision;
    engine->played = engine->settings;
    engine->selection =
        engine->plan.count ? engine_selection_of(engine, plan_at(&engine->plan, engine->plan_bar))
                           : selection_make(engine->library, &engine->played, engine_tempo(engine));
    engine->waiting = false;
    engine->swing_waits = false;
}

static int64_t change_line(const Engine* const engine, const ChangeAt change_at)
{
    return line_of_change(change_at, engine->groove_clock.meter, engine->selection.phrase_bars,
                          engine->groove_clock.played_until);
}

/* A new meter counts ticks anew: lines that were waited for move, and what was
   drawn ahead is drawn again. */
static void move_lines(Engine* const engine, const int64_t delta)
{
    lookahead_shift(&engine->lookahead, delta);
    lookahead_take_back(&engine->lookahead, engine->groove_clock.played_until);
    engine->swing_waits = false;
    engine->line_tick += delta;
    engine->origin += engine->plan.count ? delta : 0;
    engine->origin_before += engine->plan.count ? delta : 0;
    if (engine->waiting) {
        engine->change_tick = change_line(engine, engine->settings.change_at);
    }
    engine_restart_foot_load(engine);
}

static void follow_fallback(Engine* const engine, const Meter meter)
{
    if (!engine->groove_clock.own) {
        groove_clock_look(&engine->groove_clock, &engine->position);
    } else if (!meter_equal(meter, engine->groove_clock.meter)) {
        groove_clock_change_meter(&engine->groove_clock, meter);
    }
}

/* Grooves have a tempo and a meter of their own for hosts that name none. */
static void tell_fallback(Engine* const engine)
{
    const Groove* const groove = engine->selection.groove;
    const Meter meter = engine->groove_clock.meter;
    const int64_t before = engine->groove_clock.played_until;
    engine->fallback_due = false;
    if (groove) {
        position_fallback(&engine->position, groove->meter, groove->tempo);
        follow_fallback(engine, groove->meter);
    }
    if (!meter_equal(meter, engine->groove_clock.meter)) {
        move_lines(engine, engine->groove_clock.played_until - before);
    }
}

void engine_init(Engine* const engine, const Library* const library, const double frames_per_second)
{
    float normal[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        normal[i] = control_rows[i].normal;
    }
    engine->library = library;
    engine->settings = settings_from_controls(normal);
    engine->scheduler = (Scheduler){.count = 0};
    engine->foot_load = (FootLoad){.at = 0};
    lookahead_start(&engine->lookahead);
    engine->line_waits = false;
    engine->plan.count = 0;
    engine->revision = 0;
    engine->out.count = engine->out.room = 0;
    position_init(&engine->position, frames_per_second);
    groove_clock_go(&engine->groove_clock, &engine->position, &engine->settings,
                    engine->position.meter, 1);
    engine_choose(engine);
    tell_fallback(engine);
    engine_restart_foot_load(engine);
}

/* What may change at any moment. */
static void take_at_once(Engine* const engine)
{
    const Settings* const asked = &engine->settings;
    engine->selection.kit = engine->before.kit = selection_kit(engine->library, asked->kit);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        engine->selection.limbs[limb] = engine->before.limbs[limb] = asked->limbs[limb];
    }
    settings_take_at_once(&engine->played, asked);
    engine->selection.feel = selection_feel(asked, engine->selection.groove);
}

void engine_set(Engine* const engine, const Settings* const settings)
{
    if (engine->plan.count) {
        return;
    }
    ++engine->revision;
    engine->settings = *settings;
    take_at_once(engine);
    if (settings_play_alike(settings, &engine->played)) {
        engine->waiting = false;
    } else if (!engine->groove_clock.rolling) {
        engine_choose(engine);
        engine->fallback_due = true;
        engine_restart_foot_load(engine);
    } else {
        engine->waiting = true;
        engine->change_tick = change_line(engine, settings->change_at);
        lookahead_take_back(&engine->lookahead, engine->change_tick);
    }
}

void engine_use(Engine* const engine, const Library* const library)
{
    const Swing swing = engine->selection.swing;
    engine->library = library;
    engine->selection = engine->plan.count
                            ? engine_selection_of(engine, plan_at(&engine->plan, engine->plan_bar))
                            : selection_make(library, &engine->played, engine_tempo(engine));
    engine->selection.swing = swing;
    engine->before = engine->selection;         /* its figures may be gone */
    engine->fallback_due = !engine->line_waits; /* a line tells of it when it comes */
    if (engine->groove_clock.rolling) { /* up to a line that is still to come it's the old groove */
        const int64_t now = engine->groove_clock.played_until;
        const bool to_line = engine->line_waits && engine->line_tick > now;
        lookahead_take_back(&engine->lookahead, to_line ? engine->line_tick : now);
    }
    engine_restart_foot_load(engine);
}

void engine_break_off(Engine* const engine, const Jump jump, const uint32_t offset)
{
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    lookahead_jump(&engine->lookahead, jump);
    engine->swing_waits = false;
    engine->fallback_due |= engine->line_waits; /* it would have been told there */
    engine->line_waits = false;
    if (engine->waiting || engine->plan.count) {
        engine_choose(engine);
        engine->fallback_due = true;
        engine_restart_foot_load(engine);
    }
    engine->selection.swing =
        selection_swing(&engine->played, engine->selection.groove, engine_tempo(engine));
}

void engine_report(Engine* const engine, const Report* const report, const uint32_t offset)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    const Meter meter = groove_clock->meter;
    const int64_t before = groove_clock->played_until;
    Jump jump = {.from = clock_tick(&groove_clock->clock, groove_clock->clock.now),
                 .rolling = groove_clock->rolling};
    const PositionEvent event = position_report(&engine->position, report);
    if (groove_clock->own) {
        return;
    }
    groove_clock_look(groove_clock, &engine->position);
    const bool new_meter = !meter_equal(meter, groove_clock->meter);
    if (event == POSITION_BROKE) {
        jump.to = clock_tick(&groove_clock->clock, groove_clock->clock.now);
        jump.seam = groove_clock->played_until;
        jump.rolling = jump.rolling && groove_clock->rolling;
        engine_break_off(engine, jump, offset);
        if (new_meter) {
            engine_restart_foot_load(engine);
        }
    } else if (new_meter) {
        move_lines(engine, groove_clock->played_until - before);
    }
}

/* What sounds at the place played now: selection is what is drawn, a little ahead. */
static const Selection* sounding(const Engine* const engine)
{
    return engine->line_waits ? &engine->before : &engine->selection;
}

static Meter own_meter(const Engine* const engine)
{
    const Groove* const groove = engine->selection.groove;
    return groove ? groove->meter : engine->groove_clock.meter;
}

/* Settings of the clock come into effect with a block: in place, or the groove
   goes on elsewhere. */
static void watch_groove_clock(Engine* const engine, const uint32_t offset)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    const Settings* const asked = &engine->settings;
    if (groove_clock_holds(groove_clock, asked)) {
        groove_clock_pace(groove_clock, asked, sounding(engine)->phrase_bars);
        return;
    }
    Jump jump = {.from = clock_tick(&groove_clock->clock, groove_clock->clock.now),
                 .rolling = groove_clock->rolling && !groove_clock->own};
    groove_clock_go(groove_clock, &engine->position, asked, own_meter(engine),
                    engine->selection.phrase_bars);
    jump.to = clock_tick(&groove_clock->clock, groove_clock->clock.now);
    jump.seam = groove_clock->played_until;
    jump.rolling = jump.rolling && groove_clock->rolling && !groove_clock->own;
    engine_break_off(engine, jump, offset);
    engine->fallback_due = true;
    engine_restart_foot_load(engine);
}

void engine_begin(Engine* const engine, const uint32_t room)
{
    engine->out.count = 0;
    engine->out.room = room < MIDI_LIST_MAX ? room : MIDI_LIST_MAX;
}

static void add_clicks(Engine* const engine, const Span span)
{
    const ClickSettings* const click = &engine->settings.click;
    if (span.begin >= span.end || click->when == CLICK_OFF) {
        return; /* standing, a span is at no tick */
    }
    const int64_t origin = engine->line_waits ? engine->origin_before : engine->origin;
    const int64_t begin = span.begin - origin, end = span.end - origin;
    if (click->when == CLICK_COUNT_IN && begin >= 0) {
        return;
    }
    click_strokes(sounding(engine), *click, engine->groove_clock.meter, begin, end,
                  &engine->clicks);
    for (uint32_t i = 0; i < engine->clicks.count; ++i) {
        engine->clicks.clicks[i].tick += origin;
    }
    engine->lookahead.dropped += click_join(&engine->clicks, *click, &engine->lookahead.due);
}

static void play(Engine* const engine, const Span span, const Stretch stretch)
{
    const Settings* const asked = &engine->settings;
    const Output output = {sounding(engine)->kit, asked->channel, asked->click.channel,
                           asked->split_feet};
    const int64_t line = engine->line_waits ? engine->line_tick : INT64_MIN;
    lookahead_take(&engine->lookahead, span.end,
                   (LimbsHeard){line, engine->before.limbs, engine->selection.limbs});
    add_clicks(engine, span);
    if (!asked->enabled) {
        engine->lookahead.due.count = 0;
    }
    scheduler_play(&engine->scheduler, &engine->lookahead.due, output, &engine->groove_clock.clock,
                   stretch, &engine->out);
}

static bool line_has_come(const Engine* const engine)
{
    const Clock* const clock = &engine->groove_clock.clock;
    return engine->line_waits && engine->groove_clock.rolling &&
           clock_frame(clock, engine->line_tick) <= clock->now;
}

/* The place has reached a line where the groove changed: the old one ends, and a
   groove's own tempo begins. */
static void end_at_line(Engine* const engine, const uint32_t offset)
{
    const int64_t now = engine->groove_clock.clock.now;
    play(engine, (Span){engine->line_tick, engine->line_tick}, (Stretch){now, now, offset});
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    engine->line_waits = false;
    if (engine->plan.count) { /* what was drawn of the section was drawn at the old tempo */
        engine->settings = engine->played;
        lookahead_take_back(&engine->lookahead, engine->line_tick);
    }
    tell_fallback(engine);
    engine_restart_foot_load(engine);
}

/* Frames to the line that the old groove lasts to, at most `frames`. */
static uint32_t frames_to_line(const Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->groove_clock.clock;
    if (!engine->line_waits || !engine->groove_clock.rolling) {
        return frames;
    }
    const int64_t left = clock_frame(clock, engine->line_tick) - clock->now;
    return left > 0 && left < frames ? (uint32_t)left : frames;
}

/* Plays up to `frames` frames, to a line at most; how many it were: none where a line
   has come.  Unless `may_end` no line ends anything: a plan that contradicts its host
   could go round in a circle. */
static uint32_t advance(Engine* const engine, const uint32_t offset, const uint32_t frames,
                        const bool may_end)
{
    GrooveClock* const groove_clock = &engine->groove_clock;
    watch_groove_clock(engine, offset);
    if (engine->fallback_due) {
        tell_fallback(engine);
    }
    engine_watch_swing(engine);
    if (groove_clock->rolling) {
        engine_draw_ahead(engine, frames);
    }
    if (may_end && line_has_come(engine)) {
        end_at_line(engine, offset);
        return 0;
    }
    groove_clock_rise(groove_clock);
    const uint32_t part = groove_clock_frames_to_rise(groove_clock, frames_to_line(engine, frames));
    const Stretch stretch = {groove_clock->clock.now, groove_clock->clock.now + part, offset};
    const Span span = groove_clock_advance(groove_clock, &engine->position, part);
    play(engine, groove_clock->rolling ? span : (Span){INT64_MIN, INT64_MIN}, stretch);
    return part;
}

void engine_advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    if (!engine->settings.enabled) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    }
    uint32_t lines = 0;
    for (uint32_t done = 0; done < frames;) {
        const uint32_t part = advance(engine, offset + done, frames - done, lines < PLAN_MAX);
        lines += !part;
        done += part;
    }
    foot_load_step(&engine->foot_load, engine_tempo(engine));
}

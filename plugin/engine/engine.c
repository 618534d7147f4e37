// SPDX-License-Identifier: ISC
#include "engine.h"

/* Something that the readouts depend on has changed. */
static void restart_survey(Engine* const engine)
{
    ++engine->revision;
    engine->realign_bars = choice_realign_bars(&engine->choice, engine->position.meter);
    survey_start(&engine->survey, &engine->choice, engine->position.meter,
                 position_tempo(&engine->position));
}

/* What is asked for is played from here on. */
static void choose(Engine* const engine)
{
    ++engine->revision;
    engine->played = engine->settings;
    engine->choice =
        choice_make(engine->library, &engine->played, position_tempo(&engine->position));
    engine->waiting = false;
    engine->swing_waits = false;
}

/* The first line of the kind at or after `tick`; lines are `apart` ticks apart
   from the bar line on. */
static int64_t next_line(const int64_t tick, const int64_t bar_ticks, const int64_t apart)
{
    const int64_t bar = floor_div(tick, bar_ticks) * bar_ticks;
    const int64_t line = bar + floor_div(tick - bar + apart - 1, apart) * apart;
    return line < bar + bar_ticks ? line : bar + bar_ticks;
}

static bool swings_alike(const Swing a, const Swing b)
{
    return a.pair_ticks == b.pair_ticks && !(a.ratio < b.ratio) && !(a.ratio > b.ratio);
}

/* What is asked for is played from a line on.  Swing bends time inside each quarter
   note: from the middle of one the old goes on until the next. */
static void choose_rolling(Engine* const engine, const int64_t line)
{
    const int64_t bar = meter_bar_ticks(engine->position.meter);
    const int64_t quarter = next_line(line, bar, TICKS_PER_QUARTER);
    const Swing swing = engine->choice.swing;
    choose(engine);
    if (quarter > line && !swings_alike(swing, engine->choice.swing)) {
        engine->choice.swing = swing;
        engine->swing_waits = true;
        engine->swing_tick = quarter;
    }
}

static int64_t change_line(const Engine* const engine, const ChangeAt change_at)
{
    const Meter meter = engine->position.meter;
    const int64_t now = engine->position.played_until;
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t phrase = (int64_t)engine->choice.phrase_bars * bar;
    switch (change_at) {
    case CHANGE_NOW:
        return now;
    case CHANGE_AT_BEAT:
        return next_line(now, bar, meter_beat_ticks(meter));
    case CHANGE_AT_BAR:
        return next_line(now, bar, bar);
    case CHANGE_AT_PHRASE:
        return floor_div(now + phrase - 1, phrase) * phrase;
    }
    return now;
}

/* A new meter counts ticks anew: lines that were waited for move, and what was
   drawn ahead is drawn again. */
static void move_lines(Engine* const engine, const int64_t delta)
{
    performer_shift(&engine->performer, delta);
    performer_take_back(&engine->performer, engine->position.played_until);
    engine->swing_waits = false;
    engine->line_tick += delta;
    if (engine->waiting) {
        engine->change_tick = change_line(engine, engine->settings.change_at);
    }
    restart_survey(engine);
}

/* Grooves have a tempo and a meter of their own for hosts that name none. */
static void tell_fallback(Engine* const engine)
{
    const Groove* const groove = engine->choice.groove;
    const Meter meter = engine->position.meter;
    const int64_t before = engine->position.played_until;
    engine->fallback_due = false;
    if (groove) {
        position_fallback(&engine->position, groove->meter, groove->tempo);
    }
    if (!meter_equal(meter, engine->position.meter)) {
        move_lines(engine, engine->position.played_until - before);
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
    engine->survey = (Survey){.at = 0};
    engine->performer = (Performer){.drawn_until = 0};
    engine->line_waits = false;
    engine->revision = 0;
    engine->out.count = engine->out.room = 0;
    position_init(&engine->position, frames_per_second);
    choose(engine);
    tell_fallback(engine);
    restart_survey(engine);
}

/* What may change at any moment. */
static void take_at_once(Engine* const engine)
{
    const Settings* const asked = &engine->settings;
    engine->choice.kit = choice_kit(engine->library, asked->kit);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        engine->choice.limbs[limb] = engine->played.limbs[limb] = asked->limbs[limb];
    }
    engine->played.enabled = asked->enabled;
    engine->played.channel = asked->channel;
    engine->played.kit = asked->kit;
    engine->played.split_feet = asked->split_feet;
    engine->played.change_at = asked->change_at;
    engine->played.swing_ratio = asked->swing_ratio;
    engine->played.swing_sixteenths = asked->swing_sixteenths;
    engine->played.swing_follow = asked->swing_follow;
    engine->played.feel = asked->feel;
    engine->choice.feel = choice_feel(asked, engine->choice.groove);
}

void engine_set(Engine* const engine, const Settings* const settings)
{
    ++engine->revision;
    engine->settings = *settings;
    take_at_once(engine);
    if (settings_play_alike(settings, &engine->played)) {
        engine->waiting = false;
    } else if (!engine->position.rolling) {
        choose(engine);
        engine->fallback_due = true;
        restart_survey(engine);
    } else {
        engine->waiting = true;
        engine->change_tick = change_line(engine, settings->change_at);
        performer_take_back(&engine->performer, engine->change_tick);
    }
}

/* Stopped or elsewhere: what waited is in effect at once. */
static void break_off(Engine* const engine, const Jump jump, const uint32_t offset)
{
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    performer_jump(&engine->performer, jump);
    engine->swing_waits = false;
    engine->line_waits = false;
    if (engine->waiting) {
        choose(engine);
        engine->fallback_due = true;
        restart_survey(engine);
    }
    engine->choice.swing =
        choice_swing(&engine->played, engine->choice.groove, position_tempo(&engine->position));
}

void engine_report(Engine* const engine, const Report* const report, const uint32_t offset)
{
    Position* const position = &engine->position;
    const Meter meter = position->meter;
    const int64_t before = position->played_until;
    Jump jump = {.from = clock_tick(&position->clock, position->clock.now),
                 .rolling = position->rolling};
    const PositionEvent event = position_report(position, report);
    const bool new_meter = !meter_equal(meter, position->meter);
    if (event == POSITION_BROKE) {
        jump.to = clock_tick(&position->clock, position->clock.now);
        jump.seam = position->played_until;
        jump.rolling = jump.rolling && position->rolling;
        break_off(engine, jump, offset);
        if (new_meter) {
            restart_survey(engine);
        }
    } else if (new_meter) {
        move_lines(engine, position->played_until - before);
    }
}

void engine_begin(Engine* const engine, const uint32_t room)
{
    engine->out.count = 0;
    engine->out.room = room < MIDI_LIST_MAX ? room : MIDI_LIST_MAX;
}

/* Swing bends time inside each quarter note, so it changes between two. */
static void watch_swing(Engine* const engine)
{
    const Swing wanted =
        choice_swing(&engine->played, engine->choice.groove, position_tempo(&engine->position));
    const bool alike = swings_alike(wanted, engine->choice.swing);
    if (alike || !engine->position.rolling) {
        engine->choice.swing = wanted;
        engine->swing_waits = false;
    } else if (!engine->swing_waits) {
        const int64_t bar = meter_bar_ticks(engine->position.meter);
        engine->swing_waits = true;
        engine->swing_tick = next_line(engine->performer.drawn_until, bar, TICKS_PER_QUARTER);
    }
}

/* The earliest change at a line before `end`, if there is one. */
static bool next_change(const Engine* const engine, const int64_t end, int64_t* const tick)
{
    bool found = false;
    *tick = end;
    if (engine->waiting && engine->change_tick < *tick) {
        *tick = engine->change_tick;
        found = true;
    }
    if (engine->swing_waits && engine->swing_tick < *tick) {
        *tick = engine->swing_tick;
        found = true;
    }
    return found;
}

/* What is written from the line on is the new. */
static void change(Engine* const engine, const int64_t line)
{
    if (engine->waiting && engine->change_tick <= line) {
        engine->line_waits = true;
        engine->line_tick = line;
        choose_rolling(engine, line);
    }
    if (engine->swing_waits && engine->swing_tick <= line) {
        engine->choice.swing =
            choice_swing(&engine->played, engine->choice.groove, position_tempo(&engine->position));
        engine->swing_waits = false;
        restart_survey(engine);
    }
}

static void draw(Engine* const engine, const int64_t until)
{
    Performer* const performer = &engine->performer;
    const Score score = {&engine->choice, &engine->choice.feel, engine->position.meter,
                         position_tempo(&engine->position)};
    int64_t line = 0;
    while (next_change(engine, until, &line)) {
        performer_draw(performer, &score, line);
        change(engine, line);
    }
    performer_draw(performer, &score, until);
}

static void play(Engine* const engine, const int64_t end, const Stretch stretch)
{
    const Output output = {engine->choice.kit, engine->played.channel, engine->played.split_feet};
    performer_take(&engine->performer, end, engine->choice.limbs);
    if (!engine->played.enabled) {
        engine->performer.due.count = 0;
    }
    scheduler_play(&engine->scheduler, &engine->performer.due, output, &engine->position.clock,
                   stretch, &engine->out);
}

static bool line_has_come(const Engine* const engine)
{
    const Clock* const clock = &engine->position.clock;
    return engine->line_waits && engine->position.rolling &&
           clock_frame(clock, engine->line_tick) <= clock->now;
}

/* The place has reached a line where the groove changed: the old one ends, and a
   groove's own tempo begins. */
static void end_at_line(Engine* const engine, const uint32_t offset)
{
    const int64_t now = engine->position.clock.now;
    play(engine, engine->line_tick, (Stretch){now, now, offset});
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    engine->line_waits = false;
    tell_fallback(engine);
    restart_survey(engine);
}

/* Frames to the line that the old groove lasts to, at most `frames`. */
static uint32_t frames_to_line(const Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->position.clock;
    if (!engine->line_waits || !engine->position.rolling) {
        return frames;
    }
    const int64_t left = clock_frame(clock, engine->line_tick) - clock->now;
    return left > 0 && left < frames ? (uint32_t)left : frames;
}

/* Plays up to `frames` frames, to a line at most; how many it were. */
static uint32_t advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    Position* const position = &engine->position;
    watch_swing(engine);
    if (position->rolling) {
        draw(engine, clock_first_tick(&position->clock, position->clock.now + frames) + DRAW_AHEAD);
    }
    if (line_has_come(engine)) {
        end_at_line(engine, offset);
    }
    const uint32_t part = frames_to_line(engine, frames);
    const Stretch stretch = {position->clock.now, position->clock.now + part, offset};
    const Span span = position_advance(position, part);
    play(engine, position->rolling ? span.end : INT64_MIN, stretch);
    return part;
}

void engine_advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    if (engine->fallback_due) {
        tell_fallback(engine);
    }
    if (!engine->played.enabled) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    }
    for (uint32_t done = 0; done < frames;) {
        done += advance(engine, offset + done, frames - done);
    }
    survey_step(&engine->survey, position_tempo(&engine->position));
}

uint32_t engine_dropped(const Engine* const engine)
{
    return engine->scheduler.dropped + engine->performer.dropped;
}

void engine_readouts(const Engine* const engine, float values[READOUT_COUNT])
{
    const FootDemand right = engine->survey.found[0];
    const FootDemand left = engine->survey.found[1];
    values[READOUT_RIGHT_FOOT_RATE] = (float)right.rate;
    values[READOUT_LEFT_FOOT_RATE] = (float)left.rate;
    values[READOUT_RIGHT_FOOT_GAP] = (float)right.gap_ms;
    values[READOUT_LEFT_FOOT_GAP] = (float)left.gap_ms;
    values[READOUT_REALIGN_BARS] = (float)engine->realign_bars;
    values[READOUT_TEMPO_NOW] = (float)position_tempo(&engine->position);
}

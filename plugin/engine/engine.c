// SPDX-License-Identifier: ISC
#include "engine.h"

#include "lines.h"

static double tempo_of(const Engine* const engine)
{
    return course_tempo(&engine->course, &engine->position);
}

/* Something that the readouts depend on has changed. */
static void restart_survey(Engine* const engine)
{
    ++engine->revision;
    engine->realign_bars = choice_realign_bars(&engine->choice, engine->course.meter);
    survey_start(&engine->survey, &engine->choice, engine->course.meter, tempo_of(engine));
}

/* What is asked for is played from here on. */
static void choose(Engine* const engine)
{
    ++engine->revision;
    engine->played = engine->settings;
    engine->choice = choice_make(engine->library, &engine->played, tempo_of(engine));
    engine->waiting = false;
    engine->swing_waits = false;
}

/* What is asked for is played from a line on.  Swing bends time inside each quarter
   note: from the middle of one the old goes on until the next. */
static void choose_rolling(Engine* const engine, const int64_t line)
{
    const int64_t quarter = line_next(line, engine->course.meter, TICKS_PER_QUARTER);
    const Swing swing = engine->choice.swing;
    choose(engine);
    if (quarter > line && !swing_equal(swing, engine->choice.swing)) {
        engine->choice.swing = swing;
        engine->swing_waits = true;
        engine->swing_tick = quarter;
    }
}

static int64_t change_line(const Engine* const engine, const ChangeAt change_at)
{
    return line_of_change(change_at, engine->course.meter, engine->choice.phrase_bars,
                          engine->course.played_until);
}

/* A new meter counts ticks anew: lines that were waited for move, and what was
   drawn ahead is drawn again. */
static void move_lines(Engine* const engine, const int64_t delta)
{
    performer_shift(&engine->performer, delta);
    performer_take_back(&engine->performer, engine->course.played_until);
    engine->swing_waits = false;
    engine->line_tick += delta;
    if (engine->waiting) {
        engine->change_tick = change_line(engine, engine->settings.change_at);
    }
    restart_survey(engine);
}

static void follow_fallback(Engine* const engine, const Meter meter)
{
    if (!engine->course.own) {
        course_look(&engine->course, &engine->position);
    } else if (!meter_equal(meter, engine->course.meter)) {
        course_change_meter(&engine->course, meter);
    }
}

/* Grooves have a tempo and a meter of their own for hosts that name none. */
static void tell_fallback(Engine* const engine)
{
    const Groove* const groove = engine->choice.groove;
    const Meter meter = engine->course.meter;
    const int64_t before = engine->course.played_until;
    engine->fallback_due = false;
    if (groove) {
        position_fallback(&engine->position, groove->meter, groove->tempo);
        follow_fallback(engine, groove->meter);
    }
    if (!meter_equal(meter, engine->course.meter)) {
        move_lines(engine, engine->course.played_until - before);
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
    course_go(&engine->course, &engine->position, &engine->settings, engine->position.meter, 1);
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
        engine->choice.limbs[limb] = asked->limbs[limb];
    }
    settings_take_at_once(&engine->played, asked);
    engine->choice.feel = choice_feel(asked, engine->choice.groove);
}

void engine_set(Engine* const engine, const Settings* const settings)
{
    ++engine->revision;
    engine->settings = *settings;
    take_at_once(engine);
    if (settings_play_alike(settings, &engine->played)) {
        engine->waiting = false;
    } else if (!engine->course.rolling) {
        choose(engine);
        engine->fallback_due = true;
        restart_survey(engine);
    } else {
        engine->waiting = true;
        engine->change_tick = change_line(engine, settings->change_at);
        performer_take_back(&engine->performer, engine->change_tick);
    }
}

void engine_use(Engine* const engine, const Library* const library)
{
    const Swing swing = engine->choice.swing;
    engine->library = library;
    engine->choice = choice_make(library, &engine->played, tempo_of(engine));
    engine->choice.swing = swing;
    engine->before = engine->choice;            /* its figures may be gone */
    engine->fallback_due = !engine->line_waits; /* a line tells of it when it comes */
    if (engine->course.rolling) { /* up to a line that is still to come it's the old groove */
        const int64_t now = engine->course.played_until;
        const bool to_line = engine->line_waits && engine->line_tick > now;
        performer_take_back(&engine->performer, to_line ? engine->line_tick : now);
    }
    restart_survey(engine);
}

/* Stopped or elsewhere: what waited is in effect at once. */
static void break_off(Engine* const engine, const Jump jump, const uint32_t offset)
{
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    performer_jump(&engine->performer, jump);
    engine->swing_waits = false;
    engine->fallback_due |= engine->line_waits; /* it would have been told there */
    engine->line_waits = false;
    if (engine->waiting) {
        choose(engine);
        engine->fallback_due = true;
        restart_survey(engine);
    }
    engine->choice.swing = choice_swing(&engine->played, engine->choice.groove, tempo_of(engine));
}

void engine_report(Engine* const engine, const Report* const report, const uint32_t offset)
{
    Course* const course = &engine->course;
    const Meter meter = course->meter;
    const int64_t before = course->played_until;
    Jump jump = {.from = clock_tick(&course->clock, course->clock.now), .rolling = course->rolling};
    const PositionEvent event = position_report(&engine->position, report);
    if (course->own) {
        return;
    }
    course_look(course, &engine->position);
    const bool new_meter = !meter_equal(meter, course->meter);
    if (event == POSITION_BROKE) {
        jump.to = clock_tick(&course->clock, course->clock.now);
        jump.seam = course->played_until;
        jump.rolling = jump.rolling && course->rolling;
        break_off(engine, jump, offset);
        if (new_meter) {
            restart_survey(engine);
        }
    } else if (new_meter) {
        move_lines(engine, course->played_until - before);
    }
}

/* What sounds at the place played now: choice is what is drawn, a little ahead. */
static const Choice* sounding(const Engine* const engine)
{
    return engine->line_waits ? &engine->before : &engine->choice;
}

static Meter own_meter(const Engine* const engine)
{
    const Groove* const groove = engine->choice.groove;
    return groove ? groove->meter : engine->course.meter;
}

/* Settings of the clock come into effect with a block: in place, or the groove
   goes on elsewhere. */
static void watch_course(Engine* const engine, const uint32_t offset)
{
    Course* const course = &engine->course;
    const Settings* const asked = &engine->settings;
    if (course_holds(course, asked)) {
        course_pace(course, asked, sounding(engine)->phrase_bars);
        return;
    }
    course_go(course, &engine->position, asked, own_meter(engine), engine->choice.phrase_bars);
    break_off(engine, (Jump){.seam = course->played_until}, offset);
    engine->fallback_due = true;
    restart_survey(engine);
}

void engine_begin(Engine* const engine, const uint32_t room)
{
    engine->out.count = 0;
    engine->out.room = room < MIDI_LIST_MAX ? room : MIDI_LIST_MAX;
}

/* The swing that is asked for where the groove will be. */
static Swing swing_at(const Engine* const engine, const int64_t tick)
{
    return choice_swing(&engine->played, engine->choice.groove,
                        course_tempo_at(&engine->course, &engine->position, tick));
}

/* Swing bends time inside each quarter note, so it changes between two. */
static void watch_swing(Engine* const engine)
{
    const Swing wanted = swing_at(engine, engine->performer.drawn_until);
    const bool alike = swing_equal(wanted, engine->choice.swing);
    if (alike || !engine->course.rolling) {
        engine->choice.swing = wanted;
        engine->swing_waits = false;
    } else if (!engine->swing_waits) {
        engine->swing_waits = true;
        engine->swing_tick =
            line_next(engine->performer.drawn_until, engine->course.meter, TICKS_PER_QUARTER);
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
        engine->before = engine->choice;
        choose_rolling(engine, line);
    }
    if (engine->swing_waits && engine->swing_tick <= line) {
        engine->choice.swing = swing_at(engine, line);
        engine->swing_waits = false;
        restart_survey(engine);
    }
}

static void draw_to(Engine* const engine, const int64_t until)
{
    const int64_t from = engine->performer.drawn_until;
    const Score score = {&engine->choice, &engine->choice.feel, engine->course.meter,
                         course_tempo_at(&engine->course, &engine->position, from)};
    performer_draw(&engine->performer, &score, until);
}

/* Draws line by line: what is played, its swing or its tempo changes there. */
static void draw(Engine* const engine, const int64_t until)
{
    for (;;) {
        const int64_t rise = course_next_rise(&engine->course, engine->performer.drawn_until);
        const bool rises = rise < until;
        int64_t line = 0;
        const bool changes = next_change(engine, rises ? rise : until, &line);
        draw_to(engine, line);
        if (changes) {
            change(engine, line);
        } else if (rises) {
            engine->choice.swing = swing_at(engine, line);
            engine->swing_waits = false;
        } else {
            return;
        }
    }
}

static void add_clicks(Engine* const engine, const Span span)
{
    const ClickSettings* const click = &engine->settings.click;
    const bool counted_in = click->when == CLICK_COUNT_IN && span.begin >= 0;
    if (span.begin >= span.end || click->when == CLICK_OFF || counted_in) {
        return;
    }
    click_strokes(sounding(engine), *click, engine->course.meter, span.begin, span.end,
                  &engine->clicks);
    engine->performer.dropped += click_join(&engine->clicks, *click, &engine->performer.due);
}

static void play(Engine* const engine, const Span span, const Stretch stretch)
{
    const Output output = {engine->choice.kit, engine->played.channel,
                           engine->settings.click.channel, engine->played.split_feet};
    performer_take(&engine->performer, span.end, engine->choice.limbs);
    add_clicks(engine, span);
    if (!engine->played.enabled) {
        engine->performer.due.count = 0;
    }
    scheduler_play(&engine->scheduler, &engine->performer.due, output, &engine->course.clock,
                   stretch, &engine->out);
}

static bool line_has_come(const Engine* const engine)
{
    const Clock* const clock = &engine->course.clock;
    return engine->line_waits && engine->course.rolling &&
           clock_frame(clock, engine->line_tick) <= clock->now;
}

/* The place has reached a line where the groove changed: the old one ends, and a
   groove's own tempo begins. */
static void end_at_line(Engine* const engine, const uint32_t offset)
{
    const int64_t now = engine->course.clock.now;
    play(engine, (Span){engine->line_tick, engine->line_tick}, (Stretch){now, now, offset});
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    engine->line_waits = false;
    tell_fallback(engine);
    restart_survey(engine);
}

/* Frames to the line that the old groove lasts to, at most `frames`. */
static uint32_t frames_to_line(const Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->course.clock;
    if (!engine->line_waits || !engine->course.rolling) {
        return frames;
    }
    const int64_t left = clock_frame(clock, engine->line_tick) - clock->now;
    return left > 0 && left < frames ? (uint32_t)left : frames;
}

/* Draws what can be heard in the next `frames` frames, early as it may come. */
static void draw_ahead(Engine* const engine, const uint32_t frames)
{
    const Clock* const clock = &engine->course.clock;
    const int64_t reach = feel_reach(&engine->choice.feel, tempo_of(engine));
    draw(engine, clock_first_tick(clock, clock->now + frames) + reach);
}

/* Plays up to `frames` frames, to a line at most; how many it were. */
static uint32_t advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    Course* const course = &engine->course;
    watch_swing(engine);
    if (course->rolling) {
        draw_ahead(engine, frames);
    }
    if (line_has_come(engine)) {
        end_at_line(engine, offset);
    }
    course_rise(course);
    const uint32_t part = course_frames_to_rise(course, frames_to_line(engine, frames));
    const Stretch stretch = {course->clock.now, course->clock.now + part, offset};
    const Span span = course_advance(course, &engine->position, part);
    play(engine, course->rolling ? span : (Span){INT64_MIN, INT64_MIN}, stretch);
    return part;
}

void engine_advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    watch_course(engine, offset);
    if (engine->fallback_due) {
        tell_fallback(engine);
    }
    if (!engine->played.enabled) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    }
    for (uint32_t done = 0; done < frames;) {
        done += advance(engine, offset + done, frames - done);
    }
    survey_step(&engine->survey, tempo_of(engine));
}

// SPDX-License-Identifier: ISC
#include "engine_inside.h"

#include "lines.h"

double engine_tempo(const Engine* const engine)
{
    return course_tempo(&engine->course, &engine->position);
}

/* Something that the readouts depend on has changed. */
void engine_restart_survey(Engine* const engine)
{
    ++engine->revision;
    engine->realign_bars = choice_realign_bars(&engine->choice, engine->course.meter);
    survey_start(&engine->survey, &engine->choice, engine->course.meter, engine_tempo(engine));
}

void engine_choose(Engine* const engine)
{
    engine_look_into_plan(engine);
    ++engine->revision;
    engine->played = engine->settings;
    engine->choice = engine->plan.count
                         ? engine_choice_of(engine, plan_at(&engine->plan, engine->plan_bar))
                         : choice_make(engine->library, &engine->played, engine_tempo(engine));
    engine->waiting = false;
    engine->swing_waits = false;
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
    engine->origin += engine->plan.count ? delta : 0;
    engine->origin_before += engine->plan.count ? delta : 0;
    if (engine->waiting) {
        engine->change_tick = change_line(engine, engine->settings.change_at);
    }
    engine_restart_survey(engine);
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
    engine->plan.count = 0;
    engine->revision = 0;
    engine->out.count = engine->out.room = 0;
    position_init(&engine->position, frames_per_second);
    course_go(&engine->course, &engine->position, &engine->settings, engine->position.meter, 1);
    engine_choose(engine);
    tell_fallback(engine);
    engine_restart_survey(engine);
}

/* What may change at any moment. */
static void take_at_once(Engine* const engine)
{
    const Settings* const asked = &engine->settings;
    engine->choice.kit = engine->before.kit = choice_kit(engine->library, asked->kit);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        engine->choice.limbs[limb] = engine->before.limbs[limb] = asked->limbs[limb];
    }
    settings_take_at_once(&engine->played, asked);
    engine->choice.feel = choice_feel(asked, engine->choice.groove);
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
    } else if (!engine->course.rolling) {
        engine_choose(engine);
        engine->fallback_due = true;
        engine_restart_survey(engine);
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
    engine->choice = engine->plan.count
                         ? engine_choice_of(engine, plan_at(&engine->plan, engine->plan_bar))
                         : choice_make(library, &engine->played, engine_tempo(engine));
    engine->choice.swing = swing;
    engine->before = engine->choice;            /* its figures may be gone */
    engine->fallback_due = !engine->line_waits; /* a line tells of it when it comes */
    if (engine->course.rolling) { /* up to a line that is still to come it's the old groove */
        const int64_t now = engine->course.played_until;
        const bool to_line = engine->line_waits && engine->line_tick > now;
        performer_take_back(&engine->performer, to_line ? engine->line_tick : now);
    }
    engine_restart_survey(engine);
}

void engine_break_off(Engine* const engine, const Jump jump, const uint32_t offset)
{
    scheduler_silence(&engine->scheduler, offset, &engine->out);
    performer_jump(&engine->performer, jump);
    engine->swing_waits = false;
    engine->fallback_due |= engine->line_waits; /* it would have been told there */
    engine->line_waits = false;
    if (engine->waiting || engine->plan.count) {
        engine_choose(engine);
        engine->fallback_due = true;
        engine_restart_survey(engine);
    }
    engine->choice.swing =
        choice_swing(&engine->played, engine->choice.groove, engine_tempo(engine));
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
        engine_break_off(engine, jump, offset);
        if (new_meter) {
            engine_restart_survey(engine);
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
    Jump jump = {.from = clock_tick(&course->clock, course->clock.now),
                 .rolling = course->rolling && !course->own};
    course_go(course, &engine->position, asked, own_meter(engine), engine->choice.phrase_bars);
    jump.to = clock_tick(&course->clock, course->clock.now);
    jump.seam = course->played_until;
    jump.rolling = jump.rolling && course->rolling && !course->own;
    engine_break_off(engine, jump, offset);
    engine->fallback_due = true;
    engine_restart_survey(engine);
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
    click_strokes(sounding(engine), *click, engine->course.meter, begin, end, &engine->clicks);
    for (uint32_t i = 0; i < engine->clicks.count; ++i) {
        engine->clicks.clicks[i].tick += origin;
    }
    engine->performer.dropped += click_join(&engine->clicks, *click, &engine->performer.due);
}

static void play(Engine* const engine, const Span span, const Stretch stretch)
{
    const Settings* const asked = &engine->settings;
    const Output output = {sounding(engine)->kit, asked->channel, asked->click.channel,
                           asked->split_feet};
    const int64_t line = engine->line_waits ? engine->line_tick : INT64_MIN;
    performer_take(&engine->performer, span.end,
                   (LimbsHeard){line, engine->before.limbs, engine->choice.limbs});
    add_clicks(engine, span);
    if (!asked->enabled) {
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
    if (engine->plan.count) { /* what was drawn of the section was drawn at the old tempo */
        engine->settings = engine->played;
        performer_take_back(&engine->performer, engine->line_tick);
    }
    tell_fallback(engine);
    engine_restart_survey(engine);
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

/* Plays up to `frames` frames, to a line at most; how many it were: none where a line
   has come.  Unless `may_end` no line ends anything: a plan that contradicts its host
   could go round in a circle. */
static uint32_t advance(Engine* const engine, const uint32_t offset, const uint32_t frames,
                        const bool may_end)
{
    Course* const course = &engine->course;
    watch_course(engine, offset);
    if (engine->fallback_due) {
        tell_fallback(engine);
    }
    engine_watch_swing(engine);
    if (course->rolling) {
        engine_draw_ahead(engine, frames);
    }
    if (may_end && line_has_come(engine)) {
        end_at_line(engine, offset);
        return 0;
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
    if (!engine->settings.enabled) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    }
    uint32_t lines = 0;
    for (uint32_t done = 0; done < frames;) {
        const uint32_t part = advance(engine, offset + done, frames - done, lines < PLAN_MAX);
        lines += !part;
        done += part;
    }
    survey_step(&engine->survey, engine_tempo(engine));
}

// SPDX-License-Identifier: ISC
#include "engine.h"

static void choose(Engine* const engine)
{
    engine->choice = choice_make(engine->library, &engine->settings);
    const Groove* const groove = engine->choice.groove;
    if (groove) {
        position_fallback(&engine->position, groove->meter, groove->tempo);
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
    engine->strokes.count = 0;
    engine->out.count = 0;
    engine->out.room = 0;
    position_init(&engine->position, frames_per_second);
    choose(engine);
}

void engine_set(Engine* const engine, const Settings* const settings)
{
    if (!settings_equal(settings, &engine->settings)) {
        engine->settings = *settings;
        choose(engine);
    }
}

void engine_report(Engine* const engine, const Report* const report, const uint32_t offset)
{
    if (position_report(&engine->position, report) == POSITION_BROKE) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    }
}

void engine_begin(Engine* const engine, const uint32_t room)
{
    engine->out.count = 0;
    engine->out.room = room < MIDI_LIST_MAX ? room : MIDI_LIST_MAX;
}

void engine_advance(Engine* const engine, const uint32_t offset, const uint32_t frames)
{
    Position* const position = &engine->position;
    const int64_t begin = position->clock.now;
    const Span span = position_advance(position, frames);
    engine->strokes.count = engine->strokes.dropped = 0;
    if (!engine->settings.enabled) {
        scheduler_silence(&engine->scheduler, offset, &engine->out);
    } else if (span.begin < span.end) {
        choice_strokes(&engine->choice, position->meter, span.begin, span.end, &engine->strokes);
    }
    const Output output = {engine->choice.kit, engine->settings.channel,
                           engine->settings.split_feet};
    const Stretch stretch = {begin, position->clock.now, offset};
    scheduler_play(&engine->scheduler, &engine->strokes, output, &position->clock, stretch,
                   &engine->out);
}

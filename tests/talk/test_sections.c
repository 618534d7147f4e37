// SPDX-License-Identifier: ISC
/* Sections of a song, told by a host that knows them: heard as told, and whatever a
   host writes does no harm to what plays. */
#include "../bank/factory.h"
#include "talk.h"

#include "../../plugin/engine/play/engine.h"

static Talk talk;
static Bank* bank;
static Engine engine; /* too large for a stack */

/* 0 to below - 1 */
static uint32_t pick(uint32_t* const state, const uint32_t below)
{
    return chance(state) % below;
}

static void tell(const ToldSection* const section)
{
    talk_begin(&talk);
    encode_section(&talk.forge, section, &talk.uris);
    talk_end(&talk);
}

static bool hears(ToldSection* const heard)
{
    return decode_section(&talk.buffer.atom, talk.size, &talk.uris, heard);
}

static ToldSection any_section(uint32_t* const state)
{
    const int64_t bar = pick(state, 5000);
    ToldSection section = {.bar = bar,
                           .origin = bar + pick(state, 5),
                           .meter = {1 + pick(state, 16), (int32_t)(1U << pick(state, 6))},
                           .tempo = 1.0 + pick(state, 1999),
                           .ends = pick(state, 2),
                           .begins = pick(state, 8) == 0,
                           .tick = pick(state, 2) * pick(state, TICKS_PER_QUARTER / 16)};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const ControlRow row = control_rows[i];
        section.controls[i] = row.least + (float)pick(state, (uint32_t)(row.most - row.least) + 1);
    }
    return section;
}

static void a_section_told_is_the_section_heard(void)
{
    uint32_t state = 1;
    for (int i = 0; i < 500; ++i) {
        ToldSection heard = {.bar = -1};
        const ToldSection told = any_section(&state);
        tell(&told);
        check_case("section %d", i);
        CHECK(hears(&heard));
        CHECK_INT(heard.bar, told.bar);
        CHECK_INT(heard.origin, told.origin);
        CHECK(meter_equal(heard.meter, told.meter));
        CHECK_NEAR(heard.tempo, told.tempo, 0.0);
        CHECK_INT(heard.ends, told.ends);
        CHECK_INT(heard.begins, told.begins);
        CHECK_INT(heard.tick, told.tick);
        for (int c = 0; c < CONTROL_COUNT; ++c) {
            CHECK_NEAR((double)heard.controls[c], (double)told.controls[c], 0.0);
        }
    }
}

static void a_section_cut_at_any_byte_is_refused_or_at_its_defaults(void)
{
    uint32_t state = 2;
    const ToldSection told = any_section(&state);
    tell(&told);
    const uint32_t whole = talk.size;
    for (uint32_t size = 0; size < whole; ++size) {
        ToldSection heard;
        talk.size = size;
        CHECK(!hears(&heard));
        if (size >= sizeof(LV2_Atom)) {
            talk.buffer.atom.size = size - (uint32_t)sizeof(LV2_Atom);
            if (hears(&heard)) {
                CHECK_INT(heard.bar, told.bar);
            }
            talk.buffer.atom.size = whole - (uint32_t)sizeof(LV2_Atom);
        }
    }
}

/* A bar of a tick would be work without end on the audio thread. */
static void a_section_of_bars_shorter_than_half_a_beat_is_refused(void)
{
    static const double beats[] = {0.49, 1e-6, 1e-300, 0.0, -4.0};
    uint32_t state = 4;
    for (size_t i = 0; i < sizeof beats / sizeof *beats; ++i) {
        ToldSection section = any_section(&state);
        section.meter.beats_per_bar = beats[i];
        tell(&section);
        check_case("%g beats", beats[i]);
        CHECK(!hears(&section));
    }
}

/* It would begin in a bar that isn't its own. */
static void a_section_that_begins_behind_its_bar_is_refused(void)
{
    uint32_t state = 5;
    ToldSection section = any_section(&state);
    section.meter = (Meter){7.0, 8};
    section.tick = 7 * TICKS_PER_QUARTER / 2 - 1;
    tell(&section);
    CHECK(hears(&section));
    section.tick += 1;
    tell(&section);
    CHECK(!hears(&section));
    section.tick = -1;
    tell(&section);
    CHECK(!hears(&section));
}

static bool has_place(const ToldSection* const heard)
{
    const int32_t unit = heard->meter.beat_unit;
    return heard->bar >= 0 && heard->origin >= 0 && heard->meter.beats_per_bar >= 0.5 &&
           unit >= 1 && unit <= 32 && !(unit & (unit - 1)) && heard->tempo >= 1.0 &&
           heard->tempo <= 2000.0;
}

static void run_blocks(const int blocks)
{
    for (int block = 0; block < blocks; ++block) {
        engine_begin(&engine, MIDI_LIST_MAX);
        engine_advance(&engine, 0, 512);
        uint32_t last = 0;
        for (uint32_t i = 0; i < engine.out.count; ++i) {
            CHECK(engine.out.messages[i].frame >= last && engine.out.messages[i].frame < 512);
            last = engine.out.messages[i].frame;
        }
    }
}

/* A message spoilt by chance, into a plugin that plays: in order, or refused. */
static void spoilt_sections_do_no_harm_to_what_plays(void)
{
    uint32_t state = 3;
    int heard_count = 0;
    engine_init(&engine, bank_library(bank), 48000.0);
    for (int i = 0; i < 3000; ++i) {
        ToldSection section = any_section(&state);
        section.bar %= 8;
        tell(&section);
        for (uint32_t spoilt = pick(&state, 3); spoilt; --spoilt) {
            talk.buffer.bytes[pick(&state, talk.size)] ^= (uint8_t)(1U << pick(&state, 8));
        }
        if (!hears(&section)) {
            continue;
        }
        check_case("message %d", i);
        CHECK(has_place(&section));
        ++heard_count;
        if (section.begins) {
            engine_plan_clear(&engine);
        }
        const PlanEntry entry = {.from = {section.bar, section.tick},
                                 .origin = section.origin,
                                 .meter = section.meter,
                                 .tempo = section.tempo,
                                 .ends = section.ends,
                                 .settings = settings_from_controls(section.controls)};
        engine_plan_put(&engine, &entry);
        if (pick(&state, 4) == 0) {
            engine_locate(&engine, section.meter, 60.0 + pick(&state, 200), 0);
        }
        run_blocks(20);
    }
    CHECK(heard_count > 500);
}

int main(void)
{
    talk_open(&talk);
    bank = factory_open();
    RUN(a_section_told_is_the_section_heard);
    RUN(a_section_cut_at_any_byte_is_refused_or_at_its_defaults);
    RUN(a_section_of_bars_shorter_than_half_a_beat_is_refused);
    RUN(a_section_that_begins_behind_its_bar_is_refused);
    RUN(spoilt_sections_do_no_harm_to_what_plays);
    bank_free(bank);
    talk_close(&talk);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_varied_lines.c - a variation that is asked for comes in exactly on its line, the same in
   blocks of any size; one that can't be made by then waits for the next, and that is told.  And
   it plays as if what it makes stood in the bank, under every control that lays feet. */
#include "../../plugin/engine/play/preview.h"
#include "played.h"

enum { GALLOP = 190, ASKED = VARIATION_FILLED };

static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}, {5.0, 4}};
static VariationRoom room;
static Preview preview;

/* Strokes of a figure in all of the case's bars, before a tick or from it on. */
static void expect_side(const PlayedCase* const made, const Figure* const feet, const int64_t line,
                        const bool before)
{
    const Variation laid = variation_make(feet, NULL, made->meter, 0, &room);
    const int from = expected.count;
    int kept = from;
    for (int64_t bar = 0; bar < made->to; ++bar) {
        expect_bar(laid.figure, made->meter, bar, bar * meter_bar_ticks(made->meter));
    }
    for (int i = from; i < expected.count; ++i) {
        if ((expected.strokes[i].tick < line) == before) {
            expected.strokes[kept++] = expected.strokes[i];
        }
    }
    expected.count = kept;
}

/* Plays until `asked` frames, sets the variation, and plays on. */
static bool play_asked(PlayedCase* const made, const int64_t asked)
{
    const int64_t end =
        (int64_t)floor(played_frames(made, made->to * meter_bar_ticks(made->meter)) + 0.5);
    bool late = false;
    made->values[CONTROL_VARIATION] = 0.0f;
    played_begin(made);
    for (int64_t frame = 0; frame < end; frame += made->block) {
        if (frame == asked) {
            made->values[CONTROL_VARIATION] = ASKED;
            played_set(made);
            preview_start(&preview);
            late = preview_place(&preview, &played_engine).late;
        }
        played_block(made, frame, made->block);
    }
    return late;
}

/* The next line of that kind at or after a tick; phrases of two bars. */
static int64_t line_after(const int change_at, const Meter meter, const double tick)
{
    const int64_t bar = meter_bar_ticks(meter);
    const int64_t beat = (int64_t)TICKS_PER_QUARTER * 4 / meter.beat_unit;
    const int64_t apart = change_at == CHANGE_AT_BEAT  ? beat
                          : change_at == CHANGE_AT_BAR ? bar
                                                       : 2 * bar;
    return (int64_t)ceil(tick / (double)apart) * apart;
}

/* One variation is to be made for each. */
static int letters_of(const Groove* const groove)
{
    uint32_t letters = 0;
    for (uint32_t bar = 0; bar < groove->form_bars; ++bar) {
        letters |= 1U << groove->form[bar];
    }
    return __builtin_popcount(letters);
}

/* A change waits for the first line by which it can be made: 64 frames for each letter, and as
   many more. */
static void a_variation_comes_in_on_its_line_in_blocks_of_any_size(void)
{
    static const uint32_t blocks[] = {64, 1, 1024, 512};
    const Figure* const feet = library_figure(bank_library(bank), FIGURE_FEET, GALLOP);
    const double notice = 64.0 * (letters_of(library_groove(bank_library(bank), 1)) + 1);
    int lates = 0;
    for (int at = 0; at < 48; ++at) {
        PlayedCase made = played_case(GALLOP, meters[at % 4], 140.0);
        made.values[CONTROL_CHANGE_AT] = (float)(1 + at / 4 % 3);
        made.values[CONTROL_PHRASE_BARS] = 2.0f;
        made.values[CONTROL_REALIGN] = 0.0f;
        made.block = blocks[at / 12];
        made.to = 6;
        const int64_t asked = (20 + at * 3) * 1024;
        const double tick =
            (double)asked * TICKS_PER_QUARTER / played_frames(&made, TICKS_PER_QUARTER);
        const double ready = tick + notice * tick / (double)asked;
        const int64_t line = line_after(1 + at / 4 % 3, made.meter, ready);
        const bool late = line > line_after(1 + at / 4 % 3, made.meter, tick);
        const Part part = library_groove(bank_library(bank), 1)->parts[0];
        check_case("%g/%d, block %u, asked at frame %d, line %d", made.meter.beats_per_bar,
                   made.meter.beat_unit, made.block, (int)asked, 1 + at / 4 % 3);
        CHECK_INT(play_asked(&made, asked), late);
        lates += late;
        const int64_t end = made.to * meter_bar_ticks(made.meter);
        for (int i = 0; i < played.count; ++i) { /* blocks go on beyond it */
            played.count = played.strokes[i].tick >= end - 200 ? i : played.count;
        }
        expected.count = 0;
        expect_side(&made, feet, line, true);
        expect_side(&made, variation_make(feet, part.hands, made.meter, ASKED, &room).figure, line,
                    false);
        check_strokes(&made);
    }
    CHECK(lates > 0 && lates < 24);
}

/* Of 4/4 at 120 a bar is 96000 frames; the room says that one variation for each letter takes
   64 frames, and 64 more. */
static void one_asked_for_too_late_waits_a_line_longer_and_that_is_told(void)
{
    PlayedCase made = played_case(GALLOP, meters[0], 120.0);
    made.values[CONTROL_CHANGE_AT] = CHANGE_AT_BAR;
    made.block = 32;
    made.to = 4;
    CHECK(!play_asked(&made, 96000 - 1024));
    CHECK(play_asked(&made, 96000 - 32));
    CHECK_INT(engine_settings(&played_engine)->variation, ASKED); /* by now */
}

/* ---- As if it stood in the bank */

static Figure one;
static Library alone;

/* A library whose feet of that id are what the variation makes. */
static bool replace(const uint32_t id, const Figure* const hands, const Meter meter,
                    const uint32_t number)
{
    const Library* const library = bank_library(bank);
    const Variation made =
        variation_make(library_figure(library, FIGURE_FEET, id), hands, meter, number, &room);
    if (made.figure) {
        one = *made.figure;
        alone = *library;
        alone.figures[FIGURE_FEET] = &one;
        alone.figure_counts[FIGURE_FEET] = 1;
    }
    return made.figure;
}

static MidiMessage first[PLAYED_MAX], second[PLAYED_MAX];

static int play_all(const PlayedCase* const made, const Library* const library,
                    MidiMessage messages[PLAYED_MAX])
{
    int count = 0;
    engine_init(&played_engine, library, PLAYED_RATE);
    played_set(made);
    engine_locate(&played_engine, made->meter, made->tempo, 0);
    for (uint32_t block = 0; block < 800; ++block) {
        engine_begin(&played_engine, MIDI_LIST_MAX);
        engine_advance(&played_engine, 0, 512);
        for (uint32_t i = 0; i < played_engine.out.count && count < PLAYED_MAX; ++i) {
            messages[count] = played_engine.out.messages[i];
            messages[count++].frame += block * 512;
        }
    }
    return count;
}

static void compare(PlayedCase* const made, const uint32_t id, const uint32_t number)
{
    made->values[CONTROL_VARIATION] = (float)number;
    const int count = play_all(made, bank_library(bank), first);
    made->values[CONTROL_VARIATION] = 0.0f;
    const int other = play_all(made, &alone, second);
    check_case("feet %u, %s", id, variation_words(number));
    CHECK_INT(count, other);
    CHECK(count > 20);
    for (int i = 0; i < count && i < other; ++i) {
        CHECK_INT(first[i].frame, second[i].frame);
        CHECK_INT(memcmp(first[i].bytes, second[i].bytes, MIDI_BYTES), 0);
    }
}

/* Grid, cycle, shift, where it starts again, lead, swing, fills, the click on its grid, liberty. */
static void a_variation_plays_as_if_it_stood_in_the_bank(void)
{
    static const struct {
        Control control;
        float value;
    } sets[] = {{CONTROL_FEET_GRID, 5.0f},   {CONTROL_FEET_GRID, 6.0f},  {CONTROL_FEET_CYCLE, 7.0f},
                {CONTROL_FEET_SHIFT, 3.0f},  {CONTROL_REALIGN, 0.0f},    {CONTROL_LEAD_FOOT, 1.0f},
                {CONTROL_SWING_RATIO, 2.0f}, {CONTROL_TURNAROUND, 6.0f}, {CONTROL_CLICK_GRID, 4.0f},
                {CONTROL_LIBERTY, 100.0f},   {CONTROL_LOOSENESS, 18.0f}, {CONTROL_LOOP_BAR, 2.0f}};
    const Groove* const groove = library_groove(bank_library(bank), 1);
    const Figure* const hands = library_figure(bank_library(bank), FIGURE_HANDS, 1);
    uint32_t at = 0, made_any = 0;
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_FEET); i += 3) {
        const uint32_t id = factory_figure(bank, ENTRY_FEET, i)->id;
        for (uint32_t number = 1 + i % 4; number < VARIATION_COUNT; number += 4, ++at) {
            PlayedCase made = played_case(id, meters[at % 4], 150.0);
            made.values[CONTROL_GROOVE] = (float)groove->id;
            made.values[CONTROL_HANDS] = 1.0f;
            made.values[CONTROL_RIGHT_HAND] = made.values[CONTROL_LEFT_HAND] = 1.0f;
            made.values[CONTROL_CLICK] = 2.0f;
            made.values[sets[at % 12].control] = sets[at % 12].value;
            made.values[sets[at * 7 % 11].control] = sets[at * 7 % 11].value;
            if (replace(id, hands, made.meter, number)) {
                compare(&made, id, number);
                ++made_any;
            }
        }
    }
    printf("# %u of %u\n", made_any, at);
    CHECK(made_any > 500);
}

int main(void)
{
    bank = factory_open();
    RUN(a_variation_comes_in_on_its_line_in_blocks_of_any_size);
    RUN(one_asked_for_too_late_waits_a_line_longer_and_that_is_told);
    RUN(a_variation_plays_as_if_it_stood_in_the_bank);
    bank_free(bank);
    return tests_end();
}

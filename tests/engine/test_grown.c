// SPDX-License-Identifier: ISC
/* test_grown.c - feet that grow, by the place alone: which variation plays in a bar is counted
   here from variation_order and the bar's number; played through, after locates, loops and in
   sections of a song; with liberty the same whatever the blocks. */
#include "played.h"

enum { HERTA = 230, GALLOP = 190, RUN = 50, NOTES_MAX = 4096 };

static const Meter four = {4.0, 4};
static VariationRoom room, laid_room;
static VariationRow rows[VARIATION_COUNT];

static const Figure* feet_of(const uint32_t id)
{
    return library_figure(bank_library(bank), FIGURE_FEET, id);
}

static const Groove* groove_of(const PlayedCase* const made)
{
    return library_groove(bank_library(bank), (uint32_t)made->values[CONTROL_GROOVE]);
}

/* The number that plays in a bar, counted in the room's words: phrase by phrase one on, back
   from the fullest. */
static uint32_t grown_in(const PlayedCase* const made, const Figure* const hands, const int64_t bar)
{
    uint8_t order[VARIATION_COUNT];
    const Figure* const feet = feet_of((uint32_t)made->values[CONTROL_FEET]);
    variation_offers(feet, hands, made->meter, rows, &room);
    const int count = (int)variation_order(rows, order);
    const int64_t every = (int64_t)made->values[CONTROL_GROW_EVERY];
    const int64_t phrase = bar / (int64_t)made->values[CONTROL_PHRASE_BARS];
    int at = 0, by = 1;
    for (int64_t turn = 0; turn < phrase / every; ++turn) {
        by = at + by < 0 || at + by >= count ? -by : by;
        at += by;
    }
    return order[at];
}

static int check_grown(const PlayedCase* const made)
{
    const int64_t bars = (int64_t)made->values[CONTROL_PHRASE_BARS];
    const bool never = made->values[CONTROL_REALIGN] < 0.5f;
    const Groove* const groove = groove_of(made);
    const Figure* const feet = feet_of((uint32_t)made->values[CONTROL_FEET]);
    expected.count = 0;
    for (int64_t bar = made->from; bar < made->to; ++bar) {
        const Figure* const hands =
            groove->parts[groove->form[bar % bars % groove->form_bars]].hands;
        const uint32_t number = grown_in(made, hands, bar);
        const Variation grown = variation_make(feet, hands, made->meter, number, &room);
        const Variation laid = variation_make(grown.figure, NULL, made->meter, 0, &laid_room);
        const int64_t since = grown.figure->bars || !never ? bar % bars : bar;
        expect_bar(laid.figure, made->meter, since,
                   (bar - made->from) * meter_bar_ticks(made->meter));
    }
    return check_strokes(made);
}

static PlayedCase grows(const uint32_t feet, const Meter meter, const float every,
                        const float phrase)
{
    PlayedCase made = played_case(feet, meter, 160.0);
    made.values[CONTROL_GROW_EVERY] = every;
    made.values[CONTROL_PHRASE_BARS] = phrase;
    made.block = 997;
    return made;
}

static void feet_grow_phrase_by_phrase_and_come_back(void)
{
    static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {12.0, 8}};
    static const uint32_t figures[] = {HERTA, GALLOP, RUN};
    for (int i = 0; i < 9; ++i) {
        PlayedCase made = grows(figures[i % 3], meters[i / 3], i % 2 ? 1.0f : 2.0f, 1.0f);
        made.to = 150;
        check_case("feet %u in %g/%d", figures[i % 3], made.meter.beats_per_bar,
                   made.meter.beat_unit);
        played_begin(&made);
        played_run(&made);
        CHECK(check_grown(&made) > 500);
    }
}

static void what_rolls_for_ever_keeps_its_phase_as_it_grows(void)
{
    PlayedCase made = grows(HERTA, (Meter){5.0, 8}, 1.0f, 2.0f);
    made.values[CONTROL_REALIGN] = 0.0f;
    made.to = 80;
    played_begin(&made);
    played_run(&made);
    check_grown(&made);
}

static void after_a_locate_the_same_plays_as_played_through(void)
{
    PlayedCase made = grows(HERTA, four, 2.0f, 2.0f);
    static const int places[] = {77, 3, 140, 12, 13, 64, 0, 999};
    played_begin(&made);
    for (size_t i = 0; i < sizeof places / sizeof *places; ++i) {
        made.from = places[i];
        made.to = places[i] + 5;
        check_case("bar %d", places[i]);
        engine_locate(&played_engine, made.meter, made.tempo,
                      made.from * meter_bar_ticks(made.meter));
        played.count = 0;
        played_run(&made);
        check_grown(&made);
    }
}

static void a_loop_plays_the_same_each_time(void)
{
    PlayedCase made = grows(GALLOP, four, 1.0f, 1.0f);
    made.from = 6;
    made.to = 9;
    played_begin(&made);
    for (int time = 0; time < 4; ++time) {
        engine_locate(&played_engine, made.meter, made.tempo,
                      made.from * meter_bar_ticks(made.meter));
        played.count = 0;
        played_run(&made);
        check_case("time %d", time);
        check_grown(&made);
    }
}

/* ---- Sections */

static void each_section_of_a_song_has_a_variation_of_its_own(void)
{
    static const uint32_t numbers[] = {VARIATION_FILLED, 0, VARIATION_FIVES, VARIATION_THINNED};
    PlayedCase made = played_case(GALLOP, four, 160.0);
    played_begin(&made);
    for (int i = 0; i < 4; ++i) {
        made.values[CONTROL_VARIATION] = (float)numbers[i];
        const PlanEntry entry = {.from = {3 * i, 0},
                                 .origin = 3 * i,
                                 .meter = four,
                                 .tempo = 160.0,
                                 .settings = settings_from_controls(made.values)};
        engine_plan_put(&played_engine, &entry);
    }
    made.to = 12;
    played_run(&made);
    expected.count = 0;
    const Groove* const groove = groove_of(&made);
    for (int64_t bar = 0; bar < 12; ++bar) {
        const Figure* const hands = groove->parts[groove->form[bar % 3 % groove->form_bars]].hands;
        const Variation part =
            variation_make(feet_of(GALLOP), hands, four, numbers[bar / 3], &room);
        CHECK(part.figure);
        expect_bar(part.figure ? part.figure : feet_of(GALLOP), four, bar % 3 % groove->form_bars,
                   bar * meter_bar_ticks(four));
    }
    CHECK(check_strokes(&made) > 100);
}

/* ---- With liberty and feel */

typedef struct {
    int count;
    int64_t frames[NOTES_MAX];
    uint8_t keys[NOTES_MAX];
    uint8_t loud[NOTES_MAX];
} NotesOn;

static NotesOn through, other;

static void play_notes(const PlayedCase* const made, NotesOn* const to)
{
    const int64_t first = (int64_t)ceil(played_frames(made, made->from * meter_bar_ticks(four)));
    const int64_t end = (int64_t)ceil(played_frames(made, made->to * meter_bar_ticks(four)));
    played_begin(made);
    to->count = 0;
    for (int64_t frame = first; frame < end; frame += made->block) {
        engine_begin(&played_engine, MIDI_LIST_MAX);
        engine_advance(&played_engine, 0, made->block);
        for (uint32_t i = 0; i < played_engine.out.count; ++i) {
            const MidiMessage* const message = &played_engine.out.messages[i];
            if ((message->bytes[0] & 0xF0) == MIDI_NOTE_ON && to->count < NOTES_MAX) {
                to->frames[to->count] = frame + message->frame;
                to->keys[to->count] = message->bytes[1];
                to->loud[to->count++] = message->bytes[2];
            }
        }
    }
}

/* Those from a frame on to before another are the same, but for what a frame rounds. */
static void check_notes(const int64_t from, const int64_t to)
{
    int a = 0, b = 0, count = 0;
    while (a < through.count && through.frames[a] < from) {
        ++a;
    }
    while (b < other.count && other.frames[b] < from) {
        ++b;
    }
    for (; a < through.count && through.frames[a] < to; ++a, ++b, ++count) {
        CHECK(b < other.count && llabs(other.frames[b] - through.frames[a]) <= 1);
        CHECK_INT(other.keys[b], through.keys[a]);
        CHECK_INT(other.loud[b], through.loud[a]);
    }
    CHECK(count > 100);
}

static void at_any_block_and_place_liberty_plays_the_same_over_feet_that_grow(void)
{
    static const uint32_t blocks[] = {1, 64, 1024};
    PlayedCase made = grows(GALLOP, four, 1.0f, 2.0f);
    for (int limb = CONTROL_RIGHT_HAND; limb <= CONTROL_LEFT_FOOT; ++limb) {
        made.values[limb] = 1.0f;
    }
    made.values[CONTROL_VARIATION] = VARIATION_ACCENTS;
    made.values[CONTROL_LIBERTY] = 100.0f;
    made.values[CONTROL_LOOSENESS] = 18.0f;
    made.values[CONTROL_TOUCH] = 50.0f;
    made.to = 14;
    made.block = 997;
    play_notes(&made, &through);
    const int64_t end = (int64_t)played_frames(&made, 13 * meter_bar_ticks(four));
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; ++i) {
        made.block = blocks[i];
        play_notes(&made, &other);
        check_case("block %u", blocks[i]);
        check_notes(0, end);
    }
    made.from = 6;
    play_notes(&made, &other);
    check_case("from bar 6 on");
    check_notes((int64_t)played_frames(&made, 13 * meter_bar_ticks(four) / 2), end);
}

int main(void)
{
    bank = factory_open();
    RUN(feet_grow_phrase_by_phrase_and_come_back);
    RUN(what_rolls_for_ever_keeps_its_phase_as_it_grows);
    RUN(after_a_locate_the_same_plays_as_played_through);
    RUN(a_loop_plays_the_same_each_time);
    RUN(each_section_of_a_song_has_a_variation_of_its_own);
    RUN(at_any_block_and_place_liberty_plays_the_same_over_feet_that_grow);
    bank_free(bank);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* test_fresh.c - nothing that is told goes stale: after any way there, by changes, loops,
   locates, stops and short starts, the output ports and what a window holds are those of
   an instance that has never been anywhere else. */
#include "../desk/chance.h"
#include "../help/check.h"
#include "preview_rig.h"

enum {
    BLOCK = 512,
    WAYS = 240,
    STEPS = 60,
    SETTLE_BLOCKS = 400,
    WAIT_BLOCKS = 6000,
    CATCH_UP = 200
};

static const Meter meters[] = {{4.0, 4}, {7.0, 8}, {3.0, 4}, {12.0, 8}, {5.0, 4}};

enum { METERS = sizeof meters / sizeof *meters };

/* What a window keeps of what it is told: ../../ui/desk/desk.c in small. */
typedef struct {
    bool has_place;
    SeenPlace place;
    bool has_bar[SEEN_BARS];
    SeenBar bars[SEEN_BARS];
} Held;

typedef struct {
    PreviewFeed look;
    Held held;
    double beat;   /* of the host, from bar 0 on */
    double speed;  /* as told last */
    int64_t frame; /* the host's */
    int64_t told;  /* likewise, as told last */
} Life;

static Bank* bank;
static Life lived, fresh; /* too large for a stack */
static Chance dice;

/* ---- A window */

static void hold_place(Held* const held, const SeenPlace* const place)
{
    const uint32_t after = held->place.phrase_bars;
    if (place->phrase != held->place.phrase || place->phrase_bars != after) {
        if (!place->loops && after < SEEN_BARS && held->has_bar[after] &&
            held->bars[after].bar == place->phrase) {
            held->bars[0] = held->bars[after];
            held->has_bar[0] = true;
        }
        for (uint32_t slot = place->phrase_bars + 1; slot < SEEN_BARS; ++slot) {
            held->has_bar[slot] = false;
        }
    }
    held->place = *place;
    held->has_place = true;
}

/* As the plugin tells: where it is, thirty times a second or so and before each bar. */
static void tell(Life* const life, const bool tells_place)
{
    Preview* const preview = &life->look.preview;
    preview_step(preview, &life->look.engine);
    if (tells_place || preview->is_ready || !life->held.has_place) {
        const SeenPlace place = preview_place(preview, &life->look.engine);
        hold_place(&life->held, &place);
        preview_told(preview, &place);
    }
    const SeenBar* const bar = preview_fetch(preview);
    if (bar) {
        life->held.bars[bar->slot] = *bar;
        life->held.has_bar[bar->slot] = true;
    }
}

/* ---- A host */

static double beats_a_frame(const Life* const life)
{
    return life->look.tempo / 60.0 / LOOK_RATE * life->look.meter.beat_unit / 4.0;
}

static void report(Life* const life)
{
    const Meter meter = life->look.meter;
    const double bar = floor(life->beat / meter.beats_per_bar + 1e-9);
    const double in_bar = life->beat - bar * meter.beats_per_bar;
    const Report report = {.has = HAS_FRAME | HAS_SPEED | HAS_BAR | HAS_BAR_BEAT | HAS_BEAT_UNIT |
                                  HAS_BEATS_PER_BAR | HAS_BEATS_PER_MINUTE,
                           .frame = life->frame,
                           .speed = life->speed,
                           .bar = (int64_t)bar,
                           .bar_beat = in_bar > 0.0 ? in_bar : 0.0,
                           .beat_unit = meter.beat_unit,
                           .beats_per_bar = meter.beats_per_bar,
                           .beats_per_minute = life->look.tempo};
    life->told = life->frame;
    engine_begin(&life->look.engine, MIDI_LIST_MAX);
    engine_report(&life->look.engine, &report, 0);
}

static void run(Life* const life, const int blocks)
{
    for (int i = 0; i < blocks; ++i) {
        engine_begin(&life->look.engine, MIDI_LIST_MAX);
        engine_advance(&life->look.engine, 0, BLOCK);
        if (life->speed > 0.0) {
            life->beat += BLOCK * beats_a_frame(life);
            life->frame += BLOCK;
        }
        tell(life, i % 3 == 0);
    }
}

/* A host that tells the same frame twice stands (position.h): not here. */
static void go_to(Life* const life, const double beat)
{
    const int64_t frame = (int64_t)floor(beat / beats_a_frame(life) + 0.5);
    const double further = frame == life->told ? life->look.meter.beats_per_bar : 0.0;
    life->beat = beat + further;
    life->frame = (int64_t)floor(life->beat / beats_a_frame(life) + 0.5);
}

/* Now and then to where the song has another meter or tempo. */
static void locate(Life* const life)
{
    if (!chance(&dice, 4)) {
        life->look.meter = meters[chance(&dice, METERS)];
    }
    if (!chance(&dice, 4)) {
        life->look.tempo = 60.0 + (double)chance(&dice, 160);
    }
    const double beats = life->look.meter.beats_per_bar;
    const double bar = (double)chance(&dice, 12);
    go_to(life, bar * beats + (chance(&dice, 2) ? 0.0 : floor(beats / 2.0)));
    report(life);
}

/* A loop's wrap: just before a bar line, back to another. */
static void wrap(Life* const life)
{
    const double beats = life->look.meter.beats_per_bar;
    const double to = (double)chance(&dice, 6) * beats;
    while (life->speed > 0.0 &&
           life->beat + BLOCK * beats_a_frame(life) < (floor(life->beat / beats) + 1.0) * beats) {
        run(life, 1);
    }
    go_to(life, to);
    report(life);
}

/* ---- A way */

static void change(Life* const life)
{
    const Library* const library = bank_library(bank);
    switch (chance(&dice, 8)) {
    case 0:
        look_set(&life->look, CONTROL_GROOVE,
                 (float)library->grooves[chance(&dice, library->groove_count)].id);
        break;
    case 1:
    case 2:
        look_set(
            &life->look, CONTROL_FEET,
            (float)library->figures[FIGURE_FEET][chance(&dice, library->figure_counts[FIGURE_FEET])]
                .id);
        break;
    case 3:
        look_set(&life->look, CONTROL_HANDS, chance(&dice, 2) ? 0.0f : 1.0f);
        break;
    case 4:
        look_set(&life->look, CONTROL_PHRASE_BARS, (float)chance(&dice, 5));
        break;
    case 5:
        look_set(&life->look, CONTROL_SWING_RATIO, 1.0f + (float)chance(&dice, 5) / 2.0f);
        break;
    case 6:
        look_set(&life->look, CONTROL_CHANGE_AT, (float)chance(&dice, 4));
        break;
    default:
        look_set(&life->look, CONTROL_LOOP_BAR, chance(&dice, 3) ? 0.0f : 2.0f);
        break;
    }
}

/* Changes come at any moment and just before a bar line, where they are drawn ahead. */
static void change_late(Life* const life)
{
    const double beats = life->look.meter.beats_per_bar;
    const double reach = 2.0 * BLOCK * beats_a_frame(life);
    for (int i = 0; i < WAIT_BLOCKS && life->speed > 0.0 &&
                    life->beat + reach < (floor(life->beat / beats) + 1.0) * beats;
         ++i) {
        run(life, 1);
    }
    change(life);
    run(life, 1);
}

static void step(Life* const life)
{
    switch (chance(&dice, 8)) {
    case 0:
        locate(life);
        break;
    case 1:
    case 2:
        life->speed = life->speed > 0.0 ? 0.0 : 1.0;
        report(life);
        break;
    case 3:
        wrap(life);
        break;
    case 4:
        change_late(life);
        break;
    case 5:
        change_late(life);
        wrap(life);
        break;
    default:
        change(life);
        break;
    }
    run(life, 1 + (int)chance(&dice, chance(&dice, 2) ? 4 : 60));
}

static void begin(Life* const life, const Meter meter, const double tempo)
{
    memset(life, 0, sizeof *life);
    look_begin(&life->look, bank_library(bank), meter, tempo);
}

static void live(const int way)
{
    dice = (Chance){(uint64_t)way};
    begin(&lived, meters[way % METERS], 60.0 + (double)(way * 29 % 160));
    if (way % 4 == 3) {
        look_set(&lived.look, CONTROL_SWING_FOLLOW, 1.0f);
    }
    if (way % 6 == 5) {
        look_set(&lived.look, CONTROL_PRACTICE_RATE, (float)(way % 5));
    }
    for (int i = 0; i < STEPS; ++i) {
        step(&lived);
    }
    for (int i = 0; i < WAIT_BLOCKS && lived.held.place.waiting; ++i) {
        run(&lived, 1);
    }
    if (way % 2) { /* with nothing changed behind it */
        run(&lived, SETTLE_BLOCKS);
        locate(&lived);
    }
    run(&lived, SETTLE_BLOCKS);
}

/* Another that starts where the first is, and looks as long. */
static void begin_afresh(void)
{
    begin(&fresh, lived.look.meter, lived.look.tempo);
    memcpy(fresh.look.values, lived.look.values, sizeof fresh.look.values);
    const Settings settings = settings_from_controls(fresh.look.values);
    engine_set(&fresh.look.engine, &settings);
    fresh.beat = lived.beat;
    fresh.frame = lived.frame;
    report(&fresh);
    run(&fresh, 1);
    fresh.speed = lived.speed;
    report(&fresh);
    run(&fresh, SETTLE_BLOCKS);
    run(&lived, SETTLE_BLOCKS);
    for (int i = 0; i < CATCH_UP; ++i) { /* a phrase may just have begun */
        tell(&fresh, true);
        tell(&lived, true);
    }
}

/* ---- What is the same */

static void check_readouts(void)
{
    static const char* const names[READOUT_COUNT] = {
        [READOUT_RIGHT_FOOT_RATE] = "right_foot_rate", [READOUT_LEFT_FOOT_RATE] = "left_foot_rate",
        [READOUT_RIGHT_FOOT_GAP] = "right_foot_gap",   [READOUT_LEFT_FOOT_GAP] = "left_foot_gap",
        [READOUT_REALIGN_BARS] = "realign_bars",       [READOUT_TEMPO_NOW] = "tempo_now",
    };
    float got[READOUT_COUNT], want[READOUT_COUNT];
    engine_readouts(&lived.look.engine, got);
    engine_readouts(&fresh.look.engine, want);
    for (int i = 0; i < READOUT_COUNT; ++i) {
        check_near((double)got[i], (double)want[i], 1e-4 * (double)want[i], names[i], __FILE__,
                   __LINE__);
    }
}

static void check_place(void)
{
    const SeenPlace got = lived.held.place, want = fresh.held.place;
    CHECK_INT(got.bar, want.bar);
    CHECK_NEAR(got.tick, want.tick, 1e-4 * TICKS_PER_QUARTER);
    CHECK_INT(got.phrase, want.phrase);
    CHECK_INT(got.phrase_bars, want.phrase_bars);
    CHECK_INT(got.rolling, want.rolling);
    CHECK_INT(got.waiting, want.waiting);
    CHECK_INT(got.loops, want.loops);
    CHECK_INT(got.feet_meet, want.feet_meet);
    CHECK_INT(got.all_meet, want.all_meet);
}

static void check_strokes(const SeenBar* const got, const SeenBar* const want)
{
    CHECK_INT(got->count, want->count);
    for (uint32_t i = 0; i < got->count && i < want->count; ++i) {
        CHECK_INT(got->strokes[i].felt, want->strokes[i].felt);
        CHECK_INT(got->strokes[i].limb, want->strokes[i].limb);
        CHECK_INT(got->strokes[i].voice, want->strokes[i].voice);
        CHECK_INT(got->strokes[i].velocity, want->strokes[i].velocity);
    }
}

/* The title, the staff and where figures begin, bar by bar. */
static void check_bars(const int way)
{
    for (uint32_t slot = 0; slot <= fresh.held.place.phrase_bars; ++slot) {
        const SeenBar* const got = &lived.held.bars[slot];
        const SeenBar* const want = &fresh.held.bars[slot];
        check_case("way %d, bar %d of the phrase", way, (int)slot);
        if (!CHECK(lived.held.has_bar[slot] && fresh.held.has_bar[slot])) {
            continue;
        }
        CHECK_INT(got->bar, want->bar);
        CHECK_INT(got->groove, want->groove);
        CHECK_INT(got->hands, want->hands);
        CHECK_INT(got->feet, want->feet);
        CHECK_INT(got->in_phrase, want->in_phrase);
        CHECK_INT(got->phrase_bars, want->phrase_bars);
        CHECK_INT(got->part, want->part);
        CHECK_INT(got->fill, want->fill);
        CHECK_INT(got->fill_begin, want->fill_begin);
        CHECK_INT(got->fill_end, want->fill_end);
        CHECK_INT(got->is_coming, want->is_coming);
        CHECK_INT(got->feet_turns.count, want->feet_turns.count);
        CHECK_INT(got->clicks.count, want->clicks.count);
        check_strokes(got, want);
    }
}

static void after_any_way_all_that_is_told_is_as_if_fresh(void)
{
    for (int way = 0; way < WAYS; ++way) {
        live(way);
        begin_afresh();
        check_case("way %d", way);
        check_readouts();
        check_place();
        check_bars(way);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(after_any_way_all_that_is_told_is_as_if_fresh);
    bank_free(bank);
    return tests_end();
}

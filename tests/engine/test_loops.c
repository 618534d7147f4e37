// SPDX-License-Identifier: ISC
/* A loop plays what is written in it, pass after pass: README, "the same take
   number gives the same performance in the host, in a loop and in a render".
   Wanted are the strokes that choice_strokes tells for the looped bars, counted
   here pass by pass against the notes heard. */
#include "../help/check.h"
#include "preview_rig.h"

enum { PASSES = 8, PLACES = 4096 };

/* A loop that is cut to the sample at its ends, as hosts do. */
typedef struct {
    uint32_t groove;
    Meter meter;
    double tempo;
    int bars;
    uint32_t block;
    Control moved; /* a control that is set to `value`; CONTROL_COUNT: none */
    float value;
} Loop;

typedef struct {
    int64_t frame;
    int64_t pushed;  /* frame with its push, which moves all of its kind alike */
    int64_t nearest; /* frames to the nearest other one of its key in its pass */
    int pass;
    uint8_t key;
} Wanted;

static Bank* bank;
static PreviewFeed look;
static Wanted wanted[PLACES];
static int wanted_count;

static int64_t loop_frames(const Loop* const loop)
{
    const double quarters = loop->bars * loop->meter.beats_per_bar * 4.0 / loop->meter.beat_unit;
    return (int64_t)(quarters * 60.0 / loop->tempo * LOOK_RATE + 0.5);
}

static void play_passes(const Loop* const loop, const float take)
{
    look_begin(&look, bank_library(bank), loop->meter, loop->tempo);
    look_set(&look, CONTROL_GROOVE, (float)loop->groove);
    look_set(&look, CONTROL_TAKE, take);
    look_set(&look, CONTROL_LIBERTY, 0.0f);
    if (loop->moved != CONTROL_COUNT) {
        look_set(&look, loop->moved, loop->value);
    }
    for (int pass = 0; pass < PASSES; ++pass) {
        const int64_t end = (pass + 1) * loop_frames(loop);
        look_report(&look, 1.0);
        while (look.frames < end) {
            const int64_t left = end - look.frames;
            look_play(&look, left < loop->block ? (uint32_t)left : loop->block);
        }
    }
}

static int64_t push_frames(const Stroke stroke)
{
    const Feel feel = engine_selection(&look.engine).feel;
    const double ms = limb_is_foot(stroke.limb)     ? feel.push_feet_ms
                      : stroke.voice == VOICE_SNARE ? feel.push_snare_ms
                                                    : feel.push_hands_ms;
    return (int64_t)(ms * LOOK_RATE / 1000.0);
}

static void want(const int pass, const int64_t frame, const Stroke stroke)
{
    const uint8_t key = engine_selection(&look.engine).kit->notes[stroke.voice];
    for (int i = 0; i < wanted_count; ++i) {
        if (wanted[i].frame == frame && wanted[i].key == key) {
            return; /* two limbs on one key at once are one note: scheduler.h */
        }
    }
    wanted[wanted_count++] = (Wanted){frame, frame + push_frames(stroke), INT64_MAX, pass, key};
}

static StrokeList strokes;

static void want_passes(const Loop* const loop)
{
    const int64_t bar = meter_bar_ticks(loop->meter);
    const int64_t quarter = TICKS_PER_QUARTER;
    const Selection selection = engine_selection(&look.engine);
    wanted_count = 0;
    for (int pass = 0; pass < PASSES; ++pass) {
        for (int64_t tick = 0; tick < loop->bars * bar; tick += quarter) {
            const int64_t end =
                tick + quarter < loop->bars * bar ? tick + quarter : loop->bars * bar;
            groove_strokes(&selection, loop->meter, tick, end, &strokes);
            for (uint32_t i = 0; i < strokes.count; ++i) {
                want(pass,
                     pass * loop_frames(loop) +
                         (int64_t)look_frame(&look, (double)strokes.strokes[i].tick),
                     strokes.strokes[i]);
            }
        }
    }
    for (int i = 0; i < wanted_count; ++i) {
        for (int k = 0; k < wanted_count; ++k) {
            const int64_t apart = llabs(wanted[i].frame - wanted[k].frame);
            const bool same_pass = wanted[i].pass == wanted[k].pass; /* as in a render */
            if (same_pass && wanted[i].key == wanted[k].key && apart && apart < wanted[i].nearest) {
                wanted[i].nearest = apart;
            }
        }
    }
}

/* Half the way to its neighbour, or a quarter of a quarter note, from where its push
   has it: chance moves no stroke further (feel.h).  The first of a loop may sound at its start instead. */
static bool near(const Wanted place, const Note note)
{
    const int64_t most = (int64_t)look_frame(&look, (double)TICKS_PER_QUARTER / 4.0);
    const int64_t reach = place.nearest / 2 < most ? place.nearest / 2 : most;
    const int64_t early = place.pushed < place.frame ? place.pushed : place.frame;
    const int64_t late = place.pushed < place.frame ? place.frame : place.pushed;
    return note.key == place.key && note.frame >= early - reach && note.frame <= late + reach;
}

static int lost_strokes(void)
{
    static bool used[LOOK_NOTES];
    int lost = 0;
    memset(used, 0, sizeof used);
    for (int i = 0; i < wanted_count; ++i) {
        int found = -1;
        for (int k = 0; k < look.played.count && found < 0; ++k) {
            found = !used[k] && near(wanted[i], look.played.notes[k]) ? k : -1;
        }
        if (found >= 0) {
            used[found] = true;
        }
        lost += found < 0;
    }
    return lost;
}

static int notes_too_many(void)
{
    return look.played.count - wanted_count;
}

static const Loop loops[] = {
    {1, {4.0, 4}, 291.0, 1, 256, CONTROL_COUNT, 0.0f},
    {1, {4.0, 4}, 150.0, 1, 256, CONTROL_PUSH_HANDS, -40.0f},
    {1, {4.0, 4}, 150.0, 1, 64, CONTROL_PUSH_HANDS, -15.0f},
    {1, {4.0, 4}, 150.0, 1, 1024, CONTROL_PUSH_HANDS, 25.0f},
    {1, {4.0, 4}, 120.0, 2, 256, CONTROL_PUSH_FEET, -50.0f},
    {1, {7.0, 8}, 180.0, 1, 441, CONTROL_COUNT, 0.0f},
    {1, {3.0, 4}, 210.0, 3, 256, CONTROL_LOOSENESS, 30.0f},
    {1, {12.0, 8}, 132.0, 1, 256, CONTROL_LOOSENESS, 30.0f},
    {1, {5.0, 4}, 97.0, 1, 256, CONTROL_PUSH_SNARE, -50.0f},
    {1, {7.0, 16}, 76.0, 2, 256, CONTROL_COUNT, 0.0f},
    {1, {2.0, 2}, 168.0, 1, 256, CONTROL_COUNT, 0.0f},
    {1, {5.0, 8}, 300.0, 1, 256, CONTROL_COUNT, 0.0f},
};

/* Of grooves that end on another cymbal, drum or figure than they begin with. */
static void every_pass_of_a_loop_has_every_stroke_that_is_written(void)
{
    const Library* const library = bank_library(bank);
    for (size_t i = 0; i < sizeof loops / sizeof *loops; ++i) {
        for (uint32_t k = 0; k < library->groove_count; k += 7) {
            Loop loop = loops[i];
            loop.groove = library->grooves[k].id;
            for (float take = 1.0f; take <= 4.0f; take += 1.0f) {
                play_passes(&loop, take);
                want_passes(&loop);
                check_case("groove %u, %g/%d at %g, %d bars, control %d at %g, take %g",
                           loop.groove, loop.meter.beats_per_bar, loop.meter.beat_unit, loop.tempo,
                           loop.bars, (int)loop.moved, (double)loop.value, (double)take);
                CHECK_INT(lost_strokes(), 0);
            }
        }
    }
}

/* The next bar's first strokes may come early, once a pass, where they are other
   strokes than the loop's first: nobody could know that the host goes back. */
static void a_loop_has_nothing_but_them_and_the_early_strokes_of_the_bar_after(void)
{
    for (size_t i = 0; i < sizeof loops / sizeof *loops; ++i) {
        for (float take = 1.0f; take <= 20.0f; take += 1.0f) {
            play_passes(&loops[i], take);
            want_passes(&loops[i]);
            check_case("loop %d, take %g", (int)i, (double)take);
            CHECK_INT(lost_strokes(), 0);
            CHECK(notes_too_many() <= PASSES * LIMB_COUNT);
        }
    }
}

/* Change the groove in the last moment of a pass: the loop's start is the new one's. */
static void a_groove_that_changes_at_the_loops_end_is_whole_from_its_start(void)
{
    for (float take = 1.0f; take <= 20.0f; take += 1.0f) {
        Loop loop = loops[0];
        loop.groove = 24;
        look_begin(&look, bank_library(bank), loop.meter, loop.tempo);
        look_set(&look, CONTROL_TAKE, take);
        look_report(&look, 1.0);
        look_play_to_bar(&look, 1.0 - 1.0 / 64.0, 64);
        look_set(&look, CONTROL_GROOVE, (float)loop.groove);
        while (look.frames < loop_frames(&loop)) {
            look_play(&look, 1);
        }
        look_report(&look, 1.0);
        look_play_to_bar(&look, 1.9, 64);
        check_case("take %g", (double)take);
        const Selection selection = engine_selection(&look.engine);
        groove_strokes(&selection, loop.meter, 0, 1, &strokes);
        wanted_count = 0;
        for (uint32_t i = 0; i < strokes.count; ++i) {
            want(1, loop_frames(&loop), strokes.strokes[i]);
        }
        CHECK(wanted_count > 0);
        CHECK_INT(lost_strokes(), 0);
    }
}

int main(void)
{
    bank = factory_open();
    RUN(every_pass_of_a_loop_has_every_stroke_that_is_written);
    RUN(a_loop_has_nothing_but_them_and_the_early_strokes_of_the_bar_after);
    RUN(a_groove_that_changes_at_the_loops_end_is_whole_from_its_start);
    bank_free(bank);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* What liberty_strokes says is what is played: in any blocks, after any locate, by preview;
   and a section that comes again is another pass by the same hands (README: "takes"). */
#include "../desk/chance.h"
#include "../help/check.h"
#include "../writing/liberty_rig.h"
#include "preview_rig.h"

enum { BARS = 12, SECTION = 24 };

static Bank* bank;
static PreviewFeed look;

typedef struct {
    uint32_t groove;
    Meter meter;
    double tempo;
} Case;

static const Case cases[] = {
    {1, {4.0, 4}, 96.0},    {170, {4.0, 4}, 104.0}, {24, {4.0, 4}, 183.3}, {131, {12.0, 8}, 133.7},
    {140, {7.0, 8}, 121.1}, {6, {3.0, 4}, 70.0},    {81, {5.0, 4}, 119.0},
};
enum { CASES = sizeof cases / sizeof *cases };

static void begin(const Case* const what)
{
    look_begin(&look, bank_library(bank), what->meter, what->tempo);
    look_set(&look, CONTROL_GROOVE, (float)what->groove);
    look_set(&look, CONTROL_LIBERTY, 100.0f);
    look_set(&look, CONTROL_LOOSENESS, 0.0f);
    look_set(&look, CONTROL_TOUCH, 0.0f);
    look_set(&look, CONTROL_CLICK, 0.0f);
}

/* The selection that the engine has made of these settings. */
static NoteList wanted_from(const Case* const what, const int64_t from_bar)
{
    static StrokeList written, list;
    static NoteList want;
    const PlanEntry* const entry = &look.engine.plan.entries[0];
    const LibertyPlace place = {&entry->selection, what->meter, what->tempo, 0};
    const int64_t ticks = meter_bar_ticks(what->meter);
    want.count = 0;
    for (int64_t bar = from_bar; bar < BARS; ++bar) {
        liberty_strokes(&place, bar * ticks, (bar + 1) * ticks, &written, &list);
        for (uint32_t i = 0; i < list.count; ++i) {
            const Stroke stroke = list.strokes[i];
            const double frame = look_frame(&look, (double)(stroke.tick - from_bar * ticks));
            if (stroke.level < LEVEL_FLAM) { /* grace strokes are the feel's */
                want.notes[want.count++] =
                    (Note){llround(frame), entry->selection.kit->notes[stroke.voice], 0};
            }
        }
    }
    return want;
}

static int missing(const NoteList* const want, const NoteList* const got)
{
    int lost = 0;
    for (int i = 0; i < want->count; ++i) {
        bool is_found = false;
        for (int k = 0; k < got->count && !is_found; ++k) {
            is_found = got->notes[k].key == want->notes[i].key &&
                       llabs(got->notes[k].frame - want->notes[i].frame) <= 1;
        }
        lost += !is_found;
    }
    return lost;
}

static void any_blocks_play_it(void)
{
    static const uint32_t blocks[] = {1, 17, 64, 441, 1024};
    for (int i = 0; i < CASES; ++i) {
        for (int b = i ? 1 : 0; b < 5; ++b) {
            begin(&cases[i]);
            const NoteList want = wanted_from(&cases[i], 0);
            look_report(&look, 1.0);
            look_play_to_bar(&look, BARS, blocks[b]);
            check_case("groove %u, blocks of %u", cases[i].groove, blocks[b]);
            CHECK(want.count > 60);
            CHECK_INT(missing(&want, &look.played), 0);
        }
    }
}

static void a_locate_plays_on_with_it(void)
{
    for (int i = 0; i < CASES; ++i) {
        for (int64_t bar = 1; bar < BARS; bar += 3) {
            begin(&cases[i]);
            const NoteList want = wanted_from(&cases[i], bar);
            look_report(&look, 1.0);
            look_play_to_bar(&look, 0.37 * (double)bar, 64);
            engine_locate(&look.engine, cases[i].meter, cases[i].tempo,
                          bar * meter_bar_ticks(cases[i].meter));
            look.played.count = 0;
            look.frames = 0;
            look_play_to_bar(&look, (double)(BARS - bar), 64);
            check_case("groove %u, to bar %d", cases[i].groove, (int)bar);
            CHECK_INT(missing(&want, &look.played), 0);
        }
    }
}

/* What is marked as free isn't written so; what isn't is. */
static void the_preview_marks_what_is_not_written(void)
{
    static StrokeList list;
    int marked = 0;
    for (int i = 0; i < CASES; ++i) {
        begin(&cases[i]);
        look_report(&look, 1.0);
        look_play_to_bar(&look, 0.5, 64);
        look_all(&look);
        const PlanEntry* const entry = &look.engine.plan.entries[0];
        const int64_t ticks = meter_bar_ticks(cases[i].meter);
        for (int64_t bar = 0; bar < LOOK_BARS && look.has[bar]; ++bar) {
            groove_strokes(&entry->selection, cases[i].meter, bar * ticks, (bar + 1) * ticks,
                           &list);
            for (uint32_t k = 0; k < look.bars[bar].count; ++k) {
                const SeenStroke* const seen = &look.bars[bar].strokes[k];
                const Stroke stroke = {bar * ticks + seen->written, seen->limb, seen->voice,
                                       seen->level, false};
                check_case("groove %u, bar %d", cases[i].groove, (int)bar);
                CHECK(seen->is_grace || seen->free == liberty_is_own(stroke, &list));
                marked += seen->free;
            }
        }
    }
    CHECK(marked > 20);
}

/* ---- Another pass by the same hands */

enum { PLACES = 24 };

typedef struct {
    double offset[SECTION][PLACES]; /* ms; not a number: no stroke */
    double mean[PLACES];            /* of the bars */
} Pass;

/* The hat of a section that begins at a bar of the song. */
static Pass pass_at(const Meter meter, const double tempo, const int64_t from, const float take)
{
    static Pass pass;
    float values[CONTROL_COUNT];
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    values[CONTROL_TAKE] = take;
    values[CONTROL_LIBERTY] = 0.0f;
    values[CONTROL_TURNAROUND] = -1.0f;
    const Settings settings = settings_from_controls(values);
    const int64_t ticks = meter_bar_ticks(meter), step = TICKS_PER_QUARTER / 4;
    const int places = (int)(ticks / step);
    look_begin(&look, bank_library(bank), meter, tempo);
    engine_plan_put(&look.engine, &(PlanEntry){.from = {from, 0},
                                               .origin = from,
                                               .meter = meter,
                                               .tempo = tempo,
                                               .settings = settings});
    engine_locate(&look.engine, meter, tempo, from * ticks);
    look_play_to_bar(&look, SECTION, 64);
    const uint8_t hat = look.engine.plan.entries[0].selection.kit->notes[VOICE_HAT_HALF_OPEN];
    memset(&pass, 0, sizeof pass);
    for (int bar = 0; bar < SECTION; ++bar) {
        for (int place = 0; place < PLACES; ++place) {
            pass.offset[bar][place] = (double)NAN;
        }
    }
    for (int i = 0; i < look.played.count; ++i) {
        const Note note = look.played.notes[i];
        const int slot = (int)floor((double)note.frame / look_frame(&look, (double)step) + 0.5);
        if (note.key == hat && slot < SECTION * places) {
            pass.offset[slot / places][slot % places] =
                ((double)note.frame - slot * look_frame(&look, (double)step)) * 1e3 / LOOK_RATE;
        }
    }
    for (int place = 0; place < PLACES; ++place) {
        int count = 0;
        for (int bar = 0; bar < SECTION; ++bar) {
            const double offset = pass.offset[bar][place];
            pass.mean[place] += isnan(offset) ? 0.0 : offset;
            count += !isnan(offset);
        }
        pass.mean[place] = count >= SECTION / 2 ? pass.mean[place] / count : (double)NAN;
    }
    return pass;
}

static double correlation(const double a[PLACES], const double b[PLACES])
{
    double n = 0.0, sa = 0.0, sb = 0.0, saa = 0.0, sbb = 0.0, sab = 0.0;
    for (int i = 0; i < PLACES; ++i) {
        if (!isnan(a[i]) && !isnan(b[i])) {
            n += 1.0, sa += a[i], sb += b[i];
            saa += a[i] * a[i], sbb += b[i] * b[i], sab += a[i] * b[i];
        }
    }
    return (sab - sa * sb / n) / sqrt((saa - sa * sa / n) * (sbb - sb * sb / n));
}

/* The offsets of single strokes are others, and the places are as early and late as before;
   with another take they are another day's. */
static void check_passes(const Meter meter, const double tempo)
{
    enum { TAKES = 8 };
    double same = 0.0, other = 0.0;
    for (int take = 1; take <= TAKES; ++take) {
        const Pass verse = pass_at(meter, tempo, 8, (float)take);
        const Pass again = pass_at(meter, tempo, 40, (float)take);
        const Pass day = pass_at(meter, tempo, 40, (float)(take + 100));
        int alike = 0, strokes = 0;
        for (int bar = 0; bar < SECTION; ++bar) {
            for (int place = 0; place < PLACES; ++place) {
                const double apart = verse.offset[bar][place] - again.offset[bar][place];
                strokes += !isnan(apart);
                alike += fabs(apart) < 0.05;
            }
        }
        check_case("%g/%d at %g, take %d: %d of %d alike", meter.beats_per_bar, meter.beat_unit,
                   tempo, take, alike, strokes);
        CHECK(strokes > SECTION * 5);
        CHECK(alike < strokes / 20);
        same += correlation(verse.mean, again.mean) / TAKES;
        other += correlation(verse.mean, day.mean) / TAKES;
    }
    check_case("%g/%d at %g: places correlate %.2f with the same hands', %.2f with another day's",
               meter.beats_per_bar, meter.beat_unit, tempo, same, other);
    CHECK(same > 0.5);
    CHECK(same > other + 0.3);
}

static void a_section_that_comes_again_is_another_pass_by_the_same_hands(void)
{
    check_passes((Meter){4.0, 4}, 105.0);
    check_passes((Meter){4.0, 4}, 160.0);
    check_passes((Meter){7.0, 8}, 80.0);
    check_passes((Meter){12.0, 8}, 133.7);
    check_passes((Meter){5.0, 4}, 120.0);
}

static void told_again_a_section_is_the_same(void)
{
    const Pass once = pass_at((Meter){7.0, 8}, 133.7, 8, 3.0f);
    const Pass twice = pass_at((Meter){7.0, 8}, 133.7, 8, 3.0f);
    for (int bar = 0; bar < SECTION; ++bar) {
        for (int place = 0; place < PLACES; ++place) {
            CHECK(isnan(once.offset[bar][place]) == isnan(twice.offset[bar][place]));
            CHECK(!(fabs(once.offset[bar][place] - twice.offset[bar][place]) > 0.0));
        }
    }
}

int main(void)
{
    bank = factory_open();
    RUN(any_blocks_play_it);
    RUN(a_locate_plays_on_with_it);
    RUN(the_preview_marks_what_is_not_written);
    RUN(a_section_that_comes_again_is_another_pass_by_the_same_hands);
    RUN(told_again_a_section_is_the_same);
    bank_free(bank);
    return tests_end();
}

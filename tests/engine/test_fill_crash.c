// SPDX-License-Identifier: ISC
/* test_fill_crash.c - crashes on the lines after fills and of phrases, and a fill that was
   asked for besides. */
#include "fills_counted.h"

/* As many crashes of the right hand as bars begin with: a set of bits. */
static unsigned crashes(const Selection* const selection, const Meter meter)
{
    const int64_t bar = meter_bar_ticks(meter);
    unsigned found = 0;
    play_song(selection, meter, bar);
    for (uint32_t i = 0; i < played.count; ++i) {
        const Stroke stroke = played.strokes[i];
        if (stroke.voice == VOICE_CRASH) {
            CHECK(stroke.tick % bar == 0 && stroke.limb == RIGHT_HAND);
            CHECK(i + 1 == played.count || played.strokes[i + 1].tick > stroke.tick ||
                  played.strokes[i + 1].limb != RIGHT_HAND);
            found |= 1U << (stroke.tick / bar);
        }
    }
    return found;
}

static unsigned each(const int every, const int first)
{
    unsigned bars = 0;
    for (int bar = first; every && bar < SONG_BARS; bar += every) {
        bars |= 1U << bar;
    }
    return bars;
}

static void crashes_fall_where_they_are_asked_for(void)
{
    Groove groove = two_letters();
    for (int i = 0; i < METERS * 4 * 2 * 3 * 2; ++i) {
        const Meter meter = meters[i % METERS];
        const int every = (int[]){0, 3, 6}[i / METERS / 8 % 3];
        const bool has_fills = i / METERS / 24;
        groove.crash_start = i / METERS / 4 % 2;
        Selection selection = filled(&groove, 1);
        selection.crash = (CrashWhen)(i / METERS % 4);
        selection.fill_every = (uint32_t)every;
        selection.turnaround = has_fills ? selection.turnaround : NULL;
        const unsigned lines = each(4, 0) | (has_fills ? each(every, every) : 0);
        const unsigned want[] = {groove.crash_start ? lines : 0, 0, lines, 1};
        check_case("crash %d, written %d, every %d, fills %d, %g/%d", (int)selection.crash,
                   groove.crash_start, every, has_fills, meter.beats_per_bar, meter.beat_unit);
        CHECK_INT(crashes(&selection, meter), want[selection.crash]);
        selection.limbs[RIGHT_HAND] = false;
        CHECK_INT(crashes(&selection, meter), 0);
    }
}

/* Four bars of fill end on bar 6; the phrase begins anew on bar 4. */
static void no_crash_falls_into_the_midst_of_a_fill(void)
{
    const Groove groove = two_letters();
    Selection selection = filled(&groove, 4);
    selection.fill_every = 6;
    selection.crash = CRASH_PHRASE;
    CHECK_INT(crashes(&selection, meters[0]), each(6, 0) | 1U << 8);
}

static void one_more_fill_ends_where_it_was_asked_for(void)
{
    const Groove groove = two_letters();
    static StrokeList want, got;
    for (int m = 0; m < METERS; ++m) {
        const int64_t bar = meter_bar_ticks(meters[m]);
        const Selection plain = filled(&groove, 0);
        Selection asked = plain;
        asked.fill_bar = 7;
        asked.crash = CRASH_PHRASE;
        const int64_t length = least(fills[0].figure.cycle_ticks, bar);
        check_case("%g/%d", meters[m].beats_per_bar, meters[m].beat_unit);
        groove_strokes(&plain, meters[m], bar, 7 * bar - length, &want);
        Selection uncrashed = asked;
        uncrashed.crash = CRASH_NEVER;
        groove_strokes(&uncrashed, meters[m], bar, 7 * bar - length, &got);
        CHECK(stroke_lists_alike(&want, &got, 0));
        groove_strokes(&plain, meters[m], 4 * bar - length, 4 * bar, &want);
        groove_strokes(&asked, meters[m], 7 * bar - length, 7 * bar, &got);
        uint32_t hands[2] = {0, 0};
        for (uint32_t i = 0; i < want.count; ++i) {
            hands[0] += !limb_is_foot(want.strokes[i].limb);
        }
        for (uint32_t i = 0; i < got.count; ++i) {
            hands[1] += got.strokes[i].voice == VOICE_TOM_HIGH;
        }
        CHECK_INT(hands[1], hands[0]);
        CHECK_INT(crashes(&asked, meters[m]), each(4, 0) | 1U << 7);
    }
}

int main(void)
{
    make_figures();
    RUN(crashes_fall_where_they_are_asked_for);
    RUN(no_crash_falls_into_the_midst_of_a_fill);
    RUN(one_more_fill_ends_where_it_was_asked_for);
    return tests_end();
}

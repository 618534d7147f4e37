// SPDX-License-Identifier: ISC
/* test_standing.c - where the song is while the transport stands: a locate is followed,
   in whatever parts a host tells it.  LV2's time:Position may have frame, bar and beat
   at speed 0 too. */
#include "../help/check.h"
#include "preview_rig.h"

enum {
    BEAT = LOOK_RATE / 2, /* frames at 120 BPM */
    FRAME_ALONE = 0,
    WHOLE = HAS_BAR | HAS_BAR_BEAT | HAS_BEAT_UNIT | HAS_BEATS_PER_BAR | HAS_BEATS_PER_MINUTE,
};

static Bank* bank;
static PreviewFeed look; /* too large for a stack */

static void begin(void)
{
    look_begin(&look, bank_library(bank), (Meter){4.0, 4}, 120.0);
    look_play(&look, 64);
    CHECK_INT(preview_place(&look.preview, &look.engine).bar, 0);
}

/* The transport stands at a frame and, if `has` says so, at a bar and a beat of 4/4. */
static void tell(const uint32_t has, const int64_t frame, const int bar, const double bar_beat)
{
    const Report report = {.has = HAS_FRAME | HAS_SPEED | has,
                           .frame = frame,
                           .speed = 0.0,
                           .bar = bar,
                           .bar_beat = bar_beat,
                           .beat_unit = 4,
                           .beats_per_bar = 4.0,
                           .beats_per_minute = 120.0};
    engine_begin(&look.engine, MIDI_LIST_MAX);
    engine_report(&look.engine, &report, 0);
}

static void check_stands_at(const int bar, const double beat)
{
    const SeenPlace place = preview_place(&look.preview, &look.engine);
    CHECK(!place.rolling);
    CHECK_INT(place.bar, bar);
    CHECK_NEAR(place.tick, beat * (double)TICKS_PER_QUARTER, 1.0);
}

static void a_locate_told_at_once_is_followed(void)
{
    begin();
    tell(WHOLE, 38 * BEAT, 9, 2.0);
    check_stands_at(9, 2.0);
}

/* jalv 1.6.6 on JACK, ../transport/recorded/jalv_locate.txt: a locate comes as the frame
   alone, and a cycle later, once the timebase master was asked, with bar and beat. */
static void a_locate_told_in_two_parts_is_followed(void)
{
    begin();
    tell(FRAME_ALONE, 0, 0, 0.0);
    tell(WHOLE, 0, 0, 0.0);
    tell(FRAME_ALONE, 38 * BEAT, 0, 0.0);
    check_stands_at(9, 2.0); /* by the tempo that was told last */
    tell(WHOLE, 38 * BEAT, 9, 2.0);
    check_stands_at(9, 2.0);
    tell(FRAME_ALONE, 16 * BEAT, 0, 0.0);
    tell(WHOLE, 16 * BEAT, 4, 0.0);
    check_stands_at(4, 0.0);
}

/* jalv 1.6.6 on JACK without a timebase master tells the frame and the speed. */
static void a_locate_told_by_the_frame_alone_is_followed(void)
{
    begin();
    tell(FRAME_ALONE, 0, 0, 0.0);
    tell(FRAME_ALONE, 36 * BEAT, 0, 0.0);
    check_stands_at(9, 0.0);
    tell(FRAME_ALONE, 9 * BEAT, 0, 0.0);
    check_stands_at(2, 1.0);
}

/* Where tempo or meter changed on the way the frame's place is a guess, and bar and beat
   that come after it are right. */
static void bar_and_beat_told_after_the_frame_are_where_it_stands(void)
{
    begin();
    tell(FRAME_ALONE, 36 * BEAT, 0, 0.0);
    tell(WHOLE, 36 * BEAT, 7, 1.0);
    check_stands_at(7, 1.0);
}

/* Rounded places are no locates: bar_beat as some hosts cut it, to 1/384. */
static void the_same_place_told_again_less_exactly_moves_nothing(void)
{
    begin();
    tell(WHOLE, 38 * BEAT, 9, 2.0);
    tell(WHOLE, 38 * BEAT, 9, 2.0 - 1.0 / 384.0);
    check_stands_at(9, 2.0);
}

/* What has been played is played again after a locate back, also where the host's frame
   says nothing of it. */
static void a_start_after_a_locate_back_plays_the_place_again(void)
{
    begin();
    look_report(&look, 1.0);
    look.played.count = 0;
    look_play(&look, 2 * BEAT);
    const int first = look.played.count;
    CHECK(first > 0);
    tell(WHOLE, 2 * BEAT, 0, 2.0);
    tell(WHOLE, 2 * BEAT, 0, 0.0);
    check_stands_at(0, 0.0);
    look_report(&look, 1.0);
    look.played.count = 0;
    look_play(&look, 2 * BEAT);
    CHECK_INT(look.played.count, first);
}

int main(void)
{
    bank = factory_open();
    RUN(a_locate_told_at_once_is_followed);
    RUN(a_locate_told_in_two_parts_is_followed);
    RUN(a_locate_told_by_the_frame_alone_is_followed);
    RUN(bar_and_beat_told_after_the_frame_are_where_it_stands);
    RUN(the_same_place_told_again_less_exactly_moves_nothing);
    RUN(a_start_after_a_locate_back_plays_the_place_again);
    bank_free(bank);
    return tests_end();
}

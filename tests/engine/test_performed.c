// SPDX-License-Identifier: ISC
/* What is kept around the place that is drawn is what liberty_strokes says there, and nothing
   is kept of what has changed. */
#include "../../plugin/engine/play/lookahead.h"
#include "../desk/chance.h"
#include "../help/check.h"
#include "../writing/liberty_rig.h"
#include "library.h"

enum { Q = TICKS_PER_QUARTER };

static Performed performed;
static Bank* bank;

/* What a groove of the factory's is told with. */
typedef struct {
    Selection selection;
    PerformedKey key;
} Told;

static Told told_of(const uint32_t id, const uint32_t revision)
{
    const Groove* const groove = library_groove(bank_library(bank), id);
    const LibertyCase what = {groove, 7, 1.0, 101.0};
    return (Told){liberty_selection(&what),
                  {.revision = revision, .meter = groove->meter, .tempo = 101.0}};
}

/* True if what is kept of a span is what is performed there. */
static bool is_right(const Told* const told, const int64_t begin, const int64_t end)
{
    static StrokeList written, want, got;
    const PerformedKey key = told->key;
    const LibertyPlace place = {&told->selection, key.meter, key.tempo, key.in_song};
    performed_look(&performed, key, &told->selection, told->selection.swing, begin, end);
    liberty_strokes(&place, begin - Q, end + Q, &written, &want);
    got.count = 0;
    uint32_t i = stroke_list_first(&performed.strokes, begin - Q);
    for (; i < performed.strokes.count && performed.strokes.strokes[i].tick < end + Q; ++i) {
        stroke_list_add(&got, performed.strokes.strokes[i]);
    }
    return stroke_lists_alike(&want, &got, 0);
}

static void any_walk_finds_what_is_performed(void)
{
    Chance state = {20261129};
    const Library* const library = bank_library(bank);
    for (int walk = 0; walk < 60; ++walk) {
        const uint32_t id = library->grooves[chance(&state, library->groove_count)].id;
        const Told told = told_of(id, (uint32_t)walk + 1);
        int64_t at = 0;
        for (int step = 0; step < 200; ++step) {
            const int64_t length = 1 + (int64_t)chance(&state, Q / 8);
            check_case("groove %u, step %d at %g", id, step, (double)at / Q);
            CHECK(is_right(&told, at, at + length));
            at += chance(&state, 20) ? length : (int64_t)chance(&state, 8 * Q) - 4 * Q;
            at = at < 0 ? 0 : at;
        }
    }
}

/* One thing after the other is told otherwise at the same place. */
static void what_changed_is_worked_out_anew(void)
{
    const Told first = told_of(170, 1), other = told_of(24, 2);
    CHECK(is_right(&first, 3 * Q, 4 * Q));
    CHECK(is_right(&other, 3 * Q, 4 * Q));
    Told told = first;
    check_case("back to the first revision");
    CHECK(is_right(&told, 3 * Q, 4 * Q));
    told.selection = other.selection;
    told.key.bar = 3;
    check_case("another line's selection");
    CHECK(is_right(&told, 3 * Q, 4 * Q));
    told.selection = first.selection;
    told.key.tick = Q;
    check_case("another line within the bar");
    CHECK(is_right(&told, 3 * Q, 4 * Q));
    for (int bar = 1; bar < 30; ++bar) {
        told.key.in_song = bar * 4 * Q;
        check_case("%d bars later in the song", bar);
        CHECK(is_right(&told, 3 * Q, 4 * Q));
    }
    told.key.meter = (Meter){7.0, 8};
    check_case("another meter");
    CHECK(is_right(&told, 3 * Q, 4 * Q));
    for (double tempo = 60.0; tempo < 300.0; tempo += 7.0) {
        told.key.tempo = tempo;
        check_case("at %g", tempo);
        CHECK(is_right(&told, 3 * Q, 7 * Q));
    }
}

#define REST "................................................................"

/* Sixteen lines of sixteen a quarter: nobody plays that, and yet nothing of it is lost. */
static void of_more_than_there_is_room_for_all_are_drawn(void)
{
    static OwnFigure crowd;
    static Lookahead lookahead;
    const Meter meter = {4.0, 4};
    for (int line = 0; line < 16; ++line) {
        add_line(&crowd, (uint8_t)(line / 4), (Voice)(line % 4 + 2), 16, 1,
                 "oooooooooooooooooooooooooooooooo" REST REST REST);
    }
    const Groove groove = one_letter(&crowd.figure, NULL, meter, 4); /* bars, so that it rolls on */
    const Selection selection = selection_of_groove(&groove);
    const Score score = {
        .selection = &selection, .feel = &selection.feel, .meter = meter, .tempo = 120.0};
    const PerformedKey key = {.revision = 1, .meter = meter, .tempo = 120.0};
    static const bool everybody[LIMB_COUNT] = {true, true, true, true};
    uint32_t count = 0;
    lookahead_start(&lookahead);
    for (int64_t at = 0; at < 2 * Q; at += Q / 16) {
        lookahead_draw(&lookahead, &score, key, at + Q / 16);
        lookahead_take(&lookahead, at + Q / 16, (LimbsHeard){INT64_MIN, everybody, everybody});
        count += lookahead.due.count;
    }
    CHECK_INT(count, crowd.figure.stroke_count);
    CHECK(lookahead.performed.strokes.dropped > 0);
    check_case("where there is room again");
    for (int64_t at = 2 * Q; at < 6 * Q; at += Q / 16) {
        lookahead_draw(&lookahead, &score, key, at + Q / 16);
    }
    CHECK_INT(lookahead.performed.strokes.dropped, 0);
    CHECK_INT(lookahead.dropped, 0);
}

int main(void)
{
    bank = factory_open();
    RUN(any_walk_finds_what_is_performed);
    RUN(what_changed_is_worked_out_anew);
    RUN(of_more_than_there_is_room_for_all_are_drawn);
    bank_free(bank);
    return tests_end();
}

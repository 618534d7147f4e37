// SPDX-License-Identifier: ISC
/* The timekeeping hand on another cymbal.  What a drummer would do is common practice, no
   source; the strokes expected were written by hand, before the program was asked. */
#include "../help/check.h"
#include "library.h"

enum { LINES = 5, Q = TICKS_PER_QUARTER };

static const Meter four_four = {4.0, 4};

typedef struct {
    Limb limb;
    Voice voice;
    int grid;
    const char* steps;
} Line;

#define HAND(limb, voice, grid, steps)                                                             \
    {                                                                                              \
        limb##_HAND, VOICE_##voice, grid, steps                                                    \
    }
#define SNARE HAND(LEFT, SNARE, 1, ".O.O")

/* What is written, where the hands go, and what they play there. */
static const struct {
    const char* what;
    Line written[LINES];
    RideOn to;
    Line played[LINES];
} cases[] = {
    {"eighths on the ride",
     {HAND(RIGHT, HAT_CLOSED, 2, "OoOoOoOo"), SNARE},
     RIDE_ON_RIDE,
     {HAND(RIGHT, RIDE, 2, "OoOoOoOo"), SNARE}},
    {"from the ride to the hat",
     {HAND(RIGHT, RIDE, 2, "OoOoOoOo"), SNARE},
     RIDE_ON_HALF_OPEN,
     {HAND(RIGHT, HAT_HALF_OPEN, 2, "OoOoOoOo"), SNARE}},
    {"sixteenths with two hands move with both, backbeats stay",
     {HAND(RIGHT, HAT_CLOSED, 4, "O.o. ..o. O.o. ..o."), HAND(RIGHT, SNARE, 1, ".O.O"),
      HAND(LEFT, HAT_CLOSED, 4, ".o.o .o.o .o.o .o.o")},
     RIDE_ON_FLOOR_TOM,
     {HAND(RIGHT, TOM_FLOOR, 4, "O.o. ..o. O.o. ..o."), HAND(RIGHT, SNARE, 1, ".O.O"),
      HAND(LEFT, TOM_FLOOR, 4, ".o.o .o.o .o.o .o.o")}},
    {"a bark is an accent where nothing opens",
     {HAND(RIGHT, HAT_CLOSED, 2, "OoOoOoO."), HAND(RIGHT, HAT_OPEN, 2, ".......o"), SNARE},
     RIDE_ON_RIDE,
     {HAND(RIGHT, RIDE, 2, "OoOoOoOO"), SNARE}},
    {"a bark among half-open hats stays a bark",
     {HAND(RIGHT, HAT_CLOSED, 2, "OoOoOoO."), HAND(RIGHT, HAT_OPEN, 2, ".......O"), SNARE},
     RIDE_ON_HALF_OPEN,
     {HAND(RIGHT, HAT_HALF_OPEN, 2, "OoOoOoO."), HAND(RIGHT, HAT_OPEN, 2, ".......O"), SNARE}},
    {"barks on closed hats are closed hats with barks already",
     {HAND(RIGHT, HAT_CLOSED, 2, "OoOoOoO."), HAND(RIGHT, HAT_OPEN, 2, ".......O"), SNARE},
     RIDE_ON_CLOSED,
     {HAND(RIGHT, HAT_CLOSED, 2, "OoOoOoO."), HAND(RIGHT, HAT_OPEN, 2, ".......O"), SNARE}},
    {"closed and open in turn: the hat is one",
     {HAND(RIGHT, HAT_CLOSED, 2, "o.o.o.o."), HAND(RIGHT, HAT_OPEN, 2, ".o.o.o.o"), SNARE},
     RIDE_ON_CRASH,
     {HAND(RIGHT, CRASH, 2, "oOoOoOoO"), SNARE}},
    {"two cymbals in turn: the second stays",
     {HAND(RIGHT, RIDE, 2, "o.o.o.o."), HAND(RIGHT, RIDE_BELL, 2, ".O.O.O.O"), SNARE},
     RIDE_ON_CLOSED,
     {HAND(RIGHT, HAT_CLOSED, 2, "o.o.o.o."), HAND(RIGHT, RIDE_BELL, 2, ".O.O.O.O"), SNARE}},
    {"a crash on one stays",
     {HAND(RIGHT, CRASH, 2, "O......."), HAND(RIGHT, RIDE, 2, ".ooooooo"), SNARE},
     RIDE_ON_CHINA,
     {HAND(RIGHT, CRASH, 2, "O......."), HAND(RIGHT, CHINA, 2, ".ooooooo"), SNARE}},
    {"a crash is ridden without ghosts",
     {HAND(RIGHT, HAT_CLOSED, 4, "Ooog Ooog Ooog Ooog"), SNARE},
     RIDE_ON_CRASH,
     {HAND(RIGHT, CRASH, 4, "Oooo Oooo Oooo Oooo"), SNARE}},
    {"a ride has ghosts, and so has the snare",
     {HAND(RIGHT, HAT_CLOSED, 4, "O.og O.og O.og O.og"),
      HAND(LEFT, SNARE, 4, ".g.. O..g .g.. O...")},
     RIDE_ON_RIDE,
     {HAND(RIGHT, RIDE, 4, "O.og O.og O.og O.og"), HAND(LEFT, SNARE, 4, ".g.. O..g .g.. O...")}},
    {"a floor tom that keeps the time",
     {HAND(RIGHT, TOM_FLOOR, 4, "O.o. o.o. O.o. o.o."),
      HAND(LEFT, TOM_HIGH, 4, "...O ..O. ...O ..O.")},
     RIDE_ON_CLOSED,
     {HAND(RIGHT, HAT_CLOSED, 4, "O.o. o.o. O.o. o.o."),
      HAND(LEFT, TOM_HIGH, 4, "...O ..O. ...O ..O.")}},
    {"a floor tom in a melody of toms keeps none",
     {HAND(RIGHT, TOM_HIGH, 2, "oo......"), HAND(RIGHT, TOM_LOW, 2, "..oo...."),
      HAND(RIGHT, TOM_FLOOR, 2, "......oo"), SNARE},
     RIDE_ON_CLOSED,
     {HAND(RIGHT, TOM_HIGH, 2, "oo......"), HAND(RIGHT, TOM_LOW, 2, "..oo...."),
      HAND(RIGHT, TOM_FLOOR, 2, "......oo"), SNARE}},
    {"a train beat on the snare with a crash on one stays",
     {HAND(RIGHT, CRASH, 4, "O..............."), HAND(RIGHT, SNARE, 4, "..O. g.O. g.O. g.O."),
      HAND(LEFT, SNARE, 4, ".g.g .g.g .g.g .g.g")},
     RIDE_ON_RIDE,
     {HAND(RIGHT, CRASH, 4, "O..............."), HAND(RIGHT, SNARE, 4, "..O. g.O. g.O. g.O."),
      HAND(LEFT, SNARE, 4, ".g.g .g.g .g.g .g.g")}},
    {"the left hand may keep the time",
     {HAND(LEFT, HAT_CLOSED, 2, "oooooooo"), HAND(RIGHT, SNARE, 1, ".O.O"),
      HAND(RIGHT, CHINA, 1, "O...")},
     RIDE_ON_BELL,
     {HAND(LEFT, RIDE_BELL, 2, "oooooooo"), HAND(RIGHT, SNARE, 1, ".O.O"),
      HAND(RIGHT, CHINA, 1, "O...")}},
    {"a cowbell keeps the time too",
     {HAND(RIGHT, COWBELL, 1, "OOOO"), SNARE},
     RIDE_ON_OPEN,
     {HAND(RIGHT, HAT_OPEN, 1, "OOOO"), SNARE}},
};
enum { CASES = sizeof cases / sizeof *cases };

static OwnFigure figure_of(const Line lines[LINES])
{
    OwnFigure own = {.figure = {.id = 1, .bars = 1}};
    for (int i = 0; i < LINES && lines[i].steps; ++i) {
        add_line(&own, lines[i].limb, lines[i].voice, lines[i].grid, 1, lines[i].steps);
    }
    return own;
}

static StrokeList strokes_of(const OwnFigure* const own)
{
    StrokeList list = {.count = own->figure.stroke_count};
    memcpy(list.strokes, own->strokes, list.count * sizeof *list.strokes);
    return list;
}

static StrokeList ridden(const OwnFigure* const own, const RideOn to)
{
    Figure figure = own->figure;
    figure.strokes = own->strokes;
    StrokeList list = strokes_of(own);
    ride_on_strokes(ride_on_move(&figure, to), &list, 0);
    strokes_sort(list.strokes, list.count);
    return list;
}

static void check_same(const StrokeList* const got, const StrokeList* const want)
{
    CHECK_INT(got->count, want->count);
    for (uint32_t i = 0; i < want->count && i < got->count; ++i) {
        const Stroke a = got->strokes[i], b = want->strokes[i];
        CHECK_INT(a.tick, b.tick);
        CHECK_INT(a.limb, b.limb);
        CHECK_INT(a.voice, b.voice);
        CHECK_INT(a.level, b.level);
    }
}

static void the_timekeeping_hand_moves_as_a_drummer_would_move_it(void)
{
    for (int i = 0; i < CASES; ++i) {
        const OwnFigure written = figure_of(cases[i].written);
        const OwnFigure played = figure_of(cases[i].played);
        const StrokeList got = ridden(&written, cases[i].to);
        const StrokeList want = strokes_of(&played);
        check_case("%s", cases[i].what);
        check_same(&got, &want);
    }
}

static void as_written_is_as_written(void)
{
    for (int i = 0; i < CASES; ++i) {
        const OwnFigure written = figure_of(cases[i].written);
        const StrokeList got = ridden(&written, RIDE_ON_AS_WRITTEN);
        const StrokeList want = strokes_of(&written);
        check_case("%s", cases[i].what);
        check_same(&got, &want);
    }
}

/* ---- In a groove */

/* Voices of a limb in bar 0, a sign for each eighth. */
static const char* voices_text(const Selection* const selection, const Limb limb)
{
    static const char signs[VOICE_COUNT] = {
        [VOICE_HAT_CLOSED] = 'c', [VOICE_HAT_HALF_OPEN] = 'h', [VOICE_HAT_OPEN] = 'o',
        [VOICE_HAT_PEDAL] = 'p',  [VOICE_RIDE] = 'r',          [VOICE_SNARE] = 's',
        [VOICE_CRASH] = 'x',      [VOICE_CHINA] = 'n'};
    static char text[9];
    static StrokeList list;
    memcpy(text, "........", sizeof text);
    groove_strokes(selection, four_four, 0, meter_bar_ticks(four_four), &list);
    for (uint32_t i = 0; i < list.count; ++i) {
        const Stroke stroke = list.strokes[i];
        if (stroke.limb == limb) {
            text[stroke.tick / (Q / 2) % 8] = signs[stroke.voice];
        }
    }
    return text;
}

typedef struct {
    OwnFigure hands, feet, fill;
    Groove groove;
    Selection selection;
} Made;

/* Closed hats in eighths over a foot that closes the hat on two and four. */
static void make(Made* const made)
{
    made->hands = (OwnFigure){.figure = {.id = 1, .bars = 1}};
    made->feet = (OwnFigure){.figure = {.id = 1, .bars = 1}};
    made->fill = (OwnFigure){.figure = {.id = 1, .bars = 1}};
    add_line(&made->hands, RIGHT_HAND, VOICE_HAT_CLOSED, 2, 1, "OoOoOoOo");
    add_line(&made->hands, LEFT_HAND, VOICE_SNARE, 1, 1, ".O.O");
    add_line(&made->feet, LEFT_FOOT, VOICE_HAT_PEDAL, 1, 1, ".o.o");
    made->fill.figure.kind = FIGURE_TURNAROUND;
    add_line(&made->fill, RIGHT_HAND, VOICE_HAT_CLOSED, 2, 1, "OoOoOoOo");
    made->groove = one_letter(&made->hands.figure, &made->feet.figure, four_four, 1);
    made->selection = selection_of_groove(&made->groove);
}

static void a_hat_that_the_foot_closes_is_not_heard_open(void)
{
    static Made made;
    make(&made);
    made.selection.ride_on = RIDE_ON_OPEN;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "oocoooco");
    made.selection.ride_on = RIDE_ON_HALF_OPEN;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "hhchhhch");
    check_case("a silenced limb moves no other");
    made.selection.limbs[LEFT_FOOT] = false;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "hhchhhch");
    CHECK_TEXT(voices_text(&made.selection, LEFT_FOOT), "........");
    check_case("another cymbal rings whatever the foot does");
    made.selection.ride_on = RIDE_ON_RIDE;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "rrrrrrrr");
}

static void the_control_stands_over_the_part_and_picked_hands_over_its_cymbal(void)
{
    static Made made;
    make(&made);
    made.groove.parts[0].ride_on = RIDE_ON_CRASH;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "xxxxxxxx");
    made.selection.ride_on = RIDE_ON_CHINA;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "nnnnnnnn");
    made.selection.ride_on = RIDE_ON_AS_WRITTEN;
    made.selection.hands = &made.hands.figure;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "cccccccc");
}

static void a_fill_stays_where_it_is_written(void)
{
    static Made made;
    make(&made);
    made.selection.turnaround = &made.fill.figure;
    made.selection.ride_on = RIDE_ON_OPEN;
    made.selection.fill_beats = 2;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "oococccc");
    check_case("an open hat of its own, too");
    for (uint32_t i = 0; i < made.fill.figure.stroke_count; ++i) {
        made.fill.strokes[i].voice = VOICE_HAT_OPEN;
    }
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "oocooooo");
    made.selection.turnaround = NULL;
    CHECK_TEXT(voices_text(&made.selection, RIGHT_HAND), "oocoooco");
}

static void any_spans_hold_the_same_strokes(void)
{
    static Made made;
    static StrokeList whole, part;
    make(&made);
    made.selection.ride_on = RIDE_ON_OPEN;
    made.selection.swing.ratio = 2.0;
    const int64_t end = 4 * meter_bar_ticks(four_four);
    groove_strokes(&made.selection, four_four, 0, end, &whole);
    for (int64_t span = Q / 7; span < 3 * Q; span += Q / 3 + 1) {
        uint32_t at = 0;
        for (int64_t tick = 0; tick < end; tick += span) {
            groove_strokes(&made.selection, four_four, tick, tick + span < end ? tick + span : end,
                           &part);
            for (uint32_t i = 0; i < part.count && at < whole.count; ++i, ++at) {
                CHECK_INT(part.strokes[i].tick, whole.strokes[at].tick);
                CHECK_INT(part.strokes[i].voice, whole.strokes[at].voice);
            }
        }
        CHECK_INT(at, whole.count);
    }
}

int main(void)
{
    RUN(the_timekeeping_hand_moves_as_a_drummer_would_move_it);
    RUN(as_written_is_as_written);
    RUN(a_hat_that_the_foot_closes_is_not_heard_open);
    RUN(the_control_stands_over_the_part_and_picked_hands_over_its_cymbal);
    RUN(a_fill_stays_where_it_is_written);
    RUN(any_spans_hold_the_same_strokes);
    return tests_end();
}

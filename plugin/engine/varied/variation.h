// SPDX-License-Identifier: ISC
/* variation.h - what else could the feet do: a feet figure derived from another by a named
   operation.  Pure and deterministic: figure, hands, meter and operation say it, no tempo and no
   chance.  All in the caller's memory; bounded work.

   An operation acts on a figure as it is written, before grid, cycle and shift.  A figure in
   bars is first laid into the bars of the meter, as it is played there.  One that rolls is laid
   out as far as the operation needs, over whole bars where it goes by the bar line, and rolls
   on: its phase stays what it was.  A step is that of the grid it is written on if it is an
   eighth, a sixteenth or between; else the longest that all kicks stand on, an eighth at most
   and, where two grids meet, a sixteenth, triplet or sextuplet.  Kicks are varied; a foot that closes the hat goes on with
   that and leaves all kicks to the other.  How feet are given: vary_foot.h. */
#pragma once

#include "vary.h"
#include "vary_fill.h"
#include "vary_meet.h"
#include "vary_move.h"
#include "vary_over.h"
#include "vary_stick.h"
#include "vary_thin.h"

/* Number, which is permanent and never used again; name in C; what makes it; what a drummer
   would say; and a sentence of help. */
#define VARIATION_ROWS(X)                                                                          \
    X(1, THINNED, vary_thin_steps, "thinned", "Every second step only.")                           \
    X(2, FILLED, vary_fill_gaps, "filled in", "Every hole is filled: an unbroken run.")            \
    X(3, EARLIER, vary_move_earlier, "a step earlier", "All kicks come a step earlier.")           \
    X(4, LATER, vary_move_later, "a step later", "All kicks come a step later.")                   \
    X(5, OTHER_FOOT, vary_stick_swap, "other foot leads", "The feet change places.")               \
    X(6, ONE_FOOT, vary_stick_one, "one foot alone", "The leading foot plays all of it.")          \
    X(7, DOUBLED, vary_fill_doubled, "doubled", "Behind each kick another, half a step later.")    \
    X(8, SECONDS, vary_thin_seconds, "every second", "Every second kick is left out.")             \
    X(9, THREES, vary_over_threes, "in threes over the bar",                                       \
      "The first three steps again and again, over the bar line.")                                 \
    X(10, FIVES, vary_over_fives, "in fives over the bar",                                         \
      "The first five steps again and again, over the bar line.")                                  \
    X(11, SEVENS, vary_over_sevens, "in sevens over the bar",                                      \
      "The first seven steps again and again, over the bar line.")                                 \
    X(12, TRIPLETS, vary_over_triplets, "as triplets",                                             \
      "Each kick goes to the nearest triplet of its beat.")                                        \
    X(13, GALLOPS, vary_over_gallops, "as gallops", "Right, right, left in each beat with kicks.") \
    X(14, REVERSE, vary_over_reverse, "as reverse gallops",                                        \
      "Right, left, right in each beat with kicks.")                                               \
    X(15, HERTAS, vary_fill_hertas, "hertas for runs",                                             \
      "Runs go in threes, the first of them doubled.")                                             \
    X(16, SNARE, vary_meet_snare, "out of the snare's way", "No kick where the snare plays.")      \
    X(17, ACCENTS, vary_meet_accents, "with the hands' accents",                                   \
      "An accented kick under each accent of the hands as well.")                                  \
    X(18, ACCENTS_ALONE, vary_thin_accents, "accents alone",                                       \
      "Only the accented kicks, or if none is, those on the beats.")                               \
    X(19, BURST, vary_over_burst, "a burst into the bar line",                                     \
      "Four sixteenths into the bar line, or thirty-seconds where these run already.")             \
    X(20, SEXTUPLETS, vary_over_sextuplets, "last beat in sextuplets",                             \
      "Six kicks in each bar's last beat.")                                                        \
    X(21, EVEN, vary_move_even, "evenly spread", "As many kicks, as even as the steps allow.")     \
    X(22, ROUND, vary_move_round, "turned round", "Backwards, from the same one.")                 \
    X(23, ANSWER, vary_move_answer, "half and answer",                                             \
      "Half a bar, then the same turned round, or by the other foot.")                             \
    X(24, BARS, vary_thin_bars, "a bar on, a bar off", "The feet rest in every second bar.")       \
    X(25, HALVES, vary_thin_halves, "half a bar on, half off",                                     \
      "The feet rest in each bar's second half.")                                                  \
    X(26, HALF_LATER, vary_move_half, "half a beat later", "What was on the beat is behind it.")   \
    X(27, BEAT_LATER, vary_move_beat, "a beat later", "All kicks come a beat later.")              \
    X(28, OFF_ONE, vary_thin_one, "off the one", "No kick on the first beat of a bar.")            \
    X(29, LINEAR, vary_meet_linear, "in the hands' holes", "No kick together with a hand.")        \
    X(30, CYMBAL, vary_meet_cymbal, "under the cymbal",                                            \
      "A kick with each stroke that keeps the time, and no other.")                                \
    X(31, SHOTS, vary_meet_shots, "the hands' accents alone",                                      \
      "A kick under each accent of the hands, and no other.")                                      \
    X(32, DOUBLES, vary_stick_doubles, "in doubles", "Right, right, left, left all along.")        \
    X(33, PARADIDDLES, vary_stick_paradiddles, "as paradiddles",                                   \
      "Right left right right, left right left left all along.")                                   \
    X(34, ACCENT_THREES, vary_stick_threes, "accents in threes", "Every third kick accented.")     \
    X(35, ACCENT_FIVES, vary_stick_fives, "accents in fives", "Every fifth kick accented.")        \
    X(36, PAIRS, vary_fill_pairs, "in pairs", "Behind each kick with room another, a step later.") \
    X(37, PICKUPS, vary_fill_pickups, "with pickups",                                              \
      "Before each kick with room another, a sixteenth earlier.")                                  \
    X(38, RIGHT, vary_thin_right, "the right foot's part", "What the right foot has of it.")       \
    X(39, LEFT, vary_thin_left, "the left foot's part", "What the left foot has of it.")           \
    X(40, HALF_TIME, vary_move_slow, "half as fast", "The same in twice the time.")                \
    X(41, DOUBLE_TIME, vary_move_fast, "twice as fast", "The same in half the time.")

#define VARIATION_NUMBER(number, NAME, make, words, help) VARIATION_##NAME = (number),
enum { VARIATION_NONE, VARIATION_ROWS(VARIATION_NUMBER) };
#undef VARIATION_NUMBER

#define VARIATION_ONE(...) +1
enum { VARIATION_COUNT = 1 VARIATION_ROWS(VARIATION_ONE) }; /* with 0, as chosen */
#undef VARIATION_ONE

/* What people call it; of none, and of a number that nobody has: "as chosen". */
const char* variation_words(uint32_t number);
const char* variation_help(uint32_t number);

/* Why it can't be made. */
const char* variation_reason(VaryReason reason);

/* Where one is made. */
typedef struct {
    Figure figure; /* its strokes are the line's in the end */
    Figure source; /* as it is laid in the meter */
    Meter meter;
    VaryStrokes laid;
    VaryLine source_line; /* its kicks */
    VaryReason source_reason;
    VaryLine line; /* while it is made */
    VaryHands hands;
} VariationRoom;

typedef struct {
    const Figure* figure; /* in the room, or NULL */
    VaryReason reason;    /* why there is none; of two, the first's before the second's */
} Variation;

/* `hands` may be NULL.  0: the feet themselves, as they are laid in the meter.  What comes out
   the same as the source is not made: VARY_AS_CHOSEN. */
Variation variation_make(const Figure* feet, const Figure* hands, Meter meter, uint32_t number,
                         VariationRoom* room);

/* The same in two steps, for who makes many of one source: the source stays laid. */
VaryReason variation_lay(const Figure* feet, const Figure* hands, Meter meter, VariationRoom* room);
Variation variation_of_laid(uint32_t number, VariationRoom* room);

/* One operation on the result of another; either may be 0. */
Variation variation_then(const Figure* feet, const Figure* hands, Meter meter, uint32_t first,
                         uint32_t second, VariationRoom rooms[2]);

/* True if limb, tick and level agree for every stroke, each repeated until they meet. */
bool variation_equal(const Figure* a, const Figure* b);

/* ---- What is offered */

/* A row of the list. */
typedef struct {
    VaryReason reason; /* VARY_NONE: it is offered */
    uint8_t same_as;   /* the row above where that is the reason */
    uint32_t strokes;  /* in its cycle, */
    int64_t cycle;     /*   ticks */
    uint64_t digest;   /* of its strokes: equal figures have the same, and no others of one bank */
} VariationRow;

/* Looks at one row, where all with lower numbers were looked at before; one by one, so that a
   block can have its share.  Row 0 is the source. */
void variation_offer(const Figure* feet, const Figure* hands, Meter meter, uint32_t number,
                     VariationRow rows[VARIATION_COUNT], VariationRoom* room);

/* Likewise the rows from one number to before another; how many of them are offered, the source
   not counted. */
uint32_t variation_offer_some(const Figure* feet, const Figure* hands, Meter meter, uint32_t from,
                              uint32_t to, VariationRow rows[VARIATION_COUNT], VariationRoom* room);

/* All of them. */
uint32_t variation_offers(const Figure* feet, const Figure* hands, Meter meter,
                          VariationRow rows[VARIATION_COUNT], VariationRoom* room);

/* ---- Grow */

/* Numbers of what is offered, the source among them, from the plainest to the fullest: by
   strokes in the same time, then number.  How many. */
uint32_t variation_order(const VariationRow rows[VARIATION_COUNT],
                         uint8_t numbers[VARIATION_COUNT]);

/* Which of `count` rows so ordered plays in a phrase: one further every so many phrases, and
   back, for ever.  `every`: phrases, at least 1. */
uint32_t variation_grow(uint32_t count, int64_t phrase, uint32_t every);

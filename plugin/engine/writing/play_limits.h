// SPDX-License-Identifier: ISC
/* play_limits.h - what a person can do, as numbers that may be changed: published ones
   where there are any, else ours, and marked so.  Plain values; pure. */
#pragma once

#include "../written/stroke.h"

/* Whose strokes are counted together: each limb, both hands, both feet.  The limbs
   come first, as in Limb. */
typedef enum { PLAY_HANDS = LIMB_COUNT, PLAY_FEET, PLAY_STREAMS } PlayStream;

enum { PLAY_SHARES = 3 };

/* Of the rate that is kept up for a minute, what is left after so many. */
typedef struct {
    double minutes; /* > 0, rising */
    double share;   /* 0 to 1 */
} PlayShare;

/* Where a voice stands, seen from above, in centimetres: to the right of the snare, and
   away from the player. */
typedef struct {
    double right;
    double away;
} PlayPlace;

typedef struct {
    /* Strokes a second that can be kept up for a minute.  Published, sources in
       play_limits.c: one hand 10, one foot 8.6, two hands 20.1, two feet 17.2. */
    double rate[PLAY_STREAMS];
    /* Published, for two feet alone, by one person: 1, 5 and 15 minutes.  That the
       same holds for one foot and for hands is ours; so is the line beyond 15. */
    PlayShare shares[PLAY_SHARES];
    /* A run is unbroken while its gaps are at most this long.  Ours: 250 ms in one limb,
       half of it in two: eighths, and sixteenths in two, from 120 quarters a minute up. */
    double run_gap_ms[PLAY_STREAMS];
    /* The closest two strokes of a limb.  Foot: published, the double strokes of 1407 in
       a minute taken as even.  Hand: ours, 40 ms, a bounce. */
    double closest_ms[LIMB_COUNT];
    /* Strokes in a row that are closer than so many times `rate` of the limb bounce.  Ours: a
       foot 1.35, which the line of `shares` from five minutes to one comes to when it is
       drawn on to a second; a hand 1, whose rate was measured over seconds as it is. */
    double burst_share[LIMB_COUNT];
    /* Most of them.  Ours: two of a foot (heel and toe), three of a hand (the triple stroke
       roll is a rudiment). */
    uint32_t burst[LIMB_COUNT];
    /* Time for a hand to go to another voice: move_ms on what it leaves and strikes, and
       the way at so many metres a second.  Ours: 20 ms and 10 m/s.  So a fill that ends on
       the floor tom reaches the left crash, two sixteenths later with the same hand, up
       to 200 quarters a minute (common practice, no source). */
    double move_ms;
    double grip_ms; /* to grip a cymbal, or to let go of it.  Ours: 100 ms */
    double move_speed;
    PlayPlace places[VOICE_COUNT]; /* ours: a right-handed kit of five, or six, drums */
} PlayLimits;

/* The limits above. */
PlayLimits play_limits_default(void);

/* What is left of a minute's rate after so many minutes: 1 up to the first of `shares`;
   straight on paper with two logarithmic axes between them, and on beyond the last. */
double play_limits_share(const PlayLimits* limits, double minutes);

/* Milliseconds that a hand needs from one voice to the other; 0 where it stays. */
double play_limits_move_ms(const PlayLimits* limits, uint8_t from, uint8_t to);

// SPDX-License-Identifier: ISC
/* feel.h - how a person would play a stroke: a little off the grid, and never
   twice alike.  Pure: the same take at the same place gives the same stroke, on every
   machine (noise.h).

   What lasts through a take are its habits: how early or late, and how loud, each limb is
   at each place of the bar.  What comes and goes is a drift that all limbs share and that
   is back at the click within two bars, chance of each stroke alone, and bars that are
   louder or softer.  Two takes have different habits, as two days have; the same bar later
   in a section has the same habits and another chance. */
#pragma once

#include "../written/stroke.h"

typedef struct {
    uint32_t take;        /* which performance, 1 to 9999 */
    double looseness_ms;  /* standard deviation against the click, 0 to 30; 0 is the grid */
    double push_hands_ms; /* ahead is negative */
    double push_snare_ms; /* the snare, whichever hand */
    double push_feet_ms;
    double touch;       /* 0 even to 1; 0.5 is as measured */
    double accent;      /* 0 to 1: how far the hands' accents are above normal strokes */
    double accent_feet; /* likewise the feet's */
    double ghost;       /* 0 to 1: how far ghost strokes are below them */
    int level;          /* velocity of a normal stroke, 1 to 127 */
    double liberty;     /* 0 as written to 1: how far a take departs from it (liberty.h) */
} Feel;

/* Fills lean forward: before their end, and on the line after. */
typedef enum { FILL_NOWHERE, FILL_LAST_BEAT, FILL_BEAT_AFTER } FillPlace;

/* Where a stroke stands among others, in ticks; what is further than a quarter
   note away counts as a quarter note away. */
typedef struct {
    int64_t near;        /* to the nearest other stroke of its limb or its voice */
    int64_t turn;        /* to the nearest stroke of its limb that another push moves */
    int64_t limb_before; /* since this limb's last stroke */
    int64_t limb_after;  /* until its next */
    int64_t in_bar;      /* since the bar line: what habits go by */
    int64_t in_take;     /* in the song: what chance goes by */
    bool with_time;      /* another limb keeps time here or an eighth note away */
    FillPlace fill;
    int64_t before; /* as near, on this side and on that */
    int64_t after;
} Surroundings;

/* True if the same push moves both: of the feet, of the snare, of the hands else. */
static inline bool feel_pushes_alike(const Stroke a, const Stroke b)
{
    const bool foot = a.limb >= RIGHT_FOOT;
    return foot == (b.limb >= RIGHT_FOOT) &&
           (foot || (a.voice == VOICE_SNARE) == (b.voice == VOICE_SNARE));
}

/* True of a hand's stroke on hats, cymbals or cowbell: it leads the others' time. */
static inline bool feel_keeps_time(const Stroke stroke)
{
    return stroke.limb < RIGHT_FOOT && stroke.voice > VOICE_SIDE_STICK &&
           !(stroke.voice >= VOICE_TOM_HIGH && stroke.voice <= VOICE_TOM_FLOOR);
}

/* How far off its place the stroke is played, in ticks; 0 at looseness 0 without
   push.  Chance and habit move it by less than a quarter of `near`.  Push moves all that it
   names alike, so it is exact, but where a hand goes between the snare and another
   voice: there the snare leaves what the hands have by a quarter of `turn` at most.
   So a limb's strokes keep their order.

   Over eight bars the strokes of all limbs stray by the looseness, as standard deviation,
   at 107 quarter notes a minute: the mean of many takes, one of them a quarter more or
   less.  Slower they stray more and faster less, as measured: 1.2 times as far up to 100,
   0.9 times from 110 on; and feet less where they run, under 120 ms from stroke to stroke. */
int64_t feel_offset(const Feel* feel, Stroke stroke, const Surroundings* around, double tempo);

/* How far ahead of its place anything is played at most, ticks: chance, push and
   the grace strokes before it. */
int64_t feel_reach(const Feel* feel, double tempo);

/* Its velocity, 1 to 127.  At any one place a ghost stroke is softer than a
   normal one, and that softer than an accent, at every setting. */
uint8_t feel_velocity(const Feel* feel, Stroke stroke, const Surroundings* around, double tempo);

// SPDX-License-Identifier: ISC
/* difficulty.h - how hard a groove or a figure is, from 1, a first lesson, to 5, years of
   work: from what playability finds against the limits of play_limits_default, and nothing
   else.  Pure.  Faster is never easier, nor is one stroke more of any limb.

   The formula and its numbers are ours; no source.  Looked at are whole phrases of at least
   32 quarter notes.  Of each limb, both hands and both feet: the mean of three shares of the
   rate that can be kept up for a minute, which are those of the busiest second, of the mean,
   and of the closest two (at most 2: doubles of a foot), of hands to the power of 1.5, since
   a hand at half its limit is an everyday thing and a foot is not; times 0.75 for single
   strokes, rising with the logarithm of the longest unbroken run to 1 at 64.  The load is the
   largest of these, and
   - 0.15 of the worst of a hand's moves: the time that it needs, as a share of what there
     is, at most 1.5;
   - 0.03 for each stroke a second by which any two limbs are independent: of the two, the
     fewer strokes, at most half of the moments at which either strikes.  So what two play
     together is half as hard as what they play in turn.
   A groove is 1 below a load of 0.42, 2 below 0.55, 3 below 0.75, 4 below 1, else 5.  A figure
   is a part of one: it is as hard at 0.7 of that load, the rest being still to play. */
#pragma once

#include "playability.h"

/* The load of a song that was looked through. */
double difficulty_load(const Playability* playability);

/* The load at quarter notes a minute; overwrites `room`, which is too large for a stack. */
double difficulty_groove_load(const Groove* groove, double tempo, Playability* room);
double difficulty_figure_load(const Figure* figure, double tempo, Playability* room);

/* 1 to 5, likewise. */
int difficulty_of_groove(const Groove* groove, double tempo, Playability* room);
int difficulty_of_figure(const Figure* figure, double tempo, Playability* room);

/* The tempo that a figure is graded at: the geometric middle of its range, and where none is
   said 120.  Grooves are at their own. */
double difficulty_tempo(int tempo_low, int tempo_high);

// SPDX-License-Identifier: ISC
/* locate.h - which tick a report means, where it has to be believed: at a start,
   at a jump, where tempo or meter change.  Used by position.c alone. */
#pragma once

#include "position.h"

/* A tick, or the nearest that whole ticks can be counted at. */
double locate_in_reach(double tick);

/* Ticks in a beat unit of the meter in effect. */
double locate_beat_ticks(const Position* position);

/* How far a reported place may be from the true one by rounding alone, ticks. */
double locate_tolerance(const Position* position);

/* Ticks in one of the host's frames at speed 1. */
double locate_frame_ticks(const Position* position);

/* True if the report has a bar and beat that can be a place. */
bool locate_is_told(const Position* position, const Report* report);

/* The tick that bar and beat name, as this host counts. */
double locate_reported(const Position* position, const Report* report);

/* True if a tick is the place told, but for rounding, in either reading while it isn't
   known how this host counts inside its beats. */
bool locate_agrees(const Position* position, const Report* report, double tick);

/* Of a place that a start or jump tells: what it hints at of the tempo's unit. */
void locate_hint(Position* position, const Report* report);

/* True if this host's places are known to a fraction of a frame. */
bool locate_is_exact(const Position* position);

/* The line that frames and ticks go along begins here, at the host's frame. */
void locate_anchor(Position* position, double tick);

/* The tick that the report means: exact by the line through the last change of
   tempo, or through frame 0, where that agrees with what is told. */
double locate_find(Position* position, const Report* report);

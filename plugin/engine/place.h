// SPDX-License-Identifier: ISC
/* place.h - which tick a report means, where it has to be believed: at a start,
   at a jump, where tempo or meter change.  Used by position.c alone. */
#pragma once

#include "position.h"

/* Ticks in a beat unit of the meter in effect. */
double place_beat_ticks(const Position* position);

/* How far a reported place may be from the true one by rounding alone, ticks. */
double place_tolerance(const Position* position);

/* Ticks in one of the host's frames at speed 1. */
double place_frame_ticks(const Position* position);

/* True if `tick` and a reported tick are the same but for rounding. */
bool place_agrees(const Position* position, double tick, double reported);

/* True if the report has a bar and beat that can be a place. */
bool place_is_told(const Position* position, const Report* report);

/* The tick that bar and beat name, as this host counts. */
double place_reported(const Position* position, const Report* report);

/* The line that frames and ticks go along begins here, at the host's frame. */
void place_draw_line(Position* position, double tick);

/* The tick that the report means: exact by the line through the last change of
   tempo, or through frame 0, where that agrees with what is told. */
double place_find(Position* position, const Report* report);

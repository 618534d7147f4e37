// SPDX-License-Identifier: ISC
/* play_entry.h - an entry of the bank by itself, looked through: one way for grades, lists
   and checks.  Pure. */
#pragma once

#include "playability.h"

/* A groove as it is written, whole phrases of it, at least so many quarter notes. */
void play_entry_groove(const Groove* groove, double tempo, double quarters,
                       const PlayLimits* limits, Playability* room);

/* A figure alone, laid end to end for at least so many quarter notes: in its own bars, or in
   bars as long as itself if it rolls. */
void play_entry_figure(const Figure* figure, double tempo, double quarters,
                       const PlayLimits* limits, Playability* room);

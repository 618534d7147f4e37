// SPDX-License-Identifier: ISC
/* song_settings.h - what a song asks of the controls, place by place.  Pure. */
#pragma once

#include "song_time.h"

/* The controls in effect at a tick of the song: what the section there says, over the `values`
   of the ports, one for each Control.  Its picks are whole: what it doesn't pick is as its
   groove is written, whatever the ports have.  The level is rounded, as the control is whole.
   Outside the song nothing is changed. */
void song_settings_controls(const SongMap* map, int64_t tick, float values[CONTROL_COUNT]);

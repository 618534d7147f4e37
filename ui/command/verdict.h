// SPDX-License-Identifier: ISC
/* verdict.h - whether a person can play something, in as few words as fit into a line. */
#pragma once

#include <stdint.h>

enum { VERDICT_ROOM = 128 };

/* Of a set of PLAY_TOO_FAST and so on, for so many minutes: "playable", or what is beyond a
   person: "too fast", "too fast for 4 minutes, strokes of a limb too close". */
void verdict_say(uint32_t faults, double minutes, char said[VERDICT_ROOM]);

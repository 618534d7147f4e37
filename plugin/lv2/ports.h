// SPDX-License-Identifier: ISC
/* ports.h - where the host's ports lie, and whether a control has moved.  A block in which
   none has costs one comparison.  Audio thread; allocates nothing. */
#pragma once

#include "../engine/groove/controls.h"

#include <lv2/atom/atom.h>
#include <stdbool.h>

typedef struct {
    const LV2_Atom_Sequence* control;
    LV2_Atom_Sequence* midi_out;
    LV2_Atom_Sequence* notify_out;
    const float* controls[CONTROL_COUNT]; /* of one that isn't connected, the default */
    float* readouts[READOUT_COUNT];       /* likewise, `nowhere` */
    bool are_moved;                       /* since the host's memory was looked at */
    bool has_controls_in_row;             /* in the host's memory, as most hosts have them */
    bool has_readouts_in_row;
    float values[CONTROL_COUNT]; /* as last taken over */
    float nowhere;
} Ports;

/* Nothing is connected. */
void ports_init(Ports* ports);

/* As if all controls had been at their defaults so far. */
void ports_start(Ports* ports);

/* `data` is where a port's value or buffer lies from now on; NULL: nowhere. */
void ports_connect(Ports* ports, uint32_t port, void* data);

/* True, with the new values taken over, if any differs from what was taken over last by a
   single bit: not a number equals itself, and 0 isn't -0. */
bool ports_take(Ports* ports);

/* After ports_take in the same block. */
void ports_tell(const Ports* ports, const float values[READOUT_COUNT]);

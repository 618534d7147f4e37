// SPDX-License-Identifier: ISC
/* output.h - MIDI into `midi_out`.  Only whole events are written, and never
   more than the host gave room for.  Audio thread; allocates nothing. */
#pragma once

#include "../engine/midi.h"
#include "../talk/uris.h"

#include <lv2/atom/atom.h>

typedef struct {
    LV2_Atom_Sequence* sequence; /* NULL: the host connected nothing */
    uint32_t capacity;           /* bytes the sequence's body may have */
} MidiOutput;

/* Makes an empty sequence in a buffer whose size the host left in its head. */
MidiOutput midi_output(LV2_Atom_Sequence* sequence, const Uris* uris);

/* How many more messages fit. */
uint32_t midi_output_room(MidiOutput output);

/* Appends the list, which must fit. */
void midi_output_write(MidiOutput output, const MidiList* list, const Uris* uris);

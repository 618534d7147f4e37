// SPDX-License-Identifier: ISC
/* midi_output.h - MIDI into `midi_out`.  Only whole events are written, and never
   more than the host gave room for.  Audio thread; allocates nothing. */
#pragma once

#include "../engine/play/through.h"
#include "../talk/uris.h"

#include <lv2/atom/atom.h>

typedef struct {
    LV2_Atom_Sequence* sequence; /* NULL: the host connected nothing */
    uint32_t capacity;           /* bytes the sequence's body may have */
} MidiOutput;

/* Makes an empty sequence in a buffer whose size the host left in its head. */
MidiOutput midi_output(LV2_Atom_Sequence* sequence, const Uris* uris);

/* Bytes that a message of so many takes. */
uint32_t midi_output_bytes(uint32_t size);

/* How many more note messages fit. */
uint32_t midi_output_room(MidiOutput output);

/* Appends a message, which must fit. */
void midi_output_add(MidiOutput output, uint32_t frame, const uint8_t* bytes, uint32_t size,
                     const Uris* uris);

/* Appends our own notes, which must fit as `through` counts them. */
void midi_output_write(MidiOutput output, const MidiList* list, Through* through, const Uris* uris);

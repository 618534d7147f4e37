// SPDX-License-Identifier: ISC
/* pass.h - MIDI that came in, on to `midi_out` among our own notes.  Audio thread;
   allocates nothing. */
#pragma once

#include "midi_output.h"

#include <stdbool.h>

/* A message that came in, at a frame that is not before what was written.  What
   doesn't pass is forgotten, but for the ends of notes that did.  What finds no room
   beside the ends owed is left out. */
void pass_midi(Through* through, MidiOutput output, const LV2_Atom* message, uint32_t frame,
               bool passes, const Uris* uris);

/* True if ends of notes found no room in the blocks before. */
static inline bool pass_is_late(const Through* const through)
{
    return through->late.count > 0;
}

/* Those ends: first of all in a block. */
void pass_late(Through* through, MidiOutput output, const Uris* uris);

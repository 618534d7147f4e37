// SPDX-License-Identifier: ISC
#include "midi_output.h"

#include <lv2/atom/util.h>
#include <stddef.h>
#include <string.h>

MidiOutput midi_output(LV2_Atom_Sequence* const sequence, const Uris* const uris)
{
    if (!sequence) {
        return (MidiOutput){NULL, 0};
    }
    const uint32_t capacity = sequence->atom.size;
    if (capacity < sizeof(LV2_Atom_Sequence_Body)) {
        sequence->atom = (LV2_Atom){0, 0}; /* not even an empty sequence fits */
        return (MidiOutput){NULL, 0};
    }
    sequence->atom.type = uris->atom_Sequence;
    sequence->atom.size = sizeof(LV2_Atom_Sequence_Body);
    sequence->body.unit = 0;
    sequence->body.pad = 0;
    return (MidiOutput){sequence, capacity};
}

/* Atoms stand on multiples of eight. */
uint32_t midi_output_bytes(const uint32_t size)
{
    return (uint32_t)sizeof(LV2_Atom_Event) + lv2_atom_pad_size(size);
}

uint32_t midi_output_room(const MidiOutput output)
{
    return output.sequence
               ? (output.capacity - output.sequence->atom.size) / midi_output_bytes(MIDI_BYTES)
               : 0;
}

void midi_output_add(const MidiOutput output, const uint32_t frame, const uint8_t* const bytes,
                     const uint32_t size, const Uris* const uris)
{
    const uint32_t total = midi_output_bytes(size);
    if (!output.sequence || output.capacity - output.sequence->atom.size < total) {
        return;
    }
    LV2_Atom_Event* const event =
        lv2_atom_sequence_end(&output.sequence->body, output.sequence->atom.size);
    memset((char*)event + total - 8, 0, 8); /* what is beyond the last byte too */
    event->time.frames = frame;
    event->body = (LV2_Atom){size, uris->midi_MidiEvent};
    memcpy(event + 1, bytes, size);
    output.sequence->atom.size += total;
}

void midi_output_write(const MidiOutput output, const MidiList* const list, Through* const through,
                       const Uris* const uris)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        MidiMessage out[THROUGH_MOST];
        const uint32_t count = through_ours(through, list->messages[i], out);
        for (uint32_t k = 0; k < count; ++k) {
            midi_output_add(output, out[k].frame, out[k].bytes, MIDI_BYTES, uris);
        }
    }
}

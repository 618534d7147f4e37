// SPDX-License-Identifier: ISC
#include "output.h"

#include <lv2/atom/util.h>
#include <stddef.h>
#include <string.h>

typedef struct {
    LV2_Atom_Event event;
    uint8_t bytes[8]; /* three used; atoms stand on multiples of eight */
} MidiEvent;

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

uint32_t midi_output_room(const MidiOutput output)
{
    return output.sequence
               ? (output.capacity - output.sequence->atom.size) / (uint32_t)sizeof(MidiEvent)
               : 0;
}

void midi_output_write(const MidiOutput output, const MidiList* const list, const Uris* const uris)
{
    for (uint32_t i = 0; i < list->count; ++i) {
        MidiEvent midi = {.event = {.time = {.frames = list->messages[i].frame},
                                    .body = {MIDI_BYTES, uris->midi_MidiEvent}}};
        memcpy(midi.bytes, list->messages[i].bytes, MIDI_BYTES);
        lv2_atom_sequence_append_event(output.sequence, output.capacity, &midi.event);
    }
}

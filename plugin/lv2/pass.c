// SPDX-License-Identifier: ISC
#include "pass.h"

#include <string.h>

/* Rooms of note messages that a message of so many bytes takes. */
static uint32_t rooms_of(const uint32_t size)
{
    const uint32_t unit = midi_output_bytes(MIDI_BYTES);
    return (midi_output_bytes(size) + unit - 1) / unit;
}

static void pass_note(Through* const through, const MidiOutput output, const MidiMessage message,
                      const bool passes, const Uris* const uris)
{
    MidiMessage out[THROUGH_MOST];
    const uint32_t count = through_theirs(through, message, passes, midi_output_room(output), out);
    for (uint32_t i = 0; i < count; ++i) {
        midi_output_add(output, out[i].frame, out[i].bytes, MIDI_BYTES, uris);
    }
}

void pass_midi(Through* const through, const MidiOutput output, const LV2_Atom* const message,
               const uint32_t frame, const bool passes, const Uris* const uris)
{
    const uint8_t* const bytes = (const uint8_t*)(message + 1);
    MidiMessage note = {.frame = frame};
    switch (through_incoming(bytes, message->size)) {
    case INCOMING_BEGINS:
    case INCOMING_ENDS:
        memcpy(note.bytes, bytes, MIDI_BYTES);
        pass_note(through, output, note, passes, uris);
        break;
    case INCOMING_OTHER:
        if (passes && through_spares(through, midi_output_room(output), rooms_of(message->size))) {
            midi_output_add(output, frame, bytes, message->size, uris);
            through_forget(through, bytes, message->size);
        }
        break;
    case INCOMING_BROKEN:
        break;
    }
}

void pass_late(Through* const through, const MidiOutput output, const Uris* const uris)
{
    MidiMessage message;
    while (pass_is_late(through) && midi_output_room(output) &&
           through_late(through, 0, &message)) {
        midi_output_add(output, message.frame, message.bytes, MIDI_BYTES, uris);
    }
}

// SPDX-License-Identifier: ISC
#include "midi.h"

bool midi_list_add(MidiList* const list, const uint32_t frame, const uint8_t status,
                   const uint8_t note, const uint8_t velocity)
{
    if (list->count >= list->room || list->count >= MIDI_LIST_MAX) {
        return false;
    }
    list->messages[list->count++] = (MidiMessage){frame, {status, note, velocity}};
    return true;
}

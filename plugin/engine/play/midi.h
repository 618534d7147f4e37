// SPDX-License-Identifier: ISC
/* midi.h - note messages, and a bounded list of them in order of time. */
#pragma once

#include "../time/limits.h"

#include <stdbool.h>
#include <stdint.h>

/* MIDI 1.0 channel voice messages, upper four bits; 64 is the release velocity
   of the note-offs in the example files of Standard MIDI Files 1.0. */
enum { MIDI_NOTE_OFF = 0x80, MIDI_NOTE_ON = 0x90, MIDI_RELEASE = 64, MIDI_BYTES = 3 };

typedef struct {
    uint32_t frame; /* in the block, rising along the list */
    uint8_t bytes[MIDI_BYTES];
} MidiMessage;

typedef struct {
    uint32_t count;
    uint32_t room; /* messages that the receiver can take, at most MIDI_LIST_MAX */
    MidiMessage messages[MIDI_LIST_MAX];
} MidiList;

/* Appends a note message, or returns false if the list is full. */
bool midi_list_add(MidiList* list, uint32_t frame, uint8_t status, uint8_t note, uint8_t velocity);

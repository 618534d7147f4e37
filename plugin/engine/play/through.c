// SPDX-License-Identifier: ISC
#include "through.h"

#include <string.h>

/* ---- Sets of keys */

static uint8_t channel_of(const MidiMessage message)
{
    return message.bytes[0] & 0x0F;
}

static uint8_t key_of(const MidiMessage message)
{
    return message.bytes[1] & 0x7F;
}

static bool has(const Keys* const keys, const MidiMessage at)
{
    return keys->bits[channel_of(at)][key_of(at) / 64] >> key_of(at) % 64 & 1U;
}

static void put(Keys* const keys, const MidiMessage at, const bool is_in)
{
    if (has(keys, at) != is_in) {
        keys->bits[channel_of(at)][key_of(at) / 64] ^= UINT64_C(1) << key_of(at) % 64;
        keys->count += is_in ? 1U : UINT32_MAX;
    }
}

static void drop_channel(Keys* const keys, const uint8_t channel)
{
    for (uint8_t key = 0; keys->count && key < 128; ++key) {
        put(keys, (MidiMessage){0, {channel, key, 0}}, false);
    }
}

/* ---- What came in */

/* Bytes of a message by its status, MIDI 1.0, table I; 0: no message begins so. */
static uint32_t length_of(const uint8_t status)
{
    static const uint8_t of_channels[] = {3, 3, 3, 3, 2, 2, 3};
    static const uint8_t of_system[] = {0, 2, 3, 2, 0, 0, 1, 0, 1, 0, 1, 1, 1, 0, 1, 1};
    return status < 0x80   ? 0
           : status < 0xF0 ? of_channels[(status >> 4) - 8]
                           : of_system[status & 0x0F];
}

static bool is_data(const uint8_t* const bytes, const uint32_t count)
{
    uint32_t i = 0;
    while (i < count && bytes[i] < 0x80) {
        ++i;
    }
    return i == count;
}

static bool is_whole(const uint8_t* const bytes, const uint32_t size)
{
    enum { EXCLUSIVE = 0xF0, END = 0xF7 };
    if (size >= 2 && bytes[0] == EXCLUSIVE) {
        return bytes[size - 1] == END && is_data(bytes + 1, size - 2);
    }
    return size > 0 && size == length_of(bytes[0]) && is_data(bytes + 1, size - 1);
}

Incoming through_incoming(const uint8_t* const bytes, const uint32_t size)
{
    const bool is_note = size == MIDI_BYTES && bytes[0] >= MIDI_NOTE_OFF && bytes[0] < 0xA0;
    if (is_note && !((bytes[1] | bytes[2]) & 0x80)) { /* as nearly all that come */
        return bytes[0] >= MIDI_NOTE_ON && bytes[2] ? INCOMING_BEGINS : INCOMING_ENDS;
    }
    if (!is_whole(bytes, size)) {
        return INCOMING_BROKEN;
    }
    const uint8_t kind = bytes[0] & 0xF0;
    return kind == MIDI_NOTE_ON && bytes[2]                ? INCOMING_BEGINS
           : kind == MIDI_NOTE_ON || kind == MIDI_NOTE_OFF ? INCOMING_ENDS
                                                           : INCOMING_OTHER;
}

/* ---- Room */

bool through_spares(const Through* const through, const uint32_t room, const uint32_t needed)
{
    const uint32_t owed = through->theirs.count + through->ours.count;
    return room >= owed && room - owed >= needed;
}

/* ---- Notes */

/* midi:MidiEvent of the LV2 specification: no note of velocity 0 in place of an end. */
static MidiMessage end_of(MidiMessage message)
{
    if ((message.bytes[0] & 0xF0) == MIDI_NOTE_ON) {
        message.bytes[0] = (uint8_t)(MIDI_NOTE_OFF | channel_of(message));
        message.bytes[2] = MIDI_RELEASE;
    }
    return message;
}

/* The note before it on the key is ended first, whoever struck it. */
static uint32_t begin(const Through* const through, const MidiMessage message,
                      MidiMessage out[THROUGH_MOST])
{
    const bool sounds = has(&through->ours, message) || has(&through->theirs, message);
    out[0] = end_of(message);
    out[sounds] = message;
    return sounds ? 2 : 1;
}

uint32_t through_ours(Through* const through, const MidiMessage message,
                      MidiMessage out[THROUGH_MOST])
{
    uint32_t count = 0;
    if ((message.bytes[0] & 0xF0) == MIDI_NOTE_ON) {
        count = begin(through, message, out);
        put(&through->ours, message, true);
    } else {
        put(&through->ours, message, false);
        out[0] = message;
        count = !has(&through->theirs, message);
    }
    return count;
}

/* Two messages, and an end that is owed from then on. */
static uint32_t begin_theirs(Through* const through, const MidiMessage message, const bool passes,
                             const uint32_t room, MidiMessage out[THROUGH_MOST])
{
    if (!passes || !through_spares(through, room, THROUGH_MOST + 1)) {
        through->dropped += passes;
        const bool is_held = has(&through->theirs, message) && !has(&through->late, message);
        put(&through->kept, message, !is_held); /* else the end to come is that note's */
        return 0;
    }
    const uint32_t count = begin(through, message, out);
    put(&through->theirs, message, true);
    put(&through->kept, message, false);
    put(&through->late, message, false);
    return count;
}

/* The end of a note from before we listened is passed on: its receiver may still
   sound it. */
static uint32_t end_stray(Through* const through, const MidiMessage message, const bool passes,
                          const uint32_t room, MidiMessage out[THROUGH_MOST])
{
    const bool was_kept = has(&through->kept, message);
    put(&through->kept, message, false);
    out[0] = end_of(message);
    return passes && !was_kept && !has(&through->ours, message) && through_spares(through, room, 1);
}

static uint32_t end_theirs(Through* const through, const MidiMessage message, const uint32_t room,
                           MidiMessage out[THROUGH_MOST])
{
    const bool sounds_on = has(&through->ours, message);
    if (!sounds_on && !room) {
        put(&through->late, message, true);
        return 0;
    }
    put(&through->theirs, message, false);
    put(&through->kept, message, false);
    put(&through->late, message, false);
    out[0] = end_of(message);
    return !sounds_on;
}

uint32_t through_theirs(Through* const through, const MidiMessage message, const bool passes,
                        const uint32_t room, MidiMessage out[THROUGH_MOST])
{
    if (through_incoming(message.bytes, MIDI_BYTES) == INCOMING_BEGINS) {
        return begin_theirs(through, message, passes, room, out);
    }
    return has(&through->theirs, message) ? end_theirs(through, message, room, out)
                                          : end_stray(through, message, passes, room, out);
}

/* Of those that are ours by now nothing is to be said. */
bool through_late(Through* const through, const uint32_t frame, MidiMessage* const out)
{
    for (int at = 0; through->late.count && at < 16 * 128; ++at) {
        *out = (MidiMessage){
            frame, {(uint8_t)(MIDI_NOTE_OFF | at / 128), (uint8_t)(at % 128), MIDI_RELEASE}};
        if (has(&through->late, *out)) {
            put(&through->late, *out, false);
            put(&through->theirs, *out, false);
            if (!has(&through->ours, *out)) {
                return true;
            }
        }
    }
    return false;
}

/* All sound off, all notes off and the modes that imply it, MIDI 1.0, table III. */
void through_forget(Through* const through, const uint8_t* const bytes, const uint32_t size)
{
    enum { CONTROL_CHANGE = 0xB0, ALL_SOUND_OFF = 120, ALL_NOTES_OFF = 123, RESET = 0xFF };
    if (size == 1 && bytes[0] == RESET) {
        memset(&through->theirs, 0, sizeof through->theirs);
        memset(&through->late, 0, sizeof through->late);
    } else if (size == MIDI_BYTES && (bytes[0] & 0xF0) == CONTROL_CHANGE &&
               (bytes[1] == ALL_SOUND_OFF || bytes[1] >= ALL_NOTES_OFF)) {
        drop_channel(&through->theirs, bytes[0] & 0x0F);
        drop_channel(&through->late, bytes[0] & 0x0F);
    }
}

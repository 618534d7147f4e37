// SPDX-License-Identifier: ISC
/* through.h - a drummer's notes and our own on the same keys of one output.  On each
   key of each channel at most one note sounds: a stroke on a key that sounds ends the
   note before it, and the key is silent once neither of both holds it, so that nobody
   ends a note of the other's and every note is ended once.  Audio thread; bounded. */
#pragma once

#include "midi.h"

/* One bit for each key of each channel, and how many are set. */
typedef struct {
    uint64_t bits[16][2];
    uint32_t count;
} Keys;

typedef struct {
    Keys ours;        /* sound by our own strokes */
    Keys theirs;      /* sound by notes that came in, and are held */
    Keys kept;        /* came in and weren't passed on: neither is their end */
    Keys late;        /* of theirs: ended, but there was no room to say so */
    uint32_t dropped; /* notes that came in and found no room */
} Through;

enum { THROUGH_MOST = 2 }; /* messages that one message can become */

/* What a message of this many bytes is; OTHER is passed on as it is. */
typedef enum { INCOMING_BROKEN, INCOMING_BEGINS, INCOMING_ENDS, INCOMING_OTHER } Incoming;

/* By the lengths of MIDI 1.0; a note of velocity 0 ends, as it has it.  BROKEN is
   what is no one whole message. */
Incoming through_incoming(const uint8_t* bytes, uint32_t size);

/* One of our own notes' messages becomes none, one or two.  They fit where ours did
   as the scheduler counts: a stroke on a key of theirs takes the room that was kept for
   its end, which is then theirs to tell. */
uint32_t through_ours(Through* through, MidiMessage message, MidiMessage out[THROUGH_MOST]);

/* A note message that came in becomes none, one or two, where `room` messages still
   fit.  What isn't to be passed on is remembered: its end isn't either. */
uint32_t through_theirs(Through* through, MidiMessage message, bool passes, uint32_t room,
                        MidiMessage out[THROUGH_MOST]);

/* True if another message of `needed` messages' size leaves room for all ends owed. */
bool through_spares(const Through* through, uint32_t room, uint32_t needed);

/* The next end of theirs that is late; false if there is none.  The key is then
   silent unless it is ours: call it where `room` is at least 1, until it is false. */
bool through_late(Through* through, uint32_t frame, MidiMessage* out);

/* A message that came in and ends whole channels, such as MIDI 1.0's all notes off:
   nobody holds their keys for the other any more. */
void through_forget(Through* through, const uint8_t* bytes, uint32_t size);

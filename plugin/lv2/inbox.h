// SPDX-License-Identifier: ISC
/* inbox.h - a block's input in order of time: hosts merge what comes from several
   sources and may leave it as it came.  Audio thread; allocates nothing. */
#pragma once

#include "input.h"

enum {
    /* Events that 64 kB of input can hold: `control`'s rsz:minimumSize. */
    INBOX_MOST = 4096,

    /* So many are in hand at a time: few blocks have more than a handful, and whatever a
       host hands over is looked through 16 times at most. */
    INBOX_HAND = 256
};

typedef struct {
    int64_t frame;
    const LV2_Atom* body;
    uint32_t at; /* its place as written, which counts where frames are the same */
} InboxEvent;

typedef struct {
    InputReader begin; /* of the INBOX_MOST that are put in order */
    uint32_t size;
    uint32_t left;     /* of those, not in hand yet */
    InboxEvent newest; /* of those that were */
    uint32_t count;    /* in hand */
    uint32_t next;
    InboxEvent events[INBOX_HAND];
} Inbox;

/* True in most blocks. */
static inline bool inbox_is_empty(const Inbox* const inbox, const InputReader* const reader)
{
    return !inbox->left && !input_is_left(reader);
}

/* Takes events in hand: the earliest of the next INBOX_MOST at most; false if there are
   none.  Where there are more, they follow in their turn. */
bool inbox_fill(Inbox* inbox, InputReader* reader);

/* The next event in order of frames; false at the end of what is in hand. */
bool inbox_next(Inbox* inbox, InputEvent* event);

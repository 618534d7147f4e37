// SPDX-License-Identifier: ISC
/* inbox.h - a block's input in order of time: hosts merge what comes from several
   sources and may leave it as it came.  Audio thread; allocates nothing. */
#pragma once

#include "input.h"

/* Events that 64 kB of input can hold: `control`'s rsz:minimumSize. */
enum { INBOX_MOST = 4096 };

typedef struct {
    int64_t frame;
    const LV2_Atom* body;
    uint32_t at; /* its place as written, which counts where frames are the same */
} InboxEvent;

typedef struct {
    uint32_t count;
    uint32_t next;
    InboxEvent events[INBOX_MOST];
} Inbox;

/* Takes the next INBOX_MOST events at most; false if there are none.  Where there
   are more, they follow in their turn. */
bool inbox_fill(Inbox* inbox, InputReader* reader);

/* The next event in order of frames; false at the end of what was taken. */
bool inbox_next(Inbox* inbox, InputEvent* event);

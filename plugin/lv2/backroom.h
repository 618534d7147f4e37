// SPDX-License-Identifier: ISC
/* backroom.h - what an instance does away from the audio thread: reading drafts,
   saving figures, making what can be played next, freeing what can't any more.
   Functions say which thread may call them: "audio" never waits in them, "others"
   are the worker and whoever instantiates, saves and restores, at any time. */
#pragma once

#include "../bank/session.h"
#include "queue.h"

#include <lv2/worker/worker.h>
#include <pthread.h>
#include <stdatomic.h>

/* What a window can ask for, in the order of the FIGURE kinds first. */
typedef enum {
    ASK_HANDS_DRAFT,
    ASK_FEET_DRAFT,
    ASK_TURNAROUND_DRAFT,
    ASK_SAVE_FIGURE,
    ASK_SAVE_KIT,
    ASKS
} Ask;

/* What is told in answer. */
typedef enum { TELL_SAVED_FIGURE, TELL_SAVED_KIT, TELL_REFUSED } Tell;

enum { ASKS_MOST = 8, ASK_BYTES = 32768, TELLS_MOST = 16, TELL_BYTES = 1024 };

typedef struct {
    pthread_mutex_t lock; /* of the session, and of who publishes; held for moments, never
                             while a file is read or written or anybody is waited for */
    pthread_mutex_t work; /* of backroom_work alone */
    Session session;
    char* factory;
    char* users;                         /* NULL: none can be named */
    Queue* asks;                         /* audio to worker */
    Queue* tells;                        /* worker to audio */
    _Atomic(Stock*) arriving;            /* made by others, for the audio thread to take */
    _Atomic(Stock*) leaving;             /* left by the audio thread, for others to free */
    atomic_uint used[ENTRY_KINDS];       /* ids in the controls, as last run */
    atomic_bool look_again;              /* the files may have what is asked for */
    atomic_bool settled;                 /* the controls have moved since the last restore */
    const LV2_Worker_Schedule* schedule; /* NULL: the host has no worker */
    bool work_due;                       /* audio's: something lies here for the worker */
} Backroom;

/* Others.  Opens the bank of a bundle and the user's; false if there is no
   memory.  `arriving` has the first stock. */
bool backroom_init(Backroom* backroom, const char* bundle_path,
                   const LV2_Worker_Schedule* schedule);
void backroom_clear(Backroom* backroom);

/* Audio.  Asks for something by a text; false, with why in *why, if it can't be
   put before the worker. */
bool backroom_ask(Backroom* backroom, Ask ask, const char* text, uint32_t size, const char** why);

/* Audio.  What came in since the last call, or NULL. */
Stock* backroom_take(Backroom* backroom);

/* Audio.  Gives back what nothing here points to any more. */
void backroom_leave(Backroom* backroom, Stock* stock);

/* Audio.  Wakes the worker if there is anything for it. */
void backroom_wake(Backroom* backroom);

/* Audio.  Remembers which ids are in use.  Where one of the user's own is new and
   not in the library that plays, another instance may have saved it: the worker
   looks into the files again. */
void backroom_use(Backroom* backroom, const Used* used, const Library* library);

/* Worker.  Does all that was asked for. */
void backroom_work(Backroom* backroom);

/* Others.  The session's texts, to be cleared by the caller; and such texts put in.  False
   if there is no memory.  Neither waits for what the worker does: restoring reads the
   bank's files, saving reads none. */
bool backroom_save(Backroom* backroom, SessionTexts* texts);
bool backroom_restore(Backroom* backroom, const SessionTexts* texts);

// SPDX-License-Identifier: ISC
/* worker.h - what an instance does away from the audio thread: reading drafts,
   saving figures, making what can be played next, freeing what can't any more.
   Functions say which thread may call them: "audio" never waits in them, "others"
   are the worker and whoever instantiates, saves and restores, at any time. */
#pragma once

#include "../bank/bounds.h"
#include "../bank/session.h"
#include "../bank/user_bank.h"
#include "queue.h"

#include <lv2/worker/worker.h>
#include <pthread.h>
#include <stdatomic.h>

/* What a window can ask for: first a draft of each FigureKind, as a text like what is to be
   saved; what becomes of what is kept, as a KeptAsk. */
typedef enum {
    ASK_SAVE_FIGURE = FIGURE_KINDS,
    ASK_SAVE_KIT,
    ASK_SAVE_GROOVE,
    ASK_DELETE,
    ASK_KEEP,
    ASK_NAME_KEPT,
    ASK_DROP_KEPT,
    ASK_TAKE_BACK_KEPT,
    ASK_USE_KEPT,
    ASKS
} Ask;

/* The controls' values are those when it was asked for. */
typedef struct {
    uint32_t slot; /* 1 to KEPT_MAX; 0: the first that is empty */
    char name[KEPT_NAME_ROOM];
    float values[CONTROL_COUNT];
} KeptAsk;

/* What is told in answer. */
typedef enum {
    ANSWER_SAVED_FIGURE,
    ANSWER_SAVED_KIT,
    ANSWER_SAVED_GROOVE,
    ANSWER_DELETED,
    ANSWER_REFUSED
} Answer;

enum {
    ASK_BYTES = SINGLE_BYTES_MOST, /* of the longest text */
    ASKS_BYTES = ASK_BYTES + 4096, /* one of those and some as long as most are */
    ANSWER_BYTES = USER_BANK_WHY_ROOM,
    ANSWERS_BYTES = 4 * (ANSWER_BYTES + (int)sizeof(Parcel)),
};

typedef struct {
    pthread_mutex_t lock; /* of the session, and of who publishes; held for moments, never
                             while a file is read or written or anybody is waited for */
    pthread_mutex_t work; /* of worker_run alone */
    Session session;
    char* factory;
    char* users;                         /* NULL: none can be named */
    Queue* asks;                         /* audio to worker */
    Queue* answers;                      /* worker to audio */
    _Atomic(Snapshot*) arriving;         /* made by others, for the audio thread to take */
    _Atomic(Snapshot*) leaving;          /* left by the audio thread, for others to free */
    atomic_uint used[ENTRY_KINDS];       /* ids in the controls, as last run */
    atomic_bool look_again;              /* the files may have what is asked for */
    atomic_bool settled;                 /* the controls have moved since the last restore */
    const LV2_Worker_Schedule* schedule; /* NULL: the host has no worker */
    bool work_due;                       /* audio's: something lies here for the worker */
} Worker;

/* Others.  Opens the bank of a bundle and the user's; false if there is no
   memory.  `arriving` has the first snapshot. */
bool worker_init(Worker* worker, const char* bundle_path, const LV2_Worker_Schedule* schedule);
void worker_clear(Worker* worker);

/* Audio.  Asks for something by `size` bytes; false, with why in *why, if it can't be
   put before the worker. */
bool worker_ask(Worker* worker, Ask ask, const void* bytes, uint32_t size, const char** why);

/* Audio.  What came in since the last call, or NULL. */
Snapshot* worker_take(Worker* worker);

/* Audio.  Gives back what nothing here points to any more. */
void worker_leave(Worker* worker, Snapshot* snapshot);

/* Audio.  Wakes the worker if there is anything for it. */
void worker_wake(Worker* worker);

/* Audio.  Remembers which ids are in use.  Where one of the user's own is new and
   not in what plays, another instance may have saved it: the worker
   looks into the files again. */
void worker_use(Worker* worker, const Used* used, const Snapshot* snapshot);

/* Worker.  Does all that was asked for. */
void worker_run(Worker* worker);

/* Others.  The session's texts, to be cleared by the caller; and such texts put in.  False
   if there is no memory.  Neither waits for what the worker does: restoring reads the
   bank's files, saving reads none. */
bool worker_save(Worker* worker, SessionTexts* texts);
bool worker_restore(Worker* worker, const SessionTexts* texts);

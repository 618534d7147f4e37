// SPDX-License-Identifier: ISC
/* worker_session.h - the worker's session, changed while others go on.  Inside the worker's
   room; not for the audio thread. */
#pragma once

#include "worker.h"

/* What lay in the queue. */
typedef struct {
    uint32_t kind; /* Ask */
    uint32_t size;
    char* text;
} Asked;

/* Changes a copy of the session by reading or writing whatever it takes, and puts it in
   place with what it plays: under the lock nothing but that.  Where somebody else has
   changed the session meanwhile, again.  False if `change` or memory failed. */
typedef bool (*SessionChange)(Session* session, void* context);
bool worker_session_change(Worker* worker, SessionChange change, void* context);

/* A copy, to be cleared; false if there is no memory. */
bool worker_session_copy(Worker* worker, Session* copy);

/* Frees what the audio thread is done with. */
void worker_session_sweep(Worker* worker);

/* Tells why something isn't done. */
void worker_session_refuse(Worker* worker, const char* why);

// SPDX-License-Identifier: ISC
/* worker_files.h - what was asked for of the user's files: saving and deleting entries.  Inside
   the worker's room; not for the audio thread. */
#pragma once

#include "worker_session.h"

void worker_files_save(Worker* worker, const Asked* asked);
void worker_files_delete(Worker* worker, const Asked* asked);

/* A SessionChange: reads the files again; the entry of a Saved, if any, is the file's. */
bool worker_files_read(Session* session, void* saved);

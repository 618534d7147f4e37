// SPDX-License-Identifier: ISC
#include "worker_session.h"

#include "../bank/utf8.h"

#include <string.h>

void worker_session_sweep(Worker* const worker)
{
    snapshot_free(atomic_exchange(&worker->leaving, NULL));
}

bool worker_session_copy(Worker* const worker, Session* const copy)
{
    pthread_mutex_lock(&worker->lock);
    const bool good = session_copy(&worker->session, copy);
    pthread_mutex_unlock(&worker->lock);
    return good;
}

static bool put_session(Worker* const worker, Session* const copy, Snapshot* const snapshot)
{
    pthread_mutex_lock(&worker->lock);
    const bool taken = session_take(&worker->session, copy);
    Snapshot* const replaced = taken ? atomic_exchange(&worker->arriving, snapshot) : snapshot;
    pthread_mutex_unlock(&worker->lock);
    snapshot_free(replaced);
    return taken;
}

bool worker_session_change(Worker* const worker, const SessionChange change, void* const context)
{
    for (bool put = false; !put;) {
        Session copy;
        if (!worker_session_copy(worker, &copy)) {
            return false;
        }
        Snapshot* const snapshot = change(&copy, context) ? session_snapshot(&copy) : NULL;
        put = snapshot && put_session(worker, &copy, snapshot);
        session_clear(&copy);
        if (!snapshot) {
            return false;
        }
    }
    worker_session_sweep(worker);
    return true;
}

void worker_session_refuse(Worker* const worker, const char* const why)
{
    const size_t size = utf8_cut(why, strlen(why), ANSWER_BYTES);
    queue_put(worker->answers, ANSWER_REFUSED, 0, why, (uint32_t)size);
}

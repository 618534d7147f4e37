// SPDX-License-Identifier: ISC
#include "worker.h"

#include "worker_files.h"

#include "../bank/stamp.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool worker_init(Worker* const worker, const char* const bundle_path,
                 const LV2_Worker_Schedule* const schedule)
{
    char users[BANK_FOLDER_ROOM];
    const bool has_users = bank_users_folder(users);
    const size_t room = strlen(bundle_path) + sizeof "/bank";
    *worker = (Worker){.schedule = schedule, .factory = malloc(room)};
    atomic_init(&worker->arriving, NULL);
    atomic_init(&worker->leaving, NULL);
    atomic_init(&worker->settled, false);
    atomic_init(&worker->look_again, false);
    pthread_mutex_init(&worker->lock, NULL);
    pthread_mutex_init(&worker->work, NULL);
    worker->users = has_users ? strdup(users) : NULL;
    worker->asks = queue_new(ASKS_BYTES);
    worker->answers = queue_new(ANSWERS_BYTES);
    if (!worker->factory || !worker->asks || !worker->answers || (has_users && !worker->users)) {
        return false;
    }
    snprintf(worker->factory, room, "%s/bank", bundle_path);
    if (!session_init(&worker->session, (BankSources){worker->factory, worker->users, NULL})) {
        return false;
    }
    Snapshot* const first = session_snapshot(&worker->session);
    atomic_store(&worker->arriving, first);
    return first;
}

void worker_clear(Worker* const worker)
{
    snapshot_free(atomic_exchange(&worker->arriving, NULL));
    worker_session_sweep(worker);
    session_clear(&worker->session);
    queue_free(worker->asks);
    queue_free(worker->answers);
    free(worker->factory);
    free(worker->users);
    pthread_mutex_destroy(&worker->lock);
    pthread_mutex_destroy(&worker->work);
}

/* ---- The audio thread's side */

bool worker_ask(Worker* const worker, const Ask ask, const void* const bytes, const uint32_t size,
                const char** const why)
{
    if (!worker->schedule) {
        *why = "this host has no worker for plugins, so figures can't be drafted or saved "
               "here, nor selections kept; write figures into a bank file";
    } else if (size > ASK_BYTES) {
        *why = "the text is longer than 32768 bytes; a figure needs far less";
    } else if (!queue_put(worker->asks, ask, 0, bytes, size)) {
        *why = "too much was asked for at once; send the last again";
    } else {
        worker->work_due = true;
        return true;
    }
    return false;
}

Snapshot* worker_take(Worker* const worker)
{
    const bool is_any = atomic_load_explicit(&worker->arriving, memory_order_relaxed);
    return is_any ? atomic_exchange(&worker->arriving, NULL) : NULL;
}

void worker_leave(Worker* const worker, Snapshot* const snapshot)
{
    /* Others only ever empty `leaving`, so that nothing can come between. */
    snapshot_chain(snapshot, atomic_exchange(&worker->leaving, NULL));
    atomic_store(&worker->leaving, snapshot);
    worker->work_due = true;
}

void worker_wake(Worker* const worker)
{
    static const uint32_t knock = 0;
    if (worker->work_due && worker->schedule &&
        worker->schedule->schedule_work(worker->schedule->handle, sizeof knock, &knock) ==
            LV2_WORKER_SUCCESS) {
        worker->work_due = false; /* else it is tried again */
    }
}

void worker_use(Worker* const worker, const Used* const used, const Snapshot* const snapshot)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const uint32_t id = used->ids[kind];
        const uint32_t before =
            atomic_exchange_explicit(&worker->used[kind], id, memory_order_relaxed);
        if (id != before && id >= ID_FIRST_OWN && !snapshot_has(snapshot, (EntryKind)kind, id)) {
            atomic_store(&worker->look_again, true);
            worker->work_due = true;
        }
    }
    atomic_store(&worker->settled, true);
}

/* ---- The others' side */

typedef struct {
    const Asked* asked;
    char why[SINGLE_WHY_ROOM];
} Drafting;

static bool set_draft(Session* const session, void* const context)
{
    Drafting* const drafting = (Drafting*)context;
    const Asked* const asked = drafting->asked;
    return session_draft(session, (FigureKind)asked->kind, asked->text, asked->size, drafting->why);
}

static void take_draft(Worker* const worker, const Asked* const asked)
{
    Drafting drafting = {asked, ""};
    if (!worker_session_change(worker, set_draft, &drafting)) {
        worker_session_refuse(worker, *drafting.why ? drafting.why
                                                    : "there is no memory to play the draft");
    }
}

typedef struct {
    Ask ask;
    KeptAsk kept;
    char why[KEPT_WHY_ROOM];
} Keeping;

static bool keep(Session* const session, void* const context)
{
    Keeping* const keeping = (Keeping*)context;
    const KeptAsk* const asked = &keeping->kept;
    switch (keeping->ask) {
    case ASK_KEEP:
        return session_keep(session, asked->slot, asked->name, asked->values, keeping->why);
    case ASK_NAME_KEPT:
        return session_name_kept(session, asked->slot, asked->name, keeping->why);
    case ASK_DROP_KEPT:
        return session_drop_kept(session, asked->slot, keeping->why);
    case ASK_TAKE_BACK_KEPT:
        return session_take_back_kept(session, keeping->why);
    case ASK_USE_KEPT:
        return session_use_kept(session, asked->slot, keeping->why);
    case ASK_SAVE_FIGURE:
    case ASK_SAVE_KIT:
    case ASK_SAVE_GROOVE:
    case ASK_DELETE:
    case ASKS:
        break;
    }
    return false;
}

static void keep_asked(Worker* const worker, const Asked* const asked)
{
    Keeping keeping = {.ask = (Ask)asked->kind, .why = ""};
    memcpy(&keeping.kept, asked->text, sizeof keeping.kept); /* as block.c put it there */
    if (!worker_session_change(worker, keep, &keeping)) {
        worker_session_refuse(worker, *keeping.why ? keeping.why : "there is no memory for that");
    }
}

static void serve(Worker* const worker, const Parcel parcel)
{
    const Asked asked = {parcel.kind, parcel.size, malloc(parcel.size + 1U)};
    if (asked.text) {
        queue_copy(worker->asks, parcel, asked.text);
        asked.text[parcel.size] = '\0';
    }
    queue_drop(worker->asks, parcel);
    if (!asked.text) {
        worker_session_refuse(
            worker, "there is no memory to read what was sent; close something and send it again");
    } else if (asked.kind < FIGURE_KINDS) {
        take_draft(worker, &asked);
    } else if (asked.kind >= ASK_KEEP) {
        keep_asked(worker, &asked);
    } else if (asked.kind == ASK_DELETE) {
        worker_files_delete(worker, &asked);
    } else {
        worker_files_save(worker, &asked);
    }
    free(asked.text);
}

/* Another instance may have saved what this one was set to. */
static void look_again(Worker* const worker)
{
    Saved none = {.kind = ENTRY_KINDS};
    pthread_mutex_lock(&worker->lock);
    const uint64_t stamp = worker->session.stamp;
    pthread_mutex_unlock(&worker->lock);
    if (stamp_folder(worker->users) != stamp) {
        worker_session_change(worker, worker_files_read, &none);
    }
}

void worker_run(Worker* const worker)
{
    pthread_mutex_lock(&worker->work);
    Parcel parcel;
    while (queue_first(worker->asks, &parcel)) {
        serve(worker, parcel);
    }
    if (atomic_exchange(&worker->look_again, false)) {
        look_again(worker);
    }
    worker_session_sweep(worker);
    pthread_mutex_unlock(&worker->work);
}

bool worker_save(Worker* const worker, SessionTexts* const texts)
{
    Session copy;
    Used used = {.settled = atomic_load(&worker->settled)};
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        used.ids[kind] = atomic_load_explicit(&worker->used[kind], memory_order_relaxed);
    }
    if (!worker_session_copy(worker, &copy)) {
        return false;
    }
    const bool good = session_save(&copy, &used, texts);
    session_clear(&copy);
    return good;
}

typedef struct {
    const SessionTexts* texts;
} Restoring;

static bool restore(Session* const session, void* const context)
{
    const SessionTexts* const given = ((const Restoring*)context)->texts;
    SessionTexts texts;
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = given->of[i] ? strdup(given->of[i]) : NULL;
    }
    const bool good = session_restore(session, &texts);
    session_texts_clear(&texts);
    return good;
}

bool worker_restore(Worker* const worker, const SessionTexts* const texts)
{
    Restoring restoring = {texts};
    atomic_store(&worker->settled, false);
    pthread_mutex_lock(&worker->lock);
    const bool nothing = session_texts_empty(texts) && session_texts_empty(&worker->session.texts);
    pthread_mutex_unlock(&worker->lock);
    return nothing || worker_session_change(worker, restore, &restoring);
}

// SPDX-License-Identifier: ISC
#include "worker_files.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* True if the text holds what it was asked to save; the bank has what it may name. */
static bool fits(const Asked* const asked, const Bank* const bank, char why[USER_BANK_WHY_ROOM])
{
    char reason[SINGLE_WHY_ROOM];
    const bool is_groove = asked->kind == ASK_SAVE_GROOVE;
    Single* const single = single_read_over(is_groove ? bank : NULL, "/what was to be saved",
                                            asked->text, asked->size, reason);
    const Ask by = !single                        ? ASKS
                   : single->kind == ENTRY_KIT    ? ASK_SAVE_KIT
                   : single->kind == ENTRY_GROOVE ? ASK_SAVE_GROOVE
                                                  : ASK_SAVE_FIGURE;
    snprintf(why, USER_BANK_WHY_ROOM, "%s",
             single ? "a kit map is saved by fl:saveKit, a groove by fl:saveGroove, a figure by "
                      "fl:saveFigure"
                    : reason);
    single_free(single);
    return by == (Ask)asked->kind;
}

static Saved save_asked(Worker* const worker, const Asked* const asked,
                        char why[USER_BANK_WHY_ROOM])
{
    Session copy;
    OwnIds in_use = {{false}};
    if (!worker_session_copy(worker, &copy)) {
        snprintf(why, USER_BANK_WHY_ROOM,
                 "there is no memory to save; close something and save again");
        return (Saved){.id = 0};
    }
    Saved saved = {.id = 0};
    session_ids(&copy, &in_use);
    if (fits(asked, copy.bank, why)) {
        saved = user_bank_save_over(asked->kind == ASK_SAVE_GROOVE ? copy.bank : NULL,
                                    worker->users, asked->text, asked->size, &in_use, why);
    }
    session_clear(&copy);
    return saved;
}

bool worker_files_read(Session* const session, void* const context)
{
    const Saved* const saved = (const Saved*)context;
    return session_reopen(session, saved->kind, saved->id);
}

/* Saved is what can be picked: what the files' reader left out is told with its reason. */
static bool is_loaded(Worker* const worker, const Saved* const saved, char why[USER_BANK_WHY_ROOM])
{
    pthread_mutex_lock(&worker->lock);
    const bool loaded = user_bank_loaded(worker->session.plain, saved, why);
    pthread_mutex_unlock(&worker->lock);
    return loaded;
}

void worker_files_save(Worker* const worker, const Asked* const asked)
{
    char why[USER_BANK_WHY_ROOM] = "";
    Saved saved = save_asked(worker, asked, why);
    if (!saved.id) {
        worker_session_refuse(worker, why);
        return;
    }
    if (!worker_session_change(worker, worker_files_read, &saved)) {
        worker_session_refuse(worker, "it is saved, but there is no memory to play it now");
    } else if (!is_loaded(worker, &saved, why)) {
        worker_session_refuse(worker, why);
        return;
    }
    const Answer answer = saved.kind == ENTRY_KIT      ? ANSWER_SAVED_KIT
                          : saved.kind == ENTRY_GROOVE ? ANSWER_SAVED_GROOVE
                                                       : ANSWER_SAVED_FIGURE;
    queue_put(worker->answers, answer, saved.id, "", 0);
}

/* "feet 1005". */
static bool read_which(const char* const text, EntryKind* const kind, uint32_t* const id)
{
    const size_t length = strcspn(text, " ");
    const unsigned long number = text[length] ? strtoul(text + length + 1, NULL, 10) : 0;
    *id = number <= ID_MOST ? (uint32_t)number : 0;
    for (*kind = (EntryKind)0; *kind < ENTRY_KINDS; ++*kind) {
        const char* const name = kind_rows[*kind].name;
        if (strlen(name) == length && !strncmp(text, name, length)) {
            break;
        }
    }
    return *id && *kind < ENTRY_KINDS;
}

void worker_files_delete(Worker* const worker, const Asked* const asked)
{
    Session copy;
    Saved gone = {.id = 0};
    char why[USER_BANK_WHY_ROOM] = "expected a kind and an id, such as: feet 1005";
    if (!read_which(asked->text, &gone.kind, &gone.id) || !worker_session_copy(worker, &copy)) {
        worker_session_refuse(worker, why);
        return;
    }
    const bool is_gone =
        user_bank_delete(copy.bank, worker->users, gone.kind, gone.id, gone.file, why);
    session_clear(&copy);
    if (!is_gone) {
        worker_session_refuse(worker, why);
    } else if (!worker_session_change(worker, worker_files_read, &gone)) {
        worker_session_refuse(worker,
                              "it is deleted, but there is no memory to play without it now");
    } else {
        queue_put(worker->answers, ANSWER_DELETED, gone.id, gone.file, (uint32_t)strlen(gone.file));
    }
}

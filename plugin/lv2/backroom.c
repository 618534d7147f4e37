// SPDX-License-Identifier: ISC
#include "backroom.h"

#include "../bank/shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Frees what the audio thread is done with. */
static void sweep(Backroom* const backroom)
{
    stock_free(atomic_exchange(&backroom->leaving, NULL));
}

/* Puts what the session makes of itself where the audio thread finds it.  One that
   it hasn't taken yet is replaced.  Under the lock. */
static bool publish(Backroom* const backroom)
{
    Stock* const stock = session_stock(&backroom->session);
    if (stock) {
        stock_free(atomic_exchange(&backroom->arriving, stock));
    }
    sweep(backroom);
    return stock;
}

bool backroom_init(Backroom* const backroom, const char* const bundle_path,
                   const LV2_Worker_Schedule* const schedule)
{
    char users[BANK_FOLDER_ROOM];
    const size_t room = strlen(bundle_path) + sizeof "/bank";
    *backroom = (Backroom){.schedule = schedule, .factory = malloc(room)};
    atomic_init(&backroom->arriving, NULL);
    atomic_init(&backroom->leaving, NULL);
    atomic_init(&backroom->settled, false);
    atomic_init(&backroom->look_again, false);
    pthread_mutex_init(&backroom->lock, NULL);
    backroom->users = bank_users_folder(users) ? strdup(users) : NULL;
    backroom->asks = queue_new(ASKS_MOST, ASK_BYTES);
    backroom->tells = queue_new(TELLS_MOST, TELL_BYTES);
    if (!backroom->factory || !backroom->asks || !backroom->tells) {
        return false;
    }
    snprintf(backroom->factory, room, "%s/bank", bundle_path);
    return session_init(&backroom->session,
                        (BankSources){backroom->factory, backroom->users, NULL}) &&
           publish(backroom);
}

void backroom_clear(Backroom* const backroom)
{
    stock_free(atomic_exchange(&backroom->arriving, NULL));
    sweep(backroom);
    session_clear(&backroom->session);
    queue_free(backroom->asks);
    queue_free(backroom->tells);
    free(backroom->factory);
    free(backroom->users);
    pthread_mutex_destroy(&backroom->lock);
}

/* ---- The audio thread's side */

bool backroom_ask(Backroom* const backroom, const Ask ask, const char* const text,
                  const uint32_t size, const char** const why)
{
    if (!backroom->schedule) {
        *why = "this host has no worker for plugins, so figures can't be drafted or saved here; "
               "write them into a bank file";
    } else if (size > ASK_BYTES) {
        *why = "the text is longer than 32768 bytes; a figure needs far less";
    } else if (!queue_put(backroom->asks, ask, 0, text, size)) {
        *why = "too much was asked for at once; send the last again";
    } else {
        backroom->work_due = true;
        return true;
    }
    return false;
}

Stock* backroom_take(Backroom* const backroom)
{
    return atomic_exchange(&backroom->arriving, NULL);
}

void backroom_leave(Backroom* const backroom, Stock* const stock)
{
    /* Others only ever empty `leaving`, so that nothing can come between. */
    stock_chain(stock, atomic_exchange(&backroom->leaving, NULL));
    atomic_store(&backroom->leaving, stock);
    backroom->work_due = true;
}

void backroom_wake(Backroom* const backroom)
{
    static const uint32_t knock = 0;
    if (backroom->work_due && backroom->schedule &&
        backroom->schedule->schedule_work(backroom->schedule->handle, sizeof knock, &knock) ==
            LV2_WORKER_SUCCESS) {
        backroom->work_due = false; /* else it is tried again */
    }
}

static bool has_entry(const Library* const library, const EntryKind kind, const uint32_t id)
{
    switch (kind) {
    case ENTRY_HANDS:
    case ENTRY_FEET:
    case ENTRY_TURNAROUND:
        return library_figure(library, (FigureKind)kind, id);
    case ENTRY_GROOVE:
        return library_groove(library, id);
    case ENTRY_KIT:
        return library_kit(library, id);
    case ENTRY_KINDS:
        break;
    }
    return false;
}

void backroom_use(Backroom* const backroom, const Used* const used, const Library* const library)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const uint32_t id = used->ids[kind];
        const uint32_t before =
            atomic_exchange_explicit(&backroom->used[kind], id, memory_order_relaxed);
        if (id != before && id >= ID_FIRST_OWN && !has_entry(library, (EntryKind)kind, id)) {
            atomic_store(&backroom->look_again, true);
            backroom->work_due = true;
        }
    }
    atomic_store(&backroom->settled, true);
}

/* ---- The others' side */

static void refuse(Backroom* const backroom, const char* const why)
{
    const size_t length = strlen(why);
    size_t size = length < TELL_BYTES ? length : TELL_BYTES;
    while (size > 0 && size < length && ((unsigned char)why[size] & 0xC0) == 0x80) {
        --size; /* not inside a character */
    }
    queue_put(backroom->tells, TELL_REFUSED, 0, why, (uint32_t)size);
}

static void take_draft(Backroom* const backroom, const Parcel* const parcel)
{
    char why[SINGLE_WHY_ROOM];
    if (!session_draft(&backroom->session, (FigureKind)parcel->kind, parcel->bytes, parcel->size,
                       why)) {
        refuse(backroom, why);
    } else if (!publish(backroom)) {
        refuse(backroom, "there is no memory to play the draft");
    }
}

/* The kind of what is to be saved, if it is what was asked for. */
static bool fits(const Parcel* const parcel, EntryKind* const kind, char why[SHELF_WHY_ROOM])
{
    char reason[SINGLE_WHY_ROOM];
    Single* const single =
        single_read("/what was to be saved", parcel->bytes, parcel->size, reason);
    if (!single) {
        snprintf(why, SHELF_WHY_ROOM, "%s", reason);
        return false;
    }
    *kind = single->kind;
    single_free(single);
    if ((*kind == ENTRY_KIT) != (parcel->kind == ASK_SAVE_KIT)) {
        snprintf(why, SHELF_WHY_ROOM,
                 "a kit map is saved by fl:saveKit, a figure by fl:saveFigure");
        return false;
    }
    return true;
}

static void save_entry(Backroom* const backroom, const Parcel* const parcel)
{
    char why[SHELF_WHY_ROOM] = "";
    EntryKind kind = ENTRY_KIT;
    const uint32_t id = fits(parcel, &kind, why)
                            ? shelf_save(backroom->users, parcel->bytes, parcel->size,
                                         session_least_id(&backroom->session), why)
                            : 0;
    if (!id) {
        refuse(backroom, why);
        return;
    }
    if (!session_reopen(&backroom->session, kind, id) || !publish(backroom)) {
        refuse(backroom, "it is saved, but there is no memory to play it now");
    }
    queue_put(backroom->tells, kind == ENTRY_KIT ? TELL_SAVED_KIT : TELL_SAVED_FIGURE, id, "", 0);
}

static void serve(Backroom* const backroom, const Parcel* const parcel)
{
    switch ((Ask)parcel->kind) {
    case ASK_HANDS_DRAFT:
    case ASK_FEET_DRAFT:
    case ASK_TURNAROUND_DRAFT:
        take_draft(backroom, parcel);
        break;
    case ASK_SAVE_FIGURE:
    case ASK_SAVE_KIT:
        save_entry(backroom, parcel);
        break;
    case ASKS:
        break;
    }
}

void backroom_work(Backroom* const backroom)
{
    pthread_mutex_lock(&backroom->lock);
    const Parcel* parcel = NULL;
    while ((parcel = queue_first(backroom->asks))) {
        serve(backroom, parcel);
        queue_drop(backroom->asks);
    }
    if (atomic_exchange(&backroom->look_again, false) && session_files_differ(&backroom->session) &&
        session_reopen(&backroom->session, ENTRY_KINDS, 0)) {
        publish(backroom);
    }
    sweep(backroom);
    pthread_mutex_unlock(&backroom->lock);
}

bool backroom_save(Backroom* const backroom, SessionTexts* const texts)
{
    Used used = {.settled = atomic_load(&backroom->settled)};
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        used.ids[kind] = atomic_load_explicit(&backroom->used[kind], memory_order_relaxed);
    }
    pthread_mutex_lock(&backroom->lock);
    const bool good = session_save(&backroom->session, &used, texts);
    pthread_mutex_unlock(&backroom->lock);
    return good;
}

bool backroom_restore(Backroom* const backroom, SessionTexts* const texts)
{
    pthread_mutex_lock(&backroom->lock);
    atomic_store(&backroom->settled, false);
    const bool nothing =
        session_texts_empty(texts) && session_texts_empty(&backroom->session.texts);
    const bool good = nothing || (session_restore(&backroom->session, texts) && publish(backroom));
    pthread_mutex_unlock(&backroom->lock);
    return good;
}

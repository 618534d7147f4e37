// SPDX-License-Identifier: ISC
#include "backroom.h"

#include "../bank/shelf.h"
#include "../bank/stamp.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Frees what the audio thread is done with. */
static void sweep(Backroom* const backroom)
{
    stock_free(atomic_exchange(&backroom->leaving, NULL));
}

/* Changes a copy of the session by reading or writing whatever it takes, and puts it in
   place with what it plays: under the lock nothing but that.  Where somebody else has
   changed the session meanwhile, again.  False if `change` or memory failed. */
typedef bool (*Change)(Session* session, void* context);

static bool copy_session(Backroom* const backroom, Session* const copy)
{
    pthread_mutex_lock(&backroom->lock);
    const bool good = session_copy(&backroom->session, copy);
    pthread_mutex_unlock(&backroom->lock);
    return good;
}

static bool put_session(Backroom* const backroom, Session* const copy, Stock* const stock)
{
    pthread_mutex_lock(&backroom->lock);
    const bool taken = session_take(&backroom->session, copy);
    Stock* const replaced = taken ? atomic_exchange(&backroom->arriving, stock) : stock;
    pthread_mutex_unlock(&backroom->lock);
    stock_free(replaced);
    return taken;
}

static bool change_session(Backroom* const backroom, const Change change, void* const context)
{
    for (bool put = false; !put;) {
        Session copy;
        if (!copy_session(backroom, &copy)) {
            return false;
        }
        Stock* const stock = change(&copy, context) ? session_stock(&copy) : NULL;
        put = stock && put_session(backroom, &copy, stock);
        session_clear(&copy);
        if (!stock) {
            return false;
        }
    }
    sweep(backroom);
    return true;
}

bool backroom_init(Backroom* const backroom, const char* const bundle_path,
                   const LV2_Worker_Schedule* const schedule)
{
    char users[BANK_FOLDER_ROOM];
    const bool has_users = bank_users_folder(users);
    const size_t room = strlen(bundle_path) + sizeof "/bank";
    *backroom = (Backroom){.schedule = schedule, .factory = malloc(room)};
    atomic_init(&backroom->arriving, NULL);
    atomic_init(&backroom->leaving, NULL);
    atomic_init(&backroom->settled, false);
    atomic_init(&backroom->look_again, false);
    pthread_mutex_init(&backroom->lock, NULL);
    pthread_mutex_init(&backroom->work, NULL);
    backroom->users = has_users ? strdup(users) : NULL;
    backroom->asks = queue_new(ASKS_MOST, ASK_BYTES);
    backroom->tells = queue_new(TELLS_MOST, TELL_BYTES);
    if (!backroom->factory || !backroom->asks || !backroom->tells ||
        (has_users && !backroom->users)) {
        return false;
    }
    snprintf(backroom->factory, room, "%s/bank", bundle_path);
    if (!session_init(&backroom->session,
                      (BankSources){backroom->factory, backroom->users, NULL})) {
        return false;
    }
    Stock* const first = session_stock(&backroom->session);
    atomic_store(&backroom->arriving, first);
    return first;
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
    pthread_mutex_destroy(&backroom->work);
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

typedef struct {
    const Parcel* parcel;
    char why[SINGLE_WHY_ROOM];
} Drafting;

static bool set_draft(Session* const session, void* const context)
{
    Drafting* const drafting = (Drafting*)context;
    const Parcel* const parcel = drafting->parcel;
    return session_draft(session, (FigureKind)parcel->kind, parcel->bytes, parcel->size,
                         drafting->why);
}

static void take_draft(Backroom* const backroom, const Parcel* const parcel)
{
    Drafting drafting = {parcel, ""};
    if (!change_session(backroom, set_draft, &drafting)) {
        refuse(backroom, *drafting.why ? drafting.why : "there is no memory to play the draft");
    }
}

/* True if the parcel holds what it was asked to save. */
static bool fits(const Parcel* const parcel, char why[SHELF_WHY_ROOM])
{
    char reason[SINGLE_WHY_ROOM];
    Single* const single =
        single_read("/what was to be saved", parcel->bytes, parcel->size, reason);
    const bool is_kit = single && single->kind == ENTRY_KIT;
    snprintf(why, SHELF_WHY_ROOM, "%s",
             single ? "a kit map is saved by fl:saveKit, a figure by fl:saveFigure" : reason);
    single_free(single);
    return single && is_kit == (parcel->kind == ASK_SAVE_KIT);
}

static Saved save_parcel(Backroom* const backroom, const Parcel* const parcel,
                         char why[SHELF_WHY_ROOM])
{
    Session copy;
    OwnIds in_use = {{false}};
    if (!fits(parcel, why)) {
        return (Saved){.id = 0};
    }
    if (!copy_session(backroom, &copy)) {
        snprintf(why, SHELF_WHY_ROOM, "there is no memory to save; close something and save again");
        return (Saved){.id = 0};
    }
    session_ids(&copy, &in_use);
    session_clear(&copy);
    return shelf_save(backroom->users, parcel->bytes, parcel->size, &in_use, why);
}

static bool read_files(Session* const session, void* const context)
{
    const Saved* const saved = (const Saved*)context;
    return session_reopen(session, saved->kind, saved->id);
}

/* Saved is what can be picked: what the files' reader left out is told with its reason. */
static bool is_loaded(Backroom* const backroom, const Saved* const saved, char why[SHELF_WHY_ROOM])
{
    pthread_mutex_lock(&backroom->lock);
    const bool loaded = shelf_loaded(backroom->session.plain, saved, why);
    pthread_mutex_unlock(&backroom->lock);
    return loaded;
}

static void save_entry(Backroom* const backroom, const Parcel* const parcel)
{
    char why[SHELF_WHY_ROOM] = "";
    Saved saved = save_parcel(backroom, parcel, why);
    if (!saved.id) {
        refuse(backroom, why);
        return;
    }
    if (!change_session(backroom, read_files, &saved)) {
        refuse(backroom, "it is saved, but there is no memory to play it now");
    } else if (!is_loaded(backroom, &saved, why)) {
        refuse(backroom, why);
        return;
    }
    queue_put(backroom->tells, saved.kind == ENTRY_KIT ? TELL_SAVED_KIT : TELL_SAVED_FIGURE,
              saved.id, "", 0);
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

/* Another instance may have saved what this one was set to. */
static void look_again(Backroom* const backroom)
{
    Saved none = {.kind = ENTRY_KINDS};
    pthread_mutex_lock(&backroom->lock);
    const uint64_t stamp = backroom->session.stamp;
    pthread_mutex_unlock(&backroom->lock);
    if (folder_stamp(backroom->users) != stamp) {
        change_session(backroom, read_files, &none);
    }
}

void backroom_work(Backroom* const backroom)
{
    pthread_mutex_lock(&backroom->work);
    const Parcel* parcel = NULL;
    while ((parcel = queue_first(backroom->asks))) {
        serve(backroom, parcel);
        queue_drop(backroom->asks);
    }
    if (atomic_exchange(&backroom->look_again, false)) {
        look_again(backroom);
    }
    sweep(backroom);
    pthread_mutex_unlock(&backroom->work);
}

bool backroom_save(Backroom* const backroom, SessionTexts* const texts)
{
    Session copy;
    Used used = {.settled = atomic_load(&backroom->settled)};
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        used.ids[kind] = atomic_load_explicit(&backroom->used[kind], memory_order_relaxed);
    }
    if (!copy_session(backroom, &copy)) {
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

bool backroom_restore(Backroom* const backroom, const SessionTexts* const texts)
{
    Restoring restoring = {texts};
    atomic_store(&backroom->settled, false);
    pthread_mutex_lock(&backroom->lock);
    const bool nothing =
        session_texts_empty(texts) && session_texts_empty(&backroom->session.texts);
    pthread_mutex_unlock(&backroom->lock);
    return nothing || change_session(backroom, restore, &restoring);
}

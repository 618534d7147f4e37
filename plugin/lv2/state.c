// SPDX-License-Identifier: ISC
#include "state.h"

#include <stdlib.h>
#include <string.h>

enum { TEXT_MOST = 4 * 1024 * 1024 }; /* bytes: more than a session ever has */

/* The key of each text. */
static void find_keys(const Uris* const uris, LV2_URID keys[TEXTS])
{
    memcpy(keys, uris->fl_drafts, sizeof uris->fl_drafts);
    keys[TEXT_OWN] = uris->fl_ownEntries;
    keys[TEXT_UNREAD] = uris->fl_unreadEntries;
    keys[TEXT_NAMES] = uris->fl_entryNames;
    keys[TEXT_KEPT] = uris->fl_keptSelections;
    keys[TEXT_KEPT_UNREAD] = uris->fl_unreadKept;
}

LV2_State_Status state_save(Worker* const worker, const Uris* const uris,
                            const LV2_State_Store_Function store, const LV2_State_Handle handle)
{
    SessionTexts texts = {.of = {NULL}};
    LV2_URID keys[TEXTS];
    if (!worker_save(worker, &texts)) {
        return LV2_STATE_ERR_UNKNOWN;
    }
    LV2_State_Status status = LV2_STATE_SUCCESS;
    find_keys(uris, keys);
    for (int i = 0; i < TEXTS; ++i) {
        const size_t length = strlen(texts.of[i]);
        const LV2_State_Status stored =
            length ? store(handle, keys[i], texts.of[i], length + 1, uris->atom_String,
                           LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE)
                   : LV2_STATE_SUCCESS;
        status = status ? status : stored; /* the rest is worth keeping all the same */
    }
    session_texts_clear(&texts);
    return status;
}

/* Nothing is kept in it, which is told. */
static const char no_text[] = "# no text, or too long a one\n";

/* A copy with an end, "" if there is none or it isn't a text; NULL if there is no
   memory. */
static char* retrieve_text(const LV2_State_Retrieve_Function retrieve,
                           const LV2_State_Handle handle, const LV2_URID key,
                           const Uris* const uris)
{
    size_t size = 0;
    uint32_t type = 0;
    uint32_t flags = 0;
    const char* const text = (const char*)retrieve(handle, key, &size, &type, &flags);
    const bool good = text && type == uris->atom_String && size <= TEXT_MOST;
    const bool is_told = text && size && key == uris->fl_keptSelections;
    return good ? strndup(text, size) : strdup(is_told ? no_text : "");
}

LV2_State_Status state_restore(Worker* const worker, const Uris* const uris,
                               const LV2_State_Retrieve_Function retrieve,
                               const LV2_State_Handle handle)
{
    SessionTexts texts = {.of = {NULL}};
    LV2_URID keys[TEXTS];
    find_keys(uris, keys);
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = retrieve_text(retrieve, handle, keys[i], uris);
    }
    const bool good = worker_restore(worker, &texts);
    session_texts_clear(&texts);
    return good ? LV2_STATE_SUCCESS : LV2_STATE_ERR_UNKNOWN;
}

// SPDX-License-Identifier: ISC
#include "state.h"

#include <stdlib.h>
#include <string.h>

enum { TEXT_MOST = 4 * 1024 * 1024 }; /* bytes: more than a session ever has */

/* A text of the session and the key it is kept under. */
typedef struct {
    char** text;
    LV2_URID key;
} Row;

enum { ROWS = FIGURE_KINDS + 3 };

static void make_rows(SessionTexts* const texts, const Uris* const uris, Row rows[ROWS])
{
    rows[0] = (Row){&texts->drafts[FIGURE_HANDS], uris->fl_handsDraft};
    rows[1] = (Row){&texts->drafts[FIGURE_FEET], uris->fl_feetDraft};
    rows[2] = (Row){&texts->drafts[FIGURE_TURNAROUND], uris->fl_turnaroundDraft};
    rows[3] = (Row){&texts->own, uris->fl_ownEntries};
    rows[4] = (Row){&texts->unread, uris->fl_unreadEntries};
    rows[5] = (Row){&texts->names, uris->fl_entryNames};
}

LV2_State_Status state_save(Backroom* const backroom, const Uris* const uris,
                            const LV2_State_Store_Function store, const LV2_State_Handle handle)
{
    SessionTexts texts = {.own = NULL};
    Row rows[ROWS];
    if (!backroom_save(backroom, &texts)) {
        return LV2_STATE_ERR_UNKNOWN;
    }
    LV2_State_Status status = LV2_STATE_SUCCESS;
    make_rows(&texts, uris, rows);
    for (int i = 0; i < ROWS; ++i) {
        const size_t length = strlen(*rows[i].text);
        const LV2_State_Status stored =
            length ? store(handle, rows[i].key, *rows[i].text, length + 1, uris->atom_String,
                           LV2_STATE_IS_POD | LV2_STATE_IS_PORTABLE)
                   : LV2_STATE_SUCCESS;
        status = status ? status : stored; /* the rest is worth keeping all the same */
    }
    session_texts_clear(&texts);
    return status;
}

/* A copy with an end, or NULL if there is none or it isn't a text. */
static char* retrieve_text(const LV2_State_Retrieve_Function retrieve,
                           const LV2_State_Handle handle, const LV2_URID key,
                           const Uris* const uris)
{
    size_t size = 0;
    uint32_t type = 0;
    uint32_t flags = 0;
    const char* const text = (const char*)retrieve(handle, key, &size, &type, &flags);
    const bool good = text && type == uris->atom_String && size <= TEXT_MOST;
    return good ? strndup(text, size) : NULL;
}

LV2_State_Status state_restore(Backroom* const backroom, const Uris* const uris,
                               const LV2_State_Retrieve_Function retrieve,
                               const LV2_State_Handle handle)
{
    SessionTexts texts = {.own = NULL};
    Row rows[ROWS];
    make_rows(&texts, uris, rows);
    for (int i = 0; i < ROWS; ++i) {
        *rows[i].text = retrieve_text(retrieve, handle, rows[i].key, uris);
    }
    const bool good = backroom_restore(backroom, &texts);
    session_texts_clear(&texts);
    return good ? LV2_STATE_SUCCESS : LV2_STATE_ERR_UNKNOWN;
}

// SPDX-License-Identifier: ISC
/* What of session.h is about what is kept. */
#include "session_own.h"

#include "draft.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Makes `list` the session's. */
static bool take(Session* const session, KeptList* const list)
{
    if (list) {
        kept_list_free(session->kept);
        session->kept = list;
    }
    return list;
}

static bool is_there(const Session* const session, const uint32_t slot, char why[KEPT_WHY_ROOM])
{
    const bool there = kept_list_at(session->kept, slot);
    if (!there) {
        snprintf(why, KEPT_WHY_ROOM, "nothing is kept in slot %u", slot);
    }
    return there;
}

/* Another of it by this name. */
static KeptSelection* named(const Session* const session, const uint32_t slot,
                            const char* const name)
{
    return kept_selection_named(kept_list_at(session->kept, slot), name);
}

/* What the values select of the bank with the drafts over it. */
static KeptSelection* selected(const Session* const session, const char* const name,
                               const float values[CONTROL_COUNT])
{
    Overlay plays;
    KeptSelection* const kept =
        overlay_make(&plays, session->bank, draft_all(session->texts.of, NULL))
            ? kept_selection_of(&plays, name, values)
            : NULL;
    overlay_clear(&plays);
    return kept;
}

bool session_keep(Session* const session, const uint32_t wanted, const char* const name,
                  const float values[CONTROL_COUNT], char why[KEPT_WHY_ROOM])
{
    const uint32_t slot = wanted ? wanted : kept_list_free_slot(session->kept);
    if (slot > KEPT_MAX) {
        snprintf(why, KEPT_WHY_ROOM, "there is no slot %u; expected 1 to %d", slot, KEPT_MAX);
        return false;
    }
    if (!slot) {
        snprintf(why, KEPT_WHY_ROOM, "all %d slots are full; drop something that is kept first",
                 KEPT_MAX);
        return false;
    }
    const uint32_t playing = (uint32_t)lrintf(settings_fit(CONTROL_KEPT, values[CONTROL_KEPT]));
    KeptSelection* const kept = kept_list_at(session->kept, playing)
                                    ? named(session, playing, name)
                                    : selected(session, name, values);
    snprintf(why, KEPT_WHY_ROOM, "there is no memory to keep it; close something");
    const bool good = kept && take(session, kept_list_with(session->kept, slot, kept, why));
    kept_selection_free(kept);
    return good;
}

bool session_name_kept(Session* const session, const uint32_t slot, const char* const name,
                       char why[KEPT_WHY_ROOM])
{
    if (!is_there(session, slot, why)) {
        return false;
    }
    KeptSelection* const kept = named(session, slot, name);
    snprintf(why, KEPT_WHY_ROOM, "there is no memory to name it; close something");
    const bool good = kept && take(session, kept_list_with(session->kept, slot, kept, why));
    kept_selection_free(kept);
    return good;
}

bool session_drop_kept(Session* const session, const uint32_t slot, char why[KEPT_WHY_ROOM])
{
    return is_there(session, slot, why) &&
           take(session, kept_list_with(session->kept, slot, NULL, why));
}

bool session_take_back_kept(Session* const session, char why[KEPT_WHY_ROOM])
{
    return take(session, kept_list_back(session->kept, why));
}

/* ---- Using it */

/* True for an entry of the session's that the kept selection hasn't under its id. */
static bool is_no_others(const Bank* const bank, const EntryPick pick, const void* const context)
{
    const EntryInfo* const info =
        bank_info(((const KeptSelection*)context)->plays.bank, pick.kind, pick.id);
    (void)bank;
    return !info || !info->is_sessions;
}

/* The session's own entries with those of what is kept instead of others under their ids;
   NULL if there is no memory. */
static char* with_own(const Session* const session, const KeptSelection* const kept)
{
    char* const others = session_own_write(session->bank, NULL, 0, is_no_others, kept);
    const size_t room = others ? strlen(others) + strlen(kept->own) + 2 : 0;
    char* const all = others ? malloc(room) : NULL;
    if (all) {
        snprintf(all, room, "%s\n%s", others, kept->own);
    }
    free(others);
    return all;
}

static bool take_own(Session* const session, const KeptSelection* const kept)
{
    SessionTexts texts = {.of = {NULL}};
    Bank* bank = NULL;
    texts.of[TEXT_OWN] = with_own(session, kept);
    texts.of[TEXT_UNREAD] = strdup(session->texts.of[TEXT_UNREAD]);
    if (!texts.of[TEXT_OWN] || !texts.of[TEXT_UNREAD] ||
        !session_own_take(session, &texts, &bank)) {
        session_texts_clear(&texts);
        bank_free(bank);
        return false;
    }
    free(session->texts.of[TEXT_OWN]);
    free(session->texts.of[TEXT_UNREAD]);
    session->texts.of[TEXT_OWN] = texts.of[TEXT_OWN];
    session->texts.of[TEXT_UNREAD] = texts.of[TEXT_UNREAD];
    bank_free(session->bank);
    session->bank = bank;
    return true;
}

/* A draft of a figure that it plays without is dropped; of others it stays. */
static bool take_drafts(Session* const session, const KeptSelection* const kept)
{
    const KeptParts parts = kept_selection_parts(kept);
    Drafts now = draft_all(session->texts.of, NULL);
    bool good = true;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const bool is_in_its_way =
            now.drafts[kind] &&
            kept_selection_plays(kept, (FigureKind)kind, now.drafts[kind]->info.id);
        if (*parts.drafts[kind] || is_in_its_way) {
            char* const text = strdup(parts.drafts[kind]);
            good = good && text;
            free(text ? session->texts.of[kind] : NULL);
            session->texts.of[kind] = text ? text : session->texts.of[kind];
        }
        single_free(now.drafts[kind]);
    }
    return good;
}

bool session_use_kept(Session* const session, const uint32_t slot, char why[KEPT_WHY_ROOM])
{
    if (!is_there(session, slot, why)) {
        return false;
    }
    const KeptSelection* const kept = kept_list_at(session->kept, slot);
    snprintf(why, KEPT_WHY_ROOM, "there is no memory to go on from it; close something");
    return (!*kept->own || take_own(session, kept)) && take_drafts(session, kept);
}

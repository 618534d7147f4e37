// SPDX-License-Identifier: ISC
#include "session_own.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Entries of a bank that came with the session and that are wanted, after `first`,
   as a text. */
char* session_own_write(const Bank* const bank, const EntryPick first[ENTRY_KINDS], size_t count,
                        const OwnWanted wanted, const void* const context)
{
    size_t room = ENTRY_KINDS;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        room += bank_count(bank, (EntryKind)kind);
    }
    EntryPick* const picks = calloc(room, sizeof(EntryPick));
    for (size_t i = 0; picks && i < count; ++i) {
        picks[i] = first[i];
    }
    for (int kind = 0; picks && kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const EntryInfo* const info = bank_entry(bank, (EntryKind)kind, i);
            const EntryPick pick = {(EntryKind)kind, info->id};
            if (info->is_sessions && wanted(bank, pick, context)) {
                picks[count++] = pick;
            }
        }
    }
    char* const text = picks ? write_entries(bank, picks, count) : NULL;
    free(picks);
    return text;
}

/* True if the other bank has not the same entry. */
static bool is_another(const Bank* const bank, const EntryPick pick, const void* const context)
{
    const Bank* const other = (const Bank*)context;
    char* const here = write_entries(bank, &pick, 1);
    char* const there = write_entries(other, &pick, 1);
    const bool alike = here && there && !strcmp(here, there);
    free(here);
    free(there);
    return !alike;
}

bool session_own_other(const Bank* const bank, const EntryPick pick, const void* const context)
{
    const EntryPick saved = *(const EntryPick*)context;
    (void)bank;
    return pick.kind != saved.kind || pick.id != saved.id;
}

static bool complains_of_session(const Bank* const bank)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        if (!strncmp(diagnostics->texts[i], "this session:", strlen("this session:"))) {
            return true;
        }
    }
    return diagnostics->unkept > 0;
}

/* The files' bank with a session's entries over it. */
Bank* session_own_open(const Session* const session, const char* const own)
{
    return *own ? bank_open_session(session->sources, own) : bank_hold(session->plain);
}

/* What stays of a text, own or kept, and of its unread one, which comes behind it: a text
   that can't be read whole, as it came, behind one that is kept already; NULL if there is no
   memory. */
char* session_own_unread(const SessionTexts* const texts, const SessionText which,
                         const bool complains)
{
    const char* const own = texts->of[which];
    const char* const before = *own ? texts->of[which + 1] : "";
    const char* const found = !complains ? "" : *own ? own : texts->of[which + 1];
    const char* const more = strstr(before, found) ? "" : found; /* the same again: once */
    const char* const between = *before && *more ? "\n" : "";
    const size_t room = strlen(before) + strlen(between) + strlen(more) + 1;
    char* const kept = malloc(room);
    if (kept) {
        snprintf(kept, room, "%s%s%s", before, between, more);
    }
    return kept;
}

/* Leaves of the session's entries those that its user's file hasn't, or has
   otherwise; the bank with them.  A text that can't be read whole is kept as it
   came, and tried where there is no better one. */
bool session_own_take(const Session* const session, SessionTexts* const texts, Bank** const opened)
{
    const EntryPick none = {ENTRY_KINDS, 0};
    const char* const given = *texts->of[TEXT_OWN] ? texts->of[TEXT_OWN] : texts->of[TEXT_UNREAD];
    Bank* const whole = session_own_open(session, given);
    char* const all = whole ? session_own_write(whole, NULL, 0, session_own_other, &none) : NULL;
    char* const own = all ? session_own_write(whole, NULL, 0, is_another, session->plain) : NULL;
    const bool as_given = own && !strcmp(own, all);
    *opened = as_given ? bank_hold(whole) : own ? session_own_open(session, own) : NULL;
    char* const unread = session_own_unread(texts, TEXT_OWN, !whole || complains_of_session(whole));
    const bool good = *opened && unread;
    if (good) {
        free(texts->of[TEXT_UNREAD]);
        free(texts->of[TEXT_OWN]);
        texts->of[TEXT_UNREAD] = unread;
        texts->of[TEXT_OWN] = own;
    } else {
        free(unread);
        free(own);
    }
    free(all);
    bank_free(whole);
    return good;
}

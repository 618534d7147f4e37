// SPDX-License-Identifier: ISC
#include "session_own.h"

#include "absent.h"
#include "draft.h"
#include "stamp.h"
#include "write_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void session_texts_clear(SessionTexts* const texts)
{
    for (int i = 0; i < TEXTS; ++i) {
        free(texts->of[i]);
        texts->of[i] = NULL;
    }
}

bool session_texts_empty(const SessionTexts* const texts)
{
    bool empty = true;
    for (int i = 0; i < TEXTS; ++i) {
        empty = empty && texts->of[i] && !*texts->of[i]; /* NULL: there was no memory for it */
    }
    return empty;
}

/* True if none is NULL, for want of memory. */
static bool texts_whole(const SessionTexts* const texts)
{
    bool whole = true;
    for (int i = 0; i < TEXTS; ++i) {
        whole = whole && texts->of[i];
    }
    return whole;
}

bool session_init(Session* const session, const BankSources sources)
{
    *session = (Session){.sources = sources, .stamp = stamp_folder(sources.users)};
    session->plain = bank_open(sources);
    session->bank = session->plain ? bank_hold(session->plain) : NULL;
    for (int i = 0; i < TEXTS; ++i) {
        session->texts.of[i] = strdup("");
    }
    session->kept = kept_list_read(session->plain, "");
    if (!texts_whole(&session->texts) || !session->bank || !session->kept) {
        session_clear(session);
        return false;
    }
    return true;
}

void session_clear(Session* const session)
{
    session_texts_clear(&session->texts);
    kept_list_free(session->kept);
    bank_free(session->bank);
    bank_free(session->plain);
    session->bank = session->plain = NULL;
    session->kept = NULL;
}

bool session_copy(const Session* const session, Session* const copy)
{
    *copy = *session;
    copy->plain = bank_hold(session->plain);
    copy->bank = bank_hold(session->bank);
    copy->kept = kept_list_hold(session->kept);
    for (int i = 0; i < TEXTS; ++i) {
        copy->texts.of[i] = strdup(session->texts.of[i]);
    }
    if (!texts_whole(&copy->texts)) {
        session_clear(copy);
        return false;
    }
    return true;
}

bool session_take(Session* const session, Session* const copy)
{
    if (session->edition != copy->edition) {
        return false;
    }
    const Session before = *session;
    *session = *copy;
    *copy = before;
    ++session->edition;
    return true;
}

/* ---- Drafts */

Snapshot* session_snapshot(const Session* const session)
{
    Messages messages = {.text = NULL};
    messages_diagnostics(&messages, bank_diagnostics(session->bank));
    absent_say(&messages, session->bank, session->texts.of[TEXT_NAMES]);
    messages_say(&messages, kept_list_said(session->kept), "", "");
    const Drafts drafts = draft_all(session->texts.of, &messages);
    if (messages.failed) {
        free(messages.text);
        messages.text = NULL;
    }
    return snapshot_make(session->bank, drafts, session->kept, messages.text);
}

bool session_draft(Session* const session, const FigureKind kind, const char* const text,
                   const size_t size, char why[SINGLE_WHY_ROOM])
{
    const size_t length = strnlen(text, size);
    char* const kept = strndup(text, length);
    Single* const single = kept && length ? draft_read(kind, text, length, why) : NULL;
    if (!kept || (length && !single)) {
        if (!kept) {
            snprintf(why, SINGLE_WHY_ROOM, "there is no memory for the draft");
        }
        free(kept);
        return false;
    }
    single_free(single);
    free(session->texts.of[kind]);
    session->texts.of[kind] = kept;
    return true;
}

/* ---- The user's own entries */

/* What was saved just now has its new name: whoever did that knows. */
static bool forget_name(Session* const session, const EntryPick saved)
{
    EntryNames entry_names = {.count = 0};
    entry_names_read(&entry_names, session->texts.of[TEXT_NAMES]);
    entry_names_drop(&entry_names, saved.kind, saved.id);
    char* const names = entry_names_write(&entry_names);
    entry_names_clear(&entry_names);
    if (names) {
        free(session->texts.of[TEXT_NAMES]);
        session->texts.of[TEXT_NAMES] = names;
    }
    return names;
}

bool session_reopen(Session* const session, const EntryKind kind, const uint32_t id)
{
    const EntryPick saved = {kind, id};
    const uint64_t stamp = stamp_folder(session->sources.users);
    Bank* const plain = bank_open(session->sources);
    if (!plain) {
        return false;
    }
    bank_free(session->plain);
    session->plain = plain;
    session->stamp = stamp;
    char* const own = session_own_write(session->bank, NULL, 0, session_own_other, &saved);
    Bank* const bank = own ? session_own_open(session, own) : NULL;
    if (!bank) {
        free(own);
        return false;
    }
    free(session->texts.of[TEXT_OWN]);
    session->texts.of[TEXT_OWN] = own;
    bank_free(session->bank);
    session->bank = bank;
    return forget_name(session, saved);
}

/* What a text that is empty would say if it were there: what stays unread isn't it. */
static const char nothing_kept[] = "# nothing is kept\n";

/* Likewise what is kept; where all of it was dropped its text is a comment, and what was not
   read before isn't tried again. */
static KeptList* open_kept(const Session* const session, SessionTexts* const texts)
{
    const char* const given =
        *texts->of[TEXT_KEPT] ? texts->of[TEXT_KEPT] : texts->of[TEXT_KEPT_UNREAD];
    const bool is_none = !strcmp(given, nothing_kept);
    KeptList* const kept = kept_list_read(session->plain, is_none ? "" : given);
    char* const unread = kept ? session_own_unread(texts, TEXT_KEPT, *kept_list_said(kept)) : NULL;
    if (!unread) {
        kept_list_free(kept);
        return NULL;
    }
    free(texts->of[TEXT_KEPT_UNREAD]);
    texts->of[TEXT_KEPT_UNREAD] = unread;
    *texts->of[TEXT_KEPT] = '\0';
    return kept;
}

bool session_restore(Session* const session, SessionTexts* const texts)
{
    Bank* bank = NULL;
    KeptList* const kept = texts_whole(texts) ? open_kept(session, texts) : NULL;
    if (!kept || !session_own_take(session, texts, &bank)) {
        kept_list_free(kept);
        bank_free(bank);
        return false;
    }
    session_texts_clear(&session->texts);
    kept_list_free(session->kept);
    bank_free(session->bank);
    session->texts = *texts;
    session->kept = kept;
    session->bank = bank;
    *texts = (SessionTexts){.of = {NULL}};
    return true;
}

/* ---- Saving */

/* The names of what is played now, but of those that were lost before the old ones: they
   are told of until something else is picked. */
static void call_roll(const Session* const session, const Used* const used,
                      EntryNames* const entry_names)
{
    EntryNames before = {.count = 0};
    entry_names_read(&before, session->texts.of[TEXT_NAMES]);
    for (int i = 0; i < before.count; ++i) {
        const EntryName* const row = &before.rows[i];
        const bool wanted = !used->settled || used->ids[row->kind] == row->id;
        if (wanted && absent_is(session->bank, row)) {
            entry_names_add(entry_names, row->kind, row->id, row->label, row->uri);
        }
    }
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const EntryInfo* const info = bank_info(session->bank, (EntryKind)kind, used->ids[kind]);
        if (info) {
            entry_names_add(entry_names, (EntryKind)kind, info->id, info->label, info->uri);
        }
    }
    entry_names_clear(&before);
}

/* The user's own entries that are played, and all that came with the session. */
static char* write_own(const Session* const session, const Used* const used)
{
    EntryPick picks[ENTRY_KINDS];
    size_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        if (used->ids[kind] >= ID_FIRST_OWN) {
            picks[count++] = (EntryPick){(EntryKind)kind, used->ids[kind]};
        }
    }
    const EntryPick none = {ENTRY_KINDS, 0};
    return session_own_write(session->bank, picks, count, session_own_other, &none);
}

/* Nothing at all where nothing was ever kept. */
static char* save_kept(const Session* const session)
{
    size_t length = 0;
    const char* const text = kept_list_text(session->kept, &length);
    const bool is_none = !length && *session->texts.of[TEXT_KEPT_UNREAD];
    return strdup(is_none ? nothing_kept : text);
}

bool session_save(const Session* const session, const Used* const used, SessionTexts* const texts)
{
    EntryNames entry_names = {.count = 0};
    call_roll(session, used, &entry_names);
    texts->of[TEXT_OWN] = write_own(session, used);
    texts->of[TEXT_UNREAD] = strdup(session->texts.of[TEXT_UNREAD]);
    texts->of[TEXT_KEPT_UNREAD] = strdup(session->texts.of[TEXT_KEPT_UNREAD]);
    texts->of[TEXT_KEPT] = save_kept(session);
    texts->of[TEXT_NAMES] = entry_names_write(&entry_names);
    entry_names_clear(&entry_names);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        texts->of[kind] = strdup(session->texts.of[kind]);
    }
    if (!texts_whole(texts)) {
        session_texts_clear(texts);
        return false;
    }
    return true;
}

void session_ids(const Session* const session, OwnIds* const ids)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(session->bank, (EntryKind)kind); ++i) {
            ids_add(ids, bank_entry(session->bank, (EntryKind)kind, i)->id);
        }
    }
    EntryNames entry_names = {.count = 0};
    entry_names_read(&entry_names, session->texts.of[TEXT_NAMES]);
    for (int i = 0; i < entry_names.count; ++i) {
        ids_add(ids, entry_names.rows[i].id);
    }
    entry_names_clear(&entry_names);
}

// SPDX-License-Identifier: ISC
#include "session.h"

#include "absent.h"
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
    if (!texts_whole(&session->texts) || !session->bank) {
        session_clear(session);
        return false;
    }
    return true;
}

void session_clear(Session* const session)
{
    session_texts_clear(&session->texts);
    bank_free(session->bank);
    bank_free(session->plain);
    session->bank = session->plain = NULL;
}

bool session_copy(const Session* const session, Session* const copy)
{
    *copy = *session;
    copy->plain = bank_hold(session->plain);
    copy->bank = bank_hold(session->bank);
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

static Single* read_draft(const FigureKind kind, const char* const text, const size_t size,
                          char why[SINGLE_WHY_ROOM])
{
    Single* single = single_read("/the draft", text, size, why);
    if (single && (int)single->kind != (int)kind) {
        snprintf(why, SINGLE_WHY_ROOM, "the draft is a %s; expected a %s",
                 kind_rows[single->kind].word, kind_rows[kind].word);
    } else if (single && !single->info.id) {
        snprintf(why, SINGLE_WHY_ROOM,
                 "the draft has no fl:id; expected that of the figure in whose place it plays");
    } else {
        return single;
    }
    single_free(single);
    return NULL;
}

Snapshot* session_snapshot(const Session* const session)
{
    Messages messages = {.text = NULL};
    Drafts drafts = {.drafts = {NULL}};
    messages_diagnostics(&messages, bank_diagnostics(session->bank));
    absent_say(&messages, session->bank, session->texts.of[TEXT_NAMES]);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        char why[SINGLE_WHY_ROOM];
        const char* const text = session->texts.of[kind];
        drafts.drafts[kind] = *text ? read_draft((FigureKind)kind, text, strlen(text), why) : NULL;
        if (*text && !drafts.drafts[kind]) {
            messages_say(&messages, "this session's draft can't be read, but is kept: ", why, "\n");
        }
    }
    if (messages.failed) {
        free(messages.text);
        messages.text = NULL;
    }
    return snapshot_make(session->bank, drafts, messages.text);
}

bool session_draft(Session* const session, const FigureKind kind, const char* const text,
                   const size_t size, char why[SINGLE_WHY_ROOM])
{
    const size_t length = strnlen(text, size);
    char* const kept = strndup(text, length);
    Single* const single = kept && length ? read_draft(kind, text, length, why) : NULL;
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

typedef bool (*Wanted)(const Bank* bank, EntryPick pick, const void* context);

/* Entries of a bank that came with the session and that are wanted, after `first`,
   as a text. */
static char* write_sessions(const Bank* const bank, const EntryPick first[ENTRY_KINDS],
                            size_t count, const Wanted wanted, const void* const context)
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

static bool is_other(const Bank* const bank, const EntryPick pick, const void* const context)
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
static Bank* open_with(const Session* const session, const char* const own)
{
    return *own ? bank_open_session(session->sources, own) : bank_hold(session->plain);
}

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
    char* const own = write_sessions(session->bank, NULL, 0, is_other, &saved);
    Bank* const bank = own ? open_with(session, own) : NULL;
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

/* What stays as TEXT_UNREAD: a text that can't be read whole, as it came, behind one that is
   kept already; NULL if there is no memory. */
static char* keep_unread(const SessionTexts* const texts, const bool complains)
{
    const char* const own = texts->of[TEXT_OWN];
    const char* const before = *own ? texts->of[TEXT_UNREAD] : "";
    const char* const found = !complains ? "" : *own ? own : texts->of[TEXT_UNREAD];
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
static bool open_own(const Session* const session, SessionTexts* const texts, Bank** const opened)
{
    const EntryPick none = {ENTRY_KINDS, 0};
    const char* const given = *texts->of[TEXT_OWN] ? texts->of[TEXT_OWN] : texts->of[TEXT_UNREAD];
    Bank* const whole = open_with(session, given);
    char* const all = whole ? write_sessions(whole, NULL, 0, is_other, &none) : NULL;
    char* const own = all ? write_sessions(whole, NULL, 0, is_another, session->plain) : NULL;
    const bool as_given = own && !strcmp(own, all);
    *opened = as_given ? bank_hold(whole) : own ? open_with(session, own) : NULL;
    char* const unread = keep_unread(texts, !whole || complains_of_session(whole));
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

bool session_restore(Session* const session, SessionTexts* const texts)
{
    Bank* bank = NULL;
    if (!texts_whole(texts) || !open_own(session, texts, &bank)) {
        bank_free(bank);
        return false;
    }
    session_texts_clear(&session->texts);
    bank_free(session->bank);
    session->texts = *texts;
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
    return write_sessions(session->bank, picks, count, is_other, &none);
}

bool session_save(const Session* const session, const Used* const used, SessionTexts* const texts)
{
    EntryNames entry_names = {.count = 0};
    call_roll(session, used, &entry_names);
    texts->of[TEXT_OWN] = write_own(session, used);
    texts->of[TEXT_UNREAD] = strdup(session->texts.of[TEXT_UNREAD]);
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

// SPDX-License-Identifier: ISC
#include "session.h"

#include "roll.h"
#include "write_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char* const kind_words[ENTRY_KINDS] = {
    [ENTRY_HANDS] = "hands figure", [ENTRY_FEET] = "feet figure", [ENTRY_TURNAROUND] = "turnaround",
    [ENTRY_GROOVE] = "groove",      [ENTRY_KIT] = "kit map",
};

/* What plays where an entry is missing: groove.h's rule in words. */
static const char* const instead_words[ENTRY_KINDS] = {
    [ENTRY_HANDS] = "the groove's own hands play instead",
    [ENTRY_FEET] = "the groove's own feet play instead",
    [ENTRY_TURNAROUND] = "the groove's own turnaround plays instead",
    [ENTRY_GROOVE] = "the bank's first groove plays instead",
    [ENTRY_KIT] = "the bank's first kit map is used instead",
};

/* The texts one after the other. */
static char** text_of(SessionTexts* const texts, const int index)
{
    char** const rest[] = {&texts->own, &texts->unread, &texts->names};
    return index < FIGURE_KINDS ? &texts->drafts[index] : rest[index - FIGURE_KINDS];
}

enum { TEXTS = FIGURE_KINDS + 3 };

void session_texts_clear(SessionTexts* const texts)
{
    for (int i = 0; i < TEXTS; ++i) {
        free(*text_of(texts, i));
        *text_of(texts, i) = NULL;
    }
}

bool session_texts_empty(const SessionTexts* const texts)
{
    SessionTexts copy = *texts;
    bool empty = true;
    for (int i = 0; i < TEXTS; ++i) {
        const char* const text = *text_of(&copy, i);
        empty &= !text || !*text;
    }
    return empty;
}

/* Every text that is NULL becomes "". */
static bool fill_texts(SessionTexts* const texts)
{
    bool good = true;
    for (int i = 0; i < TEXTS; ++i) {
        char** const text = text_of(texts, i);
        *text = *text ? *text : strdup("");
        good &= *text != NULL;
    }
    return good;
}

bool session_init(Session* const session, const BankSources sources)
{
    *session = (Session){.sources = sources};
    session->bank = bank_open(sources);
    if (!fill_texts(&session->texts) || !session->bank) {
        session_clear(session);
        return false;
    }
    return true;
}

void session_clear(Session* const session)
{
    session_texts_clear(&session->texts);
    bank_free(session->bank);
    session->bank = NULL;
}

/* ---- Messages */

/* A text as it grows; frees itself where memory runs out. */
typedef struct {
    char* text;
    size_t length;
    bool failed;
} Messages;

static void say(Messages* const messages, const char* const a, const char* const b,
                const char* const c)
{
    const size_t more = strlen(a) + strlen(b) + strlen(c);
    char* const grown =
        messages->failed ? NULL : realloc(messages->text, messages->length + more + 1);
    if (!grown) {
        messages->failed = true;
        return;
    }
    messages->text = grown;
    snprintf(grown + messages->length, more + 1, "%s%s%s", a, b, c);
    messages->length += more;
}

static void say_complaints(Messages* const messages, const Complaints* const complaints)
{
    char more[64];
    say(messages, "", "", "");
    for (size_t i = 0; i < complaints->count; ++i) {
        say(messages, complaints->texts[i], "\n", "");
    }
    if (complaints->unkept) {
        snprintf(more, sizeof more, "and %zu more\n", complaints->unkept);
        say(messages, more, "", "");
    }
}

static void say_missing(Messages* const messages, const Session* const session)
{
    Roll roll = {.count = 0};
    roll_read(&roll, session->texts.names);
    for (int i = 0; i < roll.count; ++i) {
        const RollRow* const row = &roll.rows[i];
        if (!bank_info(session->bank, row->kind, row->id)) {
            char who[64];
            snprintf(who, sizeof who, "%s %u \"", kind_words[row->kind], row->id);
            say(messages, who, row->label, "\" is not in the bank; ");
            say(messages, instead_words[row->kind], "\n", "");
        }
    }
    roll_clear(&roll);
}

/* ---- Drafts */

static Single* read_draft(const FigureKind kind, const char* const text, const size_t size,
                          char why[SINGLE_WHY_ROOM])
{
    Single* single = single_read("/the draft", text, size, why);
    if (single && (int)single->kind != (int)kind) {
        snprintf(why, SINGLE_WHY_ROOM, "the draft is a %s; expected a %s", kind_words[single->kind],
                 kind_words[kind]);
    } else if (single && !single->info.id) {
        snprintf(why, SINGLE_WHY_ROOM,
                 "the draft has no fl:id; expected that of the figure in whose place it plays");
    } else {
        return single;
    }
    single_free(single);
    return NULL;
}

Stock* session_stock(const Session* const session)
{
    Messages messages = {.text = NULL};
    Drafts drafts = {.drafts = {NULL}};
    say_complaints(&messages, bank_complaints(session->bank));
    say_missing(&messages, session);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        char why[SINGLE_WHY_ROOM];
        const char* const text = session->texts.drafts[kind];
        drafts.drafts[kind] = *text ? read_draft((FigureKind)kind, text, strlen(text), why) : NULL;
        if (*text && !drafts.drafts[kind]) {
            say(&messages, "this session's draft can't be read, but is kept: ", why, "\n");
        }
    }
    if (messages.failed) {
        free(messages.text);
        messages.text = NULL;
    }
    return stock_make(session->bank, drafts, messages.text);
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
    free(session->texts.drafts[kind]);
    session->texts.drafts[kind] = kept;
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
static bool differs(const Bank* const bank, const EntryPick pick, const void* const context)
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
    const Complaints* const complaints = bank_complaints(bank);
    for (size_t i = 0; i < complaints->count; ++i) {
        if (!strncmp(complaints->texts[i], "this session:", strlen("this session:"))) {
            return true;
        }
    }
    return complaints->unkept > 0;
}

static Bank* open_with(const Session* const session, const char* const own)
{
    return bank_open_session(session->sources, *own ? own : NULL);
}

bool session_reopen(Session* const session, const EntryKind kind, const uint32_t id)
{
    const EntryPick saved = {kind, id};
    char* const own = write_sessions(session->bank, NULL, 0, is_other, &saved);
    Bank* const bank = own ? open_with(session, own) : NULL;
    if (!bank) {
        free(own);
        return false;
    }
    free(session->texts.own);
    session->texts.own = own;
    bank_free(session->bank);
    session->bank = bank;
    return true;
}

/* Leaves of the session's entries those that its user's file hasn't, or has
   otherwise; the bank with them.  A text that can't be read whole is kept as it
   came, and tried where there is no better one. */
static bool open_own(const Session* const session, SessionTexts* const texts, Bank** const opened)
{
    const char* const all = *texts->own ? texts->own : texts->unread;
    Bank* const plain = bank_open(session->sources);
    Bank* const whole = plain ? bank_open_session(session->sources, all) : NULL;
    char* const own = whole ? write_sessions(whole, NULL, 0, differs, plain) : NULL;
    *opened = own ? (*own ? open_with(session, own) : bank_hold(plain)) : NULL;
    char* const unread = whole && !complains_of_session(whole) ? strdup("") : strdup(all);
    const bool good = *opened && own && unread;
    if (good) {
        if (!*texts->unread || !*texts->own) {
            free(texts->unread);
            texts->unread = unread;
        } else {
            free(unread);
        }
        free(texts->own);
        texts->own = own;
    } else {
        free(unread);
        free(own);
    }
    bank_free(whole);
    bank_free(plain);
    return good;
}

bool session_restore(Session* const session, SessionTexts* const texts)
{
    Bank* bank = NULL;
    bool good = fill_texts(texts);
    const bool had_own = *session->texts.own;
    if (good && !*texts->own && !*texts->unread && !had_own) {
        bank = bank_hold(session->bank);
    } else if (good) {
        good = open_own(session, texts, &bank);
    }
    if (!good) {
        bank_free(bank);
        return false;
    }
    session_texts_clear(&session->texts);
    bank_free(session->bank);
    session->texts = *texts;
    session->bank = bank;
    *texts = (SessionTexts){.own = NULL};
    return true;
}

/* ---- Saving */

/* The names of what is played now, and those that were missing before. */
static void call_roll(const Session* const session, const Used* const used, Roll* const roll)
{
    Roll before = {.count = 0};
    roll_read(&before, session->texts.names);
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const EntryInfo* const info = bank_info(session->bank, (EntryKind)kind, used->ids[kind]);
        if (info) {
            roll_add(roll, (EntryKind)kind, info->id, info->label, info->uri);
        }
    }
    for (int i = 0; i < before.count; ++i) {
        const RollRow* const row = &before.rows[i];
        const bool wanted = !used->settled || used->ids[row->kind] == row->id;
        if (wanted && !bank_info(session->bank, row->kind, row->id)) {
            roll_add(roll, row->kind, row->id, row->label, row->uri);
        }
    }
    roll_clear(&before);
}

/* The user's own entries that are played, and all that came with the session. */
static char* write_own(const Session* const session, const Used* const used)
{
    EntryPick picks[ENTRY_KINDS];
    size_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        if (used->ids[kind] >= BANK_USERS_FIRST_ID) {
            picks[count++] = (EntryPick){(EntryKind)kind, used->ids[kind]};
        }
    }
    const EntryPick none = {ENTRY_KINDS, 0};
    return write_sessions(session->bank, picks, count, is_other, &none);
}

bool session_save(const Session* const session, const Used* const used, SessionTexts* const texts)
{
    Roll roll = {.count = 0};
    call_roll(session, used, &roll);
    *texts = (SessionTexts){.own = write_own(session, used),
                            .unread = strdup(session->texts.unread),
                            .names = roll_write(&roll)};
    roll_clear(&roll);
    bool good = texts->own && texts->unread && texts->names;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        texts->drafts[kind] = strdup(session->texts.drafts[kind]);
        good &= texts->drafts[kind] != NULL;
    }
    if (!good) {
        session_texts_clear(texts);
    }
    return good;
}

uint32_t session_least_id(const Session* const session)
{
    uint32_t highest = BANK_USERS_FIRST_ID - 1;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const uint32_t count = bank_count(session->bank, (EntryKind)kind);
        const uint32_t last = count ? bank_entry(session->bank, (EntryKind)kind, count - 1)->id : 0;
        highest = last > highest ? last : highest;
    }
    Roll roll = {.count = 0};
    roll_read(&roll, session->texts.names);
    for (int i = 0; i < roll.count; ++i) {
        highest = roll.rows[i].id > highest ? roll.rows[i].id : highest;
    }
    roll_clear(&roll);
    return highest + 1;
}

// SPDX-License-Identifier: ISC
#include "bank.h"

#include "bounds.h"
#include "compiled.h"
#include "shared.h"
#include "stamp.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PATH_ROOM = 4096 };

/* Reads a folder, or lies over the bank of one and has all of that too. */
struct Bank {
    Shared shared; /* first */
    Bank* under;   /* the factory's; NULL: this is it */
    char* text;    /* of a session, "" for none */
    size_t text_length;
    Diagnostics diagnostics;      /* those from under it included */
    Table read[ENTRY_KINDS];      /* here, owned */
    Table merged[ENTRY_KINDS];    /* with those from under it, owned; none where either is all */
    Entries entries[ENTRY_KINDS]; /* all there are */
    Described* described;         /* owned */
    DescribedList to_others;      /* what is described, for those that lie over it */
    Library library;
};

/* ---- Files */

static int is_turtle(const struct dirent* const entry)
{
    return turtle_is_file(entry->d_name);
}

static const char* name_in_folder(const char* const path)
{
    const char* const slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* Some files of a folder, if there is room for one more. */
static void read_files(Bank* const bank, Turtle* const turtle, const char* const folder,
                       struct dirent* const* const files, const int count,
                       const char* const instead)
{
    for (int i = 0; i < count; ++i) {
        char path[PATH_ROOM];
        const bool is_replaced = instead && !strcmp(files[i]->d_name, name_in_folder(instead));
        const int length = is_replaced
                               ? snprintf(path, sizeof path, "%s", instead)
                               : snprintf(path, sizeof path, "%s/%s", folder, files[i]->d_name);
        if (length >= PATH_ROOM) {
            diagnostics_add(&bank->diagnostics, "%s: its name is too long", files[i]->d_name);
        } else if (turtle_is_full(turtle)) {
            diagnostics_add_first(
                &bank->diagnostics,
                "%s: is left out, and all files behind it in order of name, %d in all: "
                "a bank holds %d files and %d statements at most; put entries together "
                "into fewer files, or move some away",
                path, count - i, FILES_MOST, STATEMENTS_MOST);
            return;
        } else {
            turtle_read(turtle, path, &bank->diagnostics);
        }
    }
}

/* False if the folder holds no Turtle at all. */
static bool read_folder(Bank* const bank, Turtle* const turtle, const char* const folder,
                        const char* const instead)
{
    struct dirent** files = NULL;
    errno = 0;
    const int count = scandir(folder, &files, is_turtle, alphasort);
    if (count < 0 && errno == ENOMEM) {
        turtle_fail(turtle);
    }
    read_files(bank, turtle, folder, files, count, instead);
    for (int i = 0; i < count; ++i) {
        free(files[i]);
    }
    free(files);
    return count > 0;
}

/* serd wants whole paths. */
static void read_file(Bank* const bank, Turtle* const turtle, const char* const file)
{
    char* const path = realpath(file, NULL);
    if (path) {
        turtle_read(turtle, path, &bank->diagnostics);
    } else {
        diagnostics_add(&bank->diagnostics, "%s: there is no such file", file);
    }
    free(path);
}

/* What a session and its user have. */
static void read_over(Bank* const bank, Turtle* const turtle, const BankSources sources,
                      const char* const text)
{
    if (text) {
        turtle_read_text(turtle, "/this session", text, strlen(text), &bank->diagnostics);
    }
    if (sources.users) {
        read_folder(bank, turtle, sources.users, NULL);
    }
    if (sources.file) {
        read_file(bank, turtle, sources.file);
    }
}

/* With a file, if there is one, in the place of its own of that name. */
static void read_factory(Bank* const bank, Turtle* const turtle, const BankSources sources)
{
    char* const instead = sources.file ? realpath(sources.file, NULL) : NULL;
    if (!read_folder(bank, turtle, sources.factory, instead)) {
        diagnostics_add(&bank->diagnostics,
                        "%s: there is no bank here; expected a folder of .ttl files",
                        sources.factory);
    }
    free(instead);
}

/* ---- One bank of what was read */

static Library make_library(const Entries entries[ENTRY_KINDS])
{
    Library library = {
        .grooves = (const Groove*)entries[ENTRY_GROOVE].values,
        .groove_count = entries[ENTRY_GROOVE].count,
        .kits = (const Kit*)entries[ENTRY_KIT].values,
        .kit_count = entries[ENTRY_KIT].count,
    };
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        library.figures[kind] = (const Figure*)entries[kind].values;
        library.figure_counts[kind] = entries[kind].count;
    }
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        library.successors[kind] = entries[kind].left;
    }
    return library;
}

/* All entries there are of a kind, in one list. */
static bool merge(Bank* const bank, const EntryKind kind, const bool anew)
{
    const Entries read = entries_of(&bank->read[kind]);
    const Entries* const under = bank->under ? &bank->under->entries[kind] : NULL;
    const bool both = under && under->count && (read.count || anew);
    const bool good = !both || entries_merge(under, &read, kind, &bank->merged[kind]);
    bank->entries[kind] = both                   ? entries_of(&bank->merged[kind])
                          : under && !read.count ? *under
                                                 : read;
    if (under) { /* only the factory's leave */
        bank->entries[kind].left = under->left;
        bank->entries[kind].left_by_uri = under->left_by_uri;
    }
    return good;
}

/* Grooves point to the figures of the lists that they stand beside: where those are others
   than the factory's, so are its grooves. */
static bool merge_all(Bank* const bank)
{
    bool good = true;
    bool anew = false;
    for (int kind = 0; good && kind < ENTRY_KINDS; ++kind) {
        good = merge(bank, (EntryKind)kind, anew && kind == ENTRY_GROOVE);
        anew = anew || bank->merged[kind].values;
    }
    bank->library = make_library(bank->entries);
    if (good && bank->merged[ENTRY_GROOVE].values) {
        library_join(&bank->library, (Groove*)bank->merged[ENTRY_GROOVE].values);
    }
    return good;
}

static Bank* new_bank(Bank* const under, const char* const text)
{
    Bank* const bank = calloc(1, sizeof(Bank));
    if (!bank) {
        return NULL;
    }
    bank->shared.holders = 1;
    bank->under = under ? bank_hold(under) : NULL;
    bank->text = strdup(text ? text : "");
    bank->text_length = text ? strlen(text) : 0;
    if (!bank->text || (under && !diagnostics_copy(&under->diagnostics, &bank->diagnostics))) {
        bank_free(bank);
        return NULL;
    }
    return bank;
}

/* What lies over others needs no list of what it describes. */
static bool describe(Bank* const bank, Turtle* const turtle)
{
    return bank->under || turtle_described(turtle, &bank->described, &bank->to_others);
}

static bool read_all(Bank* const bank, Turtle* const turtle, const BankSources sources,
                     const char* const text)
{
    const EntryReading reading = {turtle, &bank->diagnostics, bank->read,
                                  bank->under ? bank->under->entries : NULL, text};
    if (bank->under) {
        turtle_over(turtle, &bank->under->to_others);
        read_over(bank, turtle, sources, text);
    } else {
        read_factory(bank, turtle, sources);
    }
    return read_entries(&reading) && describe(bank, turtle) && merge_all(bank);
}

EntryReading bank_reading(const Bank* const bank)
{
    const Entries* const under = bank->under ? bank->under->entries : bank->entries;
    return (EntryReading){.tables = (Table*)(uintptr_t)bank->read, .under = under};
}

/* A factory's bank, or, over one, what else the sources have. */
static Bank* read_bank(Bank* const under, const BankSources sources, const char* const text)
{
    Turtle* const turtle = turtle_new();
    Bank* bank = turtle ? new_bank(under, text) : NULL;
    if (bank && !read_all(bank, turtle, sources, text)) {
        bank_free(bank);
        bank = NULL;
    }
    turtle_free(turtle);
    return bank;
}

/* The factory's as the build has read it. */
static Bank* take_compiled(void)
{
    Bank* const bank = new_bank(NULL, NULL);
    if (bank) {
        memcpy(bank->entries, compiled_factory.entries, sizeof bank->entries);
        bank->to_others = compiled_factory.described;
        bank->library = make_library(bank->entries);
    }
    return bank;
}

/* ---- Opening */

/* Puts a bank among those that are shared; NULL, and it is freed, if there is no memory. */
static Bank* share(Bank* const bank, const SharedKey* const key)
{
    Bank* const held = bank ? (Bank*)shared_put(&bank->shared, key) : NULL;
    if (held != bank) {
        bank_free(bank);
    }
    return held;
}

static Bank* open_factory(const char* const folder)
{
    const SharedKey key = {folder, "", stamp_folder(folder)};
    Bank* const held = (Bank*)shared_find(&key);
    if (held) {
        return held;
    }
    const bool is_compiled =
        compiled_factory.contents && stamp_contents(folder) == compiled_factory.contents;
    const BankSources sources = {.factory = folder};
    return share(is_compiled ? take_compiled() : read_bank(NULL, sources, NULL), &key);
}

/* The user's over the factory's; the factory's where there are none. */
static Bank* open_users(Bank* const factory, const BankSources sources)
{
    const uint64_t stamp = stamp_folder(sources.users);
    const SharedKey key = {sources.factory, sources.users,
                           stamp ^ factory->shared.key.stamp * UINT64_C(0x9E3779B97F4A7C15)};
    Bank* const held = stamp ? (Bank*)shared_find(&key) : bank_hold(factory);
    return held ? held : share(read_bank(factory, sources, NULL), &key);
}

Bank* bank_open_session(const BankSources sources, const char* const text)
{
    Bank* const factory = open_factory(sources.factory);
    if (!factory) {
        return NULL;
    }
    Bank* const bank = text || sources.file ? read_bank(factory, sources, text)
                       : sources.users      ? open_users(factory, sources)
                                            : bank_hold(factory);
    bank_free(factory);
    return bank;
}

Bank* bank_open(const BankSources sources)
{
    return bank_open_session(sources, NULL);
}

Bank* bank_beside(Bank* const bank, const char* const text)
{
    Bank* const factory = bank->under ? bank->under : bank;
    const BankSources none = {NULL, NULL, NULL};
    return *text ? read_bank(factory, none, text) : bank_hold(factory);
}

Bank* bank_open_in_place(const char* const factory, const char* const file)
{
    return read_bank(NULL, (BankSources){.factory = factory, .file = file}, NULL);
}

Bank* bank_open_bundle(const char* const bundle, const char* const text)
{
    char factory[PATH_ROOM];
    char users[BANK_FOLDER_ROOM];
    const int length = snprintf(factory, sizeof factory, "%s/bank", bundle);
    const BankSources sources = {factory, bank_users_folder(users) ? users : NULL, NULL};
    return length > 0 && length < PATH_ROOM ? bank_open_session(sources, *text ? text : NULL)
                                            : NULL;
}

Bank* bank_hold(Bank* const bank)
{
    shared_hold(&bank->shared);
    return bank;
}

void bank_free(Bank* const bank)
{
    if (!bank || !shared_drop(&bank->shared)) {
        return;
    }
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        entries_free(&bank->read[kind], (EntryKind)kind);
        free(bank->merged[kind].infos);
        free(bank->merged[kind].values);
    }
    diagnostics_clear(&bank->diagnostics);
    bank_free(bank->under);
    free(bank->described);
    free(bank->text);
    free(bank);
}

/* ---- Asking */

const Library* bank_library(const Bank* const bank)
{
    return &bank->library;
}

const char* bank_text(const Bank* const bank, size_t* const length)
{
    *length = bank->text_length;
    return bank->text;
}

const Diagnostics* bank_diagnostics(const Bank* const bank)
{
    return &bank->diagnostics;
}

uint32_t bank_count(const Bank* const bank, const EntryKind kind)
{
    return bank->entries[kind].count;
}

const EntryInfo* bank_entry(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    return &bank->entries[kind].infos[index];
}

const Entries* bank_entries(const Bank* const bank, const EntryKind kind)
{
    return &bank->entries[kind];
}

const DescribedList* bank_described(const Bank* const bank)
{
    return &bank->to_others;
}

const EntryInfo* bank_info(const Bank* const bank, const EntryKind kind, const uint32_t id)
{
    return entries_info(&bank->entries[kind], id);
}

const void* bank_value(const Bank* const bank, const EntryKind kind, const uint32_t id)
{
    const Entries* const entries = &bank->entries[kind];
    const EntryInfo* const info = entries_info(entries, id);
    return info ? (const char*)entries->values + (size_t)(info - entries->infos) * entry_size(kind)
                : NULL;
}

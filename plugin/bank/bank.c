// SPDX-License-Identifier: ISC
#include "bank.h"

#include "bounds.h"
#include "entries.h"
#include "names.h"

#include <dirent.h>
#include <errno.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PATH_ROOM = 4096 };

struct Bank {
    atomic_uint holders;
    Turtle* turtle;
    unsigned factory_files; /* files from here on are the user's */
    bool has_text;          /* the first of which is a session's text */
    char* text;
    size_t text_length;
    Diagnostics diagnostics;
    Table tables[ENTRY_KINDS];
    Library library;
};

/* A subject of the kind, before it is read. */
typedef struct {
    const SordNode* node;
    uint32_t id;
    unsigned file;
} Candidate;

typedef struct {
    const char* class_name;
    size_t value_size;
    EntryReader read;
} KindRow;

/* In the order of reading: grooves point to figures. */
static const KindRow kinds[ENTRY_KINDS] = {
    [ENTRY_HANDS] = {"HandsFigure", sizeof(Figure), read_hands},
    [ENTRY_FEET] = {"FeetFigure", sizeof(Figure), read_feet},
    [ENTRY_TURNAROUND] = {"Turnaround", sizeof(Figure), read_turnaround},
    [ENTRY_GROOVE] = {"Groove", sizeof(Groove), read_groove},
    [ENTRY_KIT] = {"Kit", sizeof(Kit), read_kit},
};

static int by_id(const void* const a, const void* const b)
{
    const Candidate left = *(const Candidate*)a;
    const Candidate right = *(const Candidate*)b;
    const int by_file = (left.file > right.file) - (left.file < right.file);
    return left.id == right.id ? by_file : left.id < right.id ? -1 : 1;
}

static uint32_t count_subjects(const Turtle* const turtle, const SordNode* const type,
                               const SordNode* const class)
{
    uint32_t count = 0;
    SordIter* const found = turtle_find(turtle, NULL, type, class);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        ++count;
    }
    sord_iter_free(found);
    return count;
}

/* Every subject of a class with its id, in order of id.  *count says how many;
   the caller frees. */
static Candidate* find_candidates(Bank* const bank, const char* const class_name,
                                  uint32_t* const count)
{
    Turtle* const turtle = bank->turtle;
    char uri[128];
    snprintf(uri, sizeof uri, FL_TERMS "%s", class_name);
    const SordNode* const type = turtle_uri(turtle, RDF_NS "type");
    const SordNode* const class = turtle_uri(turtle, uri);
    Candidate* const candidates =
        calloc(count_subjects(turtle, type, class) + 1, sizeof(Candidate));
    *count = 0;
    if (!candidates) {
        return NULL;
    }
    SordIter* const found = turtle_find(turtle, NULL, type, class);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const node = sord_iter_get_node(found, SORD_SUBJECT);
        Subject subject = {turtle, &bank->diagnostics, node, false};
        const int64_t id = field_integer(&subject, "id", ID_LEAST, ID_MOST, 0);
        if (!subject.failed) {
            candidates[(*count)++] = (Candidate){node, (uint32_t)id, turtle_file_of(turtle, node)};
        }
    }
    sord_iter_free(found);
    qsort(candidates, *count, sizeof(Candidate), by_id);
    return candidates;
}

static void read_entry(Bank* const bank, const EntryKind kind, const Candidate candidate)
{
    Table* const table = &bank->tables[kind];
    Subject subject = {bank->turtle, &bank->diagnostics, candidate.node, false};
    void* const value = (char*)table->values + table->count * table->value_size;
    if (table->count && table->infos[table->count - 1].id == candidate.id) {
        field_wrong(&subject, "id", "%u is already that of %s", candidate.id,
                    table->infos[table->count - 1].name);
        return;
    }
    const bool is_users = candidate.file >= bank->factory_files;
    if (is_users && candidate.id < ID_FIRST_OWN) {
        field_wrong(&subject, "id", "%u: ids below %d are the factory's; expected one from %d on",
                    candidate.id, ID_FIRST_OWN, ID_FIRST_OWN);
        return;
    }
    EntryInfo info = read_info(&subject, candidate.id, is_users, true);
    const bool told = !subject.failed;
    if (!kinds[kind].read(&subject, bank->tables, candidate.id, value)) {
        free_info(&info);
        return;
    }
    if (!told) {
        if (kind <= ENTRY_TURNAROUND) {
            free_figure(value);
        }
        free_info(&info);
        return;
    }
    info.is_sessions = bank->has_text && candidate.file == bank->factory_files;
    table->infos[table->count++] = info;
}

static int by_uri(const void* const a, const void* const b)
{
    return strcmp(((const Named*)a)->uri, ((const Named*)b)->uri);
}

/* Grooves name figures by their URIs. */
static bool index_uris(Table* const table)
{
    table->by_uri = calloc(table->count + 1, sizeof(Named));
    for (uint32_t i = 0; table->by_uri && i < table->count; ++i) {
        table->by_uri[i] = (Named){table->infos[i].uri, i};
    }
    if (table->by_uri) {
        qsort(table->by_uri, table->count, sizeof(Named), by_uri);
    }
    return table->by_uri;
}

static bool read_kind(Bank* const bank, const EntryKind kind)
{
    uint32_t count = 0;
    Candidate* const candidates = find_candidates(bank, kinds[kind].class_name, &count);
    Table* const table = &bank->tables[kind];
    table->value_size = kinds[kind].value_size;
    table->infos = calloc(count + 1, sizeof(EntryInfo));
    table->values = calloc(count + 1, table->value_size);
    const bool good = candidates && table->infos && table->values;
    for (uint32_t i = 0; good && turtle_is_whole(bank->turtle) && i < count; ++i) {
        read_entry(bank, kind, candidates[i]);
    }
    free(candidates);
    return good && turtle_is_whole(bank->turtle) && index_uris(table);
}

static int is_turtle(const struct dirent* const entry)
{
    const char* const dot = strrchr(entry->d_name, '.');
    return dot && dot != entry->d_name && !strcmp(dot, ".ttl");
}

/* Some files of a folder, if there is room for one more. */
static void read_files(Bank* const bank, const char* const folder,
                       struct dirent* const* const files, const int count)
{
    for (int i = 0; i < count; ++i) {
        char path[PATH_ROOM];
        const int length = snprintf(path, sizeof path, "%s/%s", folder, files[i]->d_name);
        if (length >= PATH_ROOM) {
            diagnostics_add(&bank->diagnostics, "%s: its name is too long", files[i]->d_name);
        } else if (turtle_is_full(bank->turtle)) {
            diagnostics_add_first(
                &bank->diagnostics,
                "%s: is left out, and all files behind it in order of name, %d in all: "
                "a bank holds %d files and %d statements at most; put entries together "
                "into fewer files, or move some away",
                path, count - i, FILES_MOST, STATEMENTS_MOST);
            return;
        } else {
            turtle_read(bank->turtle, path, &bank->diagnostics);
        }
    }
}

/* False if the folder holds no Turtle at all. */
static bool read_folder(Bank* const bank, const char* const folder)
{
    struct dirent** files = NULL;
    errno = 0;
    const int count = scandir(folder, &files, is_turtle, alphasort);
    if (count < 0 && errno == ENOMEM) {
        turtle_fail(bank->turtle);
    }
    read_files(bank, folder, files, count);
    for (int i = 0; i < count; ++i) {
        free(files[i]);
    }
    free(files);
    return count > 0;
}

/* serd wants whole paths. */
static void read_file(Bank* const bank, const char* const file)
{
    char* const path = realpath(file, NULL);
    if (path) {
        turtle_read(bank->turtle, path, &bank->diagnostics);
    } else {
        diagnostics_add(&bank->diagnostics, "%s: there is no such file", file);
    }
    free(path);
}

static void read_sources(Bank* const bank, const BankSources sources, const char* const text)
{
    if (!read_folder(bank, sources.factory)) {
        diagnostics_add(&bank->diagnostics,
                        "%s: there is no bank here; expected a folder of .ttl files",
                        sources.factory);
    }
    bank->factory_files = turtle_file_count(bank->turtle);
    bank->has_text = text;
    if (text) {
        turtle_read_text(bank->turtle, "/this session", text, strlen(text), &bank->diagnostics);
    }
    if (sources.users) {
        read_folder(bank, sources.users);
    }
    if (sources.file) {
        read_file(bank, sources.file);
    }
}

bool bank_users_folder(char folder[BANK_FOLDER_ROOM])
{
    const char* const data = getenv("XDG_DATA_HOME");
    const char* const home = getenv("HOME");
    const bool has_data = data && *data == '/'; /* others the specification ignores */
    if (!has_data && !home) {
        return false;
    }
    const int length = has_data
                           ? snprintf(folder, BANK_FOLDER_ROOM, "%s/fourlimb", data)
                           : snprintf(folder, BANK_FOLDER_ROOM, "%s/.local/share/fourlimb", home);
    return length > 0 && length < BANK_FOLDER_ROOM;
}

static Library make_library(const Table tables[ENTRY_KINDS])
{
    Library library = {
        .grooves = (const Groove*)tables[ENTRY_GROOVE].values,
        .groove_count = tables[ENTRY_GROOVE].count,
        .kits = (const Kit*)tables[ENTRY_KIT].values,
        .kit_count = tables[ENTRY_KIT].count,
    };
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        library.figures[kind] = (const Figure*)tables[kind].values;
        library.figure_counts[kind] = tables[kind].count;
    }
    return library;
}

Bank* bank_open(const BankSources sources)
{
    return bank_open_session(sources, NULL);
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

Bank* bank_open_session(const BankSources sources, const char* const text)
{
    Bank* const bank = calloc(1, sizeof(Bank));
    if (!bank) {
        return NULL;
    }
    atomic_init(&bank->holders, 1);
    bank->turtle = turtle_new();
    bank->text = strdup(text ? text : "");
    bank->text_length = text ? strlen(text) : 0;
    bool good = bank->turtle && bank->text;
    if (good) {
        read_sources(bank, sources, text);
        good = turtle_is_whole(bank->turtle);
    }
    for (int kind = 0; good && kind < ENTRY_KINDS; ++kind) {
        good = read_kind(bank, (EntryKind)kind);
    }
    turtle_free(bank->turtle);
    bank->turtle = NULL;
    if (!good) {
        bank_free(bank);
        return NULL;
    }
    bank->library = make_library(bank->tables);
    return bank;
}

static void free_table(Table* const table, const bool figures)
{
    for (uint32_t i = 0; i < table->count; ++i) {
        free_info(&table->infos[i]);
        if (figures) {
            free_figure((Figure*)table->values + i);
        }
    }
    free(table->infos);
    free(table->values);
    free(table->by_uri);
}

Bank* bank_hold(Bank* const bank)
{
    atomic_fetch_add(&bank->holders, 1);
    return bank;
}

void bank_free(Bank* const bank)
{
    if (!bank || atomic_fetch_sub(&bank->holders, 1) > 1) {
        return;
    }
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        free_table(&bank->tables[kind], kind <= ENTRY_TURNAROUND);
    }
    diagnostics_clear(&bank->diagnostics);
    free(bank->text);
    free(bank);
}

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
    return bank->tables[kind].count;
}

const EntryInfo* bank_entry(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    return &bank->tables[kind].infos[index];
}

static int id_and_info(const void* const key, const void* const info)
{
    const uint32_t id = *(const uint32_t*)key;
    const uint32_t other = ((const EntryInfo*)info)->id;
    return (id > other) - (id < other);
}

const EntryInfo* bank_info(const Bank* const bank, const EntryKind kind, const uint32_t id)
{
    const Table* const table = &bank->tables[kind];
    return bsearch(&id, table->infos, table->count, sizeof(EntryInfo), id_and_info);
}

const void* table_value(const Table* const table, const char* const uri)
{
    const Named key = {uri, 0};
    const Named* const found =
        table->by_uri ? bsearch(&key, table->by_uri, table->count, sizeof(Named), by_uri) : NULL;
    return found ? (const char*)table->values + found->index * table->value_size : NULL;
}

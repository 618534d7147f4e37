// SPDX-License-Identifier: ISC
#include "entries.h"

#include <stdio.h>
#include <stdlib.h>

/* A subject of the kind, before it is read. */
typedef struct {
    const SordNode* node;
    uint32_t id;
    unsigned file;
} Candidate;

#define READER(NAME, name, class, Type, type, ...) [ENTRY_##NAME] = read_##type,
static const EntryReader readers[ENTRY_KINDS] = {ENTRY_KIND_ROWS(READER)};
#undef READER

bool read_entry(Subject* const subject, const EntryReading* const reading, const EntryKind kind,
                const uint32_t id, void* const value)
{
    return readers[kind](subject, reading, kind, id, value);
}

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
static Candidate* find_candidates(const EntryReading* const reading, const char* const class_name,
                                  uint32_t* const count)
{
    Turtle* const turtle = reading->turtle;
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
        Subject subject = {turtle, reading->diagnostics, node, false};
        const int64_t id = field_integer(&subject, "id", ID_LEAST, ID_MOST, 0);
        if (!subject.failed) {
            candidates[(*count)++] = (Candidate){node, (uint32_t)id, turtle_file_of(turtle, node)};
        }
    }
    sord_iter_free(found);
    qsort(candidates, *count, sizeof(Candidate), by_id);
    return candidates;
}

/* The one that has the id already, or NULL. */
static const EntryInfo* owner_of(const EntryReading* const reading, const EntryKind kind,
                                 const uint32_t id)
{
    const Table* const table = &reading->tables[kind];
    const EntryInfo* const last = table->count ? &table->infos[table->count - 1] : NULL;
    return last && last->id == id ? last
           : reading->under       ? entries_info(&reading->under[kind], id)
                                  : NULL;
}

/* What is over the factory's is the user's. */
static bool may_have(const EntryReading* const reading, const EntryKind kind, const uint32_t id,
                     Subject* const subject)
{
    const EntryInfo* const owner = owner_of(reading, kind, id);
    if (reading->under && id < ID_FIRST_OWN) {
        field_wrong(subject, "id", "%u: ids below %d are the factory's; expected one from %d on",
                    id, ID_FIRST_OWN, ID_FIRST_OWN);
    } else if (owner) {
        field_wrong(subject, "id", "%u is already that of %s", id, owner->name);
    }
    return !subject->failed;
}

static void take_entry(const EntryReading* const reading, const EntryKind kind,
                       const Candidate candidate)
{
    Table* const table = &reading->tables[kind];
    Subject subject = {reading->turtle, reading->diagnostics, candidate.node, false};
    void* const value = (char*)table->values + table->count * entry_size(kind);
    if (!may_have(reading, kind, candidate.id, &subject)) {
        return;
    }
    EntryInfo info = read_info(&subject, candidate.id, reading->under, true);
    const bool told = !subject.failed;
    if (!read_entry(&subject, reading, kind, candidate.id, value)) {
        read_info_free(&info);
        return;
    }
    if (!told) {
        if (kind < (EntryKind)FIGURE_KINDS) {
            read_figure_free(value);
        }
        read_info_free(&info);
        return;
    }
    info.is_sessions = reading->has_text && candidate.file == 0;
    table->infos[table->count++] = info;
}

/* Those that left, after all that are there. */
static bool take_left(const EntryReading* const reading, const EntryKind kind,
                      const Candidate* const candidates, const uint32_t count)
{
    Table* const table = &reading->tables[kind];
    uint32_t room = 0;
    for (uint32_t i = 0; i < count; ++i) {
        room += read_left_is(reading->turtle, candidates[i].node);
    }
    if (room && !read_left_begin(table, room)) {
        return false;
    }
    for (uint32_t i = 0; room && i < count; ++i) {
        if (read_left_is(reading->turtle, candidates[i].node)) {
            read_left(reading, kind, candidates[i].node, candidates[i].id);
        }
    }
    read_left_end(table);
    return turtle_is_whole(reading->turtle);
}

static bool read_kind(const EntryReading* const reading, const EntryKind kind)
{
    uint32_t count = 0;
    Candidate* const candidates = find_candidates(reading, kind_rows[kind].class_name, &count);
    Table* const table = &reading->tables[kind];
    bool good = candidates && entries_make(table, kind, count);
    for (uint32_t i = 0; good && turtle_is_whole(reading->turtle) && i < count; ++i) {
        if (!read_left_is(reading->turtle, candidates[i].node)) {
            take_entry(reading, kind, candidates[i]);
        }
    }
    good = good && turtle_is_whole(reading->turtle) && entries_index(table) &&
           take_left(reading, kind, candidates, count);
    free(candidates);
    return good;
}

bool read_entries(const EntryReading* const reading)
{
    bool good = turtle_is_whole(reading->turtle);
    for (int kind = 0; good && kind < ENTRY_KINDS; ++kind) {
        good = read_kind(reading, (EntryKind)kind);
    }
    return good;
}

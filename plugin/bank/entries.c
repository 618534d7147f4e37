// SPDX-License-Identifier: ISC
#include "entries.h"

#include <stdlib.h>
#include <string.h>

#define SIZE(NAME, name, class, Type, ...) [ENTRY_##NAME] = sizeof(Type),
static const size_t sizes[ENTRY_KINDS] = {ENTRY_KIND_ROWS(SIZE)};
#undef SIZE

size_t entry_size(const EntryKind kind)
{
    return sizes[kind];
}

static int by_uri(const void* const a, const void* const b)
{
    return strcmp(((const Named*)a)->uri, ((const Named*)b)->uri);
}

bool entries_index(Table* const table)
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

bool entries_make(Table* const table, const EntryKind kind, const uint32_t room)
{
    table->infos = calloc(room + 1, sizeof(EntryInfo));
    table->values = calloc(room + 1, sizes[kind]);
    return table->infos && table->values;
}

static void free_left(Table* const table)
{
    for (uint32_t i = 0; i < table->left_count; ++i) {
        free((void*)(uintptr_t)table->left_by_uri[i].uri); /* made by strdup */
    }
    free(table->left_by_uri);
    free(table->left);
}

void entries_free(Table* const table, const EntryKind kind)
{
    for (uint32_t i = 0; i < table->count; ++i) {
        read_info_free(&table->infos[i]);
        if (kind < (EntryKind)FIGURE_KINDS) {
            read_figure_free((Figure*)table->values + i);
        }
    }
    free(table->infos);
    free(table->values);
    free(table->by_uri);
    free_left(table);
}

Entries entries_of(const Table* const table)
{
    return (Entries){table->infos,
                     table->values,
                     table->by_uri,
                     table->count,
                     {table->left, table->left_count},
                     table->left_by_uri};
}

bool entries_merge(const Entries* const a, const Entries* const b, const EntryKind kind,
                   Table* const merged)
{
    const size_t size = sizes[kind];
    const uint32_t count = a->count + b->count;
    char* const values = calloc(count, size);
    *merged = (Table){.infos = calloc(count, sizeof(EntryInfo)), .values = values, .count = count};
    uint32_t at_a = 0;
    for (uint32_t at_b = 0; merged->infos && values && at_a + at_b < count;) {
        const uint32_t i = at_a + at_b;
        const bool is_a =
            at_b == b->count || (at_a < a->count && a->infos[at_a].id < b->infos[at_b].id);
        const Entries* const from = is_a ? a : b;
        const uint32_t at = is_a ? at_a++ : at_b++;
        merged->infos[i] = from->infos[at];
        memcpy(values + i * size, (const char*)from->values + at * size, size);
    }
    return merged->infos && values;
}

static int id_and_info(const void* const key, const void* const info)
{
    const uint32_t id = *(const uint32_t*)key;
    const uint32_t other = ((const EntryInfo*)info)->id;
    return (id > other) - (id < other);
}

static const EntryInfo* with_id(const Entries* const entries, const uint32_t id)
{
    return entries->count
               ? bsearch(&id, entries->infos, entries->count, sizeof(EntryInfo), id_and_info)
               : NULL;
}

static int id_and_successor(const void* const key, const void* const successor)
{
    const uint32_t id = *(const uint32_t*)key;
    const uint32_t other = ((const Successor*)successor)->id;
    return (id > other) - (id < other);
}

const EntryInfo* entries_info(const Entries* const entries, const uint32_t id)
{
    const EntryInfo* const info = with_id(entries, id);
    const Successors left = entries->left;
    const Successor* const successor =
        info || !left.count
            ? NULL
            : bsearch(&id, left.rows, left.count, sizeof(Successor), id_and_successor);
    return successor ? with_id(entries, successor->by) : info;
}

static const Named* named(const Named* const rows, const uint32_t count, const char* const uri)
{
    const Named key = {uri, 0};
    return rows && count ? bsearch(&key, rows, count, sizeof(Named), by_uri) : NULL;
}

static const void* find_named(const Entries* const entries, const EntryKind kind,
                              const char* const uri)
{
    const Named* const found = named(entries->by_uri, entries->count, uri);
    const Named* const left = found ? NULL : named(entries->left_by_uri, entries->left.count, uri);
    const EntryInfo* const in_place =
        left ? with_id(entries, entries->left.rows[left->index].by) : NULL;
    const size_t index = found ? found->index : in_place ? (size_t)(in_place - entries->infos) : 0;
    return found || in_place ? (const char*)entries->values + index * sizes[kind] : NULL;
}

static RideOn left_ride_on(const Entries* const entries, const char* const uri)
{
    const Named* const left = named(entries->left_by_uri, entries->left.count, uri);
    return left ? entries->left.rows[left->index].ride_on : RIDE_ON_AS_WRITTEN;
}

RideOn entries_ride_on(const EntryReading* const reading, const char* const uri)
{
    const Entries read = entries_of(&reading->tables[ENTRY_HANDS]);
    const RideOn ride_on = left_ride_on(&read, uri);
    return ride_on || !reading->under ? ride_on : left_ride_on(&reading->under[ENTRY_HANDS], uri);
}

const void* entries_named(const EntryReading* const reading, const EntryKind kind,
                          const char* const uri)
{
    const Entries read = entries_of(&reading->tables[kind]);
    const void* const value = find_named(&read, kind, uri);
    return value || !reading->under ? value : find_named(&reading->under[kind], kind, uri);
}

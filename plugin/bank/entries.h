// SPDX-License-Identifier: ISC
/* entries.h - one kind of entry from subject to engine value.  Inside the bank
   room only: bank.c calls these, kind by kind. */
#pragma once

#include "bank.h"
#include "fields.h"

#include "../engine/groove/settings.h"

/* An entry by its URI. */
typedef struct {
    const char* uri; /* its info's */
    uint32_t index;
} Named;

/* Engine values and what is told of them, side by side, in order of id. */
typedef struct {
    EntryInfo* infos;
    void* values; /* of the kind's engine type */
    size_t value_size;
    uint32_t count;
    Named* by_uri; /* in order of URI, once all are read */
} Table;

/* Makes a value from a subject; false if it is wrong (and complained of). */
typedef bool (*EntryReader)(Subject* subject, const Table tables[ENTRY_KINDS], uint32_t id,
                            void* value);

bool read_hands(Subject* subject, const Table tables[ENTRY_KINDS], uint32_t id, void* figure);
bool read_feet(Subject* subject, const Table tables[ENTRY_KINDS], uint32_t id, void* figure);
bool read_turnaround(Subject* subject, const Table tables[ENTRY_KINDS], uint32_t id, void* figure);
bool read_groove(Subject* subject, const Table tables[ENTRY_KINDS], uint32_t id, void* groove);
bool read_kit(Subject* subject, const Table tables[ENTRY_KINDS], uint32_t id, void* kit);

/* What is told of an entry; complains of what is wrong.  The caller frees.  If there is
   no memory a text may be NULL, and the Turtle has failed. */
EntryInfo read_info(Subject* subject, uint32_t id, bool is_users, bool label_required);
void free_info(EntryInfo* info);

/* Frees what a figure owns. */
void free_figure(void* figure);

/* The value of the entry with this URI, or NULL, once all of the kind are read. */
const void* table_value(const Table* table, const char* uri);

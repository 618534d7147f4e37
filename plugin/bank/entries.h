// SPDX-License-Identifier: ISC
/* entries.h - entries kind by kind, from subjects of a Turtle to engine values.  Inside
   the bank room. */
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
    const EntryInfo* infos;
    const void* values;  /* of the kind's engine type */
    const Named* by_uri; /* in order of URI; NULL: nobody names them */
    uint32_t count;
    Successors left;          /* those that left the factory's bank */
    const Named* left_by_uri; /* an index is that of the successor */
} Entries;

/* The same while they are read. */
typedef struct {
    EntryInfo* infos;
    void* values;
    Named* by_uri;
    uint32_t count;
    Successor* left;
    Named* left_by_uri; /* its URIs owned */
    uint32_t left_count;
} Table;

typedef struct {
    Turtle* turtle;
    Diagnostics* diagnostics;
    Table* tables;        /* by kind: what was read; the caller frees each */
    const Entries* under; /* by kind: the factory's, if these are over them, else NULL */
    bool has_text;        /* the first file is a session's text */
} EntryReading;

/* What a text that is read over a bank may name: all that the bank has. */
EntryReading bank_reading(const Bank* bank);

/* Reads every entry of the Turtle; false if there is no memory. */
bool read_entries(const EntryReading* reading);

/* Room for so many; false if there is no memory. */
bool entries_make(Table* table, EntryKind kind, uint32_t room);
void entries_free(Table* table, EntryKind kind);

/* Once all of a kind are read: from then on others find them by their URIs.  False if there
   is no memory. */
bool entries_index(Table* table);

/* Those of both, in order of id; texts and what values point to aren't copied.  The caller
   frees the lists alone.  False if there is no memory. */
bool entries_merge(const Entries* a, const Entries* b, EntryKind kind, Table* merged);

Entries entries_of(const Table* table);

/* The entry with an id, or the one in its place if it left, or NULL. */
const EntryInfo* entries_info(const Entries* entries, uint32_t id);

/* Bytes of a kind's engine value. */
size_t entry_size(EntryKind kind);

/* Makes a value of a kind from a subject; false if it is wrong (and complained of). */
typedef bool (*EntryReader)(Subject* subject, const EntryReading* reading, EntryKind kind,
                            uint32_t id, void* value);

/* The same by the kind's reader. */
bool read_entry(Subject* subject, const EntryReading* reading, EntryKind kind, uint32_t id,
                void* value);

bool read_figure(Subject* subject, const EntryReading* reading, EntryKind kind, uint32_t id,
                 void* figure);
bool read_groove(Subject* subject, const EntryReading* reading, EntryKind kind, uint32_t id,
                 void* groove);
bool read_kit(Subject* subject, const EntryReading* reading, EntryKind kind, uint32_t id,
              void* kit);

/* A copy, of "" for NULL, which the caller frees; NULL, and the Turtle has failed, if there is
   no memory. */
char* read_copy(const Subject* subject, const char* text);

/* On what the hands of a part, or of an entry that left, keep the time. */
RideOn read_ride_on(Subject* subject);

/* What is told of an entry; complains of what is wrong.  The caller frees.  If there is
   no memory a text may be NULL, and the Turtle has failed. */
EntryInfo read_info(Subject* subject, uint32_t id, bool is_users, bool label_required);
void read_info_free(EntryInfo* info);

/* True if the subject is an entry that left: an id and who plays in its place. */
bool read_left_is(Turtle* turtle, const SordNode* subject);

/* Room for so many that left; false if there is no memory. */
bool read_left_begin(Table* table, uint32_t room);

/* One more of them, in order of id, once the others of its kind are read and indexed;
   complains of what is wrong.  Then, after the last, read_left_end. */
void read_left(const EntryReading* reading, EntryKind kind, const SordNode* node, uint32_t id);
void read_left_end(Table* table);

/* Frees what a figure owns. */
void read_figure_free(void* figure);

/* The value of the entry with this URI, or of the one in its place, or NULL, once all of the
   kind are read. */
const void* entries_named(const EntryReading* reading, EntryKind kind, const char* uri);

/* The hands with this URI left, being others on another cymbal: on which. */
RideOn entries_ride_on(const EntryReading* reading, const char* uri);

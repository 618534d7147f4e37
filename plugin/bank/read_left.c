// SPDX-License-Identifier: ISC
/* Entries that left the factory's bank: dcterms:isReplacedBy names who plays in their place. */
#include "entries.h"

#include <stdlib.h>
#include <string.h>

static const SordNode* replacement(Turtle* const turtle, const SordNode* const subject)
{
    return turtle_object(turtle, subject, turtle_uri(turtle, DCTERMS_NS "isReplacedBy"));
}

bool read_left_is(Turtle* const turtle, const SordNode* const subject)
{
    return replacement(turtle, subject);
}

bool read_left_begin(Table* const table, const uint32_t room)
{
    table->left = calloc(room + 1, sizeof(Successor));
    table->left_by_uri = calloc(room + 1, sizeof(Named));
    return table->left && table->left_by_uri;
}

/* The id of who plays in its place, or 0 with a diagnostic: one that is there, so that nobody
   follows in circles.  Every value begins with its id. */
static uint32_t read_by(const EntryReading* const reading, const EntryKind kind,
                        Subject* const subject)
{
    const SordNode* const node = replacement(subject->turtle, subject->subject);
    const Table* const table = &reading->tables[kind];
    Table tables[ENTRY_KINDS] = {{.count = 0}};
    tables[kind] = (Table){.infos = table->infos,
                           .values = table->values,
                           .by_uri = table->by_uri,
                           .count = table->count};
    const EntryReading present = {.tables = tables};
    const void* const value =
        entries_named(&present, kind, (const char*)sord_node_get_string(node));
    if (!value) {
        field_wrong(subject, NULL,
                    "dcterms:isReplacedBy: %s is not in the bank, or is wrong there; expected an "
                    "entry that plays",
                    turtle_name(subject->turtle, node));
    }
    return value ? *(const uint32_t*)value : 0;
}

/* Hands may be others on another cymbal. */
static RideOn read_left_ride_on(Subject* const subject, const EntryKind kind)
{
    const RideOn ride_on = read_ride_on(subject);
    if (ride_on && kind != ENTRY_HANDS) {
        field_wrong(subject, "rideOn", "is for hands figures; take this out");
    }
    return ride_on;
}

static bool may_leave(const EntryReading* const reading, const EntryKind kind, const uint32_t id,
                      Subject* const subject)
{
    const Entries read = entries_of(&reading->tables[kind]);
    const EntryInfo* const owner = entries_info(&read, id);
    if (reading->under) {
        field_wrong(subject, NULL,
                    "dcterms:isReplacedBy: is for what left the factory's bank; take this out");
    } else if (owner) {
        field_wrong(subject, "id", "%u is already that of %s", id,
                    owner->id == id ? owner->name : "another that left");
    }
    return !subject->failed;
}

void read_left(const EntryReading* const reading, const EntryKind kind, const SordNode* const node,
               const uint32_t id)
{
    Table* const table = &reading->tables[kind];
    Subject subject = {reading->turtle, reading->diagnostics, node, false};
    const uint32_t by =
        may_leave(reading, kind, id, &subject) ? read_by(reading, kind, &subject) : 0;
    const RideOn ride_on = read_left_ride_on(&subject, kind);
    if (!by || subject.failed) {
        return;
    }
    const uint32_t at = table->left_count;
    table->left_by_uri[at].uri = read_copy(&subject, (const char*)sord_node_get_string(node));
    table->left_by_uri[at].index = at;
    table->left[at] = (Successor){id, by, ride_on};
    table->left_count += table->left_by_uri[at].uri != NULL;
}

static int by_uri(const void* const a, const void* const b)
{
    return strcmp(((const Named*)a)->uri, ((const Named*)b)->uri);
}

void read_left_end(Table* const table)
{
    if (table->left_count) {
        qsort(table->left_by_uri, table->left_count, sizeof(Named), by_uri);
    }
}

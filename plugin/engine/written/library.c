// SPDX-License-Identifier: ISC
#include "library.h"

#include <stddef.h>

/* Binary search over entries of `size` bytes that begin with their id. */
static const void* entry_with_id(const void* const entries, const uint32_t count, const size_t size,
                                 const uint32_t id)
{
    uint32_t low = 0;
    uint32_t high = count;
    while (low < high) {
        const uint32_t middle = low + (high - low) / 2;
        const char* const entry = (const char*)entries + middle * size;
        const uint32_t entry_id = *(const uint32_t*)(const void*)entry;
        if (entry_id == id) {
            return entry;
        }
        if (entry_id < id) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return NULL;
}

/* The entries of a kind, as the library has them. */
typedef struct {
    const void* entries;
    uint32_t count;
    size_t size;
} KindRows;

static KindRows rows_of(const Library* const library, const EntryKind kind)
{
    if (kind == ENTRY_GROOVE) {
        return (KindRows){library->grooves, library->groove_count, sizeof(Groove)};
    }
    if (kind == ENTRY_KIT) {
        return (KindRows){library->kits, library->kit_count, sizeof(Kit)};
    }
    const uint32_t figures = (uint32_t)kind;
    return figures < FIGURE_KINDS ? (KindRows){library->figures[figures],
                                               library->figure_counts[figures], sizeof(Figure)}
                                  : (KindRows){NULL, 0, 0};
}

/* Who plays in place of an entry that left, or NULL. */
static const Successor* successor_of(const Library* const library, const EntryKind kind,
                                     const uint32_t id)
{
    const KindRows rows = rows_of(library, kind);
    const Successors left = library->successors[kind];
    return entry_with_id(rows.entries, rows.count, rows.size, id)
               ? NULL
               : (const Successor*)entry_with_id(left.rows, left.count, sizeof(Successor), id);
}

uint32_t library_id(const Library* const library, const EntryKind kind, const uint32_t id)
{
    const Successor* const successor = successor_of(library, kind, id);
    return successor ? successor->by : id;
}

RideOn library_ride_on(const Library* const library, const uint32_t hands)
{
    const Successor* const successor = successor_of(library, ENTRY_HANDS, hands);
    return successor ? successor->ride_on : RIDE_ON_AS_WRITTEN;
}

static const void* find(const Library* const library, const EntryKind kind, const uint32_t id)
{
    const KindRows rows = rows_of(library, kind);
    return entry_with_id(rows.entries, rows.count, rows.size, library_id(library, kind, id));
}

const Figure* library_figure(const Library* const library, const FigureKind kind, const uint32_t id)
{
    return (const Figure*)find(library, (EntryKind)kind, id);
}

const Groove* library_groove(const Library* const library, const uint32_t id)
{
    return (const Groove*)find(library, ENTRY_GROOVE, id);
}

const Kit* library_kit(const Library* const library, const uint32_t id)
{
    return (const Kit*)find(library, ENTRY_KIT, id);
}

static const Figure* own(const Library* const library, const Figure* const figure)
{
    return figure ? library_figure(library, figure->kind, figure->id) : NULL;
}

void library_join(const Library* const library, Groove* const grooves)
{
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        Groove* const groove = &grooves[i];
        groove->turnaround = own(library, groove->turnaround);
        for (int part = 0; part < PARTS_MAX; ++part) {
            groove->parts[part].hands = own(library, groove->parts[part].hands);
            groove->parts[part].feet = own(library, groove->parts[part].feet);
        }
    }
}

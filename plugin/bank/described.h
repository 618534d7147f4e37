// SPDX-License-Identifier: ISC
/* described.h - what the factory's files describe, be it an entry or a term: what is read
   over them may name it, and describes nothing of it again.  Inside the bank room. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct {
    const char* uri;
    const char* file;  /* without folder */
    const char* label; /* NULL: none */
} Described;

/* Rows in order of URI. */
typedef struct {
    const Described* rows;
    uint32_t count;
    unsigned files; /* that were read, and what was in them: it counts, see bounds.h */
    size_t bytes;
    size_t statements;
} DescribedList;

/* The row of this URI, or NULL, also where there is no list. */
const Described* described_find(const DescribedList* list, const char* uri);

/* Puts rows in order. */
void described_sort(Described* rows, uint32_t count);

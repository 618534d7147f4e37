// SPDX-License-Identifier: ISC
/* table.h - the published tables in tests/data: lines of fields between tabs,
   # begins a comment.  Each file's head names its source. */
#pragma once

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TABLE_FIELDS = 6, TABLE_ROOM = 2048 };

typedef struct {
    FILE* file;
    char line[TABLE_ROOM];
    const char* fields[TABLE_FIELDS];
} DataTable;

/* A test without its table has no meaning: a missing one ends the program. */
static inline DataTable table_open(const char* const name)
{
    char path[TABLE_ROOM];
    snprintf(path, sizeof path, "%s/tests/data/%s", FOURLIMB_SOURCE, name);
    DataTable table = {.file = fopen(path, "r")};
    if (!table.file) {
        perror(path);
        exit(2);
    }
    return table;
}

/* Splits the next row into fields; false, and closed, at the end. */
static inline bool table_next(DataTable* const table)
{
    do {
        if (!fgets(table->line, sizeof table->line, table->file)) {
            fclose(table->file);
            return false;
        }
    } while (table->line[0] == '#' || table->line[0] == '\n');
    table->line[strcspn(table->line, "\n")] = '\0';
    char* at = table->line;
    for (int i = 0; i < TABLE_FIELDS; ++i) {
        table->fields[i] = at;
        at += strcspn(at, "\t");
        if (*at) {
            *at++ = '\0';
        }
    }
    return true;
}

/* The field as a number of any kind. */
static inline double table_number(const DataTable* const table, const int field)
{
    return strtod(table->fields[field], NULL);
}

static inline int table_integer(const DataTable* const table, const int field)
{
    return (int)strtol(table->fields[field], NULL, 10);
}

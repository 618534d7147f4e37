// SPDX-License-Identifier: ISC
/* tsv.h - the published tables in this folder: lines of fields between tabs,
   # begins a comment.  Each file's head names its source. */
#pragma once

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TSV_FIELDS_MAX = 8, TSV_LINE_ROOM = 2048 };

typedef struct {
    FILE* file;
    char line[TSV_LINE_ROOM];
    const char* fields[TSV_FIELDS_MAX];
    int count;
} Tsv;

/* Opens a table of tests/data; a test without its table has no meaning, so a
   missing one ends the program. */
static inline Tsv tsv_open(const char* const name)
{
    char path[TSV_LINE_ROOM];
    snprintf(path, sizeof path, "%s/tests/data/%s", FOURLIMB_SOURCE, name);
    Tsv tsv = {.file = fopen(path, "r")};
    if (!tsv.file) {
        perror(path);
        exit(2);
    }
    return tsv;
}

/* Splits the next row into fields; false, and closed, at the end. */
static inline bool tsv_next(Tsv* const tsv)
{
    do {
        if (!fgets(tsv->line, sizeof tsv->line, tsv->file)) {
            fclose(tsv->file);
            return false;
        }
    } while (tsv->line[0] == '#' || tsv->line[0] == '\n');
    tsv->line[strcspn(tsv->line, "\n")] = '\0';
    tsv->count = 0;
    for (char* at = tsv->line; at && tsv->count < TSV_FIELDS_MAX;) {
        tsv->fields[tsv->count++] = at;
        at = strchr(at, '\t');
        if (at) {
            *at++ = '\0';
        }
    }
    return true;
}

/* A field of the row as a number. */
static inline double tsv_number(const Tsv* const tsv, const int field)
{
    return field < tsv->count ? strtod(tsv->fields[field], NULL) : 0.0;
}

static inline int tsv_integer(const Tsv* const tsv, const int field)
{
    return field < tsv->count ? (int)strtol(tsv->fields[field], NULL, 10) : 0;
}

// SPDX-License-Identifier: ISC
/* model.h - the inside of a Turtle: what turtle.c asks, turtle_load.c and turtle_read.c
   fill, and locations.c keeps the lines of. */
#pragma once

#include "bounds.h"
#include "turtle.h"

#include <serd/serd.h>

enum { NAME_ROOM = 256, WHERE_ROOM = 512 };

/* Where one statement stands. */
typedef struct {
    const SordNode* subject;
    const SordNode* property;
    unsigned line;
    unsigned file;
    size_t next; /* the subject's next place, its index; 0: none */
} Location;

/* The first and the last place of a subject, by their indices. */
typedef struct {
    const SordNode* subject; /* NULL: free */
    size_t first;
    size_t last;
} Home;

typedef struct {
    char* name;   /* without folder */
    SerdEnv* env; /* its prefixes */
} ReadFile;

struct Turtle {
    SordWorld* world;
    SordModel* model;
    ReadFile files[FILES_MOST];
    unsigned file_count;
    size_t bytes;               /* of all files */
    size_t statements;          /* of all files */
    const DescribedList* under; /* NULL: nothing */
    bool is_full;               /* by statements */
    bool failed;                /* memory ran out */
    Location* locations;
    size_t location_count;
    size_t location_room;
    Home* homes; /* a hash table of subjects; its size is a power of 2 */
    size_t home_count;
    size_t home_room;
    char name[NAME_ROOM];
    char where[WHERE_ROOM];
};

/* One more file to read of; false, with a diagnostic, if it is beyond bounds.h. */
bool turtle_begin_file(Turtle* turtle, const char* path, size_t size, Diagnostics* diagnostics);

/* One more place; false if there is no memory. */
bool location_add(Turtle* turtle, Location location);

/* Where the subject, or its property if that is not NULL, was first met; NULL if
   it wasn't. */
const Location* location_of(const Turtle* turtle, const SordNode* subject,
                            const SordNode* property);

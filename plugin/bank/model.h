// SPDX-License-Identifier: ISC
/* model.h - the inside of a Turtle: what turtle.c asks and reader.c fills. */
#pragma once

#include "turtle.h"

#include <serd/serd.h>

enum { FILES_MAX = 64, NAME_ROOM = 256, WHERE_ROOM = 512 };

/* Where one statement stands. */
typedef struct {
    const SordNode* subject;
    const SordNode* property;
    unsigned line;
    unsigned file;
    size_t begin; /* bytes of its sentence in the file: begins at, or after a sign */
    size_t end;   /* before, `begin`; ends at, or a sign before, `end` */
} Place;

struct Turtle {
    SordWorld* world;
    SordModel* model;
    SerdEnv* envs[FILES_MAX]; /* each file's prefixes */
    char* files[FILES_MAX];   /* names without folder */
    unsigned file_count;
    Place* places;
    size_t place_count;
    size_t place_room;
    char name[NAME_ROOM];
    char where[WHERE_ROOM];
};

/* Where the subject, or its property if that is not NULL, was first met; NULL if
   it wasn't. */
const Place* place_of(const Turtle* turtle, const SordNode* subject, const SordNode* property);

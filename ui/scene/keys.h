// SPDX-License-Identifier: ISC
/* keys.h - the list of keys, under a lower staff, in columns; in a small window it takes the
   staff's place too. */
#pragma once

#include "geometry.h"

enum { KEYS_TYPE = 12 }; /* logical pixels */

/* Puts the list under the staff. */
void keys_place(Geometry* geometry);

int keys_columns(const Geometry* geometry);

/* Lines that are seen at once. */
int keys_seen(const Geometry* geometry);

/* One of them, from 0: down the first column, then the next. */
typedef struct {
    Box box;
    At keys;
    double keys_room;
    At words;
    double words_room;
} KeyPlaces;

KeyPlaces keys_line(const Geometry* geometry, int line);

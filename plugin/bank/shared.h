// SPDX-License-Identifier: ISC
/* shared.h - banks that this process holds, each once for all who read the same files.
   A plugin's library has its own, a window's has its own.  Any thread but the audio
   thread; the lock is held for moments, never while a file is read.  Inside the bank
   room. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

/* Which files: folders by name, and a stamp of what was in them before they were read. */
typedef struct {
    const char* factory;
    const char* users; /* "" for none */
    uint64_t stamp;
} SharedKey;

/* The head of what is counted, and shared once it is in the list. */
typedef struct Shared {
    struct Shared* next;
    unsigned holders;
    char* names; /* of the key; NULL: not in the list */
    SharedKey key;
} Shared;

/* The one with this key, held once more; NULL if there is none. */
Shared* shared_find(const SharedKey* key);

/* Puts one with one holder in, to be found by this key: or drops out of the race, where
   somebody was faster, and holds that one.  NULL, and nothing has changed, if there is no
   memory. */
Shared* shared_put(Shared* made, const SharedKey* key);

void shared_hold(Shared* held);

/* One holder less: true if that was the last, so that the caller frees it. */
bool shared_drop(Shared* held);

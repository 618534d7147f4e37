// SPDX-License-Identifier: ISC
#include "shared.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

/* The one variable of the plugin's: tests/checks/binaries.sh knows it by name.  It is
   empty again once the last instance is gone, as a host may unload the library then. */
static struct {
    pthread_mutex_t lock;
    Shared* first;
} shared = {PTHREAD_MUTEX_INITIALIZER, NULL};

/* Under the lock. */
static Shared* find(const SharedKey* const key)
{
    Shared* found = shared.first;
    while (found && (found->key.stamp != key->stamp || strcmp(found->key.users, key->users) ||
                     strcmp(found->key.factory, key->factory))) {
        found = found->next;
    }
    if (found) {
        ++found->holders;
    }
    return found;
}

Shared* shared_find(const SharedKey* const key)
{
    pthread_mutex_lock(&shared.lock);
    Shared* const found = find(key);
    pthread_mutex_unlock(&shared.lock);
    return found;
}

static bool name(Shared* const made, const SharedKey* const key)
{
    const size_t factory = strlen(key->factory) + 1;
    const size_t users = strlen(key->users) + 1;
    made->names = malloc(factory + users);
    if (made->names) {
        memcpy(made->names, key->factory, factory);
        memcpy(made->names + factory, key->users, users);
        made->key = (SharedKey){made->names, made->names + factory, key->stamp};
    }
    return made->names;
}

Shared* shared_put(Shared* const made, const SharedKey* const key)
{
    if (!name(made, key)) {
        return NULL;
    }
    pthread_mutex_lock(&shared.lock);
    Shared* const faster = find(key);
    if (!faster) {
        made->next = shared.first;
        shared.first = made;
    }
    pthread_mutex_unlock(&shared.lock);
    if (faster) {
        free(made->names);
        made->names = NULL;
    }
    return faster ? faster : made;
}

void shared_hold(Shared* const held)
{
    pthread_mutex_lock(&shared.lock);
    ++held->holders;
    pthread_mutex_unlock(&shared.lock);
}

bool shared_drop(Shared* const held)
{
    pthread_mutex_lock(&shared.lock);
    const bool is_last = --held->holders == 0;
    Shared** at = &shared.first;
    while (is_last && *at) {
        if (*at == held) {
            *at = held->next;
        } else {
            at = &(*at)->next;
        }
    }
    pthread_mutex_unlock(&shared.lock);
    if (is_last) {
        free(held->names);
    }
    return is_last;
}

// SPDX-License-Identifier: ISC
#include "kept_list.h"

#include "bounds.h"
#include "kept_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct KeptList {
    KeptSelection* slots[KEPT_MAX];
    KeptSelection* before; /* what was in the slot that changed last; NULL: nothing */
    uint32_t changed;      /* that slot, from 1; 0: none */
    char* text;
    size_t length;
    char* said;
    atomic_uint holders;
};

static KeptList* new_list(void)
{
    KeptList* const list = calloc(1, sizeof(KeptList));
    if (list) {
        atomic_init(&list->holders, 1);
    }
    return list;
}

static bool write_text(KeptList* const list)
{
    list->text = kept_text_write(list->slots);
    list->length = list->text ? strlen(list->text) : 0;
    return list->text;
}

KeptList* kept_list_read(Bank* const beside, const char* const text)
{
    KeptList* const list = new_list();
    Messages messages = {.text = NULL};
    messages_say(&messages, "", "", "");
    bool read = list && kept_text_read(beside, text, list->slots, &messages);
    if (list) {
        list->said = messages.text;
        read = read && write_text(list);
    } else {
        free(messages.text);
    }
    if (!read || messages.failed) {
        kept_list_free(list);
        return NULL;
    }
    return list;
}

KeptList* kept_list_with(const KeptList* const from, const uint32_t slot, KeptSelection* const kept,
                         char why[KEPT_WHY_ROOM])
{
    KeptList* const list = new_list();
    snprintf(why, KEPT_WHY_ROOM, "there is no memory to keep more; close something");
    if (!list) {
        return NULL;
    }
    for (uint32_t i = 0; i < KEPT_MAX; ++i) {
        list->slots[i] = kept_selection_hold(i + 1 == slot ? kept : from->slots[i]);
    }
    list->before = kept_selection_hold(from->slots[slot - 1]);
    list->changed = slot;
    list->said = strdup(from->said);
    if (write_text(list) && list->length > FILE_BYTES_MOST) {
        snprintf(why, KEPT_WHY_ROOM,
                 "what is kept would be over %d megabytes; drop something that is kept first",
                 FILE_MEGABYTES_MOST);
        free(list->text);
        list->text = NULL;
    }
    if (!list->said || !list->text) {
        kept_list_free(list);
        return NULL;
    }
    return list;
}

KeptList* kept_list_back(const KeptList* const list, char why[KEPT_WHY_ROOM])
{
    const uint32_t slot = list->changed ? list->changed : 1;
    return kept_list_with(list, slot, list->changed ? list->before : list->slots[0], why);
}

const KeptSelection* kept_list_at(const KeptList* const list, const uint32_t slot)
{
    return list && slot >= 1 && slot <= KEPT_MAX ? list->slots[slot - 1] : NULL;
}

uint32_t kept_list_free_slot(const KeptList* const list)
{
    uint32_t slot = 1;
    while (slot <= KEPT_MAX && list->slots[slot - 1]) {
        ++slot;
    }
    return slot <= KEPT_MAX ? slot : 0;
}

const char* kept_list_text(const KeptList* const list, size_t* const length)
{
    *length = list->length;
    return list->text;
}

const char* kept_list_said(const KeptList* const list)
{
    return list->said;
}

void kept_list_lay(const KeptList* const list, Library* const library)
{
    for (uint32_t i = 0; list && i < KEPT_MAX; ++i) {
        const KeptSelection* const kept = list->slots[i]           ? list->slots[i]
                                          : list->changed == i + 1 ? list->before
                                                                   : NULL;
        library->kept[i] = kept ? &kept->plays.library : NULL;
    }
}

KeptList* kept_list_hold(KeptList* const list)
{
    if (list) {
        atomic_fetch_add(&list->holders, 1);
    }
    return list;
}

void kept_list_free(KeptList* const list)
{
    if (list && atomic_fetch_sub(&list->holders, 1) == 1) {
        for (uint32_t i = 0; i < KEPT_MAX; ++i) {
            kept_selection_free(list->slots[i]);
        }
        kept_selection_free(list->before);
        free(list->text);
        free(list->said);
        free(list);
    }
}

// SPDX-License-Identifier: ISC
#include "entry_asked.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static bool has_id(const EntryInfo* const entry, const char* const asked)
{
    char id[16];
    snprintf(id, sizeof id, "%u", entry->id);
    return !strcmp(id, asked);
}

/* With or without the prefix: feet:gallop, or gallop where feet are meant. */
static bool has_name(const EntryInfo* const entry, const char* const asked)
{
    const char* const colon = strchr(entry->name, ':');
    return !strcmp(entry->name, asked) || (colon && !strcmp(colon + 1, asked));
}

const EntryInfo* entry_asked(const Bank* const bank, const EntryKind kind, const char* const asked)
{
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        const EntryInfo* const entry = bank_entry(bank, kind, i);
        if (!strcasecmp(entry->label, asked) || has_name(entry, asked) || has_id(entry, asked)) {
            return entry;
        }
    }
    char* end = NULL;
    const unsigned long id = strtoul(asked, &end, 10);
    return *end || id > ID_MOST ? NULL : bank_info(bank, kind, (uint32_t)id); /* of one that left */
}

static bool contains(const char* const text, const char* const part)
{
    const size_t length = strlen(part);
    for (const char* at = text; *at; ++at) {
        if (!strncasecmp(at, part, length)) {
            return true;
        }
    }
    return false;
}

/* The first letters of what was typed are mostly right. */
static bool is_near(const char* const label, const char* const asked)
{
    char start[5];
    snprintf(start, sizeof start, "%s", asked);
    return contains(label, asked) || contains(label, start);
}

void entry_asked_near(const Bank* const bank, const EntryKind kind, const char* const asked,
                      char* const text, const size_t room)
{
    enum { TOLD = 4 };
    size_t length = 0;
    int told = 0;
    *text = '\0';
    for (uint32_t i = 0; i < bank_count(bank, kind) && told < TOLD && length < room; ++i) {
        const EntryInfo* const entry = bank_entry(bank, kind, i);
        if (*asked && is_near(entry->label, asked)) {
            length += (size_t)snprintf(text + length, room - length, "%s \"%s\"",
                                       told++ ? "," : "; near it:", entry->label);
        }
    }
}

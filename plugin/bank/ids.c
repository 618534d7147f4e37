// SPDX-License-Identifier: ISC
#include "ids.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ID_DIGITS = 4 }; /* of every own id */

bool ids_has(const OwnIds* const ids, const uint32_t id)
{
    return id >= ID_FIRST_OWN && id <= ID_MOST && ids->has[id - ID_FIRST_OWN];
}

void ids_add(OwnIds* const ids, const uint32_t id)
{
    if (id >= ID_FIRST_OWN && id <= ID_MOST) {
        ids->has[id - ID_FIRST_OWN] = true;
    }
}

void ids_add_all(OwnIds* const ids, const OwnIds* const more)
{
    for (size_t i = 0; i < OWN_IDS; ++i) {
        ids->has[i] = ids->has[i] || more->has[i];
    }
}

static bool is_digit(const char sign)
{
    return sign >= '0' && sign <= '9';
}

static bool is_space(const char sign)
{
    return sign == ' ' || sign == '\t' || sign == '\n' || sign == '\r';
}

/* The number at the start of a text, of as many digits as own ids have; 0 if none is. */
static uint32_t number_at(const char* const text, const size_t size)
{
    uint32_t number = 0;
    size_t digits = 0;
    while (digits < size && digits <= ID_DIGITS && is_digit(text[digits])) {
        number = number * 10U + (uint32_t)(text[digits++] - '0');
    }
    return digits == ID_DIGITS ? number : 0;
}

/* "fl:id 1005", "<urn:fourlimb:terms#id>1005". */
void ids_see(OwnIds* const ids, const char* const text, const size_t size)
{
    for (size_t i = 1; i + 2 < size; ++i) {
        if (text[i] != 'i' || text[i + 1] != 'd' || (text[i - 1] != ':' && text[i - 1] != '#')) {
            continue;
        }
        size_t at = i + 2 + (text[i + 2] == '>');
        while (at < size && is_space(text[at])) {
            ++at;
        }
        ids_add(ids, number_at(text + at, size - at));
    }
}

uint32_t ids_free(const OwnIds* const ids)
{
    for (uint32_t i = 0; i < OWN_IDS; ++i) {
        if (!ids->has[i]) {
            return ID_FIRST_OWN + i;
        }
    }
    return 0;
}

/* An id a line; what else stands there is for people. */
void ids_recall(OwnIds* const ids, const char* const text, const size_t size)
{
    for (size_t i = 0; i < size; ++i) {
        if (i == 0 || text[i - 1] == '\n') {
            ids_add(ids, number_at(text + i, size - i));
        }
    }
}

char* ids_lines(const OwnIds* const ids, const OwnIds* const recorded, const bool is_new)
{
    static const char head[] =
        "# Ids that your own figures and kit maps have or had.  None is given to another, or an\n"
        "# old song would play that.  Delete this file to have those of deleted ones given again.";
    const size_t room = sizeof head + (size_t)OWN_IDS * (ID_DIGITS + 1) + 2;
    char* const lines = malloc(room);
    size_t length = 0;
    bool any = false;
    if (lines) {
        length = (size_t)snprintf(lines, room, "%s\n", is_new ? head : "");
    }
    for (uint32_t i = 0; lines && i < OWN_IDS; ++i) {
        if (ids->has[i] && !recorded->has[i]) {
            length += (size_t)snprintf(lines + length, room - length, "%u\n", ID_FIRST_OWN + i);
            any = true;
        }
    }
    if (!any) {
        free(lines);
        return NULL;
    }
    return lines;
}

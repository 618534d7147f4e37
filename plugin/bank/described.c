// SPDX-License-Identifier: ISC
#include "described.h"

#include <stdlib.h>
#include <string.h>

static int by_uri(const void* const a, const void* const b)
{
    return strcmp(((const Described*)a)->uri, ((const Described*)b)->uri);
}

const Described* described_find(const DescribedList* const list, const char* const uri)
{
    const Described key = {.uri = uri};
    return list && list->count ? bsearch(&key, list->rows, list->count, sizeof key, by_uri) : NULL;
}

void described_sort(Described* const rows, const uint32_t count)
{
    qsort(rows, count, sizeof *rows, by_uri);
}

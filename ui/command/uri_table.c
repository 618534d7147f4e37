// SPDX-License-Identifier: ISC
#include "uri_table.h"

#include <stdlib.h>
#include <string.h>

enum { URIS_MAX = 512 };

struct UriTable {
    char* uris[URIS_MAX]; /* number n is at n - 1 */
    LV2_URID count;
};

UriTable* uri_table_new(void)
{
    return calloc(1, sizeof(UriTable));
}

void uri_table_free(UriTable* const table)
{
    for (LV2_URID i = 0; table && i < table->count; ++i) {
        free(table->uris[i]);
    }
    free(table);
}

LV2_URID uri_table_map(void* const handle, const char* const uri)
{
    UriTable* const table = (UriTable*)handle;
    for (LV2_URID i = 0; i < table->count; ++i) {
        if (!strcmp(table->uris[i], uri)) {
            return i + 1;
        }
    }
    char* const copy = table->count < URIS_MAX ? strdup(uri) : NULL;
    if (!copy) {
        return 0;
    }
    table->uris[table->count++] = copy;
    return table->count;
}

const char* uri_table_unmap(void* const handle, const LV2_URID urid)
{
    const UriTable* const table = (const UriTable*)handle;
    return urid && urid <= table->count ? table->uris[urid - 1] : NULL;
}

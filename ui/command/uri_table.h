// SPDX-License-Identifier: ISC
/* uri_table.h - numbers for URIs, as LV2 hosts give them.  One thread only. */
#pragma once

#include <lv2/urid/urid.h>

typedef struct UriTable UriTable;

UriTable* uri_table_new(void);
void uri_table_free(UriTable* table);

/* LV2's map and unmap; the handle is a UriTable.  0 and NULL if they can't. */
LV2_URID uri_table_map(void* table, const char* uri);
const char* uri_table_unmap(void* table, LV2_URID urid);

// SPDX-License-Identifier: ISC
/* shelf_folder.h - saving figures into a folder of a test's own. */
#pragma once

#include "../../plugin/bank/shelf.h"
#include "../help/check.h"
#include "bank_folder.h"

enum { FILE_ROOM = 1 << 20 };

static char why[SHELF_WHY_ROOM];

static inline const char* gallop(const char* const label, const uint32_t id,
                                 const char* const steps)
{
    static char text[1024];
    char number[32] = "";
    if (id) {
        snprintf(number, sizeof number, "fl:id %u ; ", id);
    }
    snprintf(text, sizeof text,
             "@prefix fl: <urn:fourlimb:terms#> .\n"
             "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
             "<urn:test:draft> a fl:FeetFigure ; %srdfs:label \"%s\" ;\n"
             "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"%s\" ] "
             ".\n",
             number, label, steps);
    return text;
}

static inline uint32_t save(const char* const folder, const char* const text)
{
    why[0] = '\0';
    return shelf_save(folder, text, strlen(text), 0, why);
}

static inline const char* contents(const char* const path)
{
    static char text[FILE_ROOM];
    FILE* const file = fopen(path, "rb");
    const size_t size = file ? fread(text, 1, sizeof text - 1, file) : 0;
    text[size] = '\0';
    if (file) {
        fclose(file);
    }
    return file ? text : NULL;
}

static inline Bank* open_own(const BankFolder* const folder)
{
    return bank_open(
        (BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", .users = folder->path});
}

static inline void remove_all(const BankFolder* const folder)
{
    remove(bank_folder_file(folder, "mine.ttl.lock"));
    bank_folder_remove(folder);
}

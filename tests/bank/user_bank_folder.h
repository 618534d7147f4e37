// SPDX-License-Identifier: ISC
/* user_bank_folder.h - saving figures into a folder of a test's own. */
#pragma once

#include "../../plugin/bank/user_bank.h"
#include "../help/check.h"
#include "bank_folder.h"

enum { FILE_ROOM = 1 << 20, FIRST = ID_FIRST_OWN };

static char why[USER_BANK_WHY_ROOM];

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

/* The id, or 0 with the reason in `why`. */
static inline uint32_t save(const char* const folder, const char* const text)
{
    why[0] = '\0';
    return user_bank_save(folder, text, strlen(text), NULL, why).id;
}

/* The file that a saved figure of feet has at first. */
static inline const char* feet_file(const BankFolder* const folder, const uint32_t id)
{
    char name[64];
    snprintf(name, sizeof name, "feet-%u.ttl", id);
    return bank_folder_file(folder, name);
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

/* How many files' names have the words in them. */
static inline int files_with(const BankFolder* const folder, const char* const words)
{
    int files = 0;
    DIR* const directory = opendir(folder->path);
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        files += strstr(entry->d_name, words) != NULL;
    }
    if (directory) {
        closedir(directory);
    }
    return files;
}

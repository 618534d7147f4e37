// SPDX-License-Identifier: ISC
/* own_folder.h - a folder of a test's own for bank files, gone when it ends. */
#pragma once

#include "../../plugin/bank/bank.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { OWN_PATH_ROOM = 1024, OWN_FILES_MAX = 8 };

typedef struct {
    char root[512];   /* as $XDG_DATA_HOME */
    char folder[600]; /* where the plugin looks: root/fourlimb */
    char files[OWN_FILES_MAX][OWN_PATH_ROOM];
    int count;
} OwnFolder;

/* Ends the program if the machine has no room for temporary files. */
static inline void own_folder_make(OwnFolder* const own)
{
    const char* const temporary = getenv("TMPDIR");
    *own = (OwnFolder){.count = 0};
    snprintf(own->root, sizeof own->root, "%s/fourlimb-own-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    const bool made = mkdtemp(own->root);
    snprintf(own->folder, sizeof own->folder, "%s/fourlimb", own->root);
    if (!made || mkdir(own->folder, 0700)) {
        perror(own->folder);
        exit(2);
    }
}

#define OWN_PREFIXES                                                                               \
    "@prefix fl: <urn:fourlimb:terms#> .\n"                                                        \
    "@prefix hands: <urn:fourlimb:hands:> .\n"                                                     \
    "@prefix feet: <urn:fourlimb:feet:> .\n"                                                       \
    "@prefix my: <urn:example:my:> .\n"                                                            \
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"

enum { OWN_PREFIX_LINES = 5 };

/* Writes a file that begins with the five lines of prefixes; its path. */
static inline const char* own_folder_write(OwnFolder* const own, const char* const name,
                                           const char* const turtle)
{
    char* const path = own->files[own->count++];
    snprintf(path, OWN_PATH_ROOM, "%s/%s", own->folder, name);
    FILE* const file = fopen(path, "w");
    if (!file || fputs(OWN_PREFIXES, file) < 0 || fputs(turtle, file) < 0 || fclose(file)) {
        perror(path);
        exit(2);
    }
    return path;
}

static inline void own_folder_remove(const OwnFolder* const own)
{
    for (int i = 0; i < own->count; ++i) {
        remove(own->files[i]);
    }
    rmdir(own->folder);
    rmdir(own->root);
}

/* The built bundle's bank with a folder or a file of the user's, or without. */
static inline Bank* own_bank(const char* const folder, const char* const file)
{
    Bank* const bank =
        bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", folder, file});
    if (!bank) {
        printf("# bank_open found no memory\n");
        exit(2);
    }
    return bank;
}

/* The first diagnostic that holds a text, or NULL. */
static inline const char* diagnostic_of(const Bank* const bank, const char* const text)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        if (strstr(diagnostics->texts[i], text)) {
            return diagnostics->texts[i];
        }
    }
    return NULL;
}

// SPDX-License-Identifier: ISC
/* bank_folder.h - a folder of a test's own to put bank files into, good and bad. */
#pragma once

#include "../../plugin/bank/bank.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

enum { FOLDER_ROOM = 512, PATH_ROOM = 2 * FOLDER_ROOM };

typedef struct {
    char path[FOLDER_ROOM];
} BankFolder;

/* Ends the program if the machine has no room for temporary files. */
static inline BankFolder bank_folder_make(void)
{
    BankFolder folder;
    const char* const temporary = getenv("TMPDIR");
    snprintf(folder.path, sizeof folder.path, "%s/fourlimb-bank-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    if (!mkdtemp(folder.path)) {
        perror(folder.path);
        exit(2);
    }
    return folder;
}

static inline const char* bank_folder_file(const BankFolder* const folder, const char* const name)
{
    static char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s/%s", folder->path, name);
    return path;
}

static inline void bank_folder_write(const BankFolder* const folder, const char* const name,
                                     const void* const bytes, const size_t size)
{
    FILE* const file = fopen(bank_folder_file(folder, name), "wb");
    if (!file || fwrite(bytes, 1, size, file) != size || fclose(file)) {
        perror(bank_folder_file(folder, name));
        exit(2);
    }
}

/* Puts a file of the source tree into the folder under a name of its own. */
static inline void bank_folder_link(const BankFolder* const folder, const char* const source,
                                    const char* const name)
{
    char from[2 * PATH_ROOM];
    snprintf(from, sizeof from, "%s/%s", FOURLIMB_SOURCE, source);
    if (access(from, R_OK) || symlink(from, bank_folder_file(folder, name))) {
        perror(from);
        exit(2);
    }
}

static inline void bank_folder_remove(const BankFolder* const folder)
{
    DIR* const directory = opendir(folder->path);
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        remove(bank_folder_file(folder, entry->d_name)); /* "." and ".." stay by themselves */
    }
    if (directory) {
        closedir(directory);
    }
    rmdir(folder->path);
}

/* A reader that goes in circles eats all memory: better dead than that.  Seconds of the
   program's own work, which a busy machine makes no more of. */
enum { READING_SECONDS_MOST = 60 };

static inline void reading_may_take(const int seconds)
{
    setitimer(ITIMER_VIRTUAL, &(struct itimerval){.it_value = {seconds, 0}}, NULL);
}

/* Ends the program if there is no memory. */
static inline Bank* bank_folder_open(const BankFolder* const folder)
{
    reading_may_take(READING_SECONDS_MOST);
    Bank* const bank = bank_open((BankSources){.factory = folder->path});
    reading_may_take(0);
    if (!bank) {
        printf("# bank_open found no memory\n");
        exit(2);
    }
    return bank;
}

/* How many entries of any kind have a URI that begins so. */
static inline uint32_t entries_beginning(const Bank* const bank, const char* const start)
{
    uint32_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            count += !strncmp(bank_entry(bank, (EntryKind)kind, i)->uri, start, strlen(start));
        }
    }
    return count;
}

/* True if every byte belongs to a character of UTF-8 (RFC 3629, section 4), which
   the text of an atom:String must be. */
static inline bool is_utf8(const char* const text)
{
    for (const unsigned char* at = (const unsigned char*)text; *at;) {
        const int more = *at < 0x80   ? 0
                         : *at < 0xC2 ? -1
                         : *at < 0xE0 ? 1
                         : *at < 0xF0 ? 2
                         : *at < 0xF5 ? 3
                                      : -1;
        const bool low = (at[0] == 0xE0 && at[1] < 0xA0) || (at[0] == 0xF0 && at[1] < 0x90);
        const bool high = (at[0] == 0xED && at[1] > 0x9F) || (at[0] == 0xF4 && at[1] > 0x8F);
        if (more < 0 || low || high) {
            return false;
        }
        ++at;
        for (int i = 0; i < more; ++i, ++at) {
            if ((*at & 0xC0) != 0x80) {
                return false;
            }
        }
    }
    return true;
}

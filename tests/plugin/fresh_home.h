// SPDX-License-Identifier: ISC
/* fresh_home.h - a home of a test's own, so that the user's bank is empty. */
#pragma once

#include "../../plugin/bank/bank.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

/* A folder of its own as $XDG_DATA_HOME, so that every user's bank is empty. */
static inline const char* fresh_home(void)
{
    static char home[512];
    const char* const temporary = getenv("TMPDIR");
    snprintf(home, sizeof home, "%s/fourlimb-home-XXXXXX",
             temporary && *temporary ? temporary : "/tmp");
    if (!mkdtemp(home) || setenv("XDG_DATA_HOME", home, 1)) {
        perror(home);
        exit(2);
    }
    return home;
}

/* Removes a folder's files, and it. */
static inline void remove_files(const char* const folder)
{
    char path[2 * BANK_FOLDER_ROOM];
    DIR* const directory = opendir(folder);
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (entry->d_name[0] != '.') {
            remove(path);
        }
    }
    if (directory) {
        closedir(directory);
    }
    rmdir(folder);
}

static inline const char* users_folder(void)
{
    static char folder[BANK_FOLDER_ROOM];
    return bank_users_folder(folder) ? folder : "";
}

static inline void remove_home(const char* const home)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/fourlimb", home);
    remove_files(path);
    rmdir(home);
}

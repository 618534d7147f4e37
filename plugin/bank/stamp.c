// SPDX-License-Identifier: ISC
#include "stamp.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { PATH_ROOM = 4096 };

/* FNV-1a, 64 bits (Fowler, Noll, Vo; draft-eastlake-fnv). */
static const uint64_t start = UINT64_C(0xcbf29ce484222325);

static uint64_t stir(uint64_t stamp, const void* const bytes, const size_t size)
{
    const unsigned char* const at = (const unsigned char*)bytes;
    for (size_t i = 0; i < size; ++i) {
        stamp = (stamp ^ at[i]) * UINT64_C(0x100000001b3);
    }
    return stamp;
}

uint64_t bytes_stamp(const void* const bytes, const size_t size)
{
    return stir(start, bytes, size);
}

static uint64_t file_stamp(const char* const folder, const char* const name)
{
    char path[PATH_ROOM];
    struct stat status;
    const size_t length = strlen(name);
    const int whole = snprintf(path, sizeof path, "%s/%s", folder, name);
    if (length < 4 || strcmp(name + length - 4, ".ttl") != 0 || whole >= PATH_ROOM ||
        stat(path, &status) != 0) {
        return 0;
    }
    uint64_t stamp = bytes_stamp(name, length);
    stamp = stir(stamp, &status.st_size, sizeof status.st_size);
    stamp = stir(stamp, &status.st_ino, sizeof status.st_ino);
    stamp = stir(stamp, &status.st_mtim.tv_sec, sizeof status.st_mtim.tv_sec);
    return stir(stamp, &status.st_mtim.tv_nsec, sizeof status.st_mtim.tv_nsec);
}

uint64_t folder_stamp(const char* const folder)
{
    DIR* const opened = folder ? opendir(folder) : NULL;
    uint64_t stamp = 0;
    if (!opened) {
        return 0;
    }
    for (const struct dirent* entry; (entry = readdir(opened));) {
        stamp += file_stamp(folder, entry->d_name); /* in any order */
    }
    closedir(opened);
    return stamp;
}

// SPDX-License-Identifier: ISC
#include "stamp.h"

#include "turtle.h"

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

uint64_t stamp_bytes(const void* const bytes, const size_t size)
{
    return stir(start, bytes, size);
}

static uint64_t file_stamp(const char* const path, const char* const name)
{
    struct stat status;
    uint64_t stamp = stamp_bytes(name, strlen(name));
    if (stat(path, &status) != 0) {
        return stamp; /* such as a link to nowhere */
    }
    stamp = stir(stamp, &status.st_size, sizeof status.st_size);
    stamp = stir(stamp, &status.st_ino, sizeof status.st_ino);
    stamp = stir(stamp, &status.st_mtim.tv_sec, sizeof status.st_mtim.tv_sec);
    return stir(stamp, &status.st_mtim.tv_nsec, sizeof status.st_mtim.tv_nsec);
}

static uint64_t file_contents(const char* const path, const char* const name)
{
    char bytes[4096];
    FILE* const file = fopen(path, "rb");
    uint64_t stamp = stamp_bytes(name, strlen(name));
    if (!file) {
        return 0;
    }
    for (size_t size; (size = fread(bytes, 1, sizeof bytes, file)) > 0;) {
        stamp = stir(stamp, bytes, size);
    }
    fclose(file);
    return stamp;
}

/* Of each file, in any order. */
static uint64_t sum(const char* const folder,
                    uint64_t (*const of)(const char* path, const char* name))
{
    DIR* const opened = folder ? opendir(folder) : NULL;
    uint64_t stamp = 0;
    if (!opened) {
        return 0;
    }
    for (const struct dirent* entry; (entry = readdir(opened));) {
        char path[PATH_ROOM];
        const int whole = snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        stamp += turtle_is_file(entry->d_name) && whole < PATH_ROOM ? of(path, entry->d_name) : 0;
    }
    closedir(opened);
    return stamp;
}

uint64_t stamp_folder(const char* const folder)
{
    return sum(folder, file_stamp);
}

uint64_t stamp_contents(const char* const folder)
{
    return sum(folder, file_contents);
}

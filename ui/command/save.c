// SPDX-License-Identifier: ISC
#include "save.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool write_all(const int file, const char* bytes, size_t size)
{
    while (size > 0) {
        const ssize_t written = write(file, bytes, size);
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return false;
        }
        bytes += written;
        size -= (size_t)written;
    }
    return fsync(file) == 0;
}

/* Gives the finished file its name.  A link fails where the name is taken, in
   one step; file systems without links get a look first. */
static bool put_in_place(const char* const from, const char* const to, const bool replace)
{
    if (replace) {
        return rename(from, to) == 0;
    }
    if (link(from, to) == 0) {
        unlink(from);
        return true;
    }
    if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS) {
        return false;
    }
    struct stat there;
    if (lstat(to, &there) == 0) {
        errno = EEXIST;
        return false;
    }
    return rename(from, to) == 0;
}

static void explain(const char* const path, const int error, char why[SAVE_WHY_ROOM])
{
    if (error == EEXIST) {
        snprintf(why, SAVE_WHY_ROOM,
                 "%s is there already; choose another name, or add --force "
                 "to replace it",
                 path);
    } else if (error == ENOENT) {
        snprintf(why, SAVE_WHY_ROOM, "%s: there is no such folder; make it first", path);
    } else {
        snprintf(why, SAVE_WHY_ROOM, "%s can't be written: %s", path, strerror(error));
    }
}

/* Files made by mkstemp are private; people expect what umask says. */
static void open_up(const int file)
{
    const mode_t mask = umask(0);
    umask(mask);
    if (fchmod(file, 0666 & ~mask)) {
        return; /* private is good enough where modes can't be set */
    }
}

bool save_file(const char* const path, const void* const bytes, const size_t size,
               const bool replace, char why[SAVE_WHY_ROOM])
{
    struct stat there;
    if (!replace && lstat(path, &there) == 0) {
        explain(path, EEXIST, why);
        return false;
    }
    const size_t length = strlen(path) + sizeof ".part-XXXXXX";
    char* const part = malloc(length);
    if (!part) {
        explain(path, ENOMEM, why);
        return false;
    }
    snprintf(part, length, "%s.part-XXXXXX", path);
    const int file = mkstemp(part);
    bool good = file >= 0;
    if (good) {
        open_up(file);
        good = write_all(file, (const char*)bytes, size);
        const int error = errno;
        good = close(file) == 0 && good;
        errno = error;
        good = good && put_in_place(part, path, replace);
    }
    const int error = errno;
    if (!good) {
        explain(path, error, why);
        if (file >= 0) {
            unlink(part);
        }
    }
    free(part);
    return good;
}

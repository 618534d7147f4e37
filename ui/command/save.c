// SPDX-License-Identifier: ISC
#include "save.h"

#include <errno.h>
#include <signal.h>
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
    return true;
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

bool save_refuses(const char* const path, const bool replace, char why[SAVE_WHY_ROOM])
{
    struct stat there;
    const bool is_there = lstat(path, &there) == 0;
    if (is_there && !replace) {
        explain(path, EEXIST, why);
        return true;
    }
    /* A device or folder is not a file of the user's to be renamed over. */
    if (is_there && stat(path, &there) == 0 && !S_ISREG(there.st_mode)) {
        snprintf(why, SAVE_WHY_ROOM, "%s is no plain file; choose another name", path);
        return true;
    }
    return false;
}

static void interruptions(sigset_t* const set)
{
    sigemptyset(set);
    sigaddset(set, SIGINT);
    sigaddset(set, SIGTERM);
    sigaddset(set, SIGHUP);
}

bool save_interrupted(void)
{
    sigset_t waiting;
    return sigpending(&waiting) == 0 &&
           (sigismember(&waiting, SIGINT) == 1 || sigismember(&waiting, SIGTERM) == 1 ||
            sigismember(&waiting, SIGHUP) == 1);
}

/* Into a new file named `part`, which is gone again if that failed. */
static bool write_part(char* const part, const SaveWriter writer, void* const context,
                       const char* const path, const bool replace)
{
    const int file = mkstemp(part);
    if (file < 0) {
        return false;
    }
    open_up(file);
    bool good = writer(file, context) && fsync(file) == 0;
    int error = errno;
    if (close(file) && good) {
        good = false;
        error = errno;
    }
    if (good) {
        good = put_in_place(part, path, replace);
        error = errno;
    }
    if (!good) {
        unlink(part);
    }
    errno = error;
    return good;
}

bool save_by(const char* const path, const SaveWriter writer, void* const context,
             const bool replace, char why[SAVE_WHY_ROOM])
{
    if (save_refuses(path, replace, why)) {
        return false;
    }
    const size_t length = strlen(path) + sizeof ".part-XXXXXX";
    char* const part = malloc(length);
    if (!part) {
        explain(path, ENOMEM, why);
        return false;
    }
    snprintf(part, length, "%s.part-XXXXXX", path);
    sigset_t held, before;
    interruptions(&held);
    sigprocmask(SIG_BLOCK, &held, &before);
    const bool good = write_part(part, writer, context, path, replace);
    if (!good) {
        explain(path, errno, why);
    }
    free(part);
    sigprocmask(SIG_SETMASK, &before, NULL);
    return good;
}

typedef struct {
    const char* bytes;
    size_t size;
} Whole;

static bool write_whole(const int file, void* const context)
{
    const Whole* const whole = (const Whole*)context;
    return write_all(file, whole->bytes, whole->size);
}

bool save_file(const char* const path, const void* const bytes, const size_t size,
               const bool replace, char why[SAVE_WHY_ROOM])
{
    Whole whole = {(const char*)bytes, size};
    return save_by(path, write_whole, &whole, replace, why);
}

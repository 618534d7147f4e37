// SPDX-License-Identifier: ISC
#include "save.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PART_ROOM = 40, PARTS_MOST = 1000, COPY_BYTES = 65536 };

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
    } else if (error == ENOSPC || error == EDQUOT || error == EFBIG) {
        snprintf(why, SAVE_WHY_ROOM,
                 "%s can't be written: %s; make room and save again, what was there is as it was",
                 path, strerror(error));
    } else if (error == EACCES || error == EPERM || error == EROFS) {
        snprintf(why, SAVE_WHY_ROOM,
                 "%s can't be written: %s; allow writing in its folder and save again", path,
                 strerror(error));
    } else {
        snprintf(why, SAVE_WHY_ROOM, "%s can't be written: %s", path, strerror(error));
    }
}

/* A new file beside `path` with a name of its own, in `part`; -1 if none can be
   made.  Made by open, not mkstemp, so that umask is honoured without being
   asked: asking changes it for the whole process for a moment. */
static int open_part(const char* const path, char* const part, const size_t room)
{
    int file = -1;
    for (int i = 0; i < PARTS_MOST && file < 0; ++i) {
        snprintf(part, room, "%s.part-%ld-%d", path, (long)getpid(), i);
        file = open(part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file < 0 && errno != EEXIST) {
            return -1;
        }
    }
    return file;
}

static void keep_mode(const char* const path, const int file)
{
    struct stat there;
    if (stat(path, &there) == 0 && fchmod(file, there.st_mode & 07777)) {
        return; /* modes can't be set everywhere; the umask's is good enough */
    }
}

/* A name is on the disk once its folder is. */
static void settle_folder(const char* const path)
{
    char* const folder = strdup(path);
    char* const slash = folder ? strrchr(folder, '/') : NULL;
    if (slash) {
        slash[slash == folder] = '\0';
    }
    const int opened = folder ? open(slash ? folder : ".", O_RDONLY | O_CLOEXEC) : -1;
    if (opened >= 0) {
        fsync(opened);
        close(opened);
    }
    free(folder);
}

bool save_refuses(const char* const path, const bool replace, char why[SAVE_WHY_ROOM])
{
    struct stat there;
    const bool is_there = lstat(path, &there) == 0;
    if (is_there && !replace) {
        explain(path, EEXIST, why);
        return true;
    }
    if (is_there && stat(path, &there) == 0 && !S_ISREG(there.st_mode)) {
        snprintf(why, SAVE_WHY_ROOM, "%s is no plain file; choose another name", path);
        return true;
    }
    return false;
}

/* Fills the part and closes it; errno says what failed. */
static bool fill(const char* const path, const int file, const SaveWriter writer,
                 void* const context)
{
    keep_mode(path, file);
    const bool good = writer(file, context) && fsync(file) == 0;
    const int error = errno;
    const bool closed = close(file) == 0;
    errno = good ? errno : error;
    return good && closed;
}

bool save_by(const char* const path, const SaveWriter writer, void* const context,
             const bool replace, char why[SAVE_WHY_ROOM])
{
    if (save_refuses(path, replace, why)) {
        return false;
    }
    const size_t room = strlen(path) + PART_ROOM;
    char* const part = malloc(room);
    if (!part) {
        explain(path, ENOMEM, why);
        return false;
    }
    const int file = open_part(path, part, room);
    const bool good =
        file >= 0 && fill(path, file, writer, context) && put_in_place(part, path, replace);
    if (good) {
        settle_folder(path);
    } else {
        explain(path, errno, why);
        if (file >= 0) {
            unlink(part);
        }
    }
    free(part);
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

static bool copy(const char* const path, const char* const backup, char why[SAVE_WHY_ROOM])
{
    FILE* const stream = fopen(path, "rb");
    char* bytes = NULL;
    size_t size = 0;
    bool good = stream;
    for (size_t got = COPY_BYTES; good && got == COPY_BYTES;) {
        char* const grown = realloc(bytes, size + COPY_BYTES);
        good = grown;
        bytes = grown ? grown : bytes;
        got = grown ? fread(bytes + size, 1, COPY_BYTES, stream) : 0;
        size += got;
    }
    good = good && !ferror(stream);
    if (!good) {
        explain(path, errno, why);
    }
    if (stream) {
        fclose(stream);
    }
    good = good && save_file(backup, bytes, size, true, why);
    free(bytes);
    return good;
}

bool save_backup(const char* const path, const char* const backup, char why[SAVE_WHY_ROOM])
{
    const size_t room = strlen(backup) + PART_ROOM;
    char* const part = malloc(room);
    if (!part) {
        explain(backup, ENOMEM, why);
        return false;
    }
    snprintf(part, room, "%s.part-%ld", backup, (long)getpid());
    unlink(part);
    const bool linked = link(path, part) == 0;
    const bool good = linked && rename(part, backup) == 0;
    if (linked) {
        unlink(part); /* where both were one file already, rename leaves it */
    }
    free(part);
    return good || copy(path, backup, why);
}

// SPDX-License-Identifier: ISC
#include "temp.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

enum { TEMP_ROOM = 48, TEMPS_MOST = 1000 };

static const char mark[] = ".part-";

/* True if this file is ours alone, or nothing here can be locked: then nobody sweeps
   either.  flock, not fcntl's locks: those are one for a whole process, and a host has
   many instances in one.  A sweeper may have been faster: then the name is gone. */
static bool lock(const int file)
{
    struct stat status;
    if (flock(file, LOCK_EX | LOCK_NB) && errno == EWOULDBLOCK) {
        return false;
    }
    return fstat(file, &status) || status.st_nlink > 0;
}

static bool name_temp(Temp* const temp, const char* const path)
{
    *temp = (Temp){-1, malloc(strlen(path) + TEMP_ROOM)};
    return temp->path;
}

static void next_name(const Temp* const temp, const char* const path, const int number)
{
    snprintf(temp->path, strlen(path) + TEMP_ROOM, "%s%s%ld-%d", path, mark, (long)getpid(),
             number);
}

static void forget(Temp* const temp)
{
    free(temp->path);
    temp->path = NULL;
}

/* By open, not mkstemp, so that umask is honoured without being asked: asking changes it
   for the whole process for a moment. */
bool temp_open(Temp* const temp, const char* const path)
{
    if (!name_temp(temp, path)) {
        return false;
    }
    for (int i = 0; i < TEMPS_MOST; ++i) {
        next_name(temp, path, i);
        temp->file = open(temp->path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (temp->file >= 0 && lock(temp->file)) {
            return true;
        }
        if (temp->file >= 0) {
            close(temp->file);
            temp->file = -1;
            errno = EEXIST;
        }
        if (errno != EEXIST) {
            break;
        }
    }
    forget(temp);
    return false;
}

bool temp_link(Temp* const temp, const char* const from, const char* const path)
{
    if (!name_temp(temp, path)) {
        return false;
    }
    int linked = -1;
    for (int i = 0; i < TEMPS_MOST && linked; ++i) {
        next_name(temp, path, i);
        linked = link(from, temp->path);
        if (linked && errno != EEXIST) {
            break;
        }
    }
    temp->file = linked ? -1 : open(temp->path, O_RDWR | O_NOFOLLOW | O_CLOEXEC);
    if (temp->file >= 0 && lock(temp->file)) {
        return true;
    }
    const int error = temp->file >= 0 ? EWOULDBLOCK : errno;
    if (linked) {
        forget(temp);
    }
    temp_close(temp);
    errno = error;
    return false;
}

int temp_hold(const char* const path)
{
    const int file = open(path, O_RDWR | O_CLOEXEC);
    if (file >= 0 && !lock(file)) {
        close(file);
        errno = EWOULDBLOCK;
        return -1;
    }
    return file;
}

bool temp_write(const Temp* const temp, const char* bytes, size_t size)
{
    while (size > 0) {
        const ssize_t written = write(temp->file, bytes, size);
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

/* Where there are no links, an empty file takes the name first. */
static bool claim(const char* const path)
{
    const int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file >= 0) {
        close(file);
    }
    return file >= 0;
}

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
    if (!claim(to)) {
        return false;
    }
    const bool named = rename(from, to) == 0;
    const int error = errno;
    if (!named) {
        unlink(to);
        errno = error;
    }
    return named;
}

bool temp_name(Temp* const temp, const char* const path, const bool replace)
{
    if (!put_in_place(temp->path, path, replace)) {
        return false;
    }
    forget(temp);
    return true;
}

void temp_close(Temp* const temp)
{
    const int error = errno;
    if (temp->path) {
        unlink(temp->path);
        forget(temp);
    }
    if (temp->file >= 0) {
        close(temp->file); /* the lock goes with it */
        temp->file = -1;
    }
    errno = error;
}

/* ---- Sweeping */

static size_t digits(const char* const text)
{
    return strspn(text, "0123456789");
}

/* How long the name is that such a file is for; 0 if it is none of ours. */
static size_t stem_length(const char* const name)
{
    const char* found = NULL;
    for (const char* at = name; (at = strstr(at, mark)); ++at) {
        found = at;
    }
    const char* const process = found ? found + sizeof mark - 1 : NULL;
    const size_t first = process ? digits(process) : 0;
    if (!first || process[first] != '-') {
        return 0;
    }
    const char* const number = process + first + 1;
    return digits(number) && !number[digits(number)] ? (size_t)(found - name) : 0;
}

static bool ends_so(const char* const name, const size_t length, const char* const end)
{
    const size_t size = strlen(end);
    return length > size && !strncmp(name + length - size, end, size);
}

/* True if the name is of one for `stem`, or where that is NULL for any *.ttl. */
static bool is_temp(const char* const name, const char* const stem)
{
    const size_t length = stem_length(name);
    if (stem) {
        return length && length == strlen(stem) && !strncmp(name, stem, length);
    }
    return length && (ends_so(name, length, ".ttl") || ends_so(name, length, ".ttl.bak"));
}

/* Whoever can lock it knows that its maker is gone. */
static void sweep_file(const int folder, const char* const name)
{
    struct stat opened, named;
    const int file = openat(folder, name, O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
        return;
    }
    if (fstat(file, &opened) == 0 && S_ISREG(opened.st_mode) &&
        flock(file, LOCK_EX | LOCK_NB) == 0 &&
        fstatat(folder, name, &named, AT_SYMLINK_NOFOLLOW) == 0 && named.st_ino == opened.st_ino &&
        named.st_dev == opened.st_dev) {
        unlinkat(folder, name, 0);
    }
    close(file);
}

static void sweep(const char* const folder, const char* const stem)
{
    const int error = errno;
    DIR* const directory = opendir(folder);
    for (const struct dirent* entry; directory && (entry = readdir(directory));) {
        if (is_temp(entry->d_name, stem)) {
            sweep_file(dirfd(directory), entry->d_name);
        }
    }
    if (directory) {
        closedir(directory);
    }
    errno = error;
}

void temp_sweep_for(const char* const path)
{
    const char* const slash = strrchr(path, '/');
    char* const folder = slash ? strndup(path, (size_t)(slash - path) + 1) : strdup(".");
    if (folder) {
        sweep(folder, slash ? slash + 1 : path);
    }
    free(folder);
}

void temp_sweep_folder(const char* const folder)
{
    sweep(folder, NULL);
}

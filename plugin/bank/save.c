// SPDX-License-Identifier: ISC
#include "save.h"

#include "temp.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static void explain(const char* const path, const int error, char why[SAVE_WHY_ROOM])
{
    if (error == EEXIST) {
        snprintf(why, SAVE_WHY_ROOM, "%s is there already; choose another name", path);
    } else if (error == ENOENT) {
        snprintf(why, SAVE_WHY_ROOM, "%s: there is no such folder; make it first", path);
    } else if (error == ENOSPC || error == EDQUOT) {
        snprintf(why, SAVE_WHY_ROOM,
                 "%s can't be written: %s; make room and save again, what was there is as it was",
                 path, strerror(error));
    } else if (error == EFBIG) {
        snprintf(why, SAVE_WHY_ROOM,
                 "%s can't be written: files may not be as large as this here; raise the limit on "
                 "file size (ulimit -f) or make room elsewhere and save again, what was there is "
                 "as it was",
                 path);
    } else if (error == EACCES || error == EPERM || error == EROFS) {
        snprintf(why, SAVE_WHY_ROOM,
                 "%s can't be written: %s; allow writing in its folder and save again", path,
                 strerror(error));
    } else {
        snprintf(why, SAVE_WHY_ROOM, "%s can't be written: %s", path, strerror(error));
    }
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

/* ---- The signal for too large a file, which ends whoever has no handler: kept from
   this thread, and taken away before the next call sees it.  No handler is touched. */

typedef struct {
    sigset_t before;
    bool was_pending;
} Hush;

static void size_signal(sigset_t* const set)
{
    sigemptyset(set);
    sigaddset(set, SIGXFSZ);
}

static Hush hush(void)
{
    Hush kept;
    sigset_t pending, size;
    size_signal(&size);
    kept.was_pending = sigpending(&pending) == 0 && sigismember(&pending, SIGXFSZ) == 1;
    pthread_sigmask(SIG_BLOCK, &size, &kept.before);
    return kept;
}

static void unhush(const Hush kept)
{
    const int error = errno;
    sigset_t size;
    size_signal(&size);
    while (!kept.was_pending && sigtimedwait(&size, NULL, &(struct timespec){0, 0}) == SIGXFSZ) {
    }
    pthread_sigmask(SIG_SETMASK, &kept.before, NULL);
    errno = error;
}

/* ---- Writing */

static bool fill(const char* const path, const Temp* const temp, const SaveWriter writer,
                 void* const context)
{
    const Hush kept = hush();
    keep_mode(path, temp->file);
    const bool good = writer(temp->file, context) && fsync(temp->file) == 0;
    unhush(kept);
    return good;
}

/* A file for `path`, whole and on the disk but for its name; errno says what failed. */
static bool make(Temp* const temp, const char* const path, const SaveWriter writer,
                 void* const context)
{
    if (!temp_open(temp, path)) {
        return false;
    }
    if (!fill(path, temp, writer, context)) {
        temp_close(temp);
        return false;
    }
    return true;
}

bool save_by(const char* const path, const SaveWriter writer, void* const context,
             const bool replace, char why[SAVE_WHY_ROOM])
{
    Temp temp;
    temp_sweep_for(path);
    if (save_refuses(path, replace, why)) {
        return false;
    }
    bool good = make(&temp, path, writer, context);
    if (good) {
        good = temp_name(&temp, path, replace);
        temp_close(&temp);
    }
    if (good) {
        settle_folder(path);
    } else {
        explain(path, errno, why);
    }
    return good;
}

bool save_text(const int file, void* const context)
{
    const SaveText* const text = (const SaveText*)context;
    const Temp temp = {file, NULL};
    return temp_write(&temp, (const char*)text->bytes, text->size);
}

bool save_file(const char* const path, const void* const bytes, const size_t size,
               const bool replace, char why[SAVE_WHY_ROOM])
{
    SaveText text = {bytes, size};
    return save_by(path, save_text, &text, replace, why);
}

SaveResult save_new(const char* const path, SaveText text, char why[SAVE_WHY_ROOM])
{
    struct stat there;
    errno = 0;
    if (save_by(path, save_text, &text, false, why)) {
        return SAVE_DONE;
    }
    return lstat(path, &there) == 0 ? SAVE_TAKEN : SAVE_FAILED;
}

bool save_append(const char* const path, SaveText text)
{
    struct stat status;
    const int file =
        open(path, O_WRONLY | O_APPEND | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0666);
    if (file < 0) {
        return false;
    }
    const Hush kept = hush();
    const bool good =
        fstat(file, &status) == 0 && S_ISREG(status.st_mode) && save_text(file, &text);
    unhush(kept);
    close(file);
    return good;
}

/* ---- In the place of another */

static bool has(const int file, const SaveText text)
{
    struct stat status;
    char* const bytes = malloc(text.size + 1);
    bool same = bytes && fstat(file, &status) == 0 && status.st_size == (off_t)text.size;
    size_t got = 0;
    for (ssize_t more = 1; same && more > 0 && got < text.size; got += (size_t)more) {
        more = pread(file, bytes + got, text.size - got, (off_t)got);
        same = more > 0;
    }
    same = same && !memcmp(bytes, text.bytes, text.size);
    free(bytes);
    return same;
}

/* The older text on its way to be the backup: by another name of its file, or as a copy
   where links can't be had.  In *held what keeps others from replacing it then, or -1. */
static SaveResult set_aside(Temp* const aside, const char* const path, SaveText older,
                            const char* const backup, int* const held)
{
    *held = -1;
    temp_sweep_for(backup);
    if (temp_link(aside, path, backup)) {
        if (has(aside->file, older)) {
            return SAVE_DONE;
        }
        temp_close(aside);
        return SAVE_CHANGED;
    }
    if (errno != EWOULDBLOCK && errno != ENOENT) {
        *held = temp_hold(path);
    }
    if (*held < 0 || !has(*held, older)) {
        return SAVE_CHANGED;
    }
    return make(aside, backup, save_text, &older) ? SAVE_DONE : SAVE_FAILED;
}

/* Both get their names: the new one first, so that a failure leaves the older backup. */
static SaveResult swap(Temp* const temp, const char* const path, const SaveText older,
                       const char* const backup)
{
    Temp aside;
    int held = -1;
    SaveResult result = set_aside(&aside, path, older, backup, &held);
    if (result == SAVE_DONE) {
        result = temp_name(temp, path, true) ? SAVE_DONE : SAVE_FAILED;
        if (result == SAVE_DONE) {
            temp_name(&aside, backup, true);
        }
        temp_close(&aside);
    }
    const int error = errno;
    if (held >= 0) {
        close(held);
    }
    errno = error;
    return result;
}

SaveResult save_swap(const char* const path, const SaveText older, const char* const backup,
                     SaveText text, char why[SAVE_WHY_ROOM])
{
    Temp temp;
    SaveResult result = SAVE_FAILED;
    temp_sweep_for(path);
    if (make(&temp, path, save_text, &text)) {
        result = swap(&temp, path, older, backup);
        temp_close(&temp);
    }
    if (result == SAVE_DONE) {
        settle_folder(path);
    } else {
        explain(path, errno, why);
    }
    return result;
}

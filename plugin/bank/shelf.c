// SPDX-License-Identifier: ISC
#include "shelf.h"

#include "entries.h"
#include "page.h"
#include "save.h"
#include "single.h"
#include "write_figure.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum {
    SHELF_PATH_ROOM = 4096 + 64,
    FILE_MOST = 16 * 1024 * 1024, /* as the bank reads */
    LOCK_TRIES = 500,             /* of ten milliseconds */
    LOCK_PAUSE_NS = 10000000,
    SLUG_MOST = 40
};

/* The user's file while it is ours alone. */
typedef struct {
    const char* folder;
    char path[SHELF_PATH_ROOM]; /* where links lead to */
    int lock;
    char* text; /* "" if there is no file yet */
    size_t size;
    bool is_there;
    bool seen[PAGE_IDS]; /* ids that stand in any file of the folder */
    uint32_t highest;    /* that any has or had; 0: none */
    char* why;
} Shelf;

static bool fail(const Shelf* const shelf, const char* const what, const char* const remedy)
{
    snprintf(shelf->why, SHELF_WHY_ROOM, "%s: %s; %s", shelf->folder, what, remedy);
    return false;
}

/* Makes the folder and those above it. */
static bool make_folder(const Shelf* const shelf)
{
    char path[SHELF_PATH_ROOM];
    snprintf(path, sizeof path, "%s", shelf->folder);
    for (char* slash = path + 1; (slash = strchr(slash, '/')); ++slash) {
        *slash = '\0';
        mkdir(path, 0777);
        *slash = '/';
    }
    struct stat there;
    if ((mkdir(path, 0777) && errno != EEXIST) || stat(path, &there)) {
        return fail(shelf, strerror(errno), "make this folder, or allow making it, and save again");
    }
    return S_ISDIR(there.st_mode) ||
           fail(shelf, "is a file", "move it away, so that there can be a folder, and save again");
}

/* flock, not fcntl's locks: those are one for a whole process, and a host has
   many instances in one. */
static bool take_lock(Shelf* const shelf)
{
    char path[SHELF_PATH_ROOM];
    snprintf(path, sizeof path, "%s/mine.ttl.lock", shelf->folder);
    shelf->lock = open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (shelf->lock < 0) {
        return fail(shelf, strerror(errno), "allow writing in this folder and save again");
    }
    for (int i = 0; i < LOCK_TRIES; ++i) {
        if (flock(shelf->lock, LOCK_EX | LOCK_NB) == 0) {
            return true;
        }
        if (errno != EWOULDBLOCK && errno != EINTR) {
            return fail(shelf, strerror(errno), "it needs a file system with locks");
        }
        nanosleep(&(struct timespec){0, LOCK_PAUSE_NS}, NULL);
    }
    return fail(shelf, "another program has been saving here for seconds",
                "save again when it is done");
}

/* A whole file of the folder; NULL if it can't be read.  The caller frees. */
static char* load(const char* const path, size_t* const size)
{
    struct stat there;
    const bool good = stat(path, &there) == 0 && S_ISREG(there.st_mode);
    FILE* const stream = good && there.st_size <= FILE_MOST ? fopen(path, "rb") : NULL;
    const size_t room = good ? (size_t)there.st_size : 0;
    char* text = stream ? malloc(room + 1) : NULL;
    if (text) {
        *size = fread(text, 1, room, stream);
        text[*size] = '\0';
        if (*size != room || ferror(stream)) {
            free(text);
            text = NULL;
        }
    }
    if (stream) {
        fclose(stream);
    }
    return text;
}

/* mine.ttl may be a link into a folder that people keep elsewhere. */
static bool load_mine(Shelf* const shelf)
{
    char path[SHELF_PATH_ROOM];
    snprintf(path, sizeof path, "%s/mine.ttl", shelf->folder);
    char* const real = realpath(path, NULL);
    snprintf(shelf->path, sizeof shelf->path, "%s", real ? real : path);
    free(real);
    struct stat there;
    shelf->is_there = lstat(shelf->path, &there) == 0;
    shelf->text = shelf->is_there ? load(shelf->path, &shelf->size) : strdup("");
    return shelf->text || fail(shelf, "mine.ttl is there but can't be read, or is over 16 MB",
                               "allow reading it, or move it away, and save again");
}

static bool is_turtle(const char* const name)
{
    const size_t length = strlen(name);
    return length > 4 && !strcmp(name + length - 4, ".ttl");
}

/* Calls `use` for each file of the folder with its path. */
static void each_file(Shelf* const shelf,
                      void (*const use)(Shelf* shelf, const char* name, const char* path))
{
    DIR* const directory = opendir(shelf->folder);
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        char path[SHELF_PATH_ROOM + 256];
        snprintf(path, sizeof path, "%s/%s", shelf->folder, entry->d_name);
        use(shelf, entry->d_name, path);
    }
    if (directory) {
        closedir(directory);
    }
}

static void see_file(Shelf* const shelf, const char* const name, const char* const path)
{
    size_t size = 0;
    char* const text = is_turtle(name) ? load(path, &size) : NULL;
    if (text) {
        page_see_ids(text, size, shelf->seen);
    }
    free(text);
}

/* Of somebody who was killed while saving: nobody else saves while we do. */
static void sweep_file(Shelf* const shelf, const char* const name, const char* const path)
{
    (void)shelf;
    if (!strncmp(name, "mine.ttl.part-", 14) || !strncmp(name, "mine.ttl.bak.part-", 18)) {
        unlink(path);
    }
}

/* The lock's file remembers the highest id given, for entries that were deleted. */
static void recall_ids(Shelf* const shelf)
{
    char number[16] = "";
    const ssize_t size = pread(shelf->lock, number, sizeof number - 1, 0);
    const unsigned long given = size > 0 ? strtoul(number, NULL, 10) : 0;
    each_file(shelf, see_file);
    shelf->highest = given >= ID_FIRST_OWN && given <= ID_MOST ? (uint32_t)given : 0;
    for (uint32_t i = 0; i < PAGE_IDS; ++i) {
        const uint32_t id = ID_FIRST_OWN + i;
        shelf->highest = shelf->seen[i] && id > shelf->highest ? id : shelf->highest;
    }
}

static void remember_id(const Shelf* const shelf, const uint32_t id)
{
    char number[16];
    const int size =
        snprintf(number, sizeof number, "%u\n", id > shelf->highest ? id : shelf->highest);
    if (pwrite(shelf->lock, number, (size_t)size, 0) != size) {
        return; /* a comfort only: ids in files are seen without it */
    }
}

/* Small letters, digits and hyphens of a label, for the entry's name. */
static void make_slug(const char* label, char slug[SLUG_MOST + 1])
{
    size_t length = 0;
    for (; *label && length < SLUG_MOST; ++label) {
        char sign = *label;
        if (sign >= 'A' && sign <= 'Z') {
            sign = (char)(sign - 'A' + 'a');
        }
        if ((sign >= 'a' && sign <= 'z') || (sign >= '0' && sign <= '9')) {
            slug[length++] = sign;
        } else if (length && slug[length - 1] != '-') {
            slug[length++] = '-';
        }
    }
    while (length && slug[length - 1] == '-') {
        --length;
    }
    slug[length] = '\0';
}

/* Which id the entry gets, and the name it has or gets. */
static bool place_entry(Shelf* const shelf, const Single* const single, const uint32_t least_id,
                        PageEntry* const entry)
{
    const uint32_t asked = single->info.id;
    const uint32_t next = shelf->highest ? shelf->highest + 1 : ID_FIRST_OWN;
    const uint32_t fresh = next > least_id ? next : least_id;
    const bool own = asked >= ID_FIRST_OWN;
    if (own && page_find(shelf->text, shelf->size, single->kind, asked, entry)) {
        return true;
    }
    entry->kind = single->kind;
    entry->id = own ? asked : fresh;
    if (own && shelf->seen[asked - ID_FIRST_OWN]) {
        /* In another file, of another kind, or unreadable. */
        char what[64];
        snprintf(what, sizeof what, "id %u is not an entry of this kind in mine.ttl", asked);
        return fail(shelf, what, "save it without fl:id, under a new one");
    }
    if (entry->id > ID_MOST) {
        char what[80];
        snprintf(what, sizeof what, "all ids for your own entries, %d to %d, are taken",
                 ID_FIRST_OWN, ID_MOST);
        return fail(shelf, what, "save over an entry that is there, or move files away");
    }
    char slug[SLUG_MOST + 1];
    char uri[128];
    make_slug(single->info.label, slug);
    snprintf(uri, sizeof uri, "urn:fourlimb:mine:%s-%u", *slug ? slug : "entry", entry->id);
    entry->uri = strdup(uri);
    return entry->uri || fail(shelf, "there is no memory", "save again");
}

static char* write_single(const Single* const single, const PageEntry* const entry)
{
    EntryInfo info = single->info;
    info.id = entry->id;
    info.uri = entry->uri;
    return single->kind == ENTRY_KIT ? write_kit(&single->kit, &info)
                                     : write_figure(&single->figure, &info);
}

static bool put(const Shelf* const shelf, const Single* const single, const PageEntry* const entry)
{
    char backup[SHELF_PATH_ROOM + 8];
    char reason[SHELF_WHY_ROOM] = ""; /* longer than either that is put there */
    size_t size = 0;
    char* const written = write_single(single, entry);
    char* const text =
        written ? page_put(shelf->text, shelf->size, written, entry, &size, reason) : NULL;
    snprintf(backup, sizeof backup, "%s.bak", shelf->path);
    const bool good = text && (!shelf->is_there || save_backup(shelf->path, backup, reason)) &&
                      save_file(shelf->path, text, size, true, reason);
    if (!good) {
        snprintf(shelf->why, SHELF_WHY_ROOM, "%s", *reason ? reason : "there is no memory");
    }
    free(text);
    free(written);
    return good;
}

static uint32_t save_locked(Shelf* const shelf, const Single* const single, const uint32_t least_id)
{
    PageEntry entry = {.uri = NULL};
    each_file(shelf, sweep_file);
    recall_ids(shelf);
    const bool good = load_mine(shelf) && place_entry(shelf, single, least_id, &entry) &&
                      put(shelf, single, &entry);
    if (good) {
        remember_id(shelf, entry.id);
    }
    free(entry.uri);
    free(shelf->text);
    return good ? entry.id : 0;
}

uint32_t shelf_save(const char* const folder, const char* const text, const size_t size,
                    const uint32_t least_id, char why[SHELF_WHY_ROOM])
{
    Shelf shelf = {.folder = folder, .lock = -1, .why = why};
    char reason[SINGLE_WHY_ROOM];
    uint32_t id = 0;
    if (!folder || strlen(folder) > SHELF_PATH_ROOM - 64) {
        snprintf(why, SHELF_WHY_ROOM,
                 "there is no folder for your own figures; set HOME or "
                 "XDG_DATA_HOME, start the host again and save again");
        return 0;
    }
    Single* const single = single_read("/what was to be saved", text, size, reason);
    if (!single) {
        snprintf(why, SHELF_WHY_ROOM, "%s", reason);
    } else if (!*single->info.label) {
        snprintf(why, SHELF_WHY_ROOM, "what was to be saved has no name; give it one");
    } else if (make_folder(&shelf) && take_lock(&shelf)) {
        id = save_locked(&shelf, single, least_id);
    }
    if (shelf.lock >= 0) {
        close(shelf.lock); /* the lock goes with it */
    }
    single_free(single);
    return id;
}

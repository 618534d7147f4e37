// SPDX-License-Identifier: ISC
#include "user_bank.h"

#include "bounds.h"
#include "checksum.h"
#include "temp.h"
#include "save.h"
#include "single.h"
#include "turtle.h"
#include "write_figure.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum {
    USER_BANK_PATH_ROOM = 4096 + 64,
    SLUG_MOST = 40,
    OTHER_FILES = 16, /* that a bank reads besides: the factory's, a session's, one more */
    OTHER_BYTES = 1024 * 1024
};

/* The saved file of an entry, as it is now. */
typedef struct {
    char file[USER_BANK_NAME_ROOM]; /* "": there is none */
    char* text;                     /* owned */
    size_t size;
    char* uri; /* of the entry; owned */
} Older;

typedef struct {
    const char* folder;
    const Single* single; /* what is to be saved */
    const Bank* bank;     /* that it may name entries of; or NULL */
    OwnIds recorded;      /* as the record has them */
    OwnIds there;         /* in files of the folder */
    bool has_record;
    unsigned files; /* *.ttl of the folder */
    size_t bytes;   /* of those that the bank reads */
    Older older;    /* of what has the kind and the id */
    char* why;
} UserBank;

static bool fail(const UserBank* const own, const char* const what, const char* const remedy)
{
    snprintf(own->why, USER_BANK_WHY_ROOM, "%s: %s; %s", own->folder, what, remedy);
    return false;
}

/* Makes the folder and those above it. */
static bool make_folder(const UserBank* const own)
{
    char path[USER_BANK_PATH_ROOM];
    snprintf(path, sizeof path, "%s", own->folder);
    for (char* slash = path + 1; (slash = strchr(slash, '/')); ++slash) {
        *slash = '\0';
        mkdir(path, 0777);
        *slash = '/';
    }
    struct stat there;
    if ((mkdir(path, 0777) && errno != EEXIST) || stat(path, &there)) {
        return fail(own, strerror(errno), "make this folder, or allow making it, and save again");
    }
    return S_ISDIR(there.st_mode) ||
           fail(own, "is a file", "move it away, so that there can be a folder, and save again");
}

/* ---- What is there */

char* user_bank_load(const char* const path, size_t* const size)
{
    struct stat there;
    const bool good = stat(path, &there) == 0 && S_ISREG(there.st_mode);
    FILE* const stream = good && there.st_size <= FILE_BYTES_MOST ? fopen(path, "rb") : NULL;
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

/* Takes the text over if it is the saved file of the entry that is asked for. */
static bool is_older(UserBank* const own, const char* const name, char* const text,
                     const size_t size)
{
    char reason[SINGLE_WHY_ROOM];
    Older* const older = &own->older;
    if (*older->file || strlen(name) >= USER_BANK_NAME_ROOM || !checksum_holds(text, size)) {
        return false;
    }
    Single* const single = single_read_over(own->bank, "/saved before", text, size, reason);
    if (single && single->kind == own->single->kind && single->info.id == own->single->info.id) {
        older->uri = strdup(single->info.uri);
        older->text = text;
        older->size = size;
        snprintf(older->file, sizeof older->file, "%s", name);
    }
    single_free(single);
    return older->text;
}

static void see_file(UserBank* const own, const char* const name, const char* const path)
{
    size_t size = 0;
    OwnIds here = {{false}};
    char* const text = user_bank_load(path, &size);
    if (text) {
        ids_see(&here, text, size);
        own->bytes += size;
    }
    ids_add_all(&own->there, &here);
    if (!text || !ids_has(&here, own->single->info.id) || !is_older(own, name, text, size)) {
        free(text);
    }
}

static void look(UserBank* const own)
{
    size_t size = 0;
    char path[USER_BANK_PATH_ROOM + USER_BANK_NAME_ROOM];
    snprintf(path, sizeof path, "%s/%s", own->folder, IDS_RECORD);
    char* const record = user_bank_load(path, &size);
    own->has_record = record;
    if (record) {
        ids_recall(&own->recorded, record, size);
    }
    free(record);
    DIR* const directory = opendir(own->folder);
    for (const struct dirent* entry; directory && (entry = readdir(directory));) {
        if (turtle_is_file(entry->d_name)) {
            snprintf(path, sizeof path, "%s/%s", own->folder, entry->d_name);
            see_file(own, entry->d_name, path);
            ++own->files;
        }
    }
    if (directory) {
        closedir(directory);
    }
}

/* ---- What is written */

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

/* The file's text for an entry; by the id no other has its URI. */
static char* write_single(const UserBank* const own, const uint32_t id, const char* const older)
{
    const Single* const single = own->single;
    char slug[SLUG_MOST + 1];
    char uri[128];
    EntryInfo info = single->info;
    make_slug(info.label, slug);
    snprintf(uri, sizeof uri, FL_MINE "%s-%u", *slug ? slug : "entry", id);
    info.id = id;
    info.uri = older ? older : uri;
    char* const entry = write_entry_of(own->bank, single->kind, &single->figure, &info);
    char* const text = entry ? checksum_put(entry) : NULL;
    free(entry);
    return text;
}

static SaveResult tell(const UserBank* const own, const SaveResult result, const char* const reason)
{
    snprintf(own->why, USER_BANK_WHY_ROOM, "%s", *reason ? reason : "there is no memory to save");
    return result;
}

/* A file more than the bank reads would be saved and never seen again. */
static bool has_room(const UserBank* const own, const size_t size)
{
    char what[160];
    const unsigned most = FILES_MOST - OTHER_FILES;
    if (own->files >= most) {
        snprintf(what, sizeof what, "%u bank files are there, and no more than %u are read",
                 own->files, most);
        return fail(own, what,
                    "put several into one, or move some out of the folder, and save again");
    }
    if (own->bytes + size > BANK_BYTES_MOST - OTHER_BYTES) {
        snprintf(what, sizeof what, "the bank files there are %zu MB, and no more than %d are read",
                 own->bytes >> 20, (BANK_BYTES_MOST - OTHER_BYTES) >> 20);
        return fail(own, what, "move some out of the folder and save again");
    }
    return true;
}

/* A file of its own for an id that none has. */
static SaveResult put_new(const UserBank* const own, const uint32_t id, Saved* const saved)
{
    char path[USER_BANK_PATH_ROOM + USER_BANK_NAME_ROOM];
    char reason[SAVE_WHY_ROOM] = "";
    SaveResult result = SAVE_FAILED;
    char* const text = write_single(own, id, NULL);
    snprintf(saved->file, sizeof saved->file, "%s-%u.ttl", kind_rows[own->single->kind].name, id);
    snprintf(path, sizeof path, "%s/%s", own->folder, saved->file);
    if (text && !has_room(own, strlen(text))) {
        free(text);
        return SAVE_FAILED;
    }
    if (text) {
        result = save_new(path, (SaveText){text, strlen(text)}, reason);
    }
    free(text);
    saved->id = result == SAVE_DONE ? id : 0;
    return tell(own, result, reason);
}

/* In the place of what was saved before; a link to a file elsewhere stays a link. */
static SaveResult put_over(const UserBank* const own, Saved* const saved)
{
    char path[USER_BANK_PATH_ROOM + USER_BANK_NAME_ROOM];
    char reason[SAVE_WHY_ROOM] = "";
    const Older* const older = &own->older;
    const uint32_t id = own->single->info.id;
    SaveResult result = SAVE_FAILED;
    snprintf(path, sizeof path, "%s/%s", own->folder, older->file);
    snprintf(saved->file, sizeof saved->file, "%s", older->file);
    char* const real = realpath(path, NULL);
    const size_t room = real ? strlen(real) + sizeof ".bak" : 0;
    char* const backup = real ? malloc(room) : NULL;
    char* const text = write_single(own, id, older->uri);
    if (text && backup) {
        snprintf(backup, room, "%s.bak", real);
        result = save_swap(real, (SaveText){older->text, older->size}, backup,
                           (SaveText){text, strlen(text)}, reason);
    }
    free(text);
    free(backup);
    free(real);
    saved->id = result == SAVE_DONE ? id : 0;
    return tell(own, result, reason);
}

/* The next id until nobody else takes it at the same moment. */
static void put_next(UserBank* const own, OwnIds taken, Saved* const saved)
{
    for (uint32_t id = 0; (id = ids_free(&taken));) {
        if (put_new(own, id, saved) != SAVE_TAKEN) {
            return;
        }
        ids_add(&taken, id);
    }
    char what[128];
    snprintf(what, sizeof what, "all ids for your own entries, %d to %d, are in use or were once",
             ID_FIRST_OWN, ID_MOST);
    fail(own, what,
         "save over an entry, or move entries you don't need out of it and delete " IDS_RECORD
         " there: then ids of those that are gone are given again, and old songs that pick one "
         "of them play what it is then");
}

static void put(UserBank* const own, const OwnIds* const in_use, Saved* const saved)
{
    SaveResult result = SAVE_TAKEN;
    const uint32_t asked = own->single->info.id;
    OwnIds taken = own->there;
    if (*own->older.file) {
        result = put_over(own, saved);
    } else if (asked >= ID_FIRST_OWN && !ids_has(&own->there, asked)) {
        result = put_new(own, asked, saved);
    }
    if (result == SAVE_TAKEN || result == SAVE_CHANGED) {
        ids_add_all(&taken, &own->recorded);
        if (in_use) {
            ids_add_all(&taken, in_use);
        }
        put_next(own, taken, saved);
    }
}

/* That an id was given counts also once its file is gone.  Where that can't be noted
   saving goes on: it is no reason to lose what was made. */
static void record(const UserBank* const own, const uint32_t id)
{
    OwnIds now = own->there;
    char path[USER_BANK_PATH_ROOM + USER_BANK_NAME_ROOM];
    ids_add(&now, id);
    char* const lines = ids_lines(&now, &own->recorded, !own->has_record);
    snprintf(path, sizeof path, "%s/%s", own->folder, IDS_RECORD);
    if (lines) {
        save_append(path, (SaveText){lines, strlen(lines)});
    }
    free(lines);
}

static Saved save_single(UserBank* const own, const OwnIds* const in_use)
{
    Saved saved = {.kind = own->single->kind};
    if (!*own->single->info.label) {
        snprintf(own->why, USER_BANK_WHY_ROOM, "what was to be saved has no name; give it one");
    } else if (make_folder(own)) {
        temp_sweep_folder(own->folder);
        look(own);
        put(own, in_use, &saved);
        if (saved.id) {
            record(own, saved.id);
            own->why[0] = '\0';
        }
    }
    free(own->older.text);
    free(own->older.uri);
    return saved;
}

Saved user_bank_save(const char* const folder, const char* const text, const size_t size,
                     const OwnIds* const in_use, char why[USER_BANK_WHY_ROOM])
{
    return user_bank_save_over(NULL, folder, text, size, in_use, why);
}

Saved user_bank_save_over(const Bank* const bank, const char* const folder, const char* const text,
                          const size_t size, const OwnIds* const in_use,
                          char why[USER_BANK_WHY_ROOM])
{
    Saved saved = {.id = 0};
    char reason[SINGLE_WHY_ROOM];
    if (!folder || strlen(folder) > USER_BANK_PATH_ROOM - 64) {
        snprintf(why, USER_BANK_WHY_ROOM,
                 "there is no folder for your own figures; set HOME or "
                 "XDG_DATA_HOME, start the host again and save again");
        return saved;
    }
    Single* const single = single_read_over(bank, "/what was to be saved", text, size, reason);
    if (single) {
        UserBank own = {.folder = folder, .single = single, .bank = bank, .why = why};
        saved = save_single(&own, in_use);
    } else {
        snprintf(why, USER_BANK_WHY_ROOM, "%s", reason);
    }
    single_free(single);
    return saved;
}

/* The diagnostic that begins with the file's name, or NULL. */
static const char* diagnostic_of(const Diagnostics* const diagnostics, const char* const file)
{
    const size_t length = strlen(file);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        const char* const text = diagnostics->texts[i];
        if (!strncmp(text, file, length) && text[length] == ':') {
            return text;
        }
    }
    return NULL;
}

bool user_bank_loaded(const Bank* const bank, const Saved* const saved,
                      char why[USER_BANK_WHY_ROOM])
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    const char* reason = diagnostic_of(diagnostics, saved->file);
    if (!reason && bank_info(bank, saved->kind, saved->id)) {
        return true;
    }
    if (!reason) {
        reason = diagnostics->count ? diagnostics->texts[0] : "the bank is full"; /* bounds first */
    }
    snprintf(why, USER_BANK_WHY_ROOM, "%s is in your folder, but can't be picked: %s", saved->file,
             reason);
    return false;
}

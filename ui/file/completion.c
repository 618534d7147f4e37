// SPDX-License-Identifier: ISC
#include "completion.h"

#include "../../plugin/bank/utf8.h"

#include <dirent.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { NAME_ROOM = 256, LISTED_MOST = 12, WHERE_ROOM = 4096 };

typedef struct {
    const char* part;                   /* how names must begin */
    char common[NAME_ROOM];             /* what all that fit have in common */
    char least[LISTED_MOST][NAME_ROOM]; /* the first of them, in order */
    int listed;
    int count;
    bool is_cut; /* not all were looked at */
} Search;

static void keep_common(Search* const search, const char* const name)
{
    size_t same = 0;
    while (search->common[same] && search->common[same] == name[same]) {
        ++same;
    }
    search->common[utf8_cut(search->common, strlen(search->common), same)] = '\0';
}

/* In its place among the first. */
static void keep_name(Search* const search, const char* const name)
{
    int at = search->listed;
    while (at > 0 && strcmp(name, search->least[at - 1]) < 0) {
        --at;
    }
    if (at == LISTED_MOST) {
        return;
    }
    search->listed += search->listed < LISTED_MOST;
    for (int i = search->listed - 1; i > at; --i) {
        memcpy(search->least[i], search->least[i - 1], NAME_ROOM);
    }
    snprintf(search->least[at], NAME_ROOM, "%s", name);
}

static void keep(Search* const search, const char* const name)
{
    if (search->count++) {
        keep_common(search, name);
    } else {
        snprintf(search->common, NAME_ROOM, "%s", name);
    }
    keep_name(search, name);
}

static bool is_folder(const char* const where, const struct dirent* const entry)
{
    char path[WHERE_ROOM + NAME_ROOM + 1];
    struct stat status;
    snprintf(path, sizeof path, "%s%s", where, entry->d_name);
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

static bool fits(const Search* const search, const char* const where,
                 const struct dirent* const entry)
{
    const char* const name = entry->d_name;
    const bool is_itself = !strcmp(name, ".") || !strcmp(name, "..");
    return !is_itself && !strncmp(name, search->part, strlen(search->part)) &&
           (name[0] != '.' || search->part[0] == '.') && g_utf8_validate(name, -1, NULL) &&
           is_folder(where, entry);
}

static bool look(Search* const search, const char* const where)
{
    DIR* const folder = opendir(where);
    if (!folder) {
        return false;
    }
    const struct dirent* entry = readdir(folder);
    for (int read = 0; entry && !search->is_cut; entry = readdir(folder)) {
        search->is_cut = ++read > COMPLETION_READ_MOST;
        if (!search->is_cut && fits(search, where, entry)) {
            keep(search, entry->d_name);
        }
    }
    closedir(folder);
    return true;
}

static void list(const Search* const search, char names[COMPLETION_NAMES_ROOM])
{
    size_t length = 0;
    int told = 0;
    for (; told < search->listed; ++told) {
        const char* const name = search->least[told];
        if (length + strlen(name) + 24 > COMPLETION_NAMES_ROOM) { /* and how many more */
            break;
        }
        length += (size_t)snprintf(names + length, COMPLETION_NAMES_ROOM - length, "%s%s",
                                   told ? "  " : "", name);
    }
    if (told < search->count) {
        snprintf(names + length, COMPLETION_NAMES_ROOM - length, "%s%d more", told ? "  and " : "",
                 search->count - told);
    }
}

/* The folder in which the last part of the path is sought, with its "/". */
static void where_of(const char* const path, const size_t folders, char where[WHERE_ROOM])
{
    const bool is_home = path[0] == '~' && path[1] == '/';
    snprintf(where, WHERE_ROOM, "%s%.*s", is_home ? g_get_home_dir() : "",
             (int)(folders - (is_home ? 1 : 0)), path + (is_home ? 1 : 0));
}

bool completion_find(char* const path, const size_t room, char names[COMPLETION_NAMES_ROOM])
{
    char where[WHERE_ROOM];
    names[0] = '\0';
    if (!strcmp(path, "~") && room > 2) {
        memcpy(path, "~/", 3);
        return true;
    }
    const char* const last = strrchr(path, '/');
    if (!last) {
        snprintf(names, COMPLETION_NAMES_ROOM, "begin with / or ~/");
        return false;
    }
    const size_t folders = (size_t)(last - path) + 1;
    const size_t length = strlen(path);
    Search search = {.part = last + 1};
    where_of(path, folders, where);
    if (!look(&search, where) || !search.count) {
        snprintf(names, COMPLETION_NAMES_ROOM, "%s",
                 search.is_cut ? "too many files there to look at" : "there is no such folder yet");
        return false;
    }
    const bool is_one = search.count == 1 && !search.is_cut;
    if (!is_one) {
        list(&search, names);
    }
    const size_t common = strlen(search.common);
    if (search.is_cut || folders + common + 2 > room) {
        return false;
    }
    memcpy(path + folders, search.common, common);
    memcpy(path + folders + common, is_one ? "/" : "", is_one ? 2 : 1);
    return strlen(path) > length;
}

bool completion_folder_of(const char* const path, char* const folder, const size_t room)
{
    struct stat status;
    const char* const last = strrchr(path, '/');
    if (!last || !g_utf8_validate(path, -1, NULL) || stat(path, &status)) {
        return false;
    }
    const bool is_one = S_ISDIR(status.st_mode);
    const size_t length = is_one ? strlen(path) : (size_t)(last - path) + 1;
    const char* const end = is_one && last[1] ? "/" : "";
    const int written = snprintf(folder, room, "%.*s%s", (int)length, path, end);
    return written > 0 && (size_t)written < room;
}

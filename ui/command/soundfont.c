// SPDX-License-Identifier: ISC
#include "soundfont.h"

#include "synth.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

static bool is_soundfont(const char* const name)
{
    const char* const dot = strrchr(name, '.');
    return dot && name[0] != '.' && (!strcasecmp(dot, ".sf2") || !strcasecmp(dot, ".sf3"));
}

/* Debian's alternatives name the system's choice so. */
static bool is_default(const char* const name)
{
    return !strncasecmp(name, "default-GM.", 11);
}

static bool comes_before(const char* const name, const char* const other)
{
    if (is_default(name) != is_default(other)) {
        return is_default(name);
    }
    return strcmp(name, other) < 0;
}

/* A piano's soundfont among others is passed by. */
static bool has_drums(const char* const path)
{
    char why[SYNTH_WHY_ROOM];
    Synth* const synth = synth_open(path, 44100.0, why);
    synth_close(synth);
    return synth;
}

/* The folder's best soundfont: the same on every run, whatever the
   order in which the folder is told. */
static bool seek_folder(const char* const folder, char path[SOUNDFONT_ROOM])
{
    DIR* const open = opendir(folder);
    char best[256] = "";
    for (struct dirent* entry = open ? readdir(open) : NULL; entry; entry = readdir(open)) {
        char whole[SOUNDFONT_ROOM];
        const int length = snprintf(whole, sizeof whole, "%s/%s", folder, entry->d_name);
        const bool better = is_soundfont(entry->d_name) && length < SOUNDFONT_ROOM &&
                            (!*best || comes_before(entry->d_name, best));
        if (better && has_drums(whole)) {
            snprintf(best, sizeof best, "%s", entry->d_name);
            memcpy(path, whole, (size_t)length + 1);
        }
    }
    if (open) {
        closedir(open);
    }
    return *best;
}

static bool seek_base(const char* const base, const size_t length, const char* const below,
                      char path[SOUNDFONT_ROOM])
{
    static const char* const places[] = {"soundfonts", "sounds/sf2", "sounds/sf3"};
    for (size_t i = 0; i < sizeof places / sizeof *places; ++i) {
        char folder[SOUNDFONT_ROOM];
        const int wanted =
            snprintf(folder, sizeof folder, "%.*s%s/%s", (int)length, base, below, places[i]);
        if (length > 0 && wanted < SOUNDFONT_ROOM && seek_folder(folder, path)) {
            return true;
        }
    }
    return false;
}

static const char* set_or(const char* const variable, const char* const otherwise)
{
    const char* const value = getenv(variable);
    return value && *value ? value : otherwise;
}

static bool seek(char path[SOUNDFONT_ROOM])
{
    const char* const users = set_or("XDG_DATA_HOME", "");
    const char* const home = set_or("HOME", "");
    if (seek_base(users, strlen(users), "", path) ||
        (!*users && seek_base(home, strlen(home), "/.local/share", path))) {
        return true;
    }
    const char* base = set_or("XDG_DATA_DIRS", "/usr/local/share:/usr/share");
    while (*base) {
        const size_t length = strcspn(base, ":");
        if (seek_base(base, length, "", path)) {
            return true;
        }
        base += length + (base[length] == ':');
    }
    return false;
}

bool soundfont_find(const char* const asked, char path[SOUNDFONT_ROOM])
{
    if (asked) {
        if (access(asked, R_OK) == 0 && strlen(asked) < SOUNDFONT_ROOM) {
            snprintf(path, SOUNDFONT_ROOM, "%s", asked);
            return true;
        }
        fprintf(stderr, "fourlimb: --soundfont %s: there is no such file to read\n", asked);
        return false;
    }
    if (seek(path)) {
        return true;
    }
    fprintf(stderr, "fourlimb: no soundfont with drums is installed; install one "
                    "(on Debian: sudo apt-get install timgm6mb-soundfont, or fluid-soundfont-gm, "
                    "which is larger), or name a file by --soundfont FILE.sf2\n");
    return false;
}

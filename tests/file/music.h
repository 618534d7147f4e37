// SPDX-License-Identifier: ISC
/* music.h - the music folder of a test's own home. */
#pragma once

#include "../../ui/file/phrase_file.h"
#include "../desk/bench.h"

#include <dirent.h>
#include <glib.h>

static inline void name_music_folder(const char* const line)
{
    bench_write("user-dirs.dirs", line);
    g_reload_user_special_dirs_cache();
}

static inline int files_in(const char* const folder)
{
    int files = 0;
    DIR* const directory = opendir(bench_path(folder));
    for (struct dirent* entry; directory && (entry = readdir(directory));) {
        files += entry->d_name[0] != '.';
    }
    if (directory) {
        closedir(directory);
    }
    return files;
}

static inline bool is_there(const char* const name)
{
    return !access(bench_path(name), F_OK);
}

static inline void empty_music_folder(void)
{
    char command[2048];
    snprintf(command, sizeof command, "chmod u+w '%s/Music'; rm -rf '%s/Music'/*", bench_home(),
             bench_home());
    CHECK_INT(system(command), 0);
}

// SPDX-License-Identifier: ISC
#include "own_window.h"

#include "../../plugin/bank/bank.h"
#include "../../plugin/bank/save.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { PATH_ROOM = BANK_FOLDER_ROOM + 16, FILE_MOST = 4096 };

static bool path_of(char folder[BANK_FOLDER_ROOM], char path[PATH_ROOM])
{
    const bool has = bank_users_folder(folder);
    snprintf(path, PATH_ROOM, "%s/window.txt", has ? folder : "");
    return has;
}

static void take(OwnWindow* const own, const char* const word, const char* const value)
{
    if (!strcmp(word, "colours")) {
        snprintf(own->colours, sizeof own->colours, "%s", value);
    } else if (!strcmp(word, "hands")) {
        own->left_handed = !strcmp(value, "left");
    } else if (!strcmp(word, "motion")) {
        own->still = !strcmp(value, "off");
    } else if (!strcmp(word, "size")) {
        const double size = g_ascii_strtod(value, NULL); /* a host's locale says nothing */
        own->size = isfinite(size) && size > 0.0 ? size : 0.0;
    }
}

OwnWindow own_window_read(void)
{
    OwnWindow own = {.size = 0.0};
    char folder[BANK_FOLDER_ROOM];
    char path[PATH_ROOM];
    char line[FILE_MOST];
    char word[16];
    char value[16];
    FILE* const file = path_of(folder, path) ? fopen(path, "r") : NULL;
    for (int lines = 0; file && lines < 64 && fgets(line, sizeof line, file); ++lines) {
        if (sscanf(line, "%15s %15s", word, value) == 2) {
            take(&own, word, value);
        }
    }
    if (file) {
        fclose(file);
    }
    return own;
}

bool own_window_write(const OwnWindow* const own, char why[OWN_WINDOW_WHY_ROOM])
{
    char folder[BANK_FOLDER_ROOM];
    char path[PATH_ROOM];
    char size[G_ASCII_DTOSTR_BUF_SIZE];
    char text[256];
    if (!path_of(folder, path)) {
        snprintf(why, OWN_WINDOW_WHY_ROOM, "neither XDG_DATA_HOME nor HOME is set");
        return false;
    }
    g_mkdir_with_parents(folder, 0700); /* what it can't make the file's own error tells */
    g_ascii_formatd(size, sizeof size, "%.1f", own->size);
    const int length =
        snprintf(text, sizeof text, "colours %s\nhands %s\nsize %s\nmotion %s\n", own->colours,
                 own->left_handed ? "left" : "right", size, own->still ? "off" : "on");
    return save_file(path, text, (size_t)length, true, why);
}

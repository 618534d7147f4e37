// SPDX-License-Identifier: ISC
/* Taking entries out: the second half of user_bank.h. */
#include "user_bank.h"

#include "save.h"
#include "single.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PATH_ROOM = 4096 + 64 + USER_BANK_NAME_ROOM, ASIDE_MOST = 99 };

typedef struct {
    const Bank* bank;
    const char* folder;
    EntryKind kind;
    uint32_t id;
    char* why;
} Deletion;

static bool refuse(const Deletion* const deletion, const char* const what, const char* const reason)
{
    snprintf(deletion->why, USER_BANK_WHY_ROOM, "%s isn't deleted: %s", what, reason);
    return false;
}

static bool plays(const Groove* const groove, const Figure* const figure)
{
    bool does = groove->turnaround == figure;
    for (int i = 0; i < PARTS_MAX; ++i) {
        does = does || groove->parts[i].hands == figure || groove->parts[i].feet == figure;
    }
    return does;
}

/* A groove of the bank would be left out without its figure. */
static bool is_free(const Deletion* const deletion, const char* const label)
{
    char reason[320];
    const Library* const library = bank_library(deletion->bank);
    const Figure* const figure =
        deletion->kind < (EntryKind)FIGURE_KINDS
            ? library_figure(library, (FigureKind)deletion->kind, deletion->id)
            : NULL;
    for (uint32_t i = 0; figure && i < library->groove_count; ++i) {
        if (plays(&library->grooves[i], figure)) {
            snprintf(reason, sizeof reason, "your groove \"%.200s\" plays it; delete that first",
                     bank_entry(deletion->bank, ENTRY_GROOVE, i)->label);
            return refuse(deletion, label, reason);
        }
    }
    return true;
}

/* The file that the entry stands in, by what messages call it. */
static bool name_file(const EntryInfo* const info, char file[USER_BANK_NAME_ROOM])
{
    const size_t length = strcspn(info->where, ":");
    if (length >= USER_BANK_NAME_ROOM || !info->where[length]) {
        return false;
    }
    memcpy(file, info->where, length);
    file[length] = '\0';
    return !info->is_sessions;
}

/* True if the entry is all there is in a file. */
static bool is_alone(const Deletion* const deletion, const char* const path)
{
    size_t size = 0;
    char reason[SINGLE_WHY_ROOM];
    char* const text = user_bank_load(path, &size);
    Single* const single =
        text ? single_read_over(deletion->bank, "/to be deleted", text, size, reason) : NULL;
    const bool alone = single && single->kind == deletion->kind && single->info.id == deletion->id;
    single_free(single);
    free(text);
    return alone;
}

/* The first name of those that nobody has; a link that only one can make. */
static bool put_aside(const Deletion* const deletion, const char* const path,
                      const char* const file, char aside[USER_BANK_NAME_ROOM])
{
    char to[PATH_ROOM];
    for (int i = 1; i <= ASIDE_MOST; ++i) {
        const int length = i > 1 ? snprintf(aside, USER_BANK_NAME_ROOM, "%s.deleted-%d", file, i)
                                 : snprintf(aside, USER_BANK_NAME_ROOM, "%s.deleted", file);
        snprintf(to, sizeof to, "%s/%s", deletion->folder, aside);
        if (length < USER_BANK_NAME_ROOM && !link(path, to)) {
            return !unlink(path);
        }
        if (errno != EEXIST) {
            break;
        }
    }
    return false;
}

/* That the id was given: a file written by hand may never have noted it. */
static void note_id(const Deletion* const deletion)
{
    char path[PATH_ROOM];
    size_t size = 0;
    OwnIds recorded = {{false}};
    OwnIds now = {{false}};
    snprintf(path, sizeof path, "%s/%s", deletion->folder, IDS_RECORD);
    char* const record = user_bank_load(path, &size);
    if (record) {
        ids_recall(&recorded, record, size);
    }
    ids_add(&now, deletion->id);
    char* const lines = ids_lines(&now, &recorded, !record);
    if (lines) {
        save_append(path, (SaveText){lines, strlen(lines)});
    }
    free(lines);
    free(record);
}

bool user_bank_delete(const Bank* const bank, const char* const folder, const EntryKind kind,
                      const uint32_t id, char aside[USER_BANK_NAME_ROOM],
                      char why[USER_BANK_WHY_ROOM])
{
    char path[PATH_ROOM];
    char what[96];
    char file[USER_BANK_NAME_ROOM];
    const Deletion deletion = {bank, folder, kind, id, why};
    const EntryInfo* const info = bank_info(bank, kind, id);
    snprintf(what, sizeof what, "\"%.80s\"", info ? info->label : "it");
    if (!folder || !info || info->id != id || !info->is_users) {
        return refuse(&deletion, what, "it isn't one of your own");
    }
    if (!is_free(&deletion, what)) {
        return false;
    }
    if (!name_file(info, file)) {
        return refuse(&deletion, what, "it came with this session and has no file");
    }
    snprintf(path, sizeof path, "%s/%s", folder, file);
    if (!is_alone(&deletion, path)) {
        char reason[USER_BANK_NAME_ROOM + 64];
        snprintf(reason, sizeof reason, "%s holds more than it; take it out there", file);
        return refuse(&deletion, what, reason);
    }
    note_id(&deletion);
    return put_aside(&deletion, path, file, aside) || refuse(&deletion, what, strerror(errno));
}

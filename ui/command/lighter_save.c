// SPDX-License-Identifier: ISC
#include "lighter_save.h"

#include "../../plugin/bank/user_bank.h"
#include "../../plugin/bank/write_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LABEL_ROOM = 256, COMMENT_ROOM = 512 };

/* The words of what it was made from, but for its name and what is no longer so. */
static char* as_text(const LighterFigure* const made, const Bank* const bank,
                     const char* const label)
{
    char comment[COMMENT_ROOM];
    const EntryKind kind = (EntryKind)made->written->kind;
    const EntryInfo* const from = bank_info(bank, kind, made->written->id);
    EntryInfo info = from ? *from : (EntryInfo){.family_uri = ""};
    snprintf(comment, sizeof comment, "%s, lightened.", from ? from->label : "A figure");
    info.id = 0;
    info.uri = "";
    info.differs = info.alone = "";
    info.label = label;
    info.comment = comment;
    return write_figure(&made->figure, &info);
}

static bool save(const LighterFigure* const made, const Bank* const bank, const char* const folder,
                 const char* const label)
{
    char why[USER_BANK_WHY_ROOM] = "its strokes can't be written as lines of steps";
    char* const text = as_text(made, bank, label);
    const Saved saved =
        text ? user_bank_save(folder, text, strlen(text), NULL, why) : (Saved){.id = 0};
    free(text);
    if (!saved.id) {
        fprintf(stderr, "fourlimb: \"%s\" isn't saved: %s\n", label, why);
        return false;
    }
    printf("Saved: %s \"%s\", id %u, in %s/%s\n", kind_rows[saved.kind].word, label, saved.id,
           folder, saved.file);
    return true;
}

bool lighter_save(const Lighter* const lighter, const Bank* const bank, const char* const label)
{
    char folder[BANK_FOLDER_ROOM];
    int counts[FIGURE_KINDS] = {0};
    bool good = true;
    const bool has_folder = bank_users_folder(folder);
    for (int i = 0; good && i < lighter->count; ++i) {
        const LighterFigure* const made = &lighter->figures[i];
        char name[LABEL_ROOM];
        if (!made->taken) {
            continue;
        }
        const int count = ++counts[made->written->kind];
        snprintf(name, sizeof name, count > 1 ? "%s %d" : "%s", label, count);
        good = save(made, bank, has_folder ? folder : NULL, name);
    }
    return good;
}

// SPDX-License-Identifier: ISC
#include "draft.h"

#include <stdio.h>
#include <string.h>

Single* draft_read(const FigureKind kind, const char* const text, const size_t size,
                   char why[SINGLE_WHY_ROOM])
{
    Single* single = single_read("/the draft", text, size, why);
    if (single && (int)single->kind != (int)kind) {
        snprintf(why, SINGLE_WHY_ROOM, "the draft is a %s; expected a %s",
                 kind_rows[single->kind].word, kind_rows[kind].word);
    } else if (single && !single->info.id) {
        snprintf(why, SINGLE_WHY_ROOM,
                 "the draft has no fl:id; expected that of the figure in whose place it plays");
    } else {
        return single;
    }
    single_free(single);
    return NULL;
}

Drafts draft_all(char* const texts[FIGURE_KINDS], Messages* const messages)
{
    Drafts drafts = {.drafts = {NULL}};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        char why[SINGLE_WHY_ROOM];
        const char* const text = texts[kind];
        drafts.drafts[kind] = *text ? draft_read((FigureKind)kind, text, strlen(text), why) : NULL;
        if (messages && *text && !drafts.drafts[kind]) {
            messages_say(messages, "this session's draft can't be read, but is kept: ", why, "\n");
        }
    }
    return drafts;
}

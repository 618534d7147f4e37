// SPDX-License-Identifier: ISC
#include "found.h"

#include <stdio.h>

int found_list(const Wish* const wish, const FoundIn* const in, Match* const matches)
{
    int found = 0;
    for (int i = 0; i < in->count; ++i) {
        const Match match = match_entry(wish, &in->entries[i], in->tempo, in->room);
        if (match.found) {
            matches[found] = match;
            matches[found++].index = i;
        }
    }
    match_sort(wish, matches, found);
    return found;
}

int found_count(const Wish* const wish, const FoundIn* const in)
{
    int found = 0;
    for (int i = 0; i < in->count; ++i) {
        found += match_entry(wish, &in->entries[i], in->tempo, in->room).found;
    }
    return found;
}

static void add(char* const said, const char* const between, const char* const what,
                const int count)
{
    char number[16];
    snprintf(number, sizeof number, " %d", count);
    wish_say_more(said, between);
    wish_say_more(said, "without ");
    wish_say_more(said, what);
    wish_say_more(said, number);
}

void found_loosen(const Wish* const wish, const FoundIn* const in, char said[WISH_SAID_ROOM])
{
    Wish rest = *wish;
    char what[WISH_SAID_ROOM];
    int things = 0;
    int helps = 0;
    snprintf(said, WISH_SAID_ROOM, "nothing: ");
    for (; wish_without(wish, things, &rest, what); ++things) {
        const int count = found_count(&rest, in);
        if (count) {
            add(said, helps++ ? ", " : "", what, count);
        }
    }
    if (things == 1) {
        wish_say(wish, what);
        snprintf(said, WISH_SAID_ROOM, "nothing of %d: ", in->count);
        wish_say_more(said, what);
    } else if (!helps) {
        snprintf(said, WISH_SAID_ROOM, "nothing, whichever one is left out");
    }
}

// SPDX-License-Identifier: ISC
#include "../../plugin/bank/utf8.h"
#include "wish.h"

#include <stdio.h>
#include <string.h>

void wish_say_more(char said[WISH_SAID_ROOM], const char* const more)
{
    const size_t length = strlen(said);
    const size_t room = WISH_SAID_ROOM - 1 - length;
    const size_t wanted = strlen(more);
    const size_t added = wanted > room ? utf8_cut(more, wanted, room) : wanted;
    memcpy(said + length, more, added);
    said[length + added] = '\0';
}

static void add(char* const said, const char* const more)
{
    wish_say_more(said, *said ? ", " : "");
    wish_say_more(said, more);
}

static void say_meter(const Wish* const wish, char* const said)
{
    char one[32];
    snprintf(one, sizeof one, "in %g/%d", wish->meter.beats_per_bar, (int)wish->meter.beat_unit);
    add(said, one);
}

static void say_limit(const Wish* const wish, char* const said)
{
    char one[48];
    snprintf(one, sizeof one, "at most %g a second", wish->limit);
    add(said, one);
}

/* A limit is one at this tempo. */
static void say_tempo(const Wish* const wish, char* const said)
{
    char one[32];
    snprintf(one, sizeof one, "at %g", wish->tempo);
    if (wish->limited) {
        wish_say_more(said, " ");
        wish_say_more(said, one);
    } else {
        add(said, one);
    }
}

void wish_say(const Wish* const wish, char said[WISH_SAID_ROOM])
{
    *said = '\0';
    for (int i = 0; i < wish->word_count; ++i) {
        add(said, wish->words[i].text);
    }
    if (wish->family) {
        add(said, wish->family);
    }
    if (wish->grid) {
        add(said, "on ");
        wish_say_more(said, wish_grid_word(wish->grid));
    }
    if (wish->meter.beats_per_bar > 0.0) {
        say_meter(wish, said);
    }
    if (wish->limited) {
        say_limit(wish, said);
    }
    if (wish->tempo > 0.0) {
        say_tempo(wish, said);
    }
}

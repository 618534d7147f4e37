// SPDX-License-Identifier: ISC
#include "wish.h"

#include <stdio.h>

/* Takes one thing out of `rest`; false if that isn't in it. */
typedef bool Drop(Wish* rest);

static bool drop_family(Wish* const rest)
{
    const bool has = rest->family;
    rest->family = NULL;
    return has;
}

static bool drop_grid(Wish* const rest)
{
    const bool has = rest->grid;
    rest->grid = WISH_ANY_GRID;
    return has;
}

static bool drop_meter(Wish* const rest)
{
    const bool has = rest->meter.beats_per_bar > 0.0;
    rest->meter.beats_per_bar = 0.0;
    return has;
}

static bool drop_limit(Wish* const rest)
{
    const bool has = rest->limited;
    rest->limited = false;
    return has;
}

static void drop_word(Wish* const rest, const int index)
{
    for (int i = index + 1; i < rest->word_count; ++i) {
        rest->words[i - 1] = rest->words[i];
    }
    --rest->word_count;
}

/* What the wish says of one thing alone. */
static void say_dropped(const Wish* const wish, const Wish* const rest, char* const said)
{
    Wish only = {.word_count = 0};
    only.family = rest->family ? NULL : wish->family;
    only.grid = rest->grid ? WISH_ANY_GRID : wish->grid;
    only.meter = rest->meter.beats_per_bar > 0.0 ? only.meter : wish->meter;
    only.limited = wish->limited && !rest->limited;
    only.limit = wish->limit;
    wish_say(&only, said);
}

bool wish_without(const Wish* const wish, const int index, Wish* const rest,
                  char said[WISH_SAID_ROOM])
{
    static Drop* const drops[] = {drop_family, drop_grid, drop_meter, drop_limit};
    int left = index - wish->word_count;
    *rest = *wish;
    if (left < 0) {
        snprintf(said, WISH_SAID_ROOM, "%s", wish->words[index].text);
        drop_word(rest, index);
        return true;
    }
    for (size_t i = 0; i < sizeof drops / sizeof *drops; ++i) {
        if (drops[i](rest) && !left--) {
            say_dropped(wish, rest, said);
            return true;
        }
        *rest = *wish;
    }
    return false;
}

// SPDX-License-Identifier: ISC
#include "listed.h"

#include "typed.h"

#include <stdio.h>

#define GRID_WORDS(NAME, word, other, steps) [WISH_##NAME] = {word, other},

bool listed_family(Request* const request, const char* const value)
{
    request->family = value;
    return true;
}

bool listed_grid(Request* const request, const char* const value)
{
    static const char* const words[][2] = {[WISH_ANY_GRID] = {"", ""}, WISH_GRIDS(GRID_WORDS)};
    for (int grid = WISH_GRID_COUNT - 1; grid > WISH_ANY_GRID; --grid) {
        if (typed_word(value, words[grid], 2) >= 0) {
            request->grid = (WishGrid)grid;
            return true;
        }
    }
    return typed_wrong("--grid", value, LISTED_GRIDS);
}

bool listed_limit(Request* const request, const char* const value)
{
    return typed_whole(value, 1, 40, &request->limit) ||
           typed_wrong("--limit", value, "strokes a second from 1 to 40");
}

bool listed_presets(Request* const request, const char* const value)
{
    (void)value;
    request->presets = true;
    return true;
}

/* As people try it, too, beside --kit NAME. */
bool listed_kits(Request* const request, const char* const value)
{
    (void)value;
    if (request->operand) {
        fprintf(stderr, "fourlimb: --kits beside \"%s\": list takes one kind\n", request->operand);
        return false;
    }
    request->operand = "kits";
    return true;
}

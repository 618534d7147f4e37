// SPDX-License-Identifier: ISC
#include "count.h"

#include <stddef.h>

const CountGrid count_coarse[COUNT_COARSE] = {
    {1, {""}},
    {2, {"&"}},
    {3, {"trip", "let"}},
    {4, {"e", "&", "a"}},
    {6, {"trip", "let", "&", "trip", "let"}},
    {8, {"", "e", "", "&", "", "a", ""}},
};

static const CountGrid counted[] = {
    {12, {"", "trip", "", "let", "", "&", "", "trip", "", "let", ""}},
};

const CountGrid* count_grid(const int steps)
{
    for (int i = 0; i < COUNT_COARSE; ++i) {
        if (count_coarse[i].steps == steps) {
            return &count_coarse[i];
        }
    }
    for (size_t i = 0; i < sizeof counted / sizeof *counted; ++i) {
        if (counted[i].steps == steps) {
            return &counted[i];
        }
    }
    return NULL;
}

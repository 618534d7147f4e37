// SPDX-License-Identifier: ISC
#include "even.h"

/* Some equal groups of steps, each begun by a stroke or by a rest. */
typedef struct {
    bool steps[EVEN_SPREAD_MAX];
    uint32_t length; /* of one */
    uint32_t count;
} EvenGroups;

/* All groups together are never longer than the steps that were asked for. */
static void append(EvenGroups* const to, const EvenGroups* const from)
{
    for (uint32_t i = 0; i < from->length && to->length < EVEN_SPREAD_MAX; ++i) {
        to->steps[to->length++] = from->steps[i];
    }
}

/* Each struck group takes in one of those that are left; what then is fewer is left. */
static void pair_up(EvenGroups* const struck, EvenGroups* const left)
{
    const EvenGroups before = *struck;
    const uint32_t pairs = before.count < left->count ? before.count : left->count;
    append(struck, left);
    struck->count = pairs;
    if (before.count > pairs) {
        *left = before;
        left->count = before.count - pairs;
    } else {
        left->count -= pairs;
    }
}

static uint32_t lay(const EvenGroups* const groups, uint32_t at, bool* const struck)
{
    for (uint32_t i = 0; i < groups->count; ++i) {
        for (uint32_t j = 0; j < groups->length; ++j) {
            struck[at++] = groups->steps[j];
        }
    }
    return at;
}

void even_spread(const uint32_t strokes, const uint32_t count, bool* const struck)
{
    EvenGroups groups = {{true}, 1, strokes};
    EvenGroups left = {{false}, 1, count - strokes};
    bool rests = left.count > 0; /* shared out in any case, be it a single one */
    while (rests || left.count > 1) {
        rests = false;
        pair_up(&groups, &left);
    }
    lay(&left, lay(&groups, 0, struck), struck);
}

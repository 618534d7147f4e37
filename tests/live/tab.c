// SPDX-License-Identifier: ISC
#include "tab.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { STEPS_MAX = 128 };

/* Copies the steps without their spaces; returns how many. */
static size_t step_signs(const char* const steps, char signs[STEPS_MAX])
{
    size_t count = 0;
    for (const char* c = steps; *c && count < STEPS_MAX; ++c) {
        if (*c != ' ') {
            signs[count++] = *c;
        }
    }
    return count;
}

static int compare(const void* const a, const void* const b)
{
    const TabStroke* const left = (const TabStroke*)a;
    const TabStroke* const right = (const TabStroke*)b;
    return left->frame != right->frame ? (left->frame < right->frame ? -1 : 1)
                                       : left->key - right->key;
}

static size_t add_row(const TabRow row, const double quarter_frames, const int64_t begin,
                      const int64_t end, const size_t room, const size_t count,
                      TabStroke* const strokes)
{
    char signs[STEPS_MAX];
    const size_t cycle = step_signs(row.steps, signs);
    size_t written = count;
    for (size_t step = 0; cycle; ++step) {
        const int64_t frame = llround((double)step * quarter_frames / row.grid);
        const char sign = signs[step % cycle];
        if (frame >= end) {
            break;
        }
        if (frame >= begin && sign != '.') {
            if (written < room) {
                strokes[written] = (TabStroke){frame, row.key, sign};
            }
            ++written;
        }
    }
    return written;
}

size_t tab_strokes(const TabRow* const rows, const size_t row_count, const double quarter_frames,
                   const int64_t begin, const int64_t end, const size_t room,
                   TabStroke* const strokes)
{
    size_t count = 0;
    for (size_t i = 0; i < row_count; ++i) {
        count = add_row(rows[i], quarter_frames, begin, end, room, count, strokes);
    }
    qsort(strokes, count < room ? count : room, sizeof *strokes, compare);
    return count;
}

// SPDX-License-Identifier: ISC
#include "pairing.h"

#include <math.h>
#include <stdbool.h>

/* Of a state: its last written stroke has a pair; its last played one has none. */
enum { PAIRING_PAIRED = 1, PAIRING_EXTRA = 2 };

static const double never = 1e30;

static double lesser(const double a, const double b)
{
    return a < b ? a : b;
}

void pairing_window(const double* const written, const uint32_t count, const uint32_t index,
                    double* const before, double* const after)
{
    const double at = written[index];
    uint32_t left = index;
    uint32_t right = index;
    while (left > 0 && !(written[left] < at)) {
        --left;
    }
    while (right + 1 < count && !(written[right] > at)) {
        ++right;
    }
    *before = written[left] < at ? lesser(PAIRING_APART_MS, at - written[left]) : PAIRING_APART_MS;
    *after = written[right] > at ? lesser(PAIRING_APART_MS, written[right] - at) : PAIRING_APART_MS;
}

/* Played strokes before `ms`, from `first` on. */
static uint32_t count_before(const double* const played, const uint32_t count, uint32_t first,
                             const double ms)
{
    while (first < count && played[first] < ms) {
        ++first;
    }
    return first;
}

/* The states of the row before, as counts from this row's first one: of those that lie before
   it the cheapest, its strokes up to there alone.  Says which. */
static uint32_t shift(PairingRoom* const room, const uint32_t states, const uint32_t by)
{
    uint32_t source = by < states ? by : 0;
    for (uint32_t k = 0; k <= PAIRING_BAND; ++k) {
        room->before[k] = never;
    }
    for (uint32_t k = 0; k < states; ++k) {
        const uint32_t to = k > by ? k - by : 0;
        const double alone = k < by ? (double)(by - k) * PAIRING_ALONE_MS : 0.0;
        if (room->costs[k] + alone < room->before[to]) {
            room->before[to] = room->costs[k] + alone;
            source = to ? source : k;
        }
    }
    return source;
}

/* One written stroke more: states low to high played strokes. */
typedef struct {
    double at;
    double before; /* its window */
    double after;
    const double* played; /* from the row's first state on */
    uint32_t states;
} PairingRow;

static double pair_cost(const PairingRow* const row, const uint32_t play)
{
    const double late = row->played[play] - row->at;
    const bool fits = late > -row->before && late < row->after;
    return fits ? fabs(late) : never;
}

/* Played strokes that come before this written one may stay alone. */
static uint64_t fill_extras(PairingRoom* const room, const uint32_t states)
{
    uint64_t choices = 0;
    for (uint32_t k = 1; k < states; ++k) {
        if (room->before[k - 1] + PAIRING_ALONE_MS < room->before[k]) {
            room->before[k] = room->before[k - 1] + PAIRING_ALONE_MS;
            choices |= (uint64_t)PAIRING_EXTRA << 2 * k;
        }
    }
    return choices;
}

static uint64_t fill_row(PairingRoom* const room, const PairingRow* const row)
{
    uint64_t choices = fill_extras(room, row->states);
    for (uint32_t k = 0; k < row->states; ++k) {
        const double pair = k > 0 ? room->before[k - 1] + pair_cost(row, k - 1) : never;
        const double alone = room->before[k] + PAIRING_ALONE_MS;
        choices |= (uint64_t)(pair < alone ? PAIRING_PAIRED : 0) << 2 * k;
        room->costs[k] = lesser(pair, alone);
    }
    return choices;
}

static uint64_t choice_at(const PairingRoom* const room, const uint32_t row, const uint32_t state)
{
    return room->choices[row] >> 2 * (state - room->low[row]);
}

/* Back from the last row's best state. */
static void trace(const PairingRoom* const room, const uint32_t rows, uint32_t state,
                  int32_t* const found)
{
    for (uint32_t row = rows; row-- > 0;) {
        found[row] = PAIRING_NONE;
        if (choice_at(room, row, state) & PAIRING_PAIRED) {
            found[row] = (int32_t)--state;
        }
        while (choice_at(room, row, state) & PAIRING_EXTRA) {
            --state;
        }
        state = state == room->low[row] ? room->source[row] : state;
    }
}

/* The cheapest of the last row, all that comes after it alone. */
static uint32_t best_end(const PairingRoom* const room, const uint32_t low, const uint32_t states)
{
    uint32_t best = 0;
    for (uint32_t k = 1; k < states; ++k) {
        const double saved = (double)(k - best) * PAIRING_ALONE_MS;
        best = room->costs[k] < room->costs[best] + saved ? k : best;
    }
    return low + best;
}

void pairing_find(const double* const written, const uint32_t written_count,
                  const double* const played, const uint32_t played_count, int32_t* const found,
                  PairingRoom* const room)
{
    const uint32_t rows = written_count < PAIRING_STROKES_MAX ? written_count : PAIRING_STROKES_MAX;
    uint32_t low = 0;
    uint32_t states = 1;
    room->costs[0] = 0.0;
    for (uint32_t i = 0; i < rows; ++i) {
        PairingRow row = {.at = written[i]};
        pairing_window(written, written_count, i, &row.before, &row.after);
        const uint32_t from = count_before(played, played_count, low, row.at - row.before);
        const uint32_t to = count_before(played, played_count, from, row.at + row.after);
        room->source[i] = low + shift(room, states, from - low);
        states = (to - from < PAIRING_BAND ? to - from : PAIRING_BAND - 1) + 1;
        row.played = played + from;
        row.states = states;
        low = room->low[i] = from;
        room->choices[i] = fill_row(room, &row);
    }
    for (uint32_t i = rows; i < written_count; ++i) {
        found[i] = PAIRING_NONE;
    }
    if (rows) {
        trace(room, rows, best_end(room, low, states), found);
    }
}

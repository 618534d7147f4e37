// SPDX-License-Identifier: ISC
#include "entry_facts.h"

#include "../engine/writing/difficulty.h"
#include "../engine/writing/play_entry.h"

#include <stdio.h>
#include <string.h>

static const Figure* figure_of(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    return &bank_library(bank)->figures[kind][index];
}

static void append(char* const text, const size_t size, const char* const more)
{
    const size_t length = strlen(text);
    snprintf(text + length, size - length, "%s", more);
}

/* ---- The grid */

enum { GRIDS_MOST = 2 * PARTS_MAX };

typedef struct {
    int64_t steps[GRIDS_MOST]; /* ticks, from long to short */
    int count;
} Grids;

static void add_grid(Grids* const grids, const Figure* const figure)
{
    int at = 0;
    while (figure && at < grids->count && grids->steps[at] > figure->step_ticks) {
        ++at;
    }
    if (!figure || (at < grids->count && grids->steps[at] == figure->step_ticks)) {
        return;
    }
    memmove(&grids->steps[at + 1], &grids->steps[at],
            (size_t)(grids->count - at) * sizeof(int64_t));
    grids->steps[at] = figure->step_ticks;
    ++grids->count;
}

static void tell_grids(const Grids* const grids, char* const text, const size_t size)
{
    for (int i = 0; i < grids->count; ++i) {
        const int64_t common = common_divisor(TICKS_PER_QUARTER, grids->steps[i]);
        const long long over = (long long)(grids->steps[i] / common);
        const long long steps = (long long)(TICKS_PER_QUARTER / common);
        char one[48], share[24];
        snprintf(share, sizeof share, "/%lld", over);
        snprintf(one, sizeof one, "%lld%s", steps, over > 1 ? share : "");
        append(text, size, i ? " " : "");
        append(text, size, one);
    }
}

/* ---- Length and tempi */

static void tell_bars(const uint32_t bars, char* const text, const size_t size)
{
    snprintf(text, size, "%u bar%s", bars, bars == 1 ? "" : "s");
}

static void tell_length(const Figure* const figure, char* const text, const size_t size)
{
    const double quarters = (double)figure->cycle_ticks / (double)TICKS_PER_QUARTER;
    if (figure->bars) {
        tell_bars(figure->bars, text, size);
    } else {
        snprintf(text, size, "%.4g quarter%s", quarters,
                 quarters > 1.0 || quarters < 1.0 ? "s" : "");
    }
}

/* ---- A groove's feel */

static void tell_one(char* const text, const size_t size, const char* const what,
                     const double value, const char* const unit)
{
    char one[64];
    if (value > 0.0 || value < 0.0) { /* not a number: nothing is written */
        snprintf(one, sizeof one, "%s%s %.3g%s", *text ? ", " : "", what, value, unit);
        append(text, size, one);
    }
}

static void tell_feel(const WrittenFeel* const feel, char* const text, const size_t size)
{
    if (feel->swing_ratio > 1.0) {
        tell_one(text, size, feel->swing_sixteenths ? "16ths" : "swing", feel->swing_ratio, ":1");
    }
    tell_one(text, size, "loose", feel->looseness_ms, "");
    tell_one(text, size, "hands", feel->push_hands_ms, "");
    tell_one(text, size, "snare", feel->push_snare_ms, "");
    tell_one(text, size, "feet", feel->push_feet_ms, "");
    tell_one(text, size, "liberty", feel->liberty * 100.0, "");
}

/* ---- All of it */

static void tell_figure(const Figure* const figure, const EntryInfo* const info,
                        Playability* const room, EntryFacts* const facts)
{
    Grids grids = {.count = 0};
    add_grid(&grids, figure);
    tell_grids(&grids, facts->grid, sizeof facts->grid);
    tell_length(figure, facts->length, sizeof facts->length);
    if (room) {
        facts->difficulty =
            difficulty_of_figure(figure, difficulty_tempo(info->tempo_low, info->tempo_high), room);
    }
}

static void tell_groove(const Groove* const groove, Playability* const room,
                        EntryFacts* const facts)
{
    Grids grids = {.count = 0};
    for (int letter = 0; letter < PARTS_MAX; ++letter) {
        add_grid(&grids, groove->parts[letter].hands);
        add_grid(&grids, groove->parts[letter].feet);
    }
    tell_grids(&grids, facts->grid, sizeof facts->grid);
    tell_bars(groove->form_bars, facts->length, sizeof facts->length);
    tell_feel(&groove->feel, facts->feel, sizeof facts->feel);
    snprintf(facts->meter, sizeof facts->meter, "%g/%d", groove->meter.beats_per_bar,
             groove->meter.beat_unit);
    snprintf(facts->tempo, sizeof facts->tempo, "%g", groove->tempo);
    facts->difficulty = room ? difficulty_of_groove(groove, groove->tempo, room) : 0;
}

EntryFacts entry_facts(const Bank* const bank, const EntryKind kind, const uint32_t index,
                       Playability* const room)
{
    const EntryInfo* const info = bank_entry(bank, kind, index);
    EntryFacts facts = {.difficulty = 0};
    if (kind < (EntryKind)FIGURE_KINDS) {
        tell_figure(figure_of(bank, kind, index), info, room, &facts);
    } else if (kind == ENTRY_GROOVE) {
        tell_groove(&bank_library(bank)->grooves[index], room, &facts);
    }
    if (info->tempo_low && info->tempo_high) {
        snprintf(facts.range, sizeof facts.range, "%d-%d", info->tempo_low, info->tempo_high);
    }
    return facts;
}

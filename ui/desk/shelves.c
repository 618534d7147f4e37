// SPDX-License-Identifier: ISC
#include "shelves.h"

#include "../../plugin/bank/entry_facts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What can be picked beside the bank's entries. */
enum { SPECIALS_MOST = 2 };
#define SPECIAL(value, words, sentence)                                                            \
    {                                                                                              \
        .id = (value), .label = (words), .comment = (sentence), .family = ""                       \
    }
static const Entry specials[ENTRY_KINDS][SPECIALS_MOST] = {
    [ENTRY_HANDS] = {SPECIAL(AS_WRITTEN, "As the groove has it", "The groove's own hands")},
    [ENTRY_FEET] = {SPECIAL(AS_WRITTEN, "As the groove has it", "The groove's own feet")},
    [ENTRY_TURNAROUND] = {SPECIAL(AS_WRITTEN, "As written", "The groove's own fill"),
                          SPECIAL(TURNAROUND_NONE, "None", "The groove goes on without a fill")},
};

static const Figure* figure_of(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    return kind < (EntryKind)FIGURE_KINDS ? &bank_library(bank)->figures[kind][index] : NULL;
}

static const Groove* groove_of(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    return kind == ENTRY_GROOVE ? &bank_library(bank)->grooves[index] : NULL;
}

static int add_specials(const EntryKind kind, Entry* const entries)
{
    int count = 0;
    while (count < SPECIALS_MOST && specials[kind][count].label) {
        entries[count] = specials[kind][count];
        ++count;
    }
    return count;
}

static int last_of_family(const Entry* const entries, const int count, const char* const family)
{
    for (int i = count; i > 0; --i) {
        if (!strcmp(entries[i - 1].family, family)) {
            return i;
        }
    }
    return count;
}

/* Behind the last of its family. */
static void insert(Entry* const entries, int* const count, const Entry entry)
{
    const int place = last_of_family(entries, *count, entry.family);
    memmove(&entries[place + 1], &entries[place], (size_t)(*count - place) * sizeof *entries);
    entries[place] = entry;
    ++*count;
}

/* "7/8, grid 4, 2 bars, 144 (110-180), swing 2:1". */
static void tell(const EntryFacts* const facts, char told[ENTRY_TOLD_ROOM])
{
    const bool has_own = *facts->tempo;
    const bool has_range = *facts->range;
    snprintf(told, ENTRY_TOLD_ROOM, "%s%sgrid %s, %s, %s%s%s%s%s%s", facts->meter,
             *facts->meter ? ", " : "", facts->grid, facts->length, facts->tempo,
             has_own && has_range ? " (" : "", facts->range, has_own && has_range ? ")" : "",
             *facts->feel ? ", " : "", facts->feel);
    if (!*facts->grid) { /* a kit map has none of this */
        *told = '\0';
    }
}

/* Every list of a bank. */
typedef struct {
    Entry* entries[ENTRY_KINDS]; /* owned */
    int counts[ENTRY_KINDS];
    Successors left[ENTRY_KINDS]; /* the bank's */
} Lists;

static bool make(Lists* const lists, const Bank* const bank, const EntryKind shelf)
{
    const uint32_t all = bank ? bank_count(bank, shelf) : 0;
    const uint32_t most = LIST_ROWS_MAX / 2; /* each may have a heading of its own */
    const uint32_t known = all < most ? all : most;
    Entry* const entries = calloc(known + 3, sizeof *entries);
    if (!entries) {
        return false;
    }
    int count = add_specials(shelf, entries);
    for (uint32_t i = 0; i < known; ++i) {
        const EntryInfo* const info = bank_entry(bank, shelf, i);
        const EntryFacts facts = entry_facts(bank, shelf, i, NULL);
        Entry entry = {.id = (int32_t)info->id,
                       .label = info->label,
                       .comment = info->comment,
                       .family = info->family,
                       .tempo_low = info->tempo_low,
                       .tempo_high = info->tempo_high,
                       .is_own = info->is_users || info->is_sessions,
                       .figure = figure_of(bank, shelf, i),
                       .groove = groove_of(bank, shelf, i)};
        tell(&facts, entry.told);
        snprintf(entry.meter, sizeof entry.meter, "%s", facts.meter);
        snprintf(entry.tempo, sizeof entry.tempo, "%s", *facts.range ? facts.range : facts.tempo);
        snprintf(entry.length, sizeof entry.length, "%s", facts.length);
        insert(entries, &count, entry);
    }
    lists->entries[shelf] = entries;
    lists->counts[shelf] = count;
    if (bank) {
        lists->left[shelf] = bank_library(bank)->successors[shelf];
    }
    return true;
}

static void drop(const Lists* const lists)
{
    for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
        free(lists->entries[shelf]);
    }
}

static void show(Model* const model, const Lists* const lists)
{
    for (int shelf = 0; shelf < ENTRY_KINDS; ++shelf) {
        free(model->entries[shelf]);
        model->entries[shelf] = lists->entries[shelf];
        model->view.shelves[shelf] =
            (Shelf){lists->entries[shelf], lists->counts[shelf], lists->left[shelf]};
    }
}

static bool make_all(Lists* const lists, const Bank* const bank)
{
    bool good = true;
    *lists = (Lists){.counts = {0}};
    for (int shelf = 0; good && shelf < ENTRY_KINDS; ++shelf) {
        good = make(lists, bank, (EntryKind)shelf);
    }
    if (!good) {
        drop(lists);
    }
    return good;
}

bool shelves_fill(Model* const model, Bank* const bank)
{
    Lists lists;
    Bank* const before = model->bank;
    if (!make_all(&lists, bank)) {
        return false;
    }
    model->bank = bank;
    if (!model_compose(model)) {
        model->bank = before;
        drop(&lists);
        return false;
    }
    show(model, &lists);
    return true;
}

void shelves_free(Model* const model)
{
    static const Lists none;
    show(model, &none);
}

static int index_of(const View* const view, const EntryKind kind, const int32_t id)
{
    const Entry* const entry = view_entry(view, kind, id);
    return entry ? (int)(entry - view->shelves[kind].entries) : -1;
}

/* What is picked; where the groove has its own, walking starts from that. */
static int picked(const Model* const model, const EntryKind kind)
{
    const int32_t id = (int32_t)model->view.values[kind_controls[kind]];
    const bool is_own = !id && (kind == ENTRY_HANDS || kind == ENTRY_FEET);
    return index_of(&model->view, kind, is_own ? view_playing(&model->view, kind) : id);
}

static void pick(Model* const model, const EntryKind kind, const int index)
{
    const Shelf* const shelf = &model->view.shelves[kind];
    const int kept = index < 0 ? 0 : index >= shelf->count ? shelf->count - 1 : index;
    if (shelf->count) {
        model_nudge(model, kind_controls[kind], (float)shelf->entries[kept].id);
    }
}

void shelves_put_back(Model* const model, const EntryKind kind)
{
    for (int i = 0; i < FIGURE_KINDS; ++i) {
        if ((EntryKind)i == kind || kind == ENTRY_KINDS) {
            model_nudge(model, kind_controls[i], (float)AS_WRITTEN);
        }
    }
}

void shelves_walk(Model* const model, const EntryKind kind, const int by)
{
    pick(model, kind, picked(model, kind) + by);
}

void shelves_walk_family(Model* const model, const EntryKind kind, const int by)
{
    const Shelf* const shelf = &model->view.shelves[kind];
    int at = picked(model, kind);
    if (at < 0 || !shelf->count) {
        pick(model, kind, 0);
        return;
    }
    const char* const family = shelf->entries[at].family;
    while (at >= 0 && at < shelf->count && !strcmp(shelf->entries[at].family, family)) {
        at += by;
    }
    while (by < 0 && at > 0 && !strcmp(shelf->entries[at - 1].family, shelf->entries[at].family)) {
        --at; /* to the first of it */
    }
    pick(model, kind, at);
}

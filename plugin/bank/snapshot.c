// SPDX-License-Identifier: ISC
#include "snapshot.h"

#include <stdlib.h>
#include <string.h>

struct Snapshot {
    Snapshot* next;
    Bank* bank;
    Drafts drafts;
    char* messages;
    Figure* figures[FIGURE_KINDS]; /* NULL: the bank's */
    Groove* grooves;               /* NULL: the bank's */
    Library library;
};

/* The bank's figures of a kind with the draft in its place in order of id. */
static bool lay_over(Snapshot* const snapshot, const FigureKind kind, const Library* const under)
{
    const Figure* const draft = &snapshot->drafts.drafts[kind]->figure;
    const uint32_t count = under->figure_counts[kind];
    Figure* const figures = calloc(count + 1, sizeof(Figure));
    if (!figures) {
        return false;
    }
    uint32_t at = 0;
    while (at < count && under->figures[kind][at].id < draft->id) {
        figures[at] = under->figures[kind][at];
        ++at;
    }
    figures[at] = *draft;
    const bool replaces = at < count && under->figures[kind][at].id == draft->id;
    for (uint32_t i = at + replaces; i < count; ++i) {
        figures[i + !replaces] = under->figures[kind][i];
    }
    snapshot->figures[kind] = figures;
    snapshot->library.figures[kind] = figures;
    snapshot->library.figure_counts[kind] = count + !replaces;
    return true;
}

/* Grooves point to the figures of the new lists. */
static bool point_anew(Snapshot* const snapshot, const Library* const under)
{
    Groove* const grooves = calloc(under->groove_count + 1, sizeof(Groove));
    if (!grooves) {
        return false;
    }
    memcpy(grooves, under->grooves, under->groove_count * sizeof(Groove));
    library_join(&snapshot->library, grooves);
    snapshot->grooves = grooves;
    snapshot->library.grooves = grooves;
    return true;
}

static bool lay_drafts(Snapshot* const snapshot, const Library* const under)
{
    bool any = false;
    bool good = true;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (snapshot->drafts.drafts[kind]) {
            any = true;
            good = good && lay_over(snapshot, (FigureKind)kind, under);
        }
    }
    return good && (!any || point_anew(snapshot, under));
}

Snapshot* snapshot_make(Bank* const bank, const Drafts drafts, char* const messages)
{
    Snapshot* const snapshot = calloc(1, sizeof(Snapshot));
    if (!snapshot) {
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            single_free(drafts.drafts[kind]);
        }
        free(messages);
        return NULL;
    }
    snapshot->bank = bank_hold(bank);
    snapshot->drafts = drafts;
    snapshot->messages = messages;
    snapshot->library = *bank_library(bank);
    if (!messages || !lay_drafts(snapshot, bank_library(bank))) {
        snapshot_free(snapshot);
        return NULL;
    }
    return snapshot;
}

void snapshot_chain(Snapshot* const snapshot, Snapshot* const next)
{
    snapshot->next = next;
}

static void free_one(Snapshot* const snapshot)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        single_free(snapshot->drafts.drafts[kind]);
        free(snapshot->figures[kind]);
    }
    free(snapshot->grooves);
    free(snapshot->messages);
    bank_free(snapshot->bank);
    free(snapshot);
}

void snapshot_free(Snapshot* snapshot)
{
    while (snapshot) {
        Snapshot* const next = snapshot->next;
        free_one(snapshot);
        snapshot = next;
    }
}

const Library* snapshot_library(const Snapshot* const snapshot)
{
    return &snapshot->library;
}

const Bank* snapshot_bank(const Snapshot* const snapshot)
{
    return snapshot->bank;
}

bool snapshot_has(const Snapshot* const snapshot, const EntryKind kind, const uint32_t id)
{
    const Single* const draft =
        kind < (EntryKind)FIGURE_KINDS ? snapshot->drafts.drafts[kind] : NULL;
    return (draft && draft->info.id == id) || bank_info(snapshot->bank, kind, id);
}

const char* snapshot_draft(const Snapshot* const snapshot, const FigureKind kind)
{
    const Single* const draft = snapshot->drafts.drafts[kind];
    return draft ? draft->text : "";
}

const char* snapshot_messages(const Snapshot* const snapshot)
{
    return snapshot->messages;
}

// SPDX-License-Identifier: ISC
#include "snapshot.h"

#include "overlay.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct Snapshot {
    Snapshot* next;
    Overlay plays;
    KeptList* kept;
    char* messages;
};

Snapshot* snapshot_make(Bank* const bank, const Drafts drafts, KeptList* const kept,
                        char* const messages)
{
    Snapshot* const snapshot = calloc(1, sizeof(Snapshot));
    if (!snapshot) {
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            single_free(drafts.drafts[kind]);
        }
        free(messages);
        return NULL;
    }
    snapshot->messages = messages;
    snapshot->kept = kept_list_hold(kept);
    if (!overlay_make(&snapshot->plays, bank, drafts) || !messages) {
        snapshot_free(snapshot);
        return NULL;
    }
    kept_list_lay(kept, &snapshot->plays.library);
    return snapshot;
}

void snapshot_chain(Snapshot* const snapshot, Snapshot* const next)
{
    snapshot->next = next;
}

void snapshot_free(Snapshot* snapshot)
{
    while (snapshot) {
        Snapshot* const next = snapshot->next;
        overlay_clear(&snapshot->plays);
        kept_list_free(snapshot->kept);
        free(snapshot->messages);
        free(snapshot);
        snapshot = next;
    }
}

const Library* snapshot_library(const Snapshot* const snapshot)
{
    return &snapshot->plays.library;
}

const Bank* snapshot_bank(const Snapshot* const snapshot)
{
    return snapshot->plays.bank;
}

const KeptList* snapshot_kept(const Snapshot* const snapshot)
{
    return snapshot->kept;
}

Settings snapshot_settings(const Snapshot* const snapshot, const float values[CONTROL_COUNT])
{
    const float asked = settings_fit(CONTROL_KEPT, values[CONTROL_KEPT]);
    const uint32_t slot = (uint32_t)lrintf(asked);
    const KeptSelection* const kept = kept_list_at(snapshot->kept, slot);
    return kept ? settings_of_kept(values, slot, kept->values) : settings_from_controls(values);
}

bool snapshot_has(const Snapshot* const snapshot, const EntryKind kind, const uint32_t id)
{
    const Single* const draft =
        kind < (EntryKind)FIGURE_KINDS ? snapshot->plays.drafts.drafts[kind] : NULL;
    return (draft && draft->info.id == id) || bank_info(snapshot->plays.bank, kind, id);
}

const char* snapshot_draft(const Snapshot* const snapshot, const FigureKind kind)
{
    const Single* const draft = snapshot->plays.drafts.drafts[kind];
    return draft ? draft->text : "";
}

const char* snapshot_messages(const Snapshot* const snapshot)
{
    return snapshot->messages;
}

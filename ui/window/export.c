// SPDX-License-Identifier: ISC
#include "export.h"

#include "../../plugin/bank/snapshot.h"
#include "../file/phrase_file.h"

#include <stdio.h>
#include <string.h>

/* What plays: the bank with the drafts over it. */
static Snapshot* snapshot_of(const Model* const model, Bank* const bank)
{
    char why[SINGLE_WHY_ROOM];
    Drafts drafts = {{NULL}};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const Single* const draft = model->editor.drafts[kind].single;
        drafts.drafts[kind] =
            draft ? single_read("draft", draft->text, strlen(draft->text), why) : NULL;
    }
    return snapshot_make(bank, drafts, strdup(""));
}

void export_write(Model* const model, Bank* const bank, const bool straight)
{
    const View* const view = &model->view;
    char path[PHRASE_PATH_ROOM];
    char why[PHRASE_WHY_ROOM] = "nothing plays yet";
    char words[PHRASE_PATH_ROOM + 64];
    const SeenBar* const seen = view_bar(view, view_shown(view));
    const Entry* const entry = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    const Settings settings = settings_from_controls(view->values);
    Snapshot* const snapshot = snapshot_of(model, bank);
    if (seen && snapshot) {
        const Phrase phrase = {snapshot_library(snapshot),
                               &settings,
                               seen->meter,
                               model_tempo(model),
                               view_phrase_bars(view),
                               entry ? entry->label : "Fourlimb",
                               straight};
        if (phrase_file(&phrase, path, why)) {
            snprintf(words, sizeof words, "Written: %s", path);
            model_say(model, words);
            snapshot_free(snapshot);
            return;
        }
    }
    snprintf(words, sizeof words, "Not written: %s", why);
    model_say(model, words);
    snapshot_free(snapshot);
}

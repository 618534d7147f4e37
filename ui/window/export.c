// SPDX-License-Identifier: ISC
#include "export.h"

#include "../../plugin/engine/groove/fill.h"
#include "../desk/kept_slots.h"
#include "../file/completion.h"
#include "../file/phrase_file.h"
#include "../paper/handout.h"

#include <stdio.h>

/* Until phrase and fills come round together; of a bar that loops as many as the phrase. */
static int bars_to_write(const View* const view, const Library* const library,
                         const Settings* const settings)
{
    const Selection selection = selection_make(library, settings, 120.0);
    return settings->loop_bar || !selection.groove
               ? view_phrase_bars(view)
               : (int)fill_round_bars(&selection, FILL_ROUND_MAX);
}

_Static_assert((int)FOLDERS_ROOM == (int)COMPLETION_NAMES_ROOM, "what is told has room");

void export_complete(void* const handle, char folder[FOLDER_ROOM], char found[FOLDERS_ROOM])
{
    (void)handle;
    (void)completion_find(folder, FOLDER_ROOM, found);
}

bool export_folder_of(void* const handle, const char* const path, char folder[FOLDER_ROOM])
{
    (void)handle;
    return completion_folder_of(path, folder, FOLDER_ROOM);
}

void export_folder(void* const handle, char folder[FOLDER_ROOM])
{
    (void)handle;
    snprintf(folder, FOLDER_ROOM, "%s", phrase_folder());
}

void export_write(Model* const model, const bool straight)
{
    const View* const view = &model->view;
    char path[PHRASE_PATH_ROOM];
    char why[PHRASE_WHY_ROOM] = "nothing plays yet";
    char words[PHRASE_PATH_ROOM + 64];
    const SeenBar* const seen = view_bar(view, view_shown(view));
    const Entry* const entry = view_entry(view, ENTRY_GROOVE, view_playing(view, ENTRY_GROOVE));
    const Settings settings = model->snapshot ? snapshot_settings(model->snapshot, view->values)
                                              : settings_from_controls(view->values);
    const Library* const library = model_library(model);
    if (seen && library) {
        const Phrase phrase = {library,
                               &settings,
                               seen->meter,
                               model_tempo(model),
                               bars_to_write(view, library, &settings),
                               entry ? entry->label : "Fourlimb",
                               straight,
                               view->asked.folder};
        if (phrase_file(&phrase, path, why)) {
            snprintf(words, sizeof words, "Written: %s", path);
            model_say(model, words);
            return;
        }
    }
    model->view.asked.is_known = false; /* another folder may do */
    snprintf(words, sizeof words, "Not written: %s", why);
    model_say(model, words);
}

void export_handout(Model* const model)
{
    const View* const view = &model->view;
    const SeenBar* const seen = view_bar(view, view_shown(view));
    char name[KEPT_SHOWN_ROOM], path[HANDOUT_PATH_ROOM], words[HANDOUT_PATH_ROOM + 64];
    char why[HANDOUT_WHY_ROOM] = "nothing plays yet";
    bool good = false;
    kept_slots_offer(model, name);
    if (seen && model->snapshot) {
        const Settings settings = snapshot_settings(model->snapshot, view->values);
        const Selection selection =
            selection_make(model_library(model), &settings, model_tempo(model));
        const KeptSelection* const kept = kept_list_at(model->kept, settings.kept);
        const Handout handout = {.wish = {.bank = kept ? kept->plays.bank : model->bank,
                                          .selection = &selection,
                                          .settings = &settings,
                                          .meter = seen->meter,
                                          .tempo = model_tempo(model),
                                          .name = name},
                                 .kits = model_library(model),
                                 .left_handed = view->left_handed,
                                 .folder = view->asked.folder};
        good = handout_write(&handout, path, why);
    }
    model->view.asked.is_known = good; /* else another folder may do */
    snprintf(words, sizeof words, good ? "Written: %s" : "Not written: %s", good ? path : why);
    model_say(model, words);
}

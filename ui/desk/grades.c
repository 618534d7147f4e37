// SPDX-License-Identifier: ISC
#include "grades.h"

#include "../../plugin/engine/writing/difficulty.h"

#include <stdlib.h>

static void grade(Entry* const entry, Playability* const room)
{
    if (entry->figure) {
        entry->difficulty = difficulty_of_figure(
            entry->figure, difficulty_tempo(entry->tempo_low, entry->tempo_high), room);
    } else if (entry->groove) {
        entry->difficulty = difficulty_of_groove(entry->groove, entry->groove->tempo, room);
    }
    entry->is_graded = true;
}

void grades_shelf(Model* const model, const EntryKind shelf)
{
    Playability* const room = malloc(sizeof *room); /* too large for a stack */
    for (int i = 0; room && i < model->view.shelves[shelf].count; ++i) {
        if (!model->entries[shelf][i].is_graded) {
            grade(&model->entries[shelf][i], room);
        }
    }
    free(room);
}

static void grade_played(Model* const model, const EntryKind shelf)
{
    const Entry* const entry = view_entry(&model->view, shelf, view_playing(&model->view, shelf));
    if (!entry || entry->is_graded) {
        return;
    }
    Playability* const room = malloc(sizeof *room);
    if (room) {
        grade(&model->entries[shelf][entry - model->view.shelves[shelf].entries], room);
        model->is_dirty = true;
    }
    free(room);
}

void grades_shown(Model* const model)
{
    grade_played(model, ENTRY_HANDS);
    grade_played(model, ENTRY_FEET);
}

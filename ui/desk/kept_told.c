// SPDX-License-Identifier: ISC
#include "kept_told.h"

#include "../../plugin/bank/utf8.h"
#include "../../plugin/engine/varied/variation.h"
#include "../../plugin/talk/decode.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- In words */

static void add(char told[KEPT_TOLD_ROOM], const char* const lead, const char* const words)
{
    const size_t length = strlen(told);
    snprintf(told + length, KEPT_TOLD_ROOM - length, "%s%s%s", length ? ", " : "", lead, words);
}

/* The name of what a slot picks of a kind; NULL: it is the groove's own, or nobody's. */
static const char* picked(const KeptSelection* const kept, const EntryKind kind)
{
    const int32_t id = settings_pick(kept->values, kind);
    const EntryInfo* const info = id > 0 ? bank_info(kept->plays.bank, kind, (uint32_t)id) : NULL;
    return info ? info->label : NULL;
}

/* "Ostrel, feet: Salt Gallop, doubled, edited". */
static void tell(const KeptSelection* const kept, char told[KEPT_TOLD_ROOM])
{
    static const struct {
        EntryKind kind;
        const char* lead;
    } picks[] = {{ENTRY_GROOVE, ""},
                 {ENTRY_HANDS, "hands: "},
                 {ENTRY_FEET, "feet: "},
                 {ENTRY_TURNAROUND, "fill: "}};
    static const Control varied[] = {CONTROL_VARIATION, CONTROL_VARIATION_THEN};
    told[0] = '\0';
    for (size_t i = 0; i < sizeof picks / sizeof *picks; ++i) {
        const char* const label = picked(kept, picks[i].kind);
        if (label) {
            add(told, picks[i].lead, label);
        }
    }
    for (size_t i = 0; i < sizeof varied / sizeof *varied; ++i) {
        const uint32_t number = (uint32_t)kept->values[varied[i]];
        const char* const words = number ? variation_words(number) : NULL;
        if (words) {
            add(told, "", words);
        }
    }
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (kept->plays.drafts.drafts[kind]) {
            add(told, "edited ", kind_rows[kind].plural);
        }
    }
    utf8_repair(told); /* also where it was cut */
}

/* True if the ports and drafts pick just what it is. */
static bool is_picked(const Model* const model, const KeptSelection* const kept)
{
    bool same = !model_kept(model);
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        const bool apart = model->ports[i] < kept->values[i] || model->ports[i] > kept->values[i];
        same = same && !(control_rows[i].is_selection && apart);
    }
    for (int kind = 0; same && kind < FIGURE_KINDS; ++kind) {
        const Single* const draft = kept->plays.drafts.drafts[kind];
        const Single* const now = model->editor.drafts[kind].single;
        same = draft ? now && !strcmp(now->text, draft->text)
                     : !now || !kept_selection_plays(kept, (FigureKind)kind, now->info.id);
    }
    return same;
}

void kept_told_show(Model* const model)
{
    for (uint32_t slot = 1; slot <= KEPT_MAX; ++slot) {
        const KeptSelection* const kept = kept_list_at(model->kept, slot);
        KeptRow* const row = &model->view.kept.rows[slot - 1];
        *row = (KeptRow){.is_there = kept};
        if (kept) {
            snprintf(row->name, sizeof row->name, "%s", kept->name);
            tell(kept, row->told);
            row->is_picked = is_picked(model, kept);
        }
    }
    model->is_dirty = true;
}

/* ---- As it is told */

static void take(Model* const model, const char* const text)
{
    KeptList* const list = model->bank ? kept_list_read(model->bank, text) : NULL;
    if (!list) {
        return;
    }
    kept_list_free(model->kept);
    model->kept = list;
    if (!model_compose(model)) {
        model_say(model, "There is no memory to show what is kept in files");
    }
    model_show_values(model);
    kept_told_show(model);
}

void kept_told(Model* const model, const LV2_Atom* const value)
{
    Piece piece;
    if (decode_piece(value, model->uris, &piece)) {
        char* const text = pieces_take(&model->kept_told, &piece, model->now);
        if (text) {
            take(model, text);
        }
        free(text);
    }
}

void kept_told_close(Model* const model)
{
    pieces_clear(&model->kept_told);
    kept_list_free(model->kept);
    model->kept = NULL;
}

// SPDX-License-Identifier: ISC
#include "kept_slots.h"

#include "../../plugin/bank/utf8.h"
#include "../../plugin/engine/varied/variation.h"

#include <stdio.h>
#include <string.h>

enum { SAY_ROOM = KEPT_SHOWN_ROOM + 96 };

static const KeptSelection* at(const Model* const model, const int slot)
{
    return kept_list_at(model->kept, slot > 0 ? (uint32_t)slot : 0);
}

static bool is_there(Model* const model, const int slot)
{
    char words[SAY_ROOM];
    if (!at(model, slot)) {
        snprintf(words, sizeof words, "Nothing is kept in slot %d; S keeps what is selected", slot);
        model_say(model, words);
    }
    return at(model, slot);
}

static void say_of(Model* const model, const char* const lead, const int slot,
                   const char* const name, const char* const tail)
{
    char words[SAY_ROOM];
    snprintf(words, sizeof words, "%s %d: %s%s", lead, slot, name, tail);
    model_say(model, words);
}

/* ---- Keeping */

static const char* label_of(const Model* const model, const EntryKind kind)
{
    const int32_t id = (int32_t)model->view.values[kind_controls[kind]];
    const Entry* const entry = id > 0 ? view_entry(&model->view, kind, id) : NULL;
    return entry ? entry->label : NULL;
}

static void add(char name[KEPT_SHOWN_ROOM], const char* const lead, const char* const words)
{
    const size_t length = strlen(name);
    snprintf(name + length, KEPT_SHOWN_ROOM - length, "%s%s", length ? lead : "", words);
}

void kept_slots_offer(const Model* const model, char name[KEPT_SHOWN_ROOM])
{
    static const Control varied[] = {CONTROL_VARIATION, CONTROL_VARIATION_THEN};
    const KeptSelection* const kept = at(model, (int)model_kept(model));
    name[0] = '\0';
    if (kept) {
        add(name, "", kept->name);
        return;
    }
    const char* const groove = label_of(model, ENTRY_GROOVE);
    const char* const hands = label_of(model, ENTRY_HANDS);
    const char* const feet = label_of(model, ENTRY_FEET);
    for (size_t i = 0; i < sizeof varied / sizeof *varied; ++i) {
        const uint32_t number = (uint32_t)model->view.values[varied[i]];
        add(name, number ? ", " : "", number ? variation_words(number) : "");
    }
    add(name, feet ? ", " : "", feet ? feet : "");
    add(name, ", ", groove ? groove : "Groove");
    add(name, hands ? ", under " : "", hands ? hands : "");
    utf8_repair(name); /* also where it was cut */
}

void kept_slots_keep_as(Model* const model, const int slot, const char* const name)
{
    const int found = slot ? slot : model->kept ? (int)kept_list_free_slot(model->kept) : 0;
    if (!model->kept) {
        model_say(model, "The plugin hasn't said yet what is kept: try again in a moment");
    } else if (!found) {
        model_say(model, "All 16 slots are full: play one and drop it by Shift+S first");
    } else {
        model_say_kept(model, model->uris->fl_keep, found, name);
        model->view.kept.lot = (found - 1) / KEPT_LOT * KEPT_LOT;
        say_of(model, "Kept in", found, name, "");
    }
}

void kept_slots_keep(Model* const model)
{
    char name[KEPT_SHOWN_ROOM];
    kept_slots_offer(model, name);
    kept_slots_keep_as(model, 0, name);
}

void kept_slots_name(Model* const model, const int slot, const char* const name)
{
    if (is_there(model, slot) && *name) {
        model_say_kept(model, model->uris->fl_nameKept, slot, name);
    }
}

/* ---- Dropping */

void kept_slots_drop(Model* const model, const int slot)
{
    if (is_there(model, slot)) {
        say_of(model, "Dropped", slot, at(model, slot)->name, "; Shift+S puts it back");
        model->view.kept.dropped = slot;
        model_say_kept(model, model->uris->fl_dropKept, slot, "");
        if ((int)model_kept(model) == slot) {
            model_nudge(model, CONTROL_KEPT, 0.0f);
        }
    }
}

void kept_slots_take_back(Model* const model)
{
    char words[SAY_ROOM];
    snprintf(words, sizeof words, "Slot %d is as it was before", model->view.kept.dropped);
    model_say(model, words);
    model->view.kept.dropped = 0;
    model_say_kept(model, model->uris->fl_takeBackKept, 0, "");
}

void kept_slots_drop_or_back(Model* const model)
{
    if (model_kept(model)) {
        kept_slots_drop(model, (int)model_kept(model));
    } else if (model->view.kept.dropped) {
        kept_slots_take_back(model);
    } else {
        model_say(model, "Nothing that is kept plays: Shift and a number play what is to go");
    }
}

/* ---- Playing */

static void play(Model* const model, const int slot)
{
    int* const pair = model->view.kept.pair;
    if (pair[0] != slot) {
        pair[1] = pair[0];
        pair[0] = slot;
    }
    model->view.kept.lot = (slot - 1) / KEPT_LOT * KEPT_LOT;
    say_of(model, "Kept", slot, at(model, slot)->name, "");
    model_nudge(model, CONTROL_KEPT, (float)slot);
}

void kept_slots_play(Model* const model, const int slot)
{
    if ((int)model_kept(model) == slot) {
        model_say(model, "What is picked plays again");
        model_nudge(model, CONTROL_KEPT, 0.0f);
    } else if (is_there(model, slot)) {
        play(model, slot);
    }
}

void kept_slots_swap(Model* const model)
{
    const int* const pair = model->view.kept.pair;
    const bool plays_first = (int)model_kept(model) == pair[0];
    const int wanted = plays_first ? pair[1] : pair[0];
    if (at(model, wanted)) {
        play(model, wanted);
    } else {
        model_say(model, "X swaps the two that were played last: play two by Shift and a number");
    }
}

void kept_slots_other_lot(Model* const model)
{
    model->view.kept.lot = model->view.kept.lot ? 0 : KEPT_LOT;
    model->is_dirty = true;
}

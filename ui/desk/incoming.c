// SPDX-License-Identifier: ISC
#include "incoming.h"

#include "../../plugin/bank/utf8.h"
#include "../../plugin/talk/decode.h"
#include "../../plugin/talk/encode.h"
#include "../scene/dial.h"
#include "../scene/handed.h"
#include "answers.h"
#include "grades.h"
#include "kept_told.h"
#include "list.h"

#include <string.h>

/* The phrase goes on: the bar after the last becomes the first; the others stay in
   their places until the new ones are told. */
static void turn_phrase(View* const view, const SeenPlace* const place)
{
    const uint32_t after = view->place.phrase_bars;
    if (!place->loops && after < SEEN_BARS && view->has_bar[after] &&
        view->bars[after].bar == place->phrase) {
        view->bars[0] = view->bars[after];
        view->has_bar[0] = true;
    }
    for (uint32_t slot = place->phrase_bars + 1; slot < SEEN_BARS; ++slot) {
        view->has_bar[slot] = false;
    }
}

static void take_place(Model* const model, const SeenPlace* const place)
{
    View* const view = &model->view;
    const SeenPlace before = view->place;
    if (place->phrase != before.phrase || place->phrase_bars != before.phrase_bars) {
        turn_phrase(view, place);
        model->is_dirty = true;
    }
    if (view->place.waiting && !place->waiting) {
        view->list.playing = (int32_t)view->values[kind_controls[view->list.shelf]];
    }
    view->place = *place;
    view->now_tick = place->tick;
    model->told_at = model->now;
    model->told_tick = place->tick;
    if (place->rolling && !view->held) {
        view->looked_at = -1;
    }
    SeenPlace still = *place; /* what moves is drawn over the still picture */
    still.tick = before.tick;
    still.ticks_per_second = before.ticks_per_second;
    model->is_dirty = model->is_dirty || !view->has_place || !encode_places_alike(&still, &before);
    view->has_place = true;
}

static void take_bar(Model* const model, const LV2_Atom* const value)
{
    SeenBar bar;
    View* const view = &model->view;
    if (!decode_bar(value, model->uris, &bar)) {
        return;
    }
    if (view->left_handed) {
        handed_mirror(&bar);
    }
    view->bars[bar.slot] = bar; /* in range: decode_bar looked */
    view->has_bar[bar.slot] = true;
    grades_shown(model);
    model->is_dirty = true;
}

/* The first line of the bank's diagnostics. */
static void take_message(Model* const model, const char* const text, const size_t size)
{
    size_t line = 0;
    while (line < size && text[line] && text[line] != '\n') {
        ++line;
    }
    const size_t length = utf8_cut(text, line, MESSAGE_ROOM - 1);
    memcpy(model->view.message, text, length);
    model->view.message[length] = '\0';
    utf8_repair(model->view.message);
    model->is_dirty = true;
}

static void take_dropped(Model* const model, const LV2_Atom* const value)
{
    int64_t dropped = 0;
    if (value->type == model->uris->atom_Long && value->size >= sizeof dropped) {
        memcpy(&dropped, value + 1, sizeof dropped);
        model->view.dropped = dropped > 0 && dropped < UINT32_MAX ? (uint32_t)dropped : 0;
        model->is_dirty = true;
    }
}

static int64_t whole(const Model* const model, const LV2_Atom* const value)
{
    int64_t number = -1;
    if (value->type == model->uris->atom_Long && value->size >= sizeof number) {
        memcpy(&number, value + 1, sizeof number);
    }
    return number > -1 && number < INT32_MAX ? number : -1;
}

static void take_text(Model* const model, const LV2_URID property, const char* const text,
                      const size_t size)
{
    const Uris* const uris = model->uris;
    if (property == uris->fl_bankMessages) {
        take_message(model, text, size);
    } else if (property == uris->fl_refused) {
        answers_refused(model, text, size);
    }
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (property == uris->fl_drafts[kind]) {
            answers_draft(model, (FigureKind)kind, text, size);
        }
    }
}

static void take_message_atom(Model* const model, const uint32_t size, const LV2_Atom* const atom)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    SeenPlace place;
    if (!decode_message(atom, size, model->uris, &property, &value)) {
        return;
    }
    if (property == model->uris->fl_bar) {
        take_bar(model, value);
    } else if (property == model->uris->fl_place && decode_place(value, model->uris, &place)) {
        take_place(model, &place);
    } else if (value->type == model->uris->atom_String && value->size) {
        take_text(model, property, (const char*)(value + 1), value->size);
    } else if (property == model->uris->fl_savedFigure) {
        answers_saved(model, whole(model, value));
    } else if (property == model->uris->fl_savedGroove) {
        answers_saved_groove(model, whole(model, value));
    } else if (property == model->uris->fl_deletedEntry) {
        answers_deleted(model, whole(model, value));
    } else if (property == model->uris->fl_savedKit) {
        answers_saved_kit(model, whole(model, value));
    } else if (property == model->uris->fl_sessionEntries) {
        entries_told(model, value);
    } else if (property == model->uris->fl_keptSelections) {
        kept_told(model, value);
    } else if (property == model->uris->fl_noteIn) {
        answers_note(model, (int)whole(model, value));
    } else if (property == model->uris->fl_droppedStrokes) {
        take_dropped(model, value);
    }
}

/* A host may say anything.  Controls are shown as the plugin takes them; a readout out
   of its range says nothing. */
static float readout(const ControlRow* const row, const float value)
{
    return value >= row->least && value <= row->most ? value : 0.0f;
}

static float as_taken(const Control control, const float value)
{
    const DialKind kind = dial_of(control)->kind;
    const bool is_switch = kind == DIAL_SWITCH || kind == DIAL_TRIGGER;
    return is_switch && value > 0.0f ? 1.0f : dial_fit(control, (double)value);
}

/* A lane may move any port while the mouse holds another. */
static void take_port(Model* const model, const Control control, const float value)
{
    const bool is_held =
        view_target_same(model->view.pressed, (TargetId){TARGET_DIAL, (int)control});
    const float taken = as_taken(control, value);
    if (is_held || !differs((double)model->ports[control], (double)taken)) {
        return;
    }
    model->ports[control] = taken;
    model_show_values(model);
    if (control_rows[control].is_selection || control == CONTROL_KEPT) {
        kept_told_show(model);
    }
    list_measure(model);
}

static void take_value(Model* const model, const uint32_t port, const float value)
{
    if (port >= PORT_FIRST_CONTROL && port < PORT_FIRST_READOUT) {
        take_port(model, (Control)(port - PORT_FIRST_CONTROL), value);
    } else if (port >= PORT_FIRST_READOUT && port < PORT_FIRST_READOUT + READOUT_COUNT) {
        float* const place = &model->view.readouts[port - PORT_FIRST_READOUT];
        const float told = readout(&readout_rows[port - PORT_FIRST_READOUT], value);
        if (differs((double)*place, (double)told)) {
            *place = told;
            model->is_dirty = true;
            list_measure(model);
        }
    }
}

void incoming_port_event(Model* const model, const uint32_t port, const uint32_t size,
                         const uint32_t format, const void* const buffer)
{
    if (format == 0 && size == sizeof(float) && buffer) {
        float value = 0.0f;
        memcpy(&value, buffer, sizeof value);
        take_value(model, port, value);
    } else if (format == model->uris->atom_eventTransfer && size >= sizeof(LV2_Atom) && buffer) {
        take_message_atom(model, size, (const LV2_Atom*)buffer);
    }
}

// SPDX-License-Identifier: ISC
#include "desk.h"

#include "../../plugin/talk/decode.h"
#include "../../plugin/talk/encode.h"
#include "../scene/dial.h"
#include "moves.h"

#include <stdio.h>
#include <string.h>

static void choose_palette(Desk* const desk)
{
    View* const view = &desk->view;
    switch (view->theme) {
    case THEME_DARK:
        view->palette = palette_dark;
        break;
    case THEME_LIGHT:
        view->palette = palette_light;
        break;
    case THEME_HOST:
    case THEME_COUNT:
        view->palette = desk->host;
        break;
    }
    desk->is_dirty = true;
}

bool desk_open(Desk* const desk, const Bank* const bank, const Uris* const uris,
               const DeskOutput output)
{
    memset(desk, 0, sizeof *desk);
    desk->bank = bank;
    desk->uris = uris;
    desk->output = output;
    desk->host = palette_dark;
    desk->told_at = -1.0;
    desk->clicked_at = -1.0;
    desk->view.looked_at = -1;
    desk->view.list.selected = -1;
    desk->view.edit.hover_limb = -1;
    desk->view.edit.pair = PAIR_FEET;
    desk->view.edit.grid = 4;
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        desk->view.values[i] = control_rows[i].normal;
    }
    choose_palette(desk);
    desk_resize(desk, FIRST_WIDTH, FIRST_HEIGHT, 1.0);
    desk->view.focus = (TargetId){TARGET_CARD, SHELF_FEET};
    return shelves_fill(desk);
}

void desk_say(Desk* const desk, const char* const words)
{
    snprintf(desk->view.edit.note, sizeof desk->view.edit.note, "%s", words);
    desk->is_dirty = true;
}

void desk_resize(Desk* const desk, const int width, const int height, const double scale)
{
    desk->fit = geometry_fit(width > 0 ? width : 1, height > 0 ? height : 1, scale);
    desk->view.width = desk->fit.width;
    desk->view.height = desk->fit.height;
    desk->is_dirty = true;
    if (desk->view.list.is_open) {
        list_scroll(desk, 0);
    }
}

void desk_host_colours(Desk* const desk, const Colour background, const Colour text)
{
    desk->host = palette_around(background, text);
    choose_palette(desk);
}

/* ---- What the plugin says */

/* The phrase goes on: the bar after the last becomes the first; the others stay in
   their places until the new ones are told. */
static void turn_phrase(View* const view, const SeenPlace* const place)
{
    const uint32_t after = view->place.phrase_bars;
    if (!place->loops && after < PREVIEW_BARS && view->has_bar[after] &&
        view->bars[after].bar == place->phrase) {
        view->bars[0] = view->bars[after];
        view->has_bar[0] = true;
    }
    for (uint32_t slot = place->phrase_bars + 1; slot < PREVIEW_BARS; ++slot) {
        view->has_bar[slot] = false;
    }
}

static void take_place(Desk* const desk, const SeenPlace* const place)
{
    View* const view = &desk->view;
    const SeenPlace before = view->place;
    if (place->phrase != before.phrase || place->phrase_bars != before.phrase_bars) {
        turn_phrase(view, place);
        desk->is_dirty = true;
    }
    if (view->place.waiting && !place->waiting) {
        view->list.playing = (int32_t)view->values[shelf_control(view->list.shelf)];
    }
    view->place = *place;
    view->now_tick = place->tick;
    desk->told_at = desk->now;
    desk->told_tick = place->tick;
    if (place->rolling) {
        view->looked_at = -1;
    }
    SeenPlace still = *place; /* what moves is drawn over the still picture */
    still.tick = before.tick;
    still.ticks_per_second = before.ticks_per_second;
    desk->is_dirty = desk->is_dirty || !view->has_place || !encode_places_alike(&still, &before);
    view->has_place = true;
}

static void take_bar(Desk* const desk, const LV2_Atom* const value)
{
    SeenBar bar;
    View* const view = &desk->view;
    if (!decode_bar(value, desk->uris, &bar)) {
        return;
    }
    view->bars[bar.slot] = bar; /* in range: decode_bar looked */
    view->has_bar[bar.slot] = true;
    desk->is_dirty = true;
}

/* The first line of the bank's diagnostics. */
static void take_message(Desk* const desk, const char* const text, const size_t size)
{
    size_t length = 0;
    while (length < size && length + 1 < MESSAGE_ROOM && text[length] && text[length] != '\n') {
        ++length;
    }
    while (length > 0 && length < size && ((unsigned char)text[length] & 0xC0U) == 0x80U) {
        --length; /* whole letters only */
    }
    memcpy(desk->view.message, text, length);
    desk->view.message[length] = '\0';
    desk->is_dirty = true;
}

static void take_dropped(Desk* const desk, const LV2_Atom* const value)
{
    int64_t dropped = 0;
    if (value->type == desk->uris->atom_Long && value->size >= sizeof dropped) {
        memcpy(&dropped, value + 1, sizeof dropped);
        desk->view.dropped = dropped > 0 && dropped < UINT32_MAX ? (uint32_t)dropped : 0;
        desk->is_dirty = true;
    }
}

static int64_t whole(const Desk* const desk, const LV2_Atom* const value)
{
    int64_t number = -1;
    if (value->type == desk->uris->atom_Long && value->size >= sizeof number) {
        memcpy(&number, value + 1, sizeof number);
    }
    return number > -1 && number < INT32_MAX ? number : -1;
}

static void take_text(Desk* const desk, const LV2_URID property, const char* const text,
                      const size_t size)
{
    const Uris* const uris = desk->uris;
    if (property == uris->fl_bankMessages) {
        take_message(desk, text, size);
    } else if (property == uris->fl_refused) {
        editor_refused(desk, text, size);
    } else if (property == uris->fl_handsDraft) {
        editor_draft(desk, FIGURE_HANDS, text, size);
    } else if (property == uris->fl_feetDraft) {
        editor_draft(desk, FIGURE_FEET, text, size);
    } else if (property == uris->fl_turnaroundDraft) {
        editor_draft(desk, FIGURE_TURNAROUND, text, size);
    }
}

static void take_message_atom(Desk* const desk, const uint32_t size, const LV2_Atom* const atom)
{
    LV2_URID property = 0;
    const LV2_Atom* value = NULL;
    SeenPlace place;
    if (!hear_message(atom, size, desk->uris, &property, &value)) {
        return;
    }
    if (property == desk->uris->fl_bar) {
        take_bar(desk, value);
    } else if (property == desk->uris->fl_place && decode_place(value, desk->uris, &place)) {
        take_place(desk, &place);
    } else if (value->type == desk->uris->atom_String && value->size) {
        take_text(desk, property, (const char*)(value + 1), value->size);
    } else if (property == desk->uris->fl_savedFigure) {
        editor_saved(desk, whole(desk, value));
    } else if (property == desk->uris->fl_savedKit) {
        editor_saved_kit(desk, whole(desk, value));
    } else if (property == desk->uris->fl_sessionEntries) {
        entries_told(desk, value);
    } else if (property == desk->uris->fl_noteIn) {
        editor_note(desk, (int)whole(desk, value));
    } else if (property == desk->uris->fl_droppedStrokes) {
        take_dropped(desk, value);
    }
}

static bool differs(const float a, const float b)
{
    return a < b || a > b;
}

/* A host may say anything.  Controls are shown as the plugin takes them; a readout out
   of its range says nothing. */
static float readout(const ControlRow* const row, const float value)
{
    return value >= row->least && value <= row->most ? value : 0.0f;
}

static float as_taken(const Control control, const float value)
{
    const bool is_switch = dial_of(control)->kind == DIAL_SWITCH;
    return is_switch && value > 0.0f ? 1.0f : dial_fit(control, (double)value);
}

static void take_value(Desk* const desk, const uint32_t port, float value)
{
    View* const view = &desk->view;
    float* place = NULL;
    if (port >= PORT_FIRST_CONTROL && port < PORT_FIRST_READOUT) {
        const TargetId id = {TARGET_DIAL, (int)(port - PORT_FIRST_CONTROL)};
        place = target_same(view->pressed, id) ? NULL : &view->values[port - PORT_FIRST_CONTROL];
        value = as_taken((Control)(port - PORT_FIRST_CONTROL), value);
    } else if (port >= PORT_FIRST_READOUT && port < PORT_FIRST_READOUT + READOUT_COUNT) {
        place = &view->readouts[port - PORT_FIRST_READOUT];
        value = readout(&readout_rows[port - PORT_FIRST_READOUT], value);
    }
    if (place && differs(*place, value)) {
        *place = value;
        desk->is_dirty = true;
        if (view->list.is_open) {
            list_measure(desk);
        }
    }
}

void desk_port_event(Desk* const desk, const uint32_t port, const uint32_t size,
                     const uint32_t format, const void* const buffer)
{
    if (format == 0 && size == sizeof(float) && buffer) {
        float value = 0.0f;
        memcpy(&value, buffer, sizeof value);
        take_value(desk, port, value);
    } else if (format == desk->uris->atom_eventTransfer && size >= sizeof(LV2_Atom) && buffer) {
        take_message_atom(desk, size, (const LV2_Atom*)buffer);
    }
}

/* ---- Time */

/* Without news for so long the place stands still: the host may have gone. */
static const double longest_guess = 0.5;

void desk_tick(Desk* const desk, const double seconds)
{
    View* const view = &desk->view;
    desk->now = seconds;
    editor_tick(desk);
    if (!view->has_place || !view->place.rolling) {
        return;
    }
    const double since = seconds - desk->told_at;
    const double guess = since < longest_guess ? since : longest_guess;
    view->now_tick = desk->told_tick + guess * view->place.ticks_per_second;
}

/* ---- Values */

void desk_set(Desk* const desk, const Control control, const float wanted)
{
    const float value = dial_fit(control, (double)wanted);
    if (differs(desk->view.values[control], value)) {
        desk->view.values[control] = value;
        desk->output.write(desk->output.handle, (uint32_t)(PORT_FIRST_CONTROL + control), value);
        desk->is_dirty = true;
    }
}

void desk_nudge(Desk* const desk, const Control control, const float value)
{
    const uint32_t port = (uint32_t)(PORT_FIRST_CONTROL + control);
    const bool is_held = target_same(desk->view.pressed, (TargetId){TARGET_DIAL, (int)control});
    const bool touches = desk->output.touch && !is_held; /* by a drag: told already */
    if (touches) {
        desk->output.touch(desk->output.handle, port, true);
    }
    desk_set(desk, control, value);
    if (touches) {
        desk->output.touch(desk->output.handle, port, false);
    }
}

void desk_toggle(Desk* const desk, const Control control)
{
    const float on = control_rows[control].most;
    desk_nudge(desk, control,
               desk->view.values[control] > on - 0.5f ? control_rows[control].least : on);
}

void desk_focus(Desk* const desk, const TargetId id)
{
    if (!target_same(desk->view.focus, id)) {
        desk_end_typing(desk, false);
        desk->view.focus = id;
        desk->is_dirty = true;
    }
}

void desk_targets(const Desk* const desk, TargetList* const targets)
{
    const Geometry g = geometry_of(&desk->view);
    targets_of(&desk->view, &g, targets);
}

/* ---- What the person does */

static void set_keys(Desk* const desk, const bool has_keys)
{
    desk->view.has_keys = has_keys;
    desk->is_dirty = true;
}

static void leave(Desk* const desk)
{
    if (desk->view.hover.kind != TARGET_NONE) {
        desk->view.hover = (TargetId){TARGET_NONE, 0};
        desk->is_dirty = true;
    }
}

void desk_cycle_theme(Desk* const desk)
{
    desk->view.theme = (Theme)((desk->view.theme + 1) % THEME_COUNT);
    choose_palette(desk);
}

bool desk_input(Desk* const desk, const PaneEvent* const event)
{
    PaneEvent logical = *event;
    logical.x = (event->x - desk->fit.x) / desk->fit.scale;
    logical.y = (event->y - desk->fit.y) / desk->fit.scale;
    switch (event->kind) {
    case PANE_PRESS:
        desk_press(desk, &logical);
        break;
    case PANE_RELEASE:
        if (event->button == 1) {
            desk_release(desk);
        }
        break;
    case PANE_MOTION:
        desk_motion(desk, &logical);
        break;
    case PANE_SCROLL:
        desk_scroll(desk, &logical);
        break;
    case PANE_KEY:
        return desk_key(desk, &logical);
    case PANE_LEAVE:
        leave(desk);
        break;
    case PANE_FOCUS_IN:
        set_keys(desk, true);
        break;
    case PANE_FOCUS_OUT:
        set_keys(desk, false);
        break;
    case PANE_RESIZE:
    case PANE_CLOSE:
        break;
    }
    return true;
}

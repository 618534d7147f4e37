// SPDX-License-Identifier: ISC
/* own_desk.h - a desk on the built bundle's bank, with a hand to work it and a
   record of what it wrote. */
#pragma once

#include "../../ui/command/uri_table.h"
#include "../../ui/desk/controller.h"
#include "../../ui/desk/incoming.h"
#include "../../ui/scene/dial.h"
#include "../../ui/scene/screen.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    Model model;
    Bank* bank;
    UriTable* table;
    Uris uris;
    int writes;     /* so far */
    uint32_t port;  /* of the last write */
    float value;    /* likewise */
    int wrong;      /* writes of no control, out of range, or of a part of a whole */
    int held;       /* touches begun and not ended */
    int touches;    /* begun so far */
    int unbalanced; /* begun twice or ended unbegun */
    bool is_held[CONTROL_COUNT];
    int said; /* texts to the plugin */
} OwnDesk;

static inline bool own_is_whole(const Control control)
{
    return dial_of(control)->fine >= 1.0;
}

static inline void own_write(void* const handle, const uint32_t port, const float value)
{
    OwnDesk* const own = (OwnDesk*)handle;
    ++own->writes;
    own->port = port;
    own->value = value;
    if (port < PORT_FIRST_CONTROL || port >= PORT_FIRST_READOUT) {
        ++own->wrong;
        return;
    }
    const Control control = (Control)(port - PORT_FIRST_CONTROL);
    const bool is_in = value >= control_rows[control].least && value <= control_rows[control].most;
    const bool is_part = own_is_whole(control) && (value < floorf(value) || value > floorf(value));
    own->wrong += !is_in || is_part;
}

static inline void own_touch(void* const handle, const uint32_t port, const bool is_held)
{
    OwnDesk* const own = (OwnDesk*)handle;
    if (port < PORT_FIRST_CONTROL || port >= PORT_FIRST_READOUT) {
        ++own->wrong;
        return;
    }
    bool* const held = &own->is_held[port - PORT_FIRST_CONTROL];
    own->unbalanced += *held == is_held;
    *held = is_held;
    own->held += is_held ? 1 : -1;
    own->touches += is_held;
}

/* Ends the program if it can't be opened; about a megabyte, so not for a stack. */
static inline void own_tell(void* const handle, const LV2_URID property, const char* const text)
{
    OwnDesk* const own = (OwnDesk*)handle;
    (void)property;
    (void)text;
    ++own->said;
}

static inline ModelOutput own_output(OwnDesk* const own)
{
    return (ModelOutput){.handle = own, .write = own_write, .touch = own_touch, .say = own_tell};
}

static inline OwnDesk* own_desk_open(void)
{
    OwnDesk* const own = calloc(1, sizeof *own);
    if (own) {
        own->bank = bank_open((BankSources){FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank", NULL, NULL});
        own->table = uri_table_new();
    }
    if (!own || !own->bank || !own->table) {
        printf("# the desk can't be opened\n");
        exit(2);
    }
    LV2_URID_Map map = {own->table, uri_table_map};
    own->uris = uris_map(&map);
    if (!controller_open(&own->model, own->bank, &own->uris, own_output(own))) {
        printf("# no memory for the desk\n");
        exit(2);
    }
    const PaneEvent focus = {.kind = PANE_FOCUS_IN};
    controller_input(&own->model, &focus);
    return own;
}

static inline void own_desk_close(OwnDesk* const own)
{
    controller_close(&own->model);
    bank_free(own->bank);
    uri_table_free(own->table);
    free(own);
}

/* As a host says it. */
static inline void own_port(OwnDesk* const own, const uint32_t port, const float value)
{
    incoming_port_event(&own->model, port, sizeof value, 0, &value);
}

static inline void own_say(OwnDesk* const own, const Control control, const float value)
{
    own_port(own, (uint32_t)(PORT_FIRST_CONTROL + control), value);
}

static inline float own_value(const OwnDesk* const own, const Control control)
{
    return own->model.view.values[control];
}

/* Whether the desk had a use for it. */
static inline bool own_key(OwnDesk* const own, const uint32_t key, const uint32_t modifiers)
{
    const uint32_t text = key < PANE_KEY_UP && !(modifiers & ~(uint32_t)PANE_SHIFT) ? key : 0;
    const PaneEvent event = {.kind = PANE_KEY, .key = key, .text = text, .modifiers = modifiers};
    return controller_input(&own->model, &event);
}

/* Types code points. */
static inline void own_type(OwnDesk* const own, const char* text)
{
    for (; *text; ++text) {
        own_key(own, (uint32_t)(unsigned char)*text, 0);
    }
}

/* A mouse event at logical x and y. */
static inline void own_mouse(OwnDesk* const own, const PaneEventKind kind, const double x,
                             const double y, const uint32_t modifiers)
{
    const Fit fit = own->model.fit;
    const PaneEvent event = {.kind = kind,
                             .x = fit.x + fit.scale * x,
                             .y = fit.y + fit.scale * y,
                             .button = 1,
                             .modifiers = modifiers};
    controller_input(&own->model, &event);
}

static inline bool own_find(const OwnDesk* const own, const TargetId id, Target* const found)
{
    static TargetList targets;
    const Geometry g = geometry_of(&own->model.view);
    targets_of(&own->model.view, &g, &targets);
    const Target* const target = targets_find(&targets, id);
    *found = target ? *target : (Target){.group = GROUP_NONE};
    if (!target) {
        printf("# no target %d %d on the screen\n", (int)id.kind, id.index);
    }
    return target;
}

static inline double middle_x(const Target* const target)
{
    return target->box.x + target->box.width / 2.0;
}

static inline double middle_y(const Target* const target)
{
    return target->box.y + target->box.height / 2.0;
}

static inline void own_press(OwnDesk* const own, const TargetId id, const uint32_t modifiers)
{
    Target target;
    if (own_find(own, id, &target)) {
        own_mouse(own, PANE_PRESS, middle_x(&target), middle_y(&target), modifiers);
    }
}

static inline void own_release(OwnDesk* const own)
{
    own_mouse(own, PANE_RELEASE, 0.0, 0.0, 0);
}

/* A click by itself: no second click follows from it. */
static inline void own_click(OwnDesk* const own, const TargetId id)
{
    controller_tick(&own->model, own->model.now + 1.0);
    own_press(own, id, 0);
    own_release(own);
}

static inline void own_double_click(OwnDesk* const own, const TargetId id)
{
    own_click(own, id);
    own_press(own, id, 0);
    own_release(own);
}

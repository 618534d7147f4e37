// SPDX-License-Identifier: ISC
/* fresh_desk.h - for programs whose every test begins with a desk as it opens. */
#pragma once

#include "own_desk.h"

static OwnDesk* own;

static inline void fresh(void)
{
    if (own) {
        own_desk_close(own);
    }
    own = own_desk_open();
    controller_tick(&own->model, 100.0);
}

/* The panel that a target stands in, as it is where it stands in all. */
static inline Panel panel_of(const TargetKind kind, const int index)
{
    const bool is_pick = kind == TARGET_CARD && index < ENTRY_KINDS;
    const bool is_dial = kind == TARGET_DIAL || is_pick;
    const Control control = is_pick ? kind_controls[index] : (Control)index;
    const int panel = is_dial ? dial_of(control)->panel : -1;
    return panel >= 0                                       ? (Panel)panel
           : kind == TARGET_THEME || kind == TARGET_OPTION  ? PANEL_OUTPUT
           : kind == TARGET_EDIT && index >= (int)EDIT_FILE ? PANEL_OUTPUT
           : kind == TARGET_EDIT                            ? PANEL_EDIT
                                                            : own->model.view.panel;
}

static inline void focus(const TargetKind kind, const int index)
{
    own->model.view.panel = panel_of(kind, index);
    own->model.view.focus = (TargetId){kind, index};
}

static inline const List* list(void)
{
    return &own->model.view.list;
}

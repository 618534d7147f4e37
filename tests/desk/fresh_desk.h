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

static inline void focus(const TargetKind kind, const int index)
{
    own->model.view.focus = (TargetId){kind, index};
}

static inline const List* list(void)
{
    return &own->model.view.list;
}

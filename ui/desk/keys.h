// SPDX-License-Identifier: ISC
/* keys.h - the keyboard: everything can be reached and set by it, as the table of
   actions.h says. */
#pragma once

#include "../pane/pane.h"
#include "model.h"

/* True if it does something here and now; the others are the host's. */
bool keys_press(Model* model, const PaneEvent* event);

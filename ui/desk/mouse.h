// SPDX-License-Identifier: ISC
/* mouse.h - pointing, clicking, dragging and the wheel; the events are in logical
   pixels. */
#pragma once

#include "../pane/pane.h"
#include "model.h"

void mouse_press(Model* model, const PaneEvent* event);
void mouse_motion(Model* model, const PaneEvent* event);
void mouse_scroll(Model* model, const PaneEvent* event);

/* The button goes up: a click on a dial of words lays them out. */
void mouse_up(Model* model);

/* Whatever is held is let go. */
void mouse_release(Model* model);

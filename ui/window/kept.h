// SPDX-License-Identifier: ISC
/* kept.h - what a person wants of every window, from one to the next. */
#pragma once

#include "../desk/model.h"

/* Keeps the window's options in the file of own_window.h; says why if it can't. */
void kept_write(Model* model);

/* Takes what was kept, and what the user can do (own_limits.h). */
void kept_read(Model* model);

// SPDX-License-Identifier: ISC
/* options.h - what a person wants of the window, here and in the next one. */
#pragma once

#include "model.h"

#define OPTIONS_TEXT_LEAST 0.8
#define OPTIONS_TEXT_MOST 2.5

/* As they were kept; what can't be is as at first.  Keeps nothing. */
void options_take(Model* model, Theme theme, bool left_handed, double text, bool still);

/* The next one up or down; a switch is turned.  Keeps it. */
void options_step(Model* model, OptionItem item, int by);

/* As the host, dark, light, and round again.  Keeps it. */
void options_next_theme(Model* model);

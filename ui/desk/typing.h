// SPDX-License-Identifier: ISC
/* typing.h - typing a dial's value, or a figure's name. */
#pragma once

#include "model.h"

/* The name of the figure that is edited is typed. */
void typing_begin_name(Model* model);

/* One letter more, which begins to type a value; one less. */
void typing_more(Model* model, uint32_t text);
void typing_less(Model* model);

/* Keeps what was typed.  A value that can't be taken stays to be changed, and why is
   said. */
void typing_end(Model* model);

// SPDX-License-Identifier: ISC
/* cursor.h - the editor by keys: a step of the row that has the focus, and what is done to
   it.  All of it is what the mouse does there, by the same ways. */
#pragma once

#include "model.h"

/* Opens the Edit panel with the keys in the first row of the pair; from a row to the other
   pair's. */
void cursor_enter(Model* model);

/* Back to the tab; the page follows what plays again. */
void cursor_leave(Model* model);

/* So many steps on, or to the first or last; the ends of the bar hold. */
void cursor_step(Model* model, int by);
void cursor_to_end(Model* model, bool last);

/* The bar before or after, of the phrase. */
void cursor_page(Model* model, int by);

/* From none over ghost and normal to accent, and back. */
void cursor_louder(Model* model, int by);

/* This level; where it has that already, normal. */
void cursor_level(Model* model, Level level);

/* As a click does; none; another voice; with what is there to the next step. */
void cursor_cycle(Model* model);
void cursor_clear(Model* model);
void cursor_voice(Model* model, int by);
void cursor_move(Model* model, int by);

// SPDX-License-Identifier: ISC
/* asking.h - nothing is written to disk without a word first: the first key that would write a
   phrase asks into which folder, and names the one it would take; the next ones are quick. */
#pragma once

#include "model.h"

/* The phrase as a MIDI file, with feel or exactly on the grid; or asks where. */
void asking_write(Model* model, bool straight);

/* Letters of the folder. */
void asking_more(Model* model, uint32_t text);
void asking_less(Model* model);

/* Writes into it; nothing is written. */
void asking_yes(Model* model);
void asking_no(Model* model);

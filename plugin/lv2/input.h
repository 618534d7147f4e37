// SPDX-License-Identifier: ISC
/* input.h - what the host wrote into `control`, with every size and type
   checked: a host may send anything.  Audio thread; allocates nothing. */
#pragma once

#include "../engine/time/report.h"
#include "../talk/uris.h"

#include <lv2/atom/atom.h>
#include <stdbool.h>

typedef struct {
    const LV2_Atom_Sequence* sequence;
    uint32_t at; /* bytes into the sequence's body */
} InputReader;

typedef struct {
    int64_t frame; /* as written: may lie outside the block */
    const LV2_Atom* body;
} InputEvent;

/* Reads on from the start of a port's buffer; NULL or another type is empty. */
InputReader input_reader(const LV2_Atom_Sequence* sequence, const Uris* uris);

/* False at the end, and in most blocks at once. */
static inline bool input_is_left(const InputReader* const reader)
{
    return reader->sequence && reader->at < reader->sequence->atom.size;
}

/* The next whole event; false at the end, or where sizes stop making sense. */
bool input_next(InputReader* reader, InputEvent* event);

/* True, with all fields that have a number in them, if it is a time:Position. */
bool input_report(const LV2_Atom* body, const Uris* uris, Report* report);

// SPDX-License-Identifier: ISC
/* signature.h - meters as people read them: what a beat is, where in a bar something stands,
   and what becomes of a groove in a meter that it wasn't written in. */
#pragma once

#include "note_value.h"
#include "view.h"

/* The upper number, and both with a stroke between. */
enum { SIGNATURE_ROOM = 128 };
void signature_upper(Meter meter, char text[SIGNATURE_ROOM]);
void signature_text(Meter meter, char text[SIGNATURE_ROOM]);

/* A place in a bar as it is counted: "4&", "2e", "3trip"; else a fraction of the beat, as in
   "2+3/5". */
void signature_place(Meter meter, int64_t tick, char text[SIGNATURE_ROOM]);

/* What becomes of the groove that plays in the meter of the bar shown: "7/8 groove in 4/4:
   starts again on 4&"; "" where that is its own. */
void signature_mismatch(const View* view, char text[SIGNATURE_ROOM]);

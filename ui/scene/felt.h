// SPDX-License-Identifier: ISC
/* felt.h - what a value of a dial does: as a drummer would say it, in ms or velocity, and
   beside what drummers were measured to do (tests/data/drummers.tsv; a test compares each
   number with it and with the engine). */
#pragma once

#include "../../plugin/engine/groove/settings.h"
#include "view.h"

enum { FELT_ROOM = 128 };

/* "" for a control that it says nothing of. */
void felt_words(const View* view, Control control, float value, char text[FELT_ROOM]);

/* The feel that is played if the control had this value: a control at its default means
   what the groove has written. */
Feel felt_feel(const View* view, Control control, float value);

/* The swing likewise, long to short, at the tempo now. */
Swing felt_swing(const View* view, Control control, float value);

/* True if the control would be at its default and the groove has something else: `written`,
   in the control's unit. */
bool felt_written(const View* view, Control control, float value, double* written);

// SPDX-License-Identifier: ISC
/* handed.h - who plays left-handed has the kit the other way round: what is written for the
   right hand and foot is played by the left ones.  The engine's strokes, controls and
   readouts stay as they are; here they get the names and rows of the limbs that play them.
   A view's bars have the person's limbs (the desk sees to it); all else is asked of here. */
#pragma once

#include "view.h"

#include <stddef.h>

/* The person's limb for one of the engine's, and back. */
int handed_limb(const View* view, int limb);

/* The switch of a limb of the person's. */
Control handed_switch(const View* view, int limb);

/* What a foot of the person's has to play: 0 right, 1 left. */
FootRate handed_rate(const View* view, int foot);

/* The control that has the name of this one: of a limb's switch that of the other side's. */
Control handed_name(const View* view, Control control);

/* A dial's words with right and left changed over, where they name a limb. */
void handed_words(const View* view, const char* words, char* text, size_t room);

/* Changes over the limbs of a bar. */
void handed_mirror(SeenBar* bar);

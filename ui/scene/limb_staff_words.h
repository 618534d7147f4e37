// SPDX-License-Identifier: ISC
/* limb_staff_words.h - what a bar of the limb staff says beside its strokes: who strikes what,
   where that changes, tuplets. */
#pragma once

#include "limb_staff.h"

/* Where a tick of the bar stands. */
double limb_staff_words_x(StaffBox box, Meter meter, int64_t tick);

/* Limbs and what they strike first, left of their lines. */
void limb_staff_words_names(cairo_t* cairo, const SheetBar* bar, const StaffLanes* lanes,
                            StaffBox box);

/* True if a limb of the bar strikes more than one voice, beside a kick. */
bool limb_staff_words_changes(const SheetBar* bar, uint8_t limb);

/* Over right limbs and under left ones, what they strike from there on. */
void limb_staff_words_draw(cairo_t* cairo, const SheetBar* bar, Meter meter,
                           const StaffLanes* lanes, StaffBox box);

/* Numbers and brackets of tuplets. */
void limb_staff_words_tuplets(cairo_t* cairo, const SheetBar* bar, Meter meter,
                              const StaffLanes* lanes, StaffBox box);

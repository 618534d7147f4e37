// SPDX-License-Identifier: ISC
/* sheet_fill.h - a chart's bars from what the engine says; nothing musical is decided here. */
#pragma once

#include "../../plugin/engine/groove/groove.h"
#include "../scene/sheet.h"

/* As it is written: a shuffle is told, in words or as an element, and not drawn. */
Selection sheet_fill_straight(const Selection* selection);

/* Changes right and left limbs over. */
void sheet_fill_mirror(StrokeList* strokes);

/* Fills form, bars and rows from a selection; texts and tempo are the caller's. */
void sheet_fill(Sheet* sheet, const Selection* selection, Meter meter);

/* Likewise as it is written, for whoever plays right- or left-handed; its swing besides. */
void sheet_fill_written(Sheet* sheet, const Selection* selection, Meter meter, bool left_handed);

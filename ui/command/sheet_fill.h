// SPDX-License-Identifier: ISC
/* sheet_fill.h - a chart's bars from what the engine says; nothing musical is decided here. */
#pragma once

#include "../../plugin/engine/groove/groove.h"
#include "../scene/sheet.h"

/* Changes right and left limbs over. */
void sheet_fill_mirror(StrokeList* strokes);

/* Fills form, bars and rows from a selection; texts and tempo are the caller's. */
void sheet_fill(Sheet* sheet, const Selection* selection, Meter meter);

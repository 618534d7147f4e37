// SPDX-License-Identifier: ISC
/* vary_row.h - feet drawn as a row: strokes exactly under those of the staff, right up and left
   down, and what they ask of a person. */
#pragma once

#include "brush.h"
#include "vary_place.h"

/* The strokes, on a line in the middle of the box. */
void vary_row_strokes(const Brush* brush, const RowPlaces* places, Box box, const FeetRow* row);

/* Rates and whether it is playable. */
void vary_row_numbers(const Brush* brush, const RowPlaces* places, double base, const FeetRow* row);

/* Their headings. */
void vary_row_heads(const Brush* brush, const RowPlaces* places, double base);

/* A disc: filled, half, or crossed; nothing where it isn't known. */
void vary_row_disc(const Brush* brush, double x, double y, Playable playable);

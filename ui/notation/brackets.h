// SPDX-License-Identifier: ISC
/* brackets.h - the tuplets of a sheet's bars, as five-line notation has them, for the limb
   chart to draw: one spelling for both.  Pure. */
#pragma once

#include "../scene/sheet.h"

/* Fills the tuplets of every bar.  A bar that can't be spelled has none, and all where
   there is no memory. */
void brackets_find(Sheet* sheet);

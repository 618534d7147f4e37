// SPDX-License-Identifier: ISC
/* edit_marks.h - where the figure that is edited differs from what is kept: for the staff to
   underline. */
#pragma once

#include "model.h"

/* Fills in the view's marks of the bar shown, and how many strokes differ in all. */
void edit_marks_find(Model* model);

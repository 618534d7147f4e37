// SPDX-License-Identifier: ISC
/* chart.h - a groove as pages for a music stand: A4, black on white; A5 across where one row
   is all there is. */
#pragma once

#include "sheet.h"

#include <cairo.h>

enum { CHART_WIDTH = 595, CHART_HEIGHT = 842, CHART_SHORT = 420 }; /* points: A4, A5 across */

/* How many pages the sheet takes, and how high each is. */
int chart_pages(const Sheet* sheet);
int chart_height(const Sheet* sheet);

/* Draws one page, from 0, at the context's origin. */
void chart_draw_page(cairo_t* cairo, const Sheet* sheet, int page);

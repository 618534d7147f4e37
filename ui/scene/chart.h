// SPDX-License-Identifier: ISC
/* chart.h - a groove as pages for a music stand: A4, black on white. */
#pragma once

#include "sheet.h"

#include <cairo.h>

enum { CHART_WIDTH = 595, CHART_HEIGHT = 842 }; /* points: A4 */

/* How many pages the sheet takes. */
int chart_pages(const Sheet* sheet);

/* Draws one page, from 0, at the context's origin. */
void chart_draw_page(cairo_t* cairo, const Sheet* sheet, int page);

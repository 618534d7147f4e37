// SPDX-License-Identifier: ISC
/* chart_edge.h - what stands above and below the rows of a chart: title, tempo, form, what each
   letter plays; what the feet have to do, and the key of the signs that the sheet uses. */
#pragma once

#include "sheet.h"

#include <cairo.h>

enum { CHART_MARGIN = 42 };

/* Their heights, from the page's edge; later pages have the title alone. */
double chart_edge_head(const Sheet* sheet, int page);
double chart_edge_foot(const Sheet* sheet);

void chart_edge_draw_head(cairo_t* cairo, const Sheet* sheet, double width, int page);
void chart_edge_draw_foot(cairo_t* cairo, const Sheet* sheet, double width, double height);

// SPDX-License-Identifier: ISC
#include "chart.h"

#include "chart_edge.h"
#include "limb_staff.h"
#include "words.h"

#include <math.h>
#include <stdio.h>

static const double staff_left = 78.0; /* from the margin */
static const double row_space = 20.0;  /* between the head and the first count */
static const double scale_least = 0.7; /* small words are 5.25 points then */
static const double scale_most = 1.3;
static const double loose_most = 1.2; /* rows stand so much further apart where there is room */

/* How the rows stand on their pages. */
typedef struct {
    StaffLanes lanes;
    int pages;
    int rows;      /* a page */
    double height; /* of a page */
    double scale;
    double pitch; /* from row to row, in points */
} ChartPlan;

/* All pages have as many rows, so the first one's room counts. */
static double room_of(const Sheet* const sheet, const double height)
{
    return height - chart_edge_head(sheet, 0) - row_space - chart_edge_foot(sheet);
}

static double lesser(const double a, const double b)
{
    return a < b ? a : b;
}

static ChartPlan plan_of(const Sheet* const sheet)
{
    ChartPlan plan = {.lanes = limb_staff_lanes(sheet), .pages = 1, .rows = sheet->count};
    const double row = plan.lanes.height;
    const bool is_short = row * sheet->count <= room_of(sheet, CHART_SHORT);
    plan.height = is_short ? CHART_SHORT : CHART_HEIGHT;
    const double room = room_of(sheet, plan.height);
    if (row * sheet->count * scale_least > room) {
        const int most = (int)(room / (row * scale_least));
        plan.pages = (sheet->count + most - 1) / most;
        plan.rows = (sheet->count + plan.pages - 1) / plan.pages;
    }
    const double share = room / (plan.rows > 1 ? plan.rows : 1);
    plan.scale = lesser(share / row, is_short ? 1.0 : scale_most);
    plan.pitch = lesser(share, row * plan.scale * loose_most);
    return plan;
}

int chart_pages(const Sheet* const sheet)
{
    return plan_of(sheet).pages;
}

int chart_height(const Sheet* const sheet)
{
    return (int)plan_of(sheet).height;
}

static void draw_row_label(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                           const double y)
{
    char text[64];
    const char letter[] = {bar->letter, '\0'};
    if (bar->first == bar->last) {
        snprintf(text, sizeof text, "bar %d", bar->first);
    } else {
        snprintf(text, sizeof text, "bars %d\xE2\x80\x93%d", bar->first, bar->last);
    }
    const bool is_whole = bar->has_fill && !bar->fill_begin;
    const Type small = {8.0, false, ALIGN_LEFT, GREY(0.0)};
    double x = 0.0;
    if (!is_whole) {
        x += ink_text(cairo, x, y, (Type){17.0, true, ALIGN_LEFT, GREY(0.0)}, letter) + 3.0;
    }
    ink_text(cairo, x, y - (is_whole ? 9.0 : 0.0), small, text);
    if (bar->has_fill) {
        words_fill(text, sizeof text, bar->fill_begin, bar->fill_end, meter);
        ink_text(cairo, 0.0, y + (is_whole ? 0.0 : 11.0), small, text);
    }
}

static void draw_page_number(cairo_t* const cairo, const ChartPlan* const plan, const int page)
{
    char text[64];
    if (plan->pages > 1) {
        snprintf(text, sizeof text, "%d of %d", page + 1, plan->pages);
        ink_text(cairo, CHART_WIDTH - CHART_MARGIN, plan->height - 18.0,
                 (Type){8.5, false, ALIGN_RIGHT, GREY(0.3)}, text);
    }
}

static void draw_rows(cairo_t* const cairo, const Sheet* const sheet, const ChartPlan* const plan,
                      const int page)
{
    cairo_save(cairo);
    cairo_translate(cairo, CHART_MARGIN, chart_edge_head(sheet, page) + row_space);
    cairo_scale(cairo, plan->scale, plan->scale);
    for (int i = 0; i < plan->rows && page * plan->rows + i < sheet->count; ++i) {
        const int row = page * plan->rows + i;
        const StaffBox place = {staff_left, plan->pitch / plan->scale * i,
                                (CHART_WIDTH - 2.0 * CHART_MARGIN) / plan->scale - staff_left};
        draw_row_label(cairo, &sheet->rows[row], sheet->meter, place.y);
        limb_staff_draw(cairo, sheet, &sheet->rows[row], &plan->lanes, place,
                        row + 1 == sheet->count);
    }
    cairo_restore(cairo);
}

void chart_draw_page(cairo_t* const cairo, const Sheet* const sheet, const int page)
{
    const ChartPlan plan = plan_of(sheet);
    cairo_set_source_rgb(cairo, 1.0, 1.0, 1.0);
    cairo_paint(cairo);
    chart_edge_draw_head(cairo, sheet, CHART_WIDTH, page);
    draw_rows(cairo, sheet, &plan, page);
    chart_edge_draw_foot(cairo, sheet, CHART_WIDTH, plan.height);
    draw_page_number(cairo, &plan, page);
}

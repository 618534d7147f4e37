// SPDX-License-Identifier: ISC
/* The row of pages under the staff, and what is on the one that is open. */
#include "brush.h"
#include "shortlist.h"
#include "vary_page.h"

#include <math.h>
#include <stdio.h>

static void draw_tab(const Brush* const brush, const Target* const target)
{
    const Palette* const colours = brush->colours;
    const Panel panel = (Panel)target->id.index;
    const TabPlaces places = geometry_tab_places(brush->g, target->box);
    const bool is_open = panel == brush->view->panel;
    const bool over = brush_is_hovered(brush, target->id);
    const double line = geometry_tab_line(brush->g, panel);
    const double wide = ink_text(brush->cairo, places.words.x, places.words.y,
                                 brush_type(brush->g->compact ? 13.0 : 14.0, is_open, ALIGN_LEFT,
                                            is_open || over ? colours->ink : colours->soft),
                                 page_rows[panel].words);
    if (is_open) {
        ink_line(brush->cairo, places.words.x - 2.0, places.mark, places.words.x + wide + 2.0,
                 places.mark, 3.0, colours->ink);
    }
    if (line > 0.0) {
        ink_line(brush->cairo, floor(line) + 0.5, target->box.y + 6.0, floor(line) + 0.5,
                 target->box.y + target->box.height - 6.0, 1.0, colours->edge);
    }
    brush_focus(brush, target, 0.0);
}

/* A key and what it opens; reversed while that is open. */
static void draw_key_tab(const Brush* const brush, const Target* const target,
                         const char* const key, const char* const words, const bool is_open)
{
    const Palette* const colours = brush->colours;
    const TabPlaces places = geometry_tab_places(brush->g, target->box);
    const bool over = brush_is_hovered(brush, target->id);
    if (is_open) {
        ink_fill_round(brush->cairo, places.cap, 3.0, colours->ink);
    } else {
        ink_frame(brush->cairo, places.cap, 3.0, over ? 1.6 : 1.0,
                  over ? colours->ink : colours->edge);
    }
    ink_text(brush->cairo, places.key.x, places.key.y,
             brush_type(12.0, true, ALIGN_CENTRE, is_open ? colours->ground : colours->ink), key);
    if (!brush->g->compact) {
        ink_text(
            brush->cairo, places.cap.x + places.cap.width + 4.0, places.key.y,
            brush_type(13.0, is_open, ALIGN_LEFT, is_open || over ? colours->ink : colours->soft),
            words);
    }
    brush_focus(brush, target, 0.0);
}

static void draw_page(const Brush* const brush, const Target* const target)
{
    char text[32];
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
    const At at = geometry_tab_places(brush->g, target->box).words;
    snprintf(text, sizeof text, "row %d of 2", brush->view->page + 1);
    ink_text(brush->cairo, at.x, at.y, type, text);
    ink_triangle(brush->cairo, at.x + target->box.width - 18.0, at.y - 4.0, 5.0,
                 brush->view->page ? POINT_UP : POINT_DOWN, true, brush->colours->soft);
    brush_focus(brush, target, 0.0);
}

#define PAGE_DRAW(name, words, group, key, bars, targets, draw) draw,
static void (*const page_draw[PANEL_COUNT])(const Brush*) = {PAGE_ROWS(PAGE_DRAW)};
#undef PAGE_DRAW

static void draw_tabs(const Brush* const brush, const Target* const target)
{
    const int index = target->id.index;
    if (target->id.kind == TARGET_TAB && page_rows[index].group == PAGES_STATE) {
        draw_key_tab(brush, target, page_rows[index].key, page_rows[index].words,
                     (Panel)index == brush->view->panel);
    } else if (target->id.kind == TARGET_TAB) {
        draw_tab(brush, target);
    } else if (target->id.kind == TARGET_SHOW) {
        draw_key_tab(brush, target, show_rows[index].key, show_rows[index].words, false);
    } else if (target->id.kind == TARGET_PAGE) {
        draw_page(brush, target);
    }
}

static void draw_lines(const Brush* const brush)
{
    const Geometry* const g = brush->g;
    const double over = floor(g->panel) + 0.5;
    const double under = floor(g->tabs.y + g->tabs.height) + 0.5;
    ink_line(brush->cairo, 0.0, over, g->width, over, 1.0, brush->colours->rule);
    ink_line(brush->cairo, 0.0, under, g->width, under, 1.0, brush->colours->rule);
}

void draw_panel(const Brush* const brush)
{
    const bool is_covered = (brush->g->list && !brush->g->kept) || brush->g->keys;
    if (!is_covered) {
        draw_lines(brush);
        page_draw[brush->view->panel](brush);
    }
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->group == GROUP_TABS) {
            draw_tabs(brush, target);
        } else if (target->id.kind == TARGET_DIAL && target->group == GROUP_TOP &&
                   dial_of((Control)target->id.index)->kind == DIAL_CHOICE) {
            draw_choice(brush, target, (Control)target->id.index, target->box);
        }
    }
}

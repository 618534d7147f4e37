// SPDX-License-Identifier: ISC
/* Tabs, pages and cells: of geometry.h. */
#include "geometry.h"

#include <math.h>
#include <string.h>

/* Roughly, in the type of tabs: nothing here can measure words. */
static double width_of_word(const Geometry* const g, const char* const word)
{
    double letters = 0.0;
    for (const char* at = word; *at; ++at) {
        letters += strchr("fijlrt ", *at) ? 0.6 : strchr("mw", *at) ? 1.5 : 1.0;
    }
    return (g->compact ? 8.4 : 9.0) * letters;
}

static const double cap_wide = 18.0;

static double width_of_tab(const Geometry* const g, const char* const words, const bool has_key)
{
    const double bare = has_key ? cap_wide + 4.0 : 0.0;
    return has_key && g->compact ? cap_wide : bare + width_of_word(g, words) + 16.0;
}

static bool begins_group(const int panel)
{
    return panel > 0 && panel < PANEL_COUNT && page_rows[panel].group != page_rows[panel - 1].group;
}

static const double group_gap = 13.0;

static Box page_tab(const Geometry* const g, const Panel panel)
{
    double x = g->tabs.x - 8.0;
    for (int i = 0; i < (int)panel; ++i) {
        x += width_of_tab(g, page_rows[i].words, false);
    }
    for (int i = 0; i <= (int)panel; ++i) {
        x += begins_group(i) ? group_gap : 0.0;
    }
    return (Box){x, g->tabs.y, width_of_tab(g, page_rows[panel].words, false), g->tabs.height};
}

/* What has a key, from the right: so many come after it, so wide. */
static Box key_tab(const Geometry* const g, const double after, const char* const words)
{
    const double wide = width_of_tab(g, words, true);
    return g->compact ? (Box){g->right - after - wide, 12.0, wide, cap_wide + 2.0}
                      : (Box){g->right + 12.0 - after - wide, g->tabs.y + 1.0, wide, 23.0};
}

Box geometry_show(const Geometry* const g, const ShowItem item)
{
    double after = 0.0;
    for (int i = (int)item + 1; i < SHOW_ITEMS; ++i) {
        after += width_of_tab(g, show_rows[i].words, true) + (g->compact ? 2.0 : 0.0);
    }
    return key_tab(g, after, show_rows[item].words);
}

Box geometry_tab(const Geometry* const g, const Panel panel)
{
    if (page_rows[panel].group != PAGES_STATE) {
        return page_tab(g, panel);
    }
    const Box show = geometry_show(g, (ShowItem)0);
    double after = g->right + (g->compact ? 2.0 : 12.0) - show.x;
    for (int i = (int)panel + 1; i < PANEL_COUNT && *page_rows[i].key; ++i) {
        after += width_of_tab(g, page_rows[i].words, true) + (g->compact ? 2.0 : 0.0);
    }
    return key_tab(g, after, page_rows[panel].words);
}

double geometry_tab_line(const Geometry* const g, const Panel panel)
{
    const bool is_page = page_rows[panel].group != PAGES_STATE;
    return is_page && begins_group((int)panel) ? page_tab(g, panel).x - group_gap / 2.0 : 0.0;
}

Box geometry_page_box(const Geometry* const g)
{
    const double bottom = g->help > 0.0 ? g->help - 14.0 : g->height - 4.0;
    return (Box){g->overview.x, g->overview.y, g->overview.width, bottom - g->overview.y};
}

Box geometry_page(const Geometry* const g)
{
    return (Box){g->width - 96.0, g->tabs.y, 84.0, g->tabs.height};
}

TabPlaces geometry_tab_places(const Geometry* const g, const Box tab)
{
    const double base = tab.y + (g->compact ? 15.0 : 17.0);
    return (TabPlaces){
        .words = {tab.x + 8.0, base},
        .cap = {tab.x, tab.y + (tab.height - cap_wide) / 2.0, cap_wide, cap_wide},
        .key = {tab.x + cap_wide / 2.0, tab.y + tab.height / 2.0 + 4.5},
        .mark = g->tabs.y + g->tabs.height - 1.5,
    };
}

/* Seven columns; of two rows small windows show one at a time. */
Box geometry_cell(const Geometry* const g, const int page, const int column, const int row)
{
    const double gap = g->compact ? 12.0 : 24.0;
    const double left = 16.0;
    const double width = (g->right - left - 6.0 * gap) / 7.0;
    const double y = g->compact ? g->cells : g->cells + 44.0 * row;
    const bool is_seen = !g->compact || row == page;
    return (Box){left + column * (width + gap), is_seen ? y : -1000.0, width, 42.0};
}

Box geometry_word(const Geometry* const g, const int word)
{
    const Box first = geometry_cell(g, 0, word % 7, 0);
    const int row = word / 7;
    const double pitch = g->compact ? 23.0 : 44.0;
    return (Box){first.x, first.y + (g->compact ? 0.0 : 14.0) + pitch * row, first.width,
                 g->compact ? 20.0 : 24.0};
}

CellPlaces geometry_in_cell(const Box cell)
{
    return (CellPlaces){
        .label = {cell.x, cell.y + 11.0},
        .label_room = cell.width + 14.0,
        .value = {cell.x, cell.y + 29.0},
        .on = {cell.x, cell.y + 25.0},
        .on_word = {cell.x + 33.0, cell.y + 29.5},
        .choice = {cell.x, cell.y + 15.0, cell.width < 240.0 ? cell.width : 240.0, 22.0},
        .typing = {cell.x - 3.0, cell.y + 14.0, cell.width + 6.0, 19.0},
        .button = {cell.x, cell.y + 14.0, cell.width, 24.0},
        .button_word = {cell.x + cell.width / 2.0, cell.y + 30.5},
        .sign = cell.y + 24.0,
        .rule = floor(cell.y + 37.0) + 0.5,
    };
}

Line geometry_help(const Geometry* const g, const bool explains)
{
    const double x = g->compact ? 12.0 : 16.0;
    const double y = g->help > 0.0 ? g->help : g->quiet;
    return (Line){{x, y}, g->help > 0.0 || explains ? g->width - x - 16.0 : 0.0};
}

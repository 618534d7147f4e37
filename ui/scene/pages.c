// SPDX-License-Identifier: ISC
#include "pages.h"

#define PAGE_ROW(name, words, group, key, bars, targets, draw) {words, group, key, bars},
const PageRow page_rows[PANEL_COUNT] = {PAGE_ROWS(PAGE_ROW)};
#undef PAGE_ROW

const ShowRow show_rows[SHOW_ITEMS] = {
    [SHOW_READING] = {"reading view", "D"},
    [SHOW_KEYS] = {"keys", "K"},
};

Panel pages_next(const Panel panel, const Panel before)
{
    Panel next = page_rows[panel].group == PAGES_STATE ? before : panel;
    do {
        next = (Panel)(((int)next + 1) % PANEL_COUNT);
    } while (page_rows[next].group == PAGES_STATE);
    return next;
}

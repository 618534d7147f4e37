// SPDX-License-Identifier: ISC
/* pages.h - what stands under the staff: pages, each with its tab, and states that take a
   page's place (those set something once, or belong to one figure).  A row each:

   name    of the Panel
   words   on its tab, or beside its key
   group   of tabs; PAGES_STATE: none, it has a key
   key     that its tab shows; "" for what P comes to alone, and a state without a tab
   bars    true if the phrase's bars stand over it; else it has their place too
   targets a TargetsOf (targets.h): what can be pointed at
   draw    a void (const Brush*) (brush.h): draws it */
#pragma once

#include <stdbool.h>

typedef enum { PAGES_PLAYING, PAGES_WRITING, PAGES_PRACTISING, PAGES_STATE } PageGroup;

/* Pages come first, in the order of their tabs. */
#define PAGE_ROWS(X)                                                                               \
    X(FEEL, "Feel", PAGES_PLAYING, "", true, cells_targets, draw_cells)                            \
    X(RHYTHM, "Rhythm", PAGES_PLAYING, "", true, cells_targets, draw_cells)                        \
    X(FILLS, "Fills", PAGES_PLAYING, "", true, cells_targets, draw_cells)                          \
    X(VARY, "Vary", PAGES_WRITING, "", false, vary_page_targets, vary_page_draw)                   \
    X(PRACTICE, "Practice", PAGES_PRACTISING, "", false, practice_targets, draw_practice)          \
    X(EDIT, "edit", PAGES_STATE, "E", true, cells_edit_targets, draw_cells)                        \
    X(OUTPUT, "output", PAGES_STATE, "O", true, cells_output_targets, draw_cells)                  \
    X(SHORTLIST, "shortlist", PAGES_STATE, "", false, shortlist_targets, shortlist_draw)

#define PAGE_NAME(name, words, group, key, bars, targets, draw) PANEL_##name,
typedef enum { PAGE_ROWS(PAGE_NAME) PANEL_COUNT } Panel;
#undef PAGE_NAME

typedef struct {
    const char* words;
    PageGroup group;
    const char* key;
    bool bars;
} PageRow;

extern const PageRow page_rows[PANEL_COUNT];

/* What takes more than a page's place, beside the states. */
typedef enum { SHOW_READING, SHOW_KEYS, SHOW_ITEMS } ShowItem;

typedef struct {
    const char* words;
    const char* key;
} ShowRow;

extern const ShowRow show_rows[SHOW_ITEMS];

/* The page after this one, or after the one that a state took the place of. */
Panel pages_next(Panel panel, Panel before);

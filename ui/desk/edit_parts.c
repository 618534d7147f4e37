// SPDX-License-Identifier: ISC
#include "edit_parts.h"

#include <math.h>

/* What is edited: the figure of a pair, or a pair's part of the fill. */
typedef struct {
    FigureKind kind;
    LimbPair pair;
} EditPart;

static const EditPart parts[] = {
    {FIGURE_FEET, PAIR_FEET},
    {FIGURE_HANDS, PAIR_HANDS},
    {FIGURE_TURNAROUND, PAIR_HANDS},
    {FIGURE_TURNAROUND, PAIR_FEET},
};
enum { PARTS = sizeof parts / sizeof *parts };

/* True if the pair's part of the bar is there: of the fill, or of what it takes over from. */
static bool is_in(const SeenBar* const bar, const EditPart part)
{
    const bool has_fill = bar->fill && (part.pair == PAIR_HANDS || bar->fill_feet);
    return part.kind == FIGURE_TURNAROUND ? has_fill : !has_fill || bar->fill_begin > 0;
}

/* The bar of the phrase that has it, from the one shown on; -1: none has. */
static int find_bar(const View* const view, const EditPart part)
{
    const int bars = view_phrase_bars(view);
    const int64_t shown = view_shown(view) - view_phrase(view);
    for (int ahead = 0; ahead < bars; ++ahead) {
        const int bar = (int)floor_mod(shown + ahead, bars);
        const SeenBar* const seen = view_bar(view, view_phrase(view) + bar);
        if (seen && is_in(seen, part)) {
            return bar;
        }
    }
    return -1;
}

/* The cursor stays where it is if that is the part's. */
static void place_cursor(Model* const model, const EditPart part)
{
    View* const view = &model->view;
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const int grid = view->edit.grid > 0 ? view->edit.grid : 4;
    const int32_t step = (int32_t)(TICKS_PER_QUARTER / grid);
    const bool is_cut = bar->fill && (part.pair == PAIR_HANDS || bar->fill_feet);
    const bool is_in_fill = is_cut && view->edit.cursor >= bar->fill_begin;
    if (part.kind == FIGURE_TURNAROUND && !is_in_fill) {
        view->edit.cursor = (bar->fill_begin + step - 1) / step * step;
    } else if (part.kind != FIGURE_TURNAROUND && is_in_fill) {
        view->edit.cursor = 0;
    }
}

static void go(Model* const model, const EditPart part, const int bar)
{
    View* const view = &model->view;
    editor_hold_page(model);
    if (bar >= 0 && bar != (int)(view_shown(view) - view_phrase(view))) {
        view->looked_at = bar;
    }
    view->edit.pair = part.pair;
    view->edit.hover_limb = -1;
    editor_go_to(model, part.kind);
    if (bar >= 0) {
        place_cursor(model, part);
    }
}

static int now(const Model* const model)
{
    for (int i = 0; i < PARTS; ++i) {
        const bool is_fill = parts[i].kind == FIGURE_TURNAROUND;
        if (parts[i].pair == model->view.edit.pair &&
            is_fill == (model->editor.kind == FIGURE_TURNAROUND)) {
            return i;
        }
    }
    return 0;
}

/* Where nothing is told yet there are both pairs all the same. */
void edit_parts_next(Model* const model, const int by)
{
    int at = now(model);
    for (int tries = 0; tries < PARTS; ++tries) {
        at = (at + (by < 0 ? -1 : 1) + PARTS) % PARTS;
        const int bar = find_bar(&model->view, parts[at]);
        if (bar >= 0 || parts[at].kind != FIGURE_TURNAROUND) {
            go(model, parts[at], bar);
            return;
        }
    }
}

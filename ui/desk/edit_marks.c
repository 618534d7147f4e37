// SPDX-License-Identifier: ISC
#include "edit_marks.h"

#include "hit_test.h"

#include <string.h>

typedef struct {
    Model* model;
    HitTest hit;
    bool is_here; /* the figure plays in the bar shown */
    Edit found;   /* its marks alone */
} Finder;

/* Wherever the bar plays it. */
static void mark(Finder* const finder, const Stroke* const stroke)
{
    int32_t ticks[EDIT_MARKS_MAX];
    Edit* const found = &finder->found;
    ++found->differ;
    const int count = finder->is_here ? hit_test_places(finder->model, &finder->hit, stroke->tick,
                                                        ticks, EDIT_MARKS_MAX)
                                      : 0;
    for (int i = 0; i < count && found->mark_count < EDIT_MARKS_MAX; ++i) {
        found->marks[found->mark_count++] =
            (EditMark){editor_row(finder->model, stroke->limb), ticks[i]};
    }
}

/* Which comes first of two strokes in order, by tick and limb: below 0 `a`. */
static int64_t order(const Stroke* const a, const Stroke* const b)
{
    return a->tick != b->tick ? a->tick - b->tick : (int64_t)a->limb - (int64_t)b->limb;
}

static void compare(Finder* const finder, const EditFigure* const now, const EditFigure* const base)
{
    uint32_t i = 0;
    uint32_t j = 0;
    while (i < now->count || j < base->count) {
        const int64_t by = i == now->count    ? 1
                           : j == base->count ? -1
                                              : order(&now->strokes[i], &base->strokes[j]);
        if (by || !edit_buffer_same_stroke(&now->strokes[i], &base->strokes[j])) {
            mark(finder, by > 0 ? &base->strokes[j] : &now->strokes[i]);
        }
        i += by <= 0;
        j += by >= 0;
    }
}

void edit_marks_find(Model* const model)
{
    Edit* const edit = &model->view.edit;
    const EditPiece* const piece = editor_piece(model);
    Finder finder = {.model = model};
    if (piece->is_open && model->view.panel == PANEL_EDIT) {
        finder.is_here = hit_test_of(model, &finder.hit) && finder.hit.kind == model->editor.kind &&
                         finder.hit.id == piece->buffer.now.id;
        compare(&finder, &piece->buffer.now, &piece->base);
    }
    const Edit* const found = &finder.found;
    if (found->differ != edit->differ || found->mark_count != edit->mark_count ||
        memcmp(found->marks, edit->marks, sizeof edit->marks) != 0) {
        memcpy(edit->marks, found->marks, sizeof edit->marks);
        edit->mark_count = found->mark_count;
        edit->differ = found->differ;
        model->is_dirty = true;
    }
}

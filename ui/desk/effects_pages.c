// SPDX-License-Identifier: ISC
/* Effects that change what the window shows: pages, states, the list of keys, the reading
   view. */
#include "effects.h"

void effects_next_panel(Model* const model, const Press press)
{
    View* const view = &model->view;
    (void)press;
    view->panel = pages_next(view->panel, view->page_before);
    if (view->focus.kind == TARGET_TAB) {
        model_focus(model, (TargetId){TARGET_TAB, (int)view->panel});
    }
    view->reads = false;
}

/* By its key a state that is open goes back to the page it took the place of. */
void effects_open_panel(Model* const model, const Press press)
{
    View* const view = &model->view;
    const Panel panel = (Panel)press.which;
    const bool is_back = view->panel == panel && page_rows[panel].group == PAGES_STATE;
    view->panel = is_back && !view->reads ? view->page_before : panel;
    view->reads = false;
}

void effects_leave_panel(Model* const model, const Press press)
{
    (void)press;
    model->view.panel = model->view.page_before;
}

void effects_show_keys(Model* const model, const Press press)
{
    (void)press;
    model->view.keys.is_open = !model->view.keys.is_open;
    model->view.keys.first = model->view.keys.lit = 0;
}

void effects_read(Model* const model, const Press press)
{
    View* const view = &model->view;
    (void)press;
    model_stop_typing(model);
    model_let_go(model);
    model->editor.hold.is_held = false;
    view->hover = (TargetId){TARGET_NONE, 0};
    view->keys.is_open = false;
    view->reads = !view->reads;
}

void effects_show(Model* const model, const ShowItem item)
{
    Effect* const shows[SHOW_ITEMS] = {
        [SHOW_READING] = effects_read,
        [SHOW_KEYS] = effects_show_keys,
    };
    shows[item](model, (Press){.which = 0});
}

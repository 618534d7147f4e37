// SPDX-License-Identifier: ISC
#include "choosing.h"

#include "../scene/dial.h"

bool choosing_can(const Model* const model, const Control control)
{
    const Dial* const dial = dial_of(control);
    return dial->kind == DIAL_VALUE && dial->form == FORM_WORDS && dial->panel >= 0 &&
           !dial_unused(&model->view, control);
}

void choosing_open(Model* const model, const Control control)
{
    View* const view = &model->view;
    const int word = (int)(view->values[control] - control_rows[control].least);
    if (choosing_can(model, control)) {
        view->is_choosing = true;
        view->choosing = control;
        model_focus(model, (TargetId){TARGET_WORD, word});
        model->is_dirty = true;
    }
}

void choosing_leave(Model* const model)
{
    if (model->view.is_choosing) {
        model->view.is_choosing = false;
        model_focus(model, (TargetId){TARGET_DIAL, (int)model->view.choosing});
        model->is_dirty = true;
    }
}

void choosing_pick(Model* const model, const int word)
{
    const Control control = model->view.choosing;
    if (model->view.is_choosing) {
        model_nudge(model, control, control_rows[control].least + (float)word);
        choosing_leave(model);
    }
}

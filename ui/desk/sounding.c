// SPDX-License-Identifier: ISC
#include "model.h"

static const Control controls[SOUNDING_ASKED] = {CONTROL_VARIATION, CONTROL_VARIATION_THEN,
                                                 CONTROL_KEPT};

/* Longer than a host needs to hand a value on and the plugin to say that it waits. */
static const double told_seconds = 0.15;

void sounding_tick(Model* const model)
{
    View* const view = &model->view;
    Sounding* const sounding = &model->sounding;
    int* const playing[SOUNDING_ASKED] = {&view->vary.playing[0], &view->vary.playing[1],
                                          &view->kept.playing};
    for (int i = 0; i < SOUNDING_ASKED; ++i) {
        const int value = (int)view->values[controls[i]];
        if (sounding->asked[i] != value) {
            sounding->asked[i] = value;
            sounding->at = model->now;
        }
    }
    if (view->place.waiting || model->now - sounding->at < told_seconds) {
        return;
    }
    for (int i = 0; i < SOUNDING_ASKED; ++i) {
        if (*playing[i] != sounding->asked[i]) {
            *playing[i] = sounding->asked[i];
            model->is_dirty = true;
        }
    }
}

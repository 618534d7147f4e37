// SPDX-License-Identifier: ISC
#include "options.h"

#include "../scene/handed.h"

#include <math.h>

static const double text_step = 0.1;

static void keep(Model* const model)
{
    model->is_dirty = true;
    if (model->output.keep) {
        model->output.keep(model->output.handle);
    }
}

/* Whose hands and feet the bars told so far are played with. */
static void set_handed(Model* const model, const bool left_handed)
{
    View* const view = &model->view;
    for (int slot = 0; slot < SEEN_BARS && view->left_handed != left_handed; ++slot) {
        handed_mirror(&view->bars[slot]);
    }
    view->left_handed = left_handed;
    view->edit.hover_limb = -1;
}

static void set_text(Model* const model, const double text)
{
    const double round = rint(text / text_step) * text_step;
    model->view.text = !(round >= OPTIONS_TEXT_LEAST) ? OPTIONS_TEXT_LEAST
                       : round > OPTIONS_TEXT_MOST    ? OPTIONS_TEXT_MOST
                                                      : round;
    model_fit(model);
}

void options_take(Model* const model, const Theme theme, const bool left_handed, const double text,
                  const bool still)
{
    model_theme(model, theme >= THEME_COUNT ? THEME_HOST : theme);
    set_handed(model, left_handed);
    set_text(model, text >= OPTIONS_TEXT_LEAST ? text : 1.0);
    model->view.still = still;
}

void options_step(Model* const model, const OptionItem item, const int by)
{
    View* const view = &model->view;
    const double text = view->text;
    switch (item) {
    case OPTION_HANDED:
        set_handed(model, !view->left_handed);
        break;
    case OPTION_TEXT:
        set_text(model, text + text_step * by);
        break;
    case OPTION_MOTION:
        view->still = !view->still;
        break;
    case OPTION_ITEMS:
        break;
    }
    keep(model);
}

void options_next_theme(Model* const model)
{
    model_theme(model, (Theme)((model->view.theme + 1) % THEME_COUNT));
    keep(model);
}

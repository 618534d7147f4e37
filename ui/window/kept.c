// SPDX-License-Identifier: ISC
#include "kept.h"

#include "../desk/options.h"
#include "../file/own_window.h"

#include <stdio.h>
#include <string.h>

static const char* const colours[THEME_COUNT] = {"host", "dark", "light"};

void kept_write(Model* const model)
{
    const View* const view = &model->view;
    OwnWindow own = {"", view->left_handed, view->text, view->still};
    char why[OWN_WINDOW_WHY_ROOM];
    char words[OWN_WINDOW_WHY_ROOM + 32];
    snprintf(own.colours, sizeof own.colours, "%s", colours[view->theme]);
    if (!own_window_write(&own, why)) {
        snprintf(words, sizeof words, "Not kept for the next window: %s", why);
        model_say(model, words);
    }
}

void kept_read(Model* const model)
{
    const OwnWindow own = own_window_read();
    int theme = THEME_COUNT - 1;
    while (theme > 0 && strcmp(colours[theme], own.colours) != 0) {
        --theme;
    }
    options_take(model, (Theme)theme, own.left_handed, own.size, own.still);
}

// SPDX-License-Identifier: ISC
#include "kept.h"

#include "../../plugin/bank/bank.h"
#include "../../plugin/bank/own_limits.h"
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

/* What is wrong with the file `fourlimb check` says. */
static void read_limits(Model* const model)
{
    char folder[BANK_FOLDER_ROOM];
    Diagnostics diagnostics = {.count = 0};
    model->limits = own_limits_read(bank_users_folder(folder) ? folder : NULL, &diagnostics);
    diagnostics_clear(&diagnostics);
}

void kept_read(Model* const model)
{
    const OwnWindow own = own_window_read();
    int theme = THEME_COUNT - 1;
    while (theme > 0 && strcmp(colours[theme], own.colours) != 0) {
        --theme;
    }
    read_limits(model);
    options_take(model, (Theme)theme, own.left_handed, own.size, own.still);
}

// SPDX-License-Identifier: ISC
/* What of the window is as the person wants it: colours, hands, size, motion. */
#include "brush.h"

#include <stdio.h>

static const char* const theme_words[THEME_COUNT] = {"as host", "dark", "light"};

static const char* const labels[OPTION_ITEMS] = {
    [OPTION_HANDED] = "Left-handed", [OPTION_TEXT] = "Size", [OPTION_MOTION] = "Motion"};

const char* options_help(const OptionItem item)
{
    static const char* const helps[OPTION_ITEMS] = {
        [OPTION_HANDED] =
            "Left-handed: your left hand and foot lead; what sounds stays. Kept in window.txt",
        [OPTION_TEXT] =
            "Size: of type and all else, as far as the window has room. Kept in window.txt",
        [OPTION_MOTION] =
            "Motion: off goes from beat to beat, and no stroke lights. Kept in window.txt",
    };
    return helps[item];
}

void draw_theme(const Brush* const brush, const Target* const target)
{
    const Palette* const colours = brush->colours;
    const At at = geometry_in_cell(target->box).value;
    double x = at.x;
    brush_label(brush, target->box, "Window", brush_is_hovered(brush, target->id));
    for (int i = 0; i < THEME_COUNT; ++i) {
        const bool is_chosen = i == (int)brush->view->theme;
        x += ink_text(
                 brush->cairo, x, at.y,
                 brush_type(13.0, is_chosen, ALIGN_LEFT, is_chosen ? colours->ink : colours->soft),
                 theme_words[i]) +
             12.0;
    }
    brush_focus(brush, target, 4.0);
}

static void draw_switch(const Brush* const brush, const CellPlaces* const places, const bool on)
{
    brush_switch(brush, places->on, on);
    ink_text(brush->cairo, places->on_word.x, places->on_word.y,
             brush_type(13.0, false, ALIGN_LEFT, brush->colours->ink), on ? "on" : "off");
}

static void draw_size(const Brush* const brush, const CellPlaces* const places)
{
    char text[16];
    snprintf(text, sizeof text, "%g", brush->view->text);
    const double wide = ink_text(brush->cairo, places->value.x, places->value.y,
                                 brush_type(16.0, false, ALIGN_LEFT, brush->colours->ink), text);
    ink_text(brush->cairo, places->value.x + wide + 5.0, places->value.y,
             brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft), "times");
}

void draw_option(const Brush* const brush, const Target* const target)
{
    const OptionItem item = (OptionItem)target->id.index;
    const CellPlaces places = geometry_in_cell(target->box);
    brush_label(brush, target->box, labels[item], brush_is_hovered(brush, target->id));
    if (item == OPTION_TEXT) {
        draw_size(brush, &places);
    } else {
        draw_switch(brush, &places,
                    item == OPTION_HANDED ? brush->view->left_handed : !brush->view->still);
    }
    brush_focus(brush, target, 4.0);
}

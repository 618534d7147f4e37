// SPDX-License-Identifier: ISC
#include "host_options.h"

#include "../pane/pane.h"

#include <lv2/ui/ui.h>
#include <stdlib.h>
#include <string.h>

static const LV2_Options_Option* option_of(const HostOptions* const host, const char* const uri)
{
    const LV2_URID key = host->map->map(host->map->handle, uri);
    const LV2_Options_Option* option = host->options;
    for (; option && (option->key || option->value); ++option) {
        if (option->key == key && option->value) {
            return option;
        }
    }
    return NULL;
}

double host_options_scale(const HostOptions* const host)
{
    const LV2_Options_Option* const option = option_of(host, LV2_UI__scaleFactor);
    float factor = 0.0f;
    if (option && option->type == host->uris->atom_Float && option->size == sizeof factor) {
        memcpy(&factor, option->value, sizeof factor);
    }
    const double scale = factor > 0.0f ? (double)factor : pane_display_scale();
    return scale >= 0.5 && scale <= 8.0 ? scale : 1.0;
}

/* Hosts give colours as 32 bits: red, green, blue, opacity from the highest. */
static bool colour_of(const HostOptions* const host, const char* const uri, Colour* const colour)
{
    const LV2_Options_Option* const option = option_of(host, uri);
    uint32_t bits = 0;
    if (!option || option->type != host->uris->atom_Int || option->size != sizeof bits) {
        return false;
    }
    memcpy(&bits, option->value, sizeof bits);
    *colour = (Colour){(bits >> 24 & 255U) / 255.0, (bits >> 16 & 255U) / 255.0,
                       (bits >> 8 & 255U) / 255.0};
    return true;
}

bool host_options_colours(const HostOptions* const host, Colour* const background,
                          Colour* const text)
{
    return colour_of(host, LV2_UI__backgroundColor, background) &&
           colour_of(host, LV2_UI__foregroundColor, text);
}

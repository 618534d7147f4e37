// SPDX-License-Identifier: ISC
/* host_options.h - what a host's options say of looks: size and colours. */
#pragma once

#include "../../plugin/talk/uris.h"
#include "../scene/palette.h"

#include <lv2/options/options.h>
#include <lv2/urid/urid.h>
#include <stdbool.h>

typedef struct {
    const LV2_URID_Map* map;
    const Uris* uris;
    const LV2_Options_Option* options; /* NULL: none */
} HostOptions;

/* ui:scaleFactor; else as the display says; 1 where neither makes sense. */
double host_options_scale(const HostOptions* host);

/* ui:backgroundColor and ui:foregroundColor.  False unless both are told. */
bool host_options_colours(const HostOptions* host, Colour* background, Colour* text);

// SPDX-License-Identifier: ISC
/* picture_say.h - figures as text, in columns; a dash where there is none. */
#pragma once

#include "picture_plot.h"

#include <math.h>
#include <stdio.h>

static inline void picture_say(const double value, const int decimals)
{
    if (isnan(value)) {
        printf(" %8s", "-");
    } else {
        printf(" %8.*f", decimals, value);
    }
}

static inline void picture_say_band(const PictureBand* const band, const int decimals)
{
    picture_say(band->p10, decimals);
    picture_say(band->p50, decimals);
    picture_say(band->p90, decimals);
    printf("  ");
}

// SPDX-License-Identifier: ISC
/* exact.h - the plugin without feel and liberty: what is written, on the grid, every level at
   one velocity, for tests about other things. */
#pragma once

#include "../../ui/command/host.h"

#include <stdio.h>

static inline void host_play_exactly(Host* const host)
{
    char why[HOST_WHY_ROOM];
    host_set_defaults(host);
    if (!host_set(host, "looseness", 0.0f, why) || !host_set(host, "touch", 0.0f, why) ||
        !host_set(host, "liberty", 0.0f, why)) {
        printf("# %s\n", why);
    }
}

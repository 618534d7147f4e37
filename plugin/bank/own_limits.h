// SPDX-License-Identifier: ISC
/* own_limits.h - what the user can do, in place of what play_limits.h has: limits.ttl in the
   user's folder, one fl:Limits.  Reads a file: never on the audio thread. */
#pragma once

#include "../engine/writing/play_limits.h"
#include "diagnostics.h"

/* The defaults, but for what the folder's limits.ttl says; the defaults alone where there
   is none.  What is wrong in it is complained of with file and line, and stays at its
   default.  `folder` may be NULL. */
PlayLimits own_limits_read(const char* folder, Diagnostics* diagnostics);

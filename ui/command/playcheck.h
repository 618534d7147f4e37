// SPDX-License-Identifier: ISC
/* playcheck.h - `fourlimb check` of a selection: what a song of it asks of a person. */
#pragma once

#include "../../plugin/engine/writing/play_limits.h"
#include "request.h"

/* The user's limits, or the defaults; what is wrong in the user's is told on standard error. */
PlayLimits playcheck_limits(void);

/* True if a groove, or what only one can have, was asked about. */
bool playcheck_asked(const Request* request);

/* A status as in commands.h: DONE if a person can play it, FAILED if not. */
int playcheck_run(const Request* request);

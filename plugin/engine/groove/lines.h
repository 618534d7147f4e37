// SPDX-License-Identifier: ISC
/* lines.h - the lines of musical time where a change may come in: beats, bar
   lines, phrase lines.  Pure. */
#pragma once

#include "settings.h"
#include "../time/ticks.h"

/* The first line at or after `tick`; lines are `apart` ticks apart, counted in
   each bar from its bar line. */
int64_t line_next(int64_t tick, Meter meter, int64_t apart);

/* Where a change that is asked for at `now` comes in; phrases of `phrase_bars`
   are counted from bar 0. */
int64_t line_of_change(ChangeAt change_at, Meter meter, uint32_t phrase_bars, int64_t now);

// SPDX-License-Identifier: ISC
/* routine_head.h - what is practised, as the first lines of its plan say it. */
#pragma once

#include "routine.h"

void routine_head_print(FILE* out, const Routine* routine);

/* The fastest tempo that all of what is practised was written for, quarter notes a
   minute; 0 if that isn't said. */
int routine_head_tempo_high(const Routine* routine);

// SPDX-License-Identifier: ISC
/* plan_head.h - what is practised, as the first lines of a plan say it. */
#pragma once

#include "plan.h"

void plan_print_head(FILE* out, const Plan* plan);

/* The fastest tempo that all of what is practised was written for, quarter notes a
   minute; 0 if that isn't said. */
int plan_tempo_high(const Plan* plan);

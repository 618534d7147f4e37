// SPDX-License-Identifier: ISC
/* strays.h - how far chance and habit take a stroke off the grid: drift, habit and jitter. */
#pragma once

#include "feel.h"

/* In ms, below 0 early, within a quarter of `around->near`; for feel.c, at a looseness
   above 0. */
double strays_ms(const Feel* feel, Stroke stroke, const Surroundings* around, double tempo);

// SPDX-License-Identifier: ISC
/* playwords.h - whether a person can play a song, in plain sentences. */
#pragma once

#include "../../plugin/engine/writing/playability.h"

#include <stdio.h>

/* What is wrong and where, or that a person can play it; true if one can. */
bool playwords_print(FILE* out, const Playability* playability);

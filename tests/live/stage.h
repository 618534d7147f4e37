// SPDX-License-Identifier: ISC
/* stage.h - a JACK server with no sound card, under a name of its own so that
   others on the machine are left alone, and jalv on it with the built plugin
   and the bank of this folder. */
#pragma once

#include "jack_driver.h"

#include <stdbool.h>

/* NULL if the server can't be started; stage_why_not then says why. */
JackDriver* stage_open(void);
const char* stage_why_not(void);

/* jalv may still end at any time, such as where it isn't installed. */
bool stage_host_runs(void);

/* The last line that a program of the stage said. */
const char* stage_last_words(void);

void stage_close(JackDriver* driver);

// SPDX-License-Identifier: ISC
/* stage.h - a JACK server with no sound card, under a name of its own so that
   others on the machine are left alone, and a host on it with the built plugin
   and a bank of the test's. */
#pragma once

#include "jack_driver.h"

#include <stdbool.h>

/* `bank` is a folder; `host` a program and its arguments, ended by NULL.  NULL if
   the server can't be started; stage_why_not then says why. */
JackDriver* stage_open(const char* bank, const char* const host[]);
const char* stage_why_not(void);

/* If it runs and yet there is no driver, that is a fault, and no reason to skip. */
bool stage_server_runs(void);

/* The host may still end at any time, such as where it isn't installed. */
bool stage_host_runs(void);

/* The last line that a program of the stage said. */
const char* stage_last_words(void);

/* The value in the last line that reads "symbol = value"; not a number if there is none. */
double stage_last_value(const char* symbol);

void stage_close(JackDriver* driver);

// SPDX-License-Identifier: ISC
/* commands.h - what the program can be asked to do; each returns its exit
   status: 0 done, 1 asked wrongly, 2 it could not be done (of check: what is
   wrong was found). */
#pragma once

#include "options.h"

enum { DONE, ASKED_WRONGLY, FAILED };

#define COMMAND_DECLARED(name, word, operand, value, words)                                        \
    int command_##word(const Request* request);
COMMANDS(COMMAND_DECLARED)
#undef COMMAND_DECLARED

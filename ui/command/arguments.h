// SPDX-License-Identifier: ISC
/* arguments.h - what stands on the command line, read by the table of options. */
#pragma once

#include "options.h"

/* Reads what stands on the command line from the command's name on.  False, with a message on
   standard error that says what to do, if it makes no sense. */
bool arguments_read(Request* request, Command command, int count, char** arguments);

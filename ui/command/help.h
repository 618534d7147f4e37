// SPDX-License-Identifier: ISC
/* help.h - what the program says of itself, from the table of options. */
#pragma once

#include "options.h"

#include <stdio.h>

/* All commands and options; or one command and its own. */
void help_print(FILE* out);
void help_print_command(FILE* out, Command command);

/* For the manual page too: what the program is, and paragraphs of what all commands
   share, and an example of each command, up to a NULL. */
extern const char help_what[];
extern const char* const help_notes[];
extern const char* const help_examples[];

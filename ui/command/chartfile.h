// SPDX-License-Identifier: ISC
/* chartfile.h - a chart of a groove into a file whose kind its name's ending says. */
#pragma once

#include "performance.h"

/* True for .pdf, .svg and .png. */
bool chartfile_kind(const char* path);

/* Draws and writes it, and says so on standard output; the title is the groove's
   if NULL.  A status as in commands.h, with a message if it isn't DONE. */
int chartfile_write(const Performance* performance, const Section* section, const char* title,
                    const char* path, bool force);

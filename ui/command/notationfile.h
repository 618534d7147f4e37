// SPDX-License-Identifier: ISC
/* notationfile.h - a groove, as it is written, into a file that notation programs open. */
#pragma once

#include "performance.h"

/* True for .musicxml and .xml, .ly, and .pdf, which takes LilyPond. */
bool notationfile_kind(const char* path);

/* Writes it, and says so on standard output; the title is the groove's if NULL.  A status as
   in commands.h, with a message if it isn't DONE. */
int notationfile_write(const Performance* performance, const Section* section, const char* title,
                       const char* path, bool force);

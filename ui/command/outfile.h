// SPDX-License-Identifier: ISC
/* outfile.h - files that the command line writes.  An interruption (a key, a closed
   terminal or pipe, a kill that can be caught) waits until no unfinished file is left, and
   then ends the program. */
#pragma once

#include "../../plugin/bank/save.h"

/* save_refuses, save_file and save_by of plugin/bank/save.h. */
bool outfile_refuses(const char* path, bool replace, char why[SAVE_WHY_ROOM]);
bool outfile_save(const char* path, const void* bytes, size_t size, bool replace,
                  char why[SAVE_WHY_ROOM]);
bool outfile_save_by(const char* path, SaveWriter writer, void* context, bool replace,
                     char why[SAVE_WHY_ROOM]);

/* For a writer that takes long: true if an interruption waits; it should then fail. */
bool outfile_is_interrupted(void);

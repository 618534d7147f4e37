// SPDX-License-Identifier: ISC
/* errands.h - what the window does with files. */
#pragma once

#include "../desk/desk.h"

/* The bank of a bundle and of the user; NULL if memory ran out. */
Bank* errand_bank(const char* bundle_path);

/* Writes the phrase as it plays into the user's music folder, and says where, or
   why not. */
void errand_write(Desk* desk, Bank* bank);

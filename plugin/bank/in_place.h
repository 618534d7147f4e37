// SPDX-License-Identifier: ISC
/* in_place.h - a file of the factory's bank, perhaps changed, outside the bank's folder. */
#pragma once

#include <stdbool.h>

/* True if the file describes something that the file of its name in the factory's folder
   does: then it is to be read in that one's place (bank_open_in_place).  False also if it
   can't be read. */
bool in_place_is_meant(const char* factory, const char* file);

// SPDX-License-Identifier: ISC
/* heard.h - whether what a groove is made of is ever heard, by what is played without it: the
   engine says where the fill stands.  Pure. */
#pragma once

#include "../groove/groove.h"

/* True if the phrase, as it is written, is another one without a letter's hands or feet. */
bool heard_part(const Groove* groove, uint8_t letter, LimbPair pair);

/* Another letter that would sound alike where this one stands, since the fill plays over what
   differs, or -1. */
int heard_as(const Groove* groove, uint8_t letter);

/* True if the letter stands in the form. */
bool heard_in_form(const Groove* groove, uint8_t letter);

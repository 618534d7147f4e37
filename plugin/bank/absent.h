// SPDX-License-Identifier: ISC
/* absent.h - what a session named and the bank hasn't any more, or has another under its
   id.  Inside the bank room. */
#pragma once

#include "messages.h"
#include "entry_names.h"

/* True if the entry is gone: its id is nobody's, or that of one with another URI.  One that
   left the factory's bank is not: another plays in its place. */
bool absent_is(const Bank* bank, const EntryName* row);

/* Adds a line for each of a text's names, as entry_names_write makes it, that is absent, that
   left, or that the bank calls otherwise. */
void absent_say(Messages* messages, const Bank* bank, const char* names);

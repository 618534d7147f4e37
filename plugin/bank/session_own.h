// SPDX-License-Identifier: ISC
/* session_own.h - the user's own entries in a session.  Inside the bank room. */
#pragma once

#include "session.h"
#include "write_figure.h"

typedef bool (*OwnWanted)(const Bank* bank, EntryPick pick, const void* context);

/* Entries of a bank that came with the session and that are wanted, after `count` that
   `first` has, as a text; NULL if there is no memory. */
char* session_own_write(const Bank* bank, const EntryPick first[ENTRY_KINDS], size_t count,
                        OwnWanted wanted, const void* context);

/* True but for the entry that the context, an EntryPick, names. */
bool session_own_other(const Bank* bank, EntryPick pick, const void* context);

/* The files' bank with a session's entries over it. */
Bank* session_own_open(const Session* session, const char* own);

/* What stays of a text, own or kept, and of its unread one, which comes behind it: a text
   that can't be read whole, as it came, behind one that is kept already; NULL if there is no
   memory. */
char* session_own_unread(const SessionTexts* texts, SessionText which, bool complains);

/* Leaves of the session's entries those that its user's file hasn't, or has
   otherwise; the bank with them.  A text that can't be read whole is kept as it
   came, and tried where there is no better one. */
bool session_own_take(const Session* session, SessionTexts* texts, Bank** opened);

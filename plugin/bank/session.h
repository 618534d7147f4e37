// SPDX-License-Identifier: ISC
/* session.h - what a session holds of its own, as texts: drafts, the user's own
   entries that it needs, the selections that it keeps, and names of what it plays, so that it comes back whole
   on a machine without the user's bank, or says what is missing.  Texts that
   can't be read are kept for the next save.  Not for the audio thread. */
#pragma once

#include "ids.h"
#include "snapshot.h"

/* The texts: first the drafts, by FigureKind. */
typedef enum {
    TEXT_OWN = FIGURE_KINDS, /* the user's own entries, as write_entries makes them */
    TEXT_UNREAD,             /* such a text that could not be read whole, as it came */
    TEXT_NAMES,              /* id, class and label of what is played, without its rhythm */
    TEXT_KEPT,               /* the selections that are kept, as kept_list.h has them */
    TEXT_KEPT_UNREAD,        /* such a text that could not be read whole, as it came */
    TEXTS
} SessionText;

/* Turtle; "" for none.  Owned. */
typedef struct {
    char* of[TEXTS];
} SessionTexts;

typedef struct {
    SessionTexts texts; /* but for TEXT_KEPT, which is the list's */
    KeptList* kept;
    BankSources sources;
    Bank* plain;      /* as the files have it */
    Bank* bank;       /* with TEXT_OWN; the same where that is "" */
    uint64_t stamp;   /* of the user's files as read; see stamp.h */
    unsigned edition; /* another with each change */
} Session;

/* The ids that the controls name; 0: none. */
typedef struct {
    uint32_t ids[ENTRY_KINDS];
    bool settled; /* what else the session named before, nobody wants any more */
} Used;

/* Opens the bank.  False if there is no memory.  `sources` must outlive it. */
bool session_init(Session* session, BankSources sources);
void session_clear(Session* session);

/* A session like it, to be changed while others go on with this one, and cleared; then put
   in its place.  Neither reads a file.  session_take is false, and all is as it was, where
   this one was changed since. */
bool session_copy(const Session* session, Session* copy);
bool session_take(Session* session, Session* copy);

/* What can be played now; NULL if there is no memory. */
Snapshot* session_snapshot(const Session* session);

/* Puts a draft in, or drops that of the kind where `text` is "".  False, with the
   reason in `why` and all as it was, if it isn't one. */
bool session_draft(Session* session, FigureKind kind, const char* text, size_t size,
                   char why[SINGLE_WHY_ROOM]);

/* Keeps what the values select, or what is kept already where they ask for that, in a slot,
   1 to KEPT_MAX, or in the first empty one for 0; names what is kept; empties a slot; takes
   the last of these back; makes what is kept in a slot play by its ids: its entries become the
   session's, its drafts the drafts.  False, with the reason in `why` and all as it was, if it can't. */
bool session_keep(Session* session, uint32_t slot, const char* name,
                  const float values[CONTROL_COUNT], char why[KEPT_WHY_ROOM]);
bool session_name_kept(Session* session, uint32_t slot, const char* name, char why[KEPT_WHY_ROOM]);
bool session_drop_kept(Session* session, uint32_t slot, char why[KEPT_WHY_ROOM]);
bool session_take_back_kept(Session* session, char why[KEPT_WHY_ROOM]);
bool session_use_kept(Session* session, uint32_t slot, char why[KEPT_WHY_ROOM]);

/* Reads the bank's files again.  The entry of the kind with this id, if not 0, is
   the file's from now on, not the session's.  False if there is no memory. */
bool session_reopen(Session* session, EntryKind kind, uint32_t id);

/* Adds the own ids that the bank or the session's names have. */
void session_ids(const Session* session, OwnIds* ids);

/* The texts that a host should keep, all made anew; false if there is no memory.
   The caller clears them. */
bool session_save(const Session* session, const Used* used, SessionTexts* texts);

/* Takes texts over, in place of what was.  False if there is no memory, or a text is
   NULL for want of it: then the session is as it was.  Whatever is wrong with them is told by the messages of
   session_snapshot. */
bool session_restore(Session* session, SessionTexts* texts);

/* True if there is nothing in them. */
bool session_texts_empty(const SessionTexts* texts);
void session_texts_clear(SessionTexts* texts);

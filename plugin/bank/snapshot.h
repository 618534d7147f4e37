// SPDX-License-Identifier: ISC
/* snapshot.h - what one instance can play: a bank, and over it the drafts, unsaved
   figures of which there is one of a kind at most; and what is kept, whole.  Wherever the
   figure whose id a draft has would play, the draft plays.  Made whole, then only read, so any
   thread may hold it; made and freed away from the audio thread. */
#pragma once

#include "kept_list.h"

typedef struct Snapshot Snapshot;

/* Takes over the drafts and the text of messages, also where it fails; holds the bank and
   what is kept.  NULL if there is no memory. */
Snapshot* snapshot_make(Bank* bank, Drafts drafts, KeptList* kept, char* messages);

/* Frees it and those chained behind it. */
void snapshot_free(Snapshot* snapshot);

/* Puts what was to be freed before behind it; the one thing that changes later. */
void snapshot_chain(Snapshot* snapshot, Snapshot* next);

const Library* snapshot_library(const Snapshot* snapshot);

/* What it was made of, but for the drafts. */
const Bank* snapshot_bank(const Snapshot* snapshot);

/* What is kept.  Any thread. */
const KeptList* snapshot_kept(const Snapshot* snapshot);

/* The settings of controls, one value each: what they pick, or what is kept in the slot that
   they ask for, whole; where nothing is kept in it, what they pick.  Any thread. */
Settings snapshot_settings(const Snapshot* snapshot, const float values[CONTROL_COUNT]);

/* True if there is such an entry in it, be it a draft.  Any thread. */
bool snapshot_has(const Snapshot* snapshot, EntryKind kind, uint32_t id);

/* The draft's Turtle, "" if there is none of the kind. */
const char* snapshot_draft(const Snapshot* snapshot, FigureKind kind);

/* What is wrong with the bank or the session, a line each; "" if nothing is. */
const char* snapshot_messages(const Snapshot* snapshot);

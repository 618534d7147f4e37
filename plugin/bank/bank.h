// SPDX-License-Identifier: ISC
/* bank.h - a folder of Turtle files becomes a Library.  Allocates and reads
   files: call it where the host instantiates, never on the audio thread.  Whoever opens
   the same files in one process holds the same bank. */
#pragma once

#include "../engine/written/library.h"
#include "diagnostics.h"

#include <stdbool.h>

typedef struct Bank Bank;

/* What people are told of an entry; texts are UTF-8 and owned by the bank. */
typedef struct {
    uint32_t id;
    const char* name;  /* the subject as written, such as feet:gallop */
    const char* where; /* for messages: "feet.ttl:12: feet:gallop" */
    const char* uri;   /* the subject whole */
    const char* label;
    const char* comment; /* "" if none */
    const char* family;  /* its label, "" if none */
    const char* family_uri;
    const char* differs; /* why it stands beside one with the same strokes; "" if not said */
    const char* alone;   /* why no groove has it; "" if not said */
    int tempo_low;       /* quarter notes a minute, 0 if not said */
    int tempo_high;
    bool is_users;    /* not from the factory */
    bool is_sessions; /* from the text of a session, though not from its file */
} EntryInfo;

/* Where a bank is read from. */
typedef struct {
    const char* factory; /* a folder that must be there */
    const char* users;   /* a folder of the user's own, read if it is there; or NULL */
    const char* file;    /* one more file of the user's, which must be there; or NULL */
} BankSources;

/* Reads every *.ttl of the folders in order of name.  Entries that are wrong are
   left out and complained of; the rest loads.  NULL only if memory ran out. */
Bank* bank_open(BankSources sources);

/* A factory's bank with a file in the place of its own of that name. */
Bank* bank_open_in_place(const char* factory, const char* file);

/* The bank of a plugin's bundle, with the user's own folder over it, and a session's
   own entries over that, as below; "" for none. */
Bank* bank_open_bundle(const char* bundle, const char* text);

/* The same with a session's own entries, Turtle in memory, which come before those
   of the user's folder that have their ids. */
Bank* bank_open_session(BankSources sources, const char* text);

/* The factory's bank that this one lies over, or is, with a session's own entries over it
   instead of all else; "" for none. */
Bank* bank_beside(Bank* bank, const char* text);

/* The text it was opened with, "" if with none, and its bytes: whoever opens the same
   files with it has the same bank. */
const char* bank_text(const Bank* bank, size_t* length);

enum { BANK_FOLDER_ROOM = 4096 };

/* The user's own folder by the XDG Base Directory Specification:
   $XDG_DATA_HOME/fourlimb, or $HOME/.local/share/fourlimb; false if neither is
   set or the path is too long. */
bool bank_users_folder(char folder[BANK_FOLDER_ROOM]);

/* One more holder: it is freed when all have called bank_free.  Any thread but
   the audio thread. */
Bank* bank_hold(Bank* bank);

void bank_free(Bank* bank);

const Library* bank_library(const Bank* bank);
const Diagnostics* bank_diagnostics(const Bank* bank);

/* Entries of a kind, in order of id: the order of the Library's lists. */
uint32_t bank_count(const Bank* bank, EntryKind kind);
const EntryInfo* bank_entry(const Bank* bank, EntryKind kind, uint32_t index);

/* The entry with an id, or the one that plays in its place if it left, or NULL. */
const EntryInfo* bank_info(const Bank* bank, EntryKind kind, uint32_t id);

/* The engine's value of it, or NULL. */
const void* bank_value(const Bank* bank, EntryKind kind, uint32_t id);

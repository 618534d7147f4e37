// SPDX-License-Identifier: ISC
/* bank.h - a folder of Turtle files becomes a Library.  Allocates and reads
   files: call it where the host instantiates, never on the audio thread. */
#pragma once

#include "../engine/library.h"
#include "complaints.h"

#include <stdbool.h>

typedef struct Bank Bank;

/* What people are told of an entry; texts are UTF-8 and owned by the bank. */
typedef struct {
    uint32_t id;
    const char* name; /* the subject as written, such as feet:gallop */
    const char* uri;  /* the subject whole */
    const char* label;
    const char* comment; /* "" if none */
    const char* family;  /* its label, "" if none */
    int difficulty;      /* 1 to 5, 0 if not said */
    int tempo_low;       /* quarter notes a minute, 0 if not said */
    int tempo_high;
} EntryInfo;

typedef enum {
    ENTRY_HANDS,
    ENTRY_FEET,
    ENTRY_TURNAROUND,
    ENTRY_GROOVE,
    ENTRY_KIT,
    ENTRY_KINDS
} EntryKind;

/* Reads every *.ttl of `folder` in order of name.  Entries that are wrong are
   left out and complained of; the rest loads.  NULL only if memory ran out. */
Bank* bank_open(const char* folder);
void bank_free(Bank* bank);

const Library* bank_library(const Bank* bank);
const Complaints* bank_complaints(const Bank* bank);

/* Entries of a kind, in order of id: the order of the Library's lists. */
uint32_t bank_count(const Bank* bank, EntryKind kind);
const EntryInfo* bank_entry(const Bank* bank, EntryKind kind, uint32_t index);

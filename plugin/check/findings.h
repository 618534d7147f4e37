// SPDX-License-Identifier: ISC
/* findings.h - what the rules of a bank's check have in common.  Inside the check room. */
#pragma once

#include "../engine/writing/playability.h"
#include "bank_check.h"

typedef struct {
    const BankCheck* check;
    const Bank* bank;
    const Library* library;
    Playability* room;
    int count;
} Findings;

/* Tells of an entry: where it is, then the words. */
void findings_tell(Findings* findings, const EntryInfo* entry, const char* format, ...)
    __attribute__((format(printf, 3, 4)));

/* True if it is looked at. */
bool findings_looks_at(const Findings* findings, const EntryInfo* entry);

/* "bar 2, beat 3.5" of a tick in bars of this meter. */
void findings_place(Meter meter, int64_t tick, char* text, size_t size);

void figures_check(Findings* findings);
void figures_check_same(Findings* findings);
void grooves_check(Findings* findings);
void grooves_check_meters(Findings* findings);

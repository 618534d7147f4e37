// SPDX-License-Identifier: ISC
/* bank_check.h - what a musician would find wrong in a bank that loads: parts nobody hears,
   the same strokes under two names, meters and grooves without fills, feet that no groove has,
   comments that promise what isn't played, tempi nobody can play, what can't be struck at
   once.  One check for the factory's bank and a user's own.  Allocates; not for the audio
   thread. */
#pragma once

#include "../bank/bank.h"
#include "../engine/writing/play_limits.h"

enum { BANK_CHECK_ROOM = 512, BANK_CHECK_FILLS = 4 };

/* One thing found: "feet.ttl:12: feet:gallop: what it is; what to do". */
typedef void (*BankCheckTell)(void* to, const char* text);

typedef struct {
    const Bank* bank;
    bool own_only; /* nothing of the factory's, which the user's are held against */
    PlayLimits limits;
    BankCheckTell tell;
    void* to;
} BankCheck;

/* How many things were found; -1 if there is no memory. */
int bank_check(const BankCheck* check);

// SPDX-License-Identifier: ISC
/* stock.h - what one instance can play: a bank, and over it the drafts, unsaved
   figures of which there is one of a kind at most.  Wherever the figure whose id
   a draft has would play, the draft plays.  Made whole, then only read, so any
   thread may hold it; made and freed away from the audio thread. */
#pragma once

#include "bank.h"
#include "single.h"

typedef struct Stock Stock;

/* Drafts by kind; NULL where there is none. */
typedef struct {
    Single* drafts[FIGURE_KINDS];
} Drafts;

/* Takes over the drafts and the text of messages, also where it fails; holds the
   bank.  NULL if there is no memory. */
Stock* stock_make(Bank* bank, Drafts drafts, char* messages);

/* Frees it and those chained behind it. */
void stock_free(Stock* stock);

/* Puts what was to be freed before behind it; the one thing that changes later. */
void stock_chain(Stock* stock, Stock* next);

const Library* stock_library(const Stock* stock);

/* What it was made of, but for the drafts. */
const Bank* stock_bank(const Stock* stock);

/* The draft's Turtle, "" if there is none of the kind. */
const char* stock_draft(const Stock* stock, FigureKind kind);

/* What is wrong with the bank or the session, a line each; "" if nothing is. */
const char* stock_messages(const Stock* stock);

// SPDX-License-Identifier: ISC
/* reading.h - one file while it is read: turtle_read.c goes through it sentence by
   sentence, reading.c hands its bytes to serd and takes what serd finds.  Inside the bank room. */
#pragma once

#include "gauge.h"
#include "model.h"

/* One statement met, kept until the sentence it stands in turns out whole. */
typedef struct {
    SordNode* nodes[3]; /* subject, property, object; owned */
    unsigned line;
} Met;

/* One file being read.  serd gives statements no line, but it takes bytes one
   at a time if asked to, so newlines are counted as they pass. */
typedef struct {
    Turtle* turtle;
    Diagnostics* diagnostics;
    const char* text;
    size_t size;
    size_t at;           /* next byte to give to serd */
    size_t given;        /* bytes given, some of them more than once */
    unsigned line;       /* of the newest byte given */
    unsigned first_line; /* where the reader that is going on began */
    size_t first_at;     /* the same as a byte */
    bool at_newline;     /* the newest byte is a newline: it ends this line */
    bool is_cut;         /* this sentence is broken: serd is given no more of it */
    bool is_over;        /* nothing more of this file is read */
    unsigned error_line; /* the last diagnostic's; errors right after follow from it */
    unsigned prefixes;
    unsigned nests; /* brackets in this sentence, as serd sees them */
    Gauge gauge;
    Met* met;
    size_t met_count;
    size_t met_room;
    size_t statements;
} Reading;

/* The file's name for messages, and its prefixes. */
const char* reading_file(const Reading* reading);
SerdEnv* reading_env(const Reading* reading);

/* All that follows in the file is left out for want of memory. */
void reading_fail(Reading* reading);

/* Drops a statement's nodes. */
void reading_free(const Reading* reading, Met met);

/* A parser that reads on from where the reading is, at the beginning of a sentence; NULL
   if there is no memory. */
SerdReader* reading_parser(Reading* reading);

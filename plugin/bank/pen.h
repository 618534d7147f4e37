// SPDX-License-Identifier: ISC
/* pen.h - writes Turtle of the bank's vocabulary by serd's writer: one entry with
   its fields, then a text.  Inside the bank room. */
#pragma once

#include "turtle.h"

#include <serd/serd.h>
#include <stdint.h>

typedef struct {
    SerdEnv* env;
    SerdWriter* writer;
    SerdChunk text;
    SerdNode subject; /* of the entry being written */
    SerdNode inner;   /* of the blank node being written, SERD_NOTHING outside */
    unsigned inners;
    bool failed;
    char inner_name[16];
} Pen;

/* Prefixes that every text begins with, as every file of presets/ does. */
bool pen_begin(Pen* pen);

/* Begins an entry of a class: subject as a whole URI, class after fl: */
void pen_entry(Pen* pen, const char* uri, const char* class_name);

/* Fields of the entry, or of the inner node that was begun.  The first argument
   is a name after fl:, or a whole URI where it has a colon. */
void pen_text(Pen* pen, const char* term, const char* text);
void pen_integer(Pen* pen, const char* term, int64_t value);
void pen_decimal(Pen* pen, const char* term, double value);
void pen_true(Pen* pen, const char* term);
void pen_uri(Pen* pen, const char* term, const char* uri);
void pen_term(Pen* pen, const char* term, const char* name); /* fl:name */

/* A node [ ] that a field of the entry points to. */
void pen_open(Pen* pen, const char* term);
void pen_close(Pen* pen);

/* The text, which the caller frees; NULL if anything failed. */
char* pen_end(Pen* pen);

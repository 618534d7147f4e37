// SPDX-License-Identifier: ISC
/* turtle_writer.h - writes Turtle of the bank's vocabulary by serd's writer: one entry with
   its fields, then a text.  Inside the bank room. */
#pragma once

#include "turtle.h"

#include <serd/serd.h>
#include <stdint.h>

typedef struct {
    SerdEnv* env;
    SerdWriter* serd;
    SerdChunk text;
    SerdNode subject; /* of the entry being written */
    SerdNode inner;   /* of the blank node being written, SERD_NOTHING outside */
    unsigned inners;
    bool failed;
    char inner_name[16];
} TurtleWriter;

/* Prefixes that every text begins with, as every file of presets/ does. */
bool turtle_writer_begin(TurtleWriter* writer);

/* Begins an entry of a class: subject as a whole URI, class after fl: */
void turtle_writer_entry(TurtleWriter* writer, const char* uri, const char* class_name);

/* Fields of the entry, or of the inner node that was begun.  The first argument
   is a name after fl:, or a whole URI where it has a colon. */
void turtle_writer_text(TurtleWriter* writer, const char* term, const char* text);
void turtle_writer_integer(TurtleWriter* writer, const char* term, int64_t value);
void turtle_writer_decimal(TurtleWriter* writer, const char* term, double value);
void turtle_writer_true(TurtleWriter* writer, const char* term);
void turtle_writer_uri(TurtleWriter* writer, const char* term, const char* uri);
void turtle_writer_term(TurtleWriter* writer, const char* term, const char* name); /* fl:name */

/* A node [ ] that a field of the entry points to. */
void turtle_writer_open(TurtleWriter* writer, const char* term);
void turtle_writer_close(TurtleWriter* writer);

/* The text, which the caller frees; NULL if anything failed. */
char* turtle_writer_end(TurtleWriter* writer);

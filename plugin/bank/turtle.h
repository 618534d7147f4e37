// SPDX-License-Identifier: ISC
/* turtle.h - Turtle files as one model to ask, with the file and line of every
   statement.  Not for the audio thread. */
#pragma once

#include "diagnostics.h"
#include "described.h"

#include <sord/sord.h>
#include <stdbool.h>

#define FL_TERMS "urn:fourlimb:terms#"
#define FL_MINE "urn:fourlimb:mine:" /* entries that the plugin saved for its user */
#define DCTERMS_NS "http://purl.org/dc/terms/"
#define RDFS_NS "http://www.w3.org/2000/01/rdf-schema#"
#define RDF_NS "http://www.w3.org/1999/02/22-rdf-syntax-ns#"

typedef struct Turtle Turtle;

/* NULL if there is no memory. */
Turtle* turtle_new(void);
void turtle_free(Turtle* turtle);

/* What is read from now on lies over files that describe these, and describes none of them
   again; they can still be named.  The list must outlive it. */
void turtle_over(Turtle* turtle, const DescribedList* under);

/* Adds a file's statements.  What can't be read is complained of with file and
   line; statements before and after it are kept.  What is beyond bounds.h is left
   out, and complained of before all else.  False if nothing was read. */
bool turtle_read(Turtle* turtle, const char* path, Diagnostics* diagnostics);

/* The same of a text in memory, which need not outlive the call.  `name` stands
   for the file in messages; "/name" where there is none. */
bool turtle_read_text(Turtle* turtle, const char* name, const char* text, size_t size,
                      Diagnostics* diagnostics);

/* False once memory has run out: what was read isn't all there is.  turtle_fail is for
   those who make something of what was read. */
bool turtle_is_whole(const Turtle* turtle);
void turtle_fail(Turtle* turtle);

/* True if no further file would be read, be it ever so small; see bounds.h. */
bool turtle_is_full(const Turtle* turtle);

/* Files read so far, and which of them, from 0, a subject was first met in. */
unsigned turtle_file_count(const Turtle* turtle);
unsigned turtle_file_of(const Turtle* turtle, const SordNode* subject);

/* The node of a URI in this model.  Held by the model; don't free. */
const SordNode* turtle_uri(Turtle* turtle, const char* uri);

/* The first object of (subject, property), or NULL; valid while the model is. */
const SordNode* turtle_object(const Turtle* turtle, const SordNode* subject,
                              const SordNode* property);

/* Iterates over statements; NULL stands for any.  NULL if there are none; free
   with sord_iter_free. */
SordIter* turtle_find(const Turtle* turtle, const SordNode* subject, const SordNode* property,
                      const SordNode* object);

/* The rdfs:label of what is described here or in the files under it; NULL if none. */
const char* turtle_label(Turtle* turtle, const SordNode* node);

/* What the files describe; false if there is no memory.  The caller frees `rows`, which
   has their texts too. */
bool turtle_described(Turtle* turtle, Described** rows, DescribedList* list);

#define OWN_LIMITS_FILE "limits.ttl" /* in the user's folder: what own_limits.h reads, no bank */

/* True if a file with this name is read as part of a folder's bank. */
bool turtle_is_file(const char* name);

/* "hands.ttl:12: hands:rock" for messages about a subject, or about its
   property if that is given and was stated.  Valid until the next call. */
const char* turtle_where(Turtle* turtle, const SordNode* subject, const SordNode* property);

/* The node as people write it: a prefixed name, or the literal's text.  Valid
   until the next call. */
const char* turtle_name(Turtle* turtle, const SordNode* node);

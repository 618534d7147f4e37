// SPDX-License-Identifier: ISC
/* fields.h - the properties of one subject, read as what they should be.  What
   is missing or wrong is complained of with file, line, subject and property,
   and what was expected, and the subject is marked as failed. */
#pragma once

#include "turtle.h"

#include <stdint.h>

typedef struct {
    Turtle* turtle;
    Diagnostics* diagnostics;
    const SordNode* subject;
    bool failed;
} Subject;

/* A whole number from least to most.  If it isn't stated: `absent`, or a
   diagnostic where `absent` is out of range. */
int64_t field_integer(Subject* subject, const char* term, int64_t least, int64_t most,
                      int64_t absent);

/* A decimal number from least to most; not a number if it isn't stated. */
double field_decimal(Subject* subject, const char* term, double least, double most);

/* A decimal number of up to 15 digits as Turtle has it, whatever the locale. */
bool field_read_decimal(const char* text, double* value);

/* True or false; false if it isn't stated. */
bool field_boolean(Subject* subject, const char* term);

/* The text of a fl: property that must be there, or NULL. */
const char* field_text(Subject* subject, const char* term);

/* The text of a property by its whole URI; NULL without diagnostic if missing. */
const char* field_optional_text(const Subject* subject, const char* uri);

/* The name after fl: of a property whose value is one of `names`; its index, or
   -1 with a diagnostic. */
int field_choice(Subject* subject, const char* term, const char* const* names, int count);

/* What a fl: property points to, or NULL; a diagnostic if it must be there. */
const SordNode* field_node(Subject* subject, const char* term, bool required);

/* Marks the subject as failed and complains of it, or of its property. */
void field_wrong(Subject* subject, const char* term, const char* format, ...)
    __attribute__((format(printf, 3, 4)));

/* The fl: property as a node of the model. */
const SordNode* field_property(const Subject* subject, const char* term);

// SPDX-License-Identifier: ISC
#include "fields.h"

#include <errno.h>
#include <inttypes.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_ROOM = 512, URI_ROOM = 128 };

const SordNode* field_property(const Subject* const subject, const char* const term)
{
    char uri[URI_ROOM];
    snprintf(uri, sizeof uri, FL_TERMS "%s", term);
    return turtle_uri(subject->turtle, uri);
}

void field_wrong(Subject* const subject, const char* const term, const char* const format, ...)
{
    char text[TEXT_ROOM];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const SordNode* const property = term ? field_property(subject, term) : NULL;
    const char* const where = turtle_where(subject->turtle, subject->subject, property);
    if (term) {
        diagnostics_add(subject->diagnostics, "%s: fl:%s: %s", where, term, text);
    } else {
        diagnostics_add(subject->diagnostics, "%s: %s", where, text);
    }
    subject->failed = true;
}

const SordNode* field_node(Subject* const subject, const char* const term, const bool required)
{
    const SordNode* const node =
        turtle_object(subject->turtle, subject->subject, field_property(subject, term));
    if (!node && required) {
        field_wrong(subject, term, "is missing");
    }
    return node;
}

static bool read_integer(const char* const text, int64_t* const value)
{
    char* end = NULL;
    errno = 0;
    *value = strtoll(text, &end, 10);
    return end != text && !*end && !errno;
}

int64_t field_integer(Subject* const subject, const char* const term, const int64_t least,
                      const int64_t most, const int64_t absent)
{
    const bool required = absent < least || absent > most;
    const SordNode* const node = field_node(subject, term, false);
    if (!node && !required) {
        return absent;
    }
    int64_t value = 0;
    const char* const text = node ? (const char*)sord_node_get_string(node) : "";
    if (!node) {
        field_wrong(subject, term,
                    "is missing; expected a whole number from %" PRId64 " to %" PRId64, least,
                    most);
    } else if (!read_integer(text, &value) || value < least || value > most) {
        field_wrong(subject, term, "\"%s\": expected a whole number from %" PRId64 " to %" PRId64,
                    text, least, most);
    } else {
        return value;
    }
    return least;
}

/* Turtle's decimals have a point whatever the locale, so strtod won't do; and serd_strtod
   of serd 0.30 is off by a last bit for every fourth number of three decimals.  Up to 15
   digits and a power of ten are exact, and so is their quotient's rounding. */
bool field_read_decimal(const char* text, double* const value)
{
    const bool negative = *text == '-';
    double scale = 1.0;
    int digits = 0;
    bool fraction = false;
    *value = 0.0;
    for (text += negative || *text == '+'; *text; ++text) {
        if (*text == '.' && !fraction) {
            fraction = true;
            continue;
        }
        if (*text < '0' || *text > '9' || ++digits > 15) {
            return false;
        }
        *value = *value * 10.0 + (*text - '0');
        scale *= fraction ? 10.0 : 1.0;
    }
    *value = (negative ? -*value : *value) / scale;
    return digits > 0;
}

double field_decimal(Subject* const subject, const char* const term, const double least,
                     const double most)
{
    const SordNode* const node = field_node(subject, term, false);
    if (!node) {
        return (double)NAN;
    }
    double value = 0.0;
    const char* const text = (const char*)sord_node_get_string(node);
    if (!field_read_decimal(text, &value) || value < least || value > most) {
        field_wrong(subject, term, "\"%s\": expected a number from %g to %g", text, least, most);
    }
    return value;
}

bool field_boolean(Subject* const subject, const char* const term)
{
    const SordNode* const node = field_node(subject, term, false);
    const char* const text = node ? (const char*)sord_node_get_string(node) : "false";
    const bool yes = !strcmp(text, "true") || !strcmp(text, "1");
    if (!yes && strcmp(text, "false") && strcmp(text, "0")) {
        field_wrong(subject, term, "\"%s\": expected true or false", text);
    }
    return yes;
}

const char* field_text(Subject* const subject, const char* const term)
{
    const SordNode* const node = field_node(subject, term, true);
    if (node && sord_node_get_type(node) != SORD_LITERAL) {
        field_wrong(subject, term, "expected a text in quotes");
        return NULL;
    }
    return node ? (const char*)sord_node_get_string(node) : NULL;
}

const char* field_optional_text(const Subject* const subject, const char* const uri)
{
    const SordNode* const property = turtle_uri(subject->turtle, uri);
    const SordNode* const node = turtle_object(subject->turtle, subject->subject, property);
    const bool literal = node && sord_node_get_type(node) == SORD_LITERAL;
    return literal ? (const char*)sord_node_get_string(node) : NULL;
}

int field_choice(Subject* const subject, const char* const term, const char* const* const names,
                 const int count)
{
    const SordNode* const node = field_node(subject, term, true);
    if (!node) {
        return -1;
    }
    const char* const uri = (const char*)sord_node_get_string(node);
    const size_t prefix = strlen(FL_TERMS);
    if (!strncmp(uri, FL_TERMS, prefix)) {
        for (int i = 0; i < count; ++i) {
            if (!strcmp(names[i], uri + prefix)) {
                return i;
            }
        }
    }
    const char* const name = turtle_name(subject->turtle, node);
    field_wrong(subject, term, "\"%s\": expected one such as fl:%s or fl:%s; ttl/terms.ttl has all",
                name, names[0], names[count - 1]);
    return -1;
}

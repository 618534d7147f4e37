// SPDX-License-Identifier: ISC
/* xml.h - XML 1.0 as text, built in memory: elements that are closed in order. */
#pragma once

#include "../file/bytes.h"

#include <stdbool.h>
#include <stdint.h>

enum { XML_DEEP = 16 }; /* elements in each other */

typedef struct {
    Bytes bytes;
    const char* open[XML_DEEP]; /* names, not owned: they must outlive the element */
    int depth;
} Xml;

/* The declaration, and a document type if not NULL. */
void xml_begin(Xml* xml, const char* doctype);

/* <name ATTRIBUTES>; attributes are printf-like, as they stand: no texts of people's.  "" has
   none. */
void xml_open(Xml* xml, const char* name, const char* attributes, ...)
    __attribute__((format(printf, 3, 4)));
void xml_close(Xml* xml);

/* <name ATTRIBUTES/> */
void xml_empty(Xml* xml, const char* name, const char* attributes, ...)
    __attribute__((format(printf, 3, 4)));

/* <name>text</name> of any UTF-8: what XML can't hold becomes a question mark;
   cut after 4095 bytes. */
void xml_text(Xml* xml, const char* name, const char* text);
void xml_whole(Xml* xml, const char* name, int64_t number);

/* The same with attributes, as they stand. */
void xml_text_with(Xml* xml, const char* name, const char* attributes, const char* text);

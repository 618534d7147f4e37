// SPDX-License-Identifier: ISC
#include "xml.h"

#include "../../plugin/bank/utf8.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { TAG_ROOM = 256, TEXT_ROOM = 4096 };

static void put(Xml* const xml, const char* const text)
{
    bytes_append(&xml->bytes, text, strlen(text));
}

static void indent(Xml* const xml)
{
    for (int i = 0; i < xml->depth; ++i) {
        put(xml, "  ");
    }
}

static void put_tag(Xml* const xml, const char* const name, const char* const attributes,
                    const char* const end)
{
    put(xml, "<");
    put(xml, name);
    put(xml, *attributes ? " " : "");
    put(xml, attributes);
    put(xml, end);
}

void xml_begin(Xml* const xml, const char* const doctype)
{
    put(xml, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    put(xml, doctype ? doctype : "");
}

/* A tag alone on its line, with attributes as printf has them. */
static void put_line(Xml* xml, const char* name, const char* attributes, va_list list,
                     const char* end) __attribute__((format(printf, 3, 0)));

static void put_line(Xml* const xml, const char* const name, const char* const attributes,
                     va_list list, const char* const end)
{
    char text[TAG_ROOM];
    vsnprintf(text, sizeof text, attributes, list);
    indent(xml);
    put_tag(xml, name, text, end);
}

void xml_open(Xml* const xml, const char* const name, const char* const attributes, ...)
{
    va_list list;
    va_start(list, attributes);
    put_line(xml, name, attributes, list, ">\n");
    va_end(list);
    xml->open[xml->depth++] = name;
}

void xml_close(Xml* const xml)
{
    const char* const name = xml->open[--xml->depth];
    indent(xml);
    put(xml, "</");
    put(xml, name);
    put(xml, ">\n");
}

void xml_empty(Xml* const xml, const char* const name, const char* const attributes, ...)
{
    va_list list;
    va_start(list, attributes);
    put_line(xml, name, attributes, list, "/>\n");
    va_end(list);
}

static const char* escape_of(const char letter)
{
    return letter == '&'   ? "&amp;"
           : letter == '<' ? "&lt;"
           : letter == '>' ? "&gt;"
           : letter == '"' ? "&quot;"
                           : NULL;
}

/* XML 1.0, production Char: of the control characters only tab and line ends, and neither
   U+FFFE nor U+FFFF. */
static size_t bytes_refused(const char* const text)
{
    const bool is_control =
        (unsigned char)*text < ' ' && *text != '\t' && *text != '\n' && *text != '\r';
    const bool is_none = !strncmp(text, "\xEF\xBF\xBE", 3) || !strncmp(text, "\xEF\xBF\xBF", 3);
    return is_control ? 1 : is_none ? 3 : 0;
}

static void put_text(Xml* const xml, const char* const text)
{
    char whole[TEXT_ROOM];
    const size_t size = utf8_cut(text, strlen(text), TEXT_ROOM - 1);
    snprintf(whole, sizeof whole, "%.*s", (int)size, text);
    utf8_repair(whole);
    for (const char* letter = whole; *letter;) {
        const char* const escape = escape_of(*letter);
        const size_t refused = bytes_refused(letter);
        if (escape || refused) {
            put(xml, escape ? escape : "?");
        } else {
            bytes_append(&xml->bytes, letter, 1);
        }
        letter += refused ? refused : 1;
    }
}

void xml_text_with(Xml* const xml, const char* const name, const char* const attributes,
                   const char* const text)
{
    indent(xml);
    put_tag(xml, name, attributes, ">");
    put_text(xml, text);
    put(xml, "</");
    put(xml, name);
    put(xml, ">\n");
}

void xml_text(Xml* const xml, const char* const name, const char* const text)
{
    xml_text_with(xml, name, "", text);
}

void xml_whole(Xml* const xml, const char* const name, const int64_t number)
{
    char text[24];
    snprintf(text, sizeof text, "%" PRId64, number);
    xml_text(xml, name, text);
}

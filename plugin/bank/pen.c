// SPDX-License-Identifier: ISC
#include "pen.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define XSD_NS "http://www.w3.org/2001/XMLSchema#"

enum { URI_ROOM = 128, SHORT_ROOM = 256 };

static SerdNode text_node(const SerdType type, const char* const text)
{
    return serd_node_from_string(type, (const uint8_t*)text);
}

bool pen_begin(Pen* const pen)
{
    static const char* const prefixes[][2] = {
        {"fl", FL_TERMS},
        {"hands", "urn:fourlimb:hands:"},
        {"feet", "urn:fourlimb:feet:"},
        {"turn", "urn:fourlimb:turnaround:"},
        {"groove", "urn:fourlimb:groove:"},
        {"kit", "urn:fourlimb:kit:"},
        {"my", FL_MINE},
        {"rdfs", RDFS_NS},
    };
    *pen = (Pen){.env = serd_env_new(NULL)};
    pen->writer = pen->env
                      ? serd_writer_new(SERD_TURTLE, SERD_STYLE_ABBREVIATED | SERD_STYLE_CURIED,
                                        pen->env, NULL, serd_chunk_sink, &pen->text)
                      : NULL;
    for (size_t i = 0; pen->writer && i < sizeof prefixes / sizeof *prefixes; ++i) {
        const SerdNode name = text_node(SERD_LITERAL, prefixes[i][0]);
        const SerdNode uri = text_node(SERD_URI, prefixes[i][1]);
        serd_writer_set_prefix(pen->writer, &name, &uri);
    }
    pen->failed = !pen->writer;
    return !pen->failed;
}

/* True for what a prefix can stand before: less than Turtle allows, but enough. */
static bool is_short_name(const char* const name, const size_t length)
{
    const char* const plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-";
    return length && *name != '-' && strspn(name, plain) >= length;
}

/* The URI with its prefix if it has one: serd's writer itself leaves names with a
   hyphen whole.  `room` must outlive the node. */
static SerdNode uri_node(const Pen* const pen, const char* const uri, char room[SHORT_ROOM])
{
    const SerdNode whole = text_node(SERD_URI, uri);
    SerdNode prefix;
    SerdChunk rest;
    if (pen->failed || !serd_env_qualify(pen->env, &whole, &prefix, &rest) ||
        !is_short_name((const char*)rest.buf, rest.len) ||
        prefix.n_bytes + rest.len + 2 > SHORT_ROOM) {
        return whole;
    }
    snprintf(room, SHORT_ROOM, "%s:%.*s", (const char*)prefix.buf, (int)rest.len,
             (const char*)rest.buf);
    return text_node(SERD_CURIE, room);
}

static void write(Pen* const pen, const SerdStatementFlags flags, const SerdNode* const subject,
                  const char* const term, const SerdNode* const object,
                  const SerdNode* const datatype)
{
    char uri[URI_ROOM];
    snprintf(uri, sizeof uri, "%s%s", strchr(term, ':') ? "" : FL_TERMS, term);
    const SerdNode property = text_node(SERD_URI, uri);
    if (!pen->failed && serd_writer_write_statement(pen->writer, flags, NULL, subject, &property,
                                                    object, datatype, NULL)) {
        pen->failed = true;
    }
}

static void field(Pen* const pen, const char* const term, const SerdNode* const object,
                  const char* const datatype)
{
    const SerdNode type = datatype ? text_node(SERD_URI, datatype) : SERD_NODE_NULL;
    const bool inside = pen->inner.type == SERD_BLANK;
    write(pen, inside ? SERD_ANON_CONT : 0, inside ? &pen->inner : &pen->subject, term, object,
          datatype ? &type : NULL);
}

void pen_entry(Pen* const pen, const char* const uri, const char* const class_name)
{
    char class_uri[URI_ROOM];
    snprintf(class_uri, sizeof class_uri, FL_TERMS "%s", class_name);
    serd_node_free(&pen->subject);
    char room[SHORT_ROOM];
    const SerdNode given = uri_node(pen, uri, room);
    pen->subject = serd_node_copy(&given);
    const SerdNode class = text_node(SERD_URI, class_uri);
    field(pen, RDF_NS "type", &class, NULL);
}

void pen_text(Pen* const pen, const char* const term, const char* const text)
{
    const SerdNode node = text_node(SERD_LITERAL, text);
    field(pen, term, &node, NULL);
}

void pen_integer(Pen* const pen, const char* const term, const int64_t value)
{
    char text[32];
    snprintf(text, sizeof text, "%" PRId64, value);
    const SerdNode node = text_node(SERD_LITERAL, text);
    field(pen, term, &node, XSD_NS "integer");
}

/* By whole millionths: printf's point is not a point in every locale. */
void pen_decimal(Pen* const pen, const char* const term, const double value)
{
    char text[48];
    const int64_t millionths = llround(fabs(value) * 1e6);
    int length =
        snprintf(text, sizeof text, "%s%" PRId64 ".%06" PRId64,
                 value < 0.0 && millionths ? "-" : "", millionths / 1000000, millionths % 1000000);
    while (length > 2 && text[length - 1] == '0' && text[length - 2] != '.') {
        text[--length] = '\0';
    }
    const SerdNode node = text_node(SERD_LITERAL, text);
    field(pen, term, &node, XSD_NS "decimal");
}

void pen_true(Pen* const pen, const char* const term)
{
    const SerdNode node = text_node(SERD_LITERAL, "true");
    field(pen, term, &node, XSD_NS "boolean");
}

void pen_uri(Pen* const pen, const char* const term, const char* const uri)
{
    char room[SHORT_ROOM];
    const SerdNode node = uri_node(pen, uri, room);
    field(pen, term, &node, NULL);
}

void pen_term(Pen* const pen, const char* const term, const char* const name)
{
    char uri[URI_ROOM];
    snprintf(uri, sizeof uri, FL_TERMS "%s", name);
    pen_uri(pen, term, uri);
}

void pen_open(Pen* const pen, const char* const term)
{
    snprintf(pen->inner_name, sizeof pen->inner_name, "b%u", ++pen->inners);
    const SerdNode inner = text_node(SERD_BLANK, pen->inner_name);
    write(pen, SERD_ANON_O_BEGIN, &pen->subject, term, &inner, NULL);
    pen->inner = inner;
}

void pen_close(Pen* const pen)
{
    if (!pen->failed && serd_writer_end_anon(pen->writer, &pen->inner)) {
        pen->failed = true;
    }
    pen->inner = SERD_NODE_NULL;
}

char* pen_end(Pen* const pen)
{
    if (pen->writer) {
        serd_writer_finish(pen->writer);
        serd_writer_free(pen->writer);
    }
    serd_env_free(pen->env);
    serd_node_free(&pen->subject);
    uint8_t* const text = serd_chunk_sink_finish(&pen->text);
    char* const own = text && !pen->failed ? strdup((const char*)text) : NULL;
    serd_free(text);
    return own;
}

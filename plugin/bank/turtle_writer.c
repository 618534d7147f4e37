// SPDX-License-Identifier: ISC
#include "turtle_writer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define XSD_NS "http://www.w3.org/2001/XMLSchema#"

enum { URI_ROOM = 128, SHORT_ROOM = 256 };

static SerdNode text_node(const SerdType type, const char* const text)
{
    return serd_node_from_string(type, (const uint8_t*)text);
}

bool turtle_writer_begin(TurtleWriter* const writer)
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
    *writer = (TurtleWriter){.env = serd_env_new(NULL)};
    writer->serd = writer->env
                       ? serd_writer_new(SERD_TURTLE, SERD_STYLE_ABBREVIATED | SERD_STYLE_CURIED,
                                         writer->env, NULL, serd_chunk_sink, &writer->text)
                       : NULL;
    for (size_t i = 0; writer->serd && i < sizeof prefixes / sizeof *prefixes; ++i) {
        const SerdNode name = text_node(SERD_LITERAL, prefixes[i][0]);
        const SerdNode uri = text_node(SERD_URI, prefixes[i][1]);
        serd_writer_set_prefix(writer->serd, &name, &uri);
    }
    writer->failed = !writer->serd;
    return !writer->failed;
}

/* True for what a prefix can stand before: less than Turtle allows, but enough. */
static bool is_short_name(const char* const name, const size_t length)
{
    const char* const plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-";
    return length && *name != '-' && strspn(name, plain) >= length;
}

/* The URI with its prefix if it has one: serd's writer itself leaves names with a
   hyphen whole.  `room` must outlive the node. */
static SerdNode uri_node(const TurtleWriter* const writer, const char* const uri,
                         char room[SHORT_ROOM])
{
    const SerdNode whole = text_node(SERD_URI, uri);
    SerdNode prefix;
    SerdChunk rest;
    if (writer->failed || !serd_env_qualify(writer->env, &whole, &prefix, &rest) ||
        !is_short_name((const char*)rest.buf, rest.len) ||
        prefix.n_bytes + rest.len + 2 > SHORT_ROOM) {
        return whole;
    }
    snprintf(room, SHORT_ROOM, "%s:%.*s", (const char*)prefix.buf, (int)rest.len,
             (const char*)rest.buf);
    return text_node(SERD_CURIE, room);
}

static void write(TurtleWriter* const writer, const SerdStatementFlags flags,
                  const SerdNode* const subject, const char* const term,
                  const SerdNode* const object, const SerdNode* const datatype)
{
    char uri[URI_ROOM];
    snprintf(uri, sizeof uri, "%s%s", strchr(term, ':') ? "" : FL_TERMS, term);
    const SerdNode property = text_node(SERD_URI, uri);
    if (!writer->failed && serd_writer_write_statement(writer->serd, flags, NULL, subject,
                                                       &property, object, datatype, NULL)) {
        writer->failed = true;
    }
}

static void field(TurtleWriter* const writer, const char* const term, const SerdNode* const object,
                  const char* const datatype)
{
    const SerdNode type = datatype ? text_node(SERD_URI, datatype) : SERD_NODE_NULL;
    const bool inside = writer->inner.type == SERD_BLANK;
    write(writer, inside ? SERD_ANON_CONT : 0, inside ? &writer->inner : &writer->subject, term,
          object, datatype ? &type : NULL);
}

void turtle_writer_entry(TurtleWriter* const writer, const char* const uri,
                         const char* const class_name)
{
    char class_uri[URI_ROOM];
    snprintf(class_uri, sizeof class_uri, FL_TERMS "%s", class_name);
    serd_node_free(&writer->subject);
    char room[SHORT_ROOM];
    const SerdNode given = uri_node(writer, uri, room);
    writer->subject = serd_node_copy(&given);
    const SerdNode class = text_node(SERD_URI, class_uri);
    field(writer, RDF_NS "type", &class, NULL);
}

void turtle_writer_text(TurtleWriter* const writer, const char* const term, const char* const text)
{
    const SerdNode node = text_node(SERD_LITERAL, text);
    field(writer, term, &node, NULL);
}

static void number(TurtleWriter* const writer, const char* const term, SerdNode node,
                   const char* const datatype)
{
    field(writer, term, &node, datatype);
    serd_node_free(&node);
}

void turtle_writer_integer(TurtleWriter* const writer, const char* const term, const int64_t value)
{
    number(writer, term, serd_node_new_integer(value), XSD_NS "integer");
}

/* As many digits as a number below 1000 has that is read back exactly. */
enum { DECIMALS = 12 };

void turtle_writer_decimal(TurtleWriter* const writer, const char* const term, const double value)
{
    number(writer, term, serd_node_new_decimal(value, DECIMALS), XSD_NS "decimal");
}

void turtle_writer_true(TurtleWriter* const writer, const char* const term)
{
    const SerdNode node = text_node(SERD_LITERAL, "true");
    field(writer, term, &node, XSD_NS "boolean");
}

void turtle_writer_uri(TurtleWriter* const writer, const char* const term, const char* const uri)
{
    char room[SHORT_ROOM];
    const SerdNode node = uri_node(writer, uri, room);
    field(writer, term, &node, NULL);
}

void turtle_writer_term(TurtleWriter* const writer, const char* const term, const char* const name)
{
    char uri[URI_ROOM];
    snprintf(uri, sizeof uri, FL_TERMS "%s", name);
    turtle_writer_uri(writer, term, uri);
}

void turtle_writer_open(TurtleWriter* const writer, const char* const term)
{
    snprintf(writer->inner_name, sizeof writer->inner_name, "b%u", ++writer->inners);
    const SerdNode inner = text_node(SERD_BLANK, writer->inner_name);
    write(writer, SERD_ANON_O_BEGIN, &writer->subject, term, &inner, NULL);
    writer->inner = inner;
}

void turtle_writer_close(TurtleWriter* const writer)
{
    if (!writer->failed && serd_writer_end_anon(writer->serd, &writer->inner)) {
        writer->failed = true;
    }
    writer->inner = SERD_NODE_NULL;
}

char* turtle_writer_end(TurtleWriter* const writer)
{
    if (writer->serd) {
        serd_writer_finish(writer->serd);
        serd_writer_free(writer->serd);
    }
    serd_env_free(writer->env);
    serd_node_free(&writer->subject);
    uint8_t* const text = serd_chunk_sink_finish(&writer->text);
    char* const own = text && !writer->failed ? strdup((const char*)text) : NULL;
    serd_free(text);
    return own;
}

// SPDX-License-Identifier: ISC
#include "bounds.h"
#include "reading.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { REASON_ROOM = 256, FREE_BYTES = 65536 /* beyond READINGS_MOST, for small files */ };

const char* reading_file(const Reading* const reading)
{
    return reading->turtle->files[reading->turtle->file_count - 1].name;
}

/* Prefixes hold in their own file alone. */
SerdEnv* reading_env(const Reading* const reading)
{
    return reading->turtle->files[reading->turtle->file_count - 1].env;
}

/* ---- What ends a sentence, or a file, before its time */

/* What is left of a broken sentence looks wrong line by line: only the first mistake
   is worth telling.  True if this is one. */
static bool is_news(Reading* const reading, const unsigned line)
{
    const bool follows = reading->error_line && line <= reading->error_line + 1;
    reading->error_line = line;
    return !follows;
}

/* This sentence is left out: for serd the file ends here. */
__attribute__((format(printf, 2, 3))) static void cut(Reading* const reading,
                                                      const char* const format, ...)
{
    char reason[REASON_ROOM];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(reason, sizeof reason, format, arguments);
    va_end(arguments);
    if (!reading->is_cut && is_news(reading, reading->line)) {
        diagnostics_add(reading->diagnostics, "%s:%u: %s", reading_file(reading), reading->line,
                        reason);
    }
    reading->is_cut = true;
}

/* All that follows in the file is left out. */
__attribute__((format(printf, 2, 3))) static void stop(Reading* const reading,
                                                       const char* const format, ...)
{
    char reason[REASON_ROOM];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(reason, sizeof reason, format, arguments);
    va_end(arguments);
    if (!reading->is_over) {
        diagnostics_add_first(reading->diagnostics, "%s:%u: %s; the rest of this file is left out",
                              reading_file(reading), reading->line, reason);
    }
    reading->is_cut = reading->is_over = true;
}

void reading_fail(Reading* const reading)
{
    stop(reading, "there is no memory for it");
    turtle_fail(reading->turtle);
}

/* ---- serd's side: bytes to it, statements from it */

/* False if serd must not have the byte. */
static bool pass(Reading* const reading, const char byte)
{
    gauge_take(&reading->gauge, byte);
    ++reading->given;
    if (!byte) {
        cut(reading, "not Turtle here: a byte that is 0; is this a text, in UTF-8?");
    } else if (reading->gauge.depth > DEPTH_MOST) {
        cut(reading, "nested more than %d brackets deep; this sentence is left out", DEPTH_MOST);
    } else if (reading->given > READINGS_MOST * reading->size + FREE_BYTES) {
        stop(reading, "too many broken sentences that run on into the next; end each by a full "
                      "stop");
    }
    return !reading->is_cut;
}

static size_t read_byte(void* const buffer, const size_t size, const size_t count,
                        void* const handle)
{
    Reading* const reading = (Reading*)handle;
    if (!size || !count || reading->is_cut || reading->at == reading->size) {
        return 0;
    }
    const char byte = reading->text[reading->at++];
    reading->line += reading->at_newline;
    reading->at_newline = byte == '\n';
    if (!pass(reading, byte)) {
        return 0;
    }
    *(char*)buffer = byte;
    return 1;
}

static int never_fails(void* const handle)
{
    (void)handle;
    return 0;
}

static SerdStatus take_prefix(void* const handle, const SerdNode* const name,
                              const SerdNode* const uri)
{
    Reading* const reading = (Reading*)handle;
    if (++reading->prefixes > PREFIXES_MOST) {
        stop(reading, "a file declares %d prefixes at most", PREFIXES_MOST);
    } else if (uri->n_bytes > PREFIX_BYTES_MOST) {
        stop(reading, "a prefix stands for %d bytes at most", PREFIX_BYTES_MOST);
    } else {
        return serd_env_set_prefix(reading_env(reading), name, uri);
    }
    return SERD_ERR_BAD_ARG;
}

static SerdStatus take_base(void* const handle, const SerdNode* const uri)
{
    Reading* const reading = (Reading*)handle;
    if (uri->n_bytes > PREFIX_BYTES_MOST) {
        stop(reading, "a base has %d bytes at most", PREFIX_BYTES_MOST);
        return SERD_ERR_BAD_ARG;
    }
    return serd_env_set_base_uri(reading_env(reading), uri);
}

void reading_free(const Reading* const reading, const Met met)
{
    for (int i = 0; i < 3; ++i) {
        sord_node_free(reading->turtle->world, met.nodes[i]);
    }
}

static bool keep_met(Reading* const reading, const Met met)
{
    if (reading->met_count == reading->met_room) {
        const size_t room = reading->met_room ? 2 * reading->met_room : 256;
        Met* const grown = realloc(reading->met, room * sizeof(Met));
        if (!grown) {
            return false;
        }
        reading->met = grown;
        reading->met_room = room;
    }
    reading->met[reading->met_count++] = met;
    return true;
}

/* serd tells of a bracket before it reads what is in it. */
static bool is_bounded(Reading* const reading, const SerdStatementFlags flags)
{
    const bool nests =
        flags & (SERD_ANON_S_BEGIN | SERD_ANON_O_BEGIN | SERD_LIST_S_BEGIN | SERD_LIST_O_BEGIN);
    reading->nests += nests;
    if (reading->nests > NESTS_MOST) {
        cut(reading, "more than %d brackets; this sentence is left out", NESTS_MOST);
    } else if (reading->turtle->statements + reading->met_count >= STATEMENTS_MOST) {
        stop(reading, "a bank holds %d statements at most", STATEMENTS_MOST);
        reading->turtle->is_full = true;
    }
    return !reading->is_cut;
}

static SerdStatus take_statement(void* const handle, const SerdStatementFlags flags,
                                 const SerdNode* const graph, const SerdNode* const subject,
                                 const SerdNode* const property, const SerdNode* const object,
                                 const SerdNode* const datatype, const SerdNode* const language)
{
    (void)graph;
    Reading* const reading = (Reading*)handle;
    SordWorld* const world = reading->turtle->world;
    SerdEnv* const env = reading_env(reading);
    if (!is_bounded(reading, flags)) {
        return SERD_ERR_BAD_SYNTAX;
    }
    const Met met = {{sord_node_from_serd_node(world, env, subject, NULL, NULL),
                      sord_node_from_serd_node(world, env, property, NULL, NULL),
                      sord_node_from_serd_node(world, env, object, datatype, language)},
                     reading->line};
    const bool named = met.nodes[0] && met.nodes[1] && met.nodes[2];
    if (named && keep_met(reading, met)) {
        return SERD_SUCCESS;
    }
    reading_free(reading, met);
    if (named) {
        reading_fail(reading);
    } else {
        diagnostics_add(reading->diagnostics,
                        "%s:%u: a name here has a prefix that was not declared",
                        reading_file(reading), reading->line);
    }
    return SERD_SUCCESS;
}

/* After a mistake serd may go on behind it and see brackets where gauge.c sees none:
   it gets no more.  The format is serd's own. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
static SerdStatus take_error(void* const handle, const SerdError* const error)
{
    Reading* const reading = (Reading*)handle;
    const unsigned line = reading->first_line + error->line - 1;
    if (!reading->is_cut && is_news(reading, line)) {
        char text[REASON_ROOM];
        vsnprintf(text, sizeof text, error->fmt, *error->args);
        text[strcspn(text, "\n")] = '\0';
        diagnostics_add(reading->diagnostics, "%s:%u:%u: not Turtle here: %s",
                        reading_file(reading), line, error->col, text);
    }
    reading->is_cut = true;
    return SERD_SUCCESS;
}
#pragma GCC diagnostic pop

SerdReader* reading_parser(Reading* const reading)
{
    SerdReader* const reader =
        serd_reader_new(SERD_TURTLE, reading, NULL, take_base, take_prefix, take_statement, NULL);
    reading->is_cut = false;
    reading->nests = 0;
    reading->gauge = gauge_begin();
    if (reader) {
        /* Blank nodes are numbered reader by reader: keep them apart. */
        char prefix[32];
        snprintf(prefix, sizeof prefix, "f%ua%zu", reading->turtle->file_count, reading->at);
        serd_reader_add_blank_prefix(reader, (const uint8_t*)prefix);
        serd_reader_set_strict(reader, true);
        serd_reader_set_error_sink(reader, take_error, reading);
        serd_reader_start_source_stream(reader, read_byte, never_fails, reading,
                                        (const uint8_t*)reading_file(reading), 1);
    }
    return reader;
}

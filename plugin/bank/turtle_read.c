// SPDX-License-Identifier: ISC
#include "reading.h"

#include <stdlib.h>
#include <string.h>

/* What was met stands in a broken sentence: none of it counts. */
static void discard(Reading* const reading)
{
    for (size_t i = 0; i < reading->met_count; ++i) {
        reading_free(reading, reading->met[i]);
    }
    reading->met_count = 0;
}

/* True if the sentence is about something that an earlier file described. */
static bool is_described(const Reading* const reading)
{
    Turtle* const turtle = reading->turtle;
    const SordNode* const subject = reading->met_count ? reading->met[0].nodes[0] : NULL;
    const Location* const location = subject ? location_of(turtle, subject, NULL) : NULL;
    const Described* const under =
        subject ? described_find(turtle->under, (const char*)sord_node_get_string(subject)) : NULL;
    if (!under && (!location || location->file == turtle->file_count - 1)) {
        return false;
    }
    diagnostics_add(reading->diagnostics, "%s:%u: %s was described in %s already; this is left out",
                    reading_file(reading), reading->met[0].line, turtle_name(turtle, subject),
                    under ? under->file : turtle->files[location->file].name);
    return true;
}

/* What was met is right: into the model, which keeps references of its own. */
static void commit(Reading* const reading)
{
    Turtle* const turtle = reading->turtle;
    if (is_described(reading)) {
        discard(reading);
        return;
    }
    for (size_t i = 0; i < reading->met_count; ++i) {
        const Met met = reading->met[i];
        const SordQuad quad = {met.nodes[0], met.nodes[1], met.nodes[2], NULL};
        sord_add(turtle->model, quad);
        if (!location_add(turtle, (Location){met.nodes[0], met.nodes[1], met.line,
                                             turtle->file_count - 1, 0})) {
            reading_fail(reading);
        }
        reading_free(reading, met);
        ++reading->statements;
        ++turtle->statements;
    }
    reading->met_count = 0;
}

/* One sentence: SERD_FAILURE at the end. */
static SerdStatus read_sentence(Reading* const reading, SerdReader* const reader)
{
    const size_t before = reading->at;
    const SerdStatus status = serd_reader_read_chunk(reader);
    if (reading->is_cut) {
        return SERD_ERR_BAD_SYNTAX;
    }
    if (status == SERD_SUCCESS) {
        commit(reading);
        reading->nests = 0;
        gauge_next_sentence(&reading->gauge);
    }
    return status == SERD_SUCCESS && reading->at == before ? SERD_FAILURE : status;
}

/* Reads sentence by sentence up to the end or to the first that is broken: then
   true, with *begin where that one began. */
static bool read_sentences(Reading* const reading, size_t* const begin)
{
    SerdReader* const reader = reading_parser(reading);
    SerdStatus status = reader ? SERD_SUCCESS : SERD_ERR_INTERNAL;
    while (status == SERD_SUCCESS) {
        *begin = reading->at;
        status = read_sentence(reading, reader);
    }
    discard(reading);
    if (reader) {
        serd_reader_end_stream(reader);
        serd_reader_free(reader);
    }
    return reader && status > SERD_FAILURE && !reading->is_over;
}

/* Something that begins in the first column begins a sentence; what goes on in
   one is indented, as in every file of presets/. */
static bool begins_sentence(const char* const line)
{
    return *line && !strchr(" \t\r\n#.;,])\"", *line);
}

/* Goes to the first line after `from` that begins a sentence, or to the end. */
static void go_to_next(Reading* const reading, const size_t from)
{
    unsigned line = reading->first_line;
    size_t at = reading->first_at;
    for (; at < reading->size; ++at) {
        const bool is_start = at == 0 || reading->text[at - 1] == '\n';
        line += at > reading->first_at && is_start;
        if (at > from && is_start && begins_sentence(&reading->text[at])) {
            break;
        }
    }
    reading->at = reading->first_at = at;
    reading->line = reading->first_line = line;
    reading->at_newline = false;
}

static void read_sentences_of(Reading* const reading, const char* const path)
{
    SerdNode base = serd_node_new_file_uri((const uint8_t*)path, NULL, NULL, true);
    serd_env_set_base_uri(reading_env(reading), &base);
    size_t begin = 0;
    while (read_sentences(reading, &begin)) {
        go_to_next(reading, begin);
    }
    serd_node_free(&base);
    free(reading->met);
}

bool turtle_read_text(Turtle* const turtle, const char* const name, const char* const text,
                      const size_t size, Diagnostics* const diagnostics)
{
    Reading reading = {.turtle = turtle,
                       .diagnostics = diagnostics,
                       .text = text,
                       .size = size,
                       .line = 1,
                       .first_line = 1};
    if (!turtle_begin_file(turtle, name, size, diagnostics)) {
        return false;
    }
    read_sentences_of(&reading, name);
    return reading.statements > 0;
}

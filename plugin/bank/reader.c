// SPDX-License-Identifier: ISC
#include "model.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* One statement met, kept until the sentence it stands in turns out whole. */
typedef struct {
    SordNode* nodes[3]; /* subject, property, object; owned */
    unsigned line;
} Met;

/* One file being read.  serd gives statements no line, but it takes bytes one
   at a time if asked to, so newlines are counted as they pass. */
typedef struct {
    Turtle* turtle;
    Complaints* complaints;
    const char* text;
    size_t size;
    size_t at;           /* next byte to give to serd */
    unsigned line;       /* of the newest byte given */
    unsigned first_line; /* where the reader that is going on began */
    size_t first_at;     /* the same as a byte */
    bool at_newline;     /* the newest byte is a newline: it ends this line */
    unsigned error_line; /* the last complaint's; errors right after follow from it */
    Met* met;
    size_t met_count;
    size_t met_room;
    size_t statements;
} Reading;

enum { FILE_MOST = 16 * 1024 * 1024 }; /* bytes; a bank of thousands of entries has one */

static size_t read_byte(void* const buffer, const size_t size, const size_t count,
                        void* const handle)
{
    Reading* const reading = (Reading*)handle;
    if (!size || !count || reading->at == reading->size) {
        return 0;
    }
    const char byte = reading->text[reading->at++];
    *(char*)buffer = byte;
    reading->line += reading->at_newline;
    reading->at_newline = byte == '\n';
    return 1;
}

static int never_fails(void* const handle)
{
    (void)handle;
    return 0;
}

/* Prefixes hold in their own file alone. */
static SerdEnv* env_now(const Reading* const reading)
{
    return reading->turtle->envs[reading->turtle->file_count - 1];
}

static SerdStatus take_prefix(void* const handle, const SerdNode* const name,
                              const SerdNode* const uri)
{
    return serd_env_set_prefix(env_now((Reading*)handle), name, uri);
}

static SerdStatus take_base(void* const handle, const SerdNode* const uri)
{
    return serd_env_set_base_uri(env_now((Reading*)handle), uri);
}

static bool remember_place(Turtle* const turtle, const Place place)
{
    if (turtle->place_count == turtle->place_room) {
        const size_t room = turtle->place_room ? 2 * turtle->place_room : 1024;
        Place* const places = realloc(turtle->places, room * sizeof(Place));
        if (!places) {
            return false;
        }
        turtle->places = places;
        turtle->place_room = room;
    }
    turtle->places[turtle->place_count++] = place;
    return true;
}

static const char* file_now(const Reading* const reading)
{
    return reading->turtle->files[reading->turtle->file_count - 1];
}

static void free_met(const Reading* const reading, const Met met)
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

static SerdStatus take_statement(void* const handle, const SerdStatementFlags flags,
                                 const SerdNode* const graph, const SerdNode* const subject,
                                 const SerdNode* const property, const SerdNode* const object,
                                 const SerdNode* const datatype, const SerdNode* const language)
{
    (void)flags;
    (void)graph;
    Reading* const reading = (Reading*)handle;
    SordWorld* const world = reading->turtle->world;
    SerdEnv* const env = env_now(reading);
    const Met met = {{sord_node_from_serd_node(world, env, subject, NULL, NULL),
                      sord_node_from_serd_node(world, env, property, NULL, NULL),
                      sord_node_from_serd_node(world, env, object, datatype, language)},
                     reading->line};
    if (met.nodes[0] && met.nodes[1] && met.nodes[2] && keep_met(reading, met)) {
        return SERD_SUCCESS;
    }
    free_met(reading, met);
    complain(reading->complaints, "%s:%u: a name here has a prefix that was not declared",
             file_now(reading), reading->line);
    return SERD_SUCCESS;
}

/* What was met stands in a broken sentence: none of it counts. */
static void discard(Reading* const reading)
{
    for (size_t i = 0; i < reading->met_count; ++i) {
        free_met(reading, reading->met[i]);
    }
    reading->met_count = 0;
}

/* True if the sentence is about something that an earlier file described. */
static bool is_described(const Reading* const reading)
{
    Turtle* const turtle = reading->turtle;
    const Place* const place =
        reading->met_count ? place_of(turtle, reading->met[0].nodes[0], NULL) : NULL;
    if (!place || place->file == turtle->file_count - 1) {
        return false;
    }
    complain(reading->complaints, "%s:%u: %s was described in %s already; this is left out",
             file_now(reading), reading->met[0].line, turtle_name(turtle, reading->met[0].nodes[0]),
             turtle->files[place->file]);
    return true;
}

/* What was met is right: into the model, which keeps references of its own.  The
   sentence began at or before byte `begin`. */
static void commit(Reading* const reading, const size_t begin)
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
        remember_place(turtle, (Place){met.nodes[0], met.nodes[1], met.line, turtle->file_count - 1,
                                       begin, reading->at});
        free_met(reading, met);
        ++reading->statements;
    }
    reading->met_count = 0;
}

/* What is left of a broken subject looks wrong line by line: only the first
   mistake is worth telling.  The format is serd's own. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
static SerdStatus take_error(void* const handle, const SerdError* const error)
{
    Reading* const reading = (Reading*)handle;
    const unsigned line = reading->first_line + error->line - 1;
    const bool follows = reading->error_line && line <= reading->error_line + 1;
    reading->error_line = line;
    if (follows) {
        return SERD_SUCCESS;
    }
    char text[NAME_ROOM];
    vsnprintf(text, sizeof text, error->fmt, *error->args);
    text[strcspn(text, "\n")] = '\0';
    complain(reading->complaints, "%s:%u:%u: not Turtle here: %s", file_now(reading), line,
             error->col, text);
    return SERD_SUCCESS;
}
#pragma GCC diagnostic pop

static const char* base_name(const char* const path)
{
    const char* const slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static bool add_file_name(Turtle* const turtle, const char* const path)
{
    if (turtle->file_count == FILES_MAX) {
        return false;
    }
    char* const name = strdup(base_name(path));
    SerdEnv* const env = name ? serd_env_new(NULL) : NULL;
    if (!env) {
        free(name);
        return false;
    }
    turtle->envs[turtle->file_count] = env;
    turtle->files[turtle->file_count++] = name;
    return true;
}

static SerdReader* new_reader(Reading* const reading)
{
    SerdReader* const reader =
        serd_reader_new(SERD_TURTLE, reading, NULL, take_base, take_prefix, take_statement, NULL);
    if (reader) {
        /* Blank nodes are numbered reader by reader: keep them apart. */
        char prefix[32];
        snprintf(prefix, sizeof prefix, "f%ua%zu", reading->turtle->file_count, reading->at);
        serd_reader_add_blank_prefix(reader, (const uint8_t*)prefix);
        serd_reader_set_strict(reader, true);
        serd_reader_set_error_sink(reader, take_error, reading);
        serd_reader_start_source_stream(reader, read_byte, never_fails, reading,
                                        (const uint8_t*)file_now(reading), 1);
    }
    return reader;
}

/* Reads sentence by sentence up to the end or to the first that is broken: then
   true, with *begin where that one began. */
static bool read_sentences(Reading* const reading, size_t* const begin)
{
    SerdReader* const reader = new_reader(reading);
    SerdStatus status = reader ? SERD_SUCCESS : SERD_ERR_INTERNAL;
    while (status == SERD_SUCCESS) {
        const size_t before = reading->at;
        *begin = before;
        status = serd_reader_read_chunk(reader);
        if (status == SERD_SUCCESS) {
            commit(reading, before);
            status = reading->at == before ? SERD_FAILURE : SERD_SUCCESS;
        }
    }
    discard(reading);
    if (reader) {
        serd_reader_end_stream(reader);
        serd_reader_free(reader);
    }
    return reader && status > SERD_FAILURE;
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
    serd_env_set_base_uri(env_now(reading), &base);
    size_t begin = 0;
    while (read_sentences(reading, &begin)) {
        go_to_next(reading, begin);
    }
    serd_node_free(&base);
    free(reading->met);
}

/* The whole file, ended by a 0; NULL if it is too large or can't be read.  The
   caller frees. */
static char* load(FILE* const stream, size_t* const size)
{
    char* const text = malloc(FILE_MOST + 1);
    *size = text ? fread(text, 1, FILE_MOST + 1, stream) : 0;
    if (!text || ferror(stream) || *size > FILE_MOST) {
        free(text);
        return NULL;
    }
    text[*size] = '\0';
    return text;
}

bool turtle_read_text(Turtle* const turtle, const char* const name, const char* const text,
                      const size_t size, Complaints* const complaints)
{
    Reading reading = {.turtle = turtle,
                       .complaints = complaints,
                       .text = text,
                       .size = size,
                       .line = 1,
                       .first_line = 1};
    if (!add_file_name(turtle, name)) {
        complain(complaints, "%s: a bank holds %d files at most", name, FILES_MAX);
        return false;
    }
    read_sentences_of(&reading, name);
    return reading.statements > 0;
}

bool turtle_read(Turtle* const turtle, const char* const path, Complaints* const complaints)
{
    struct stat kind;
    const bool regular = stat(path, &kind) == 0 && S_ISREG(kind.st_mode); /* a pipe would wait */
    FILE* const stream = regular ? fopen(path, "rb") : NULL;
    if (!stream) {
        complain(complaints, "%s: the file can't be opened", path);
        return false;
    }
    size_t size = 0;
    char* const text = load(stream, &size);
    fclose(stream);
    if (!text) {
        complain(complaints, "%s: the file can't be read, or is larger than 16 MB", path);
        return false;
    }
    const bool read = turtle_read_text(turtle, path, text, size, complaints);
    free(text);
    return read;
}

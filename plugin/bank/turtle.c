// SPDX-License-Identifier: ISC
#include "turtle.h"

#include <serd/serd.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FILES_MAX = 64, NAME_ROOM = 256, WHERE_ROOM = 512 };

/* Where one statement stands. */
typedef struct {
    const SordNode* subject;
    const SordNode* property;
    unsigned line;
    unsigned file;
} Place;

struct Turtle {
    SordWorld* world;
    SordModel* model;
    SerdEnv* env;
    char* files[FILES_MAX]; /* names without folder */
    unsigned file_count;
    Place* places;
    size_t place_count;
    size_t place_room;
    char name[NAME_ROOM];
    char where[WHERE_ROOM];
};

/* One file being read.  serd gives statements no line, but it takes bytes one
   at a time if asked to, so newlines are counted as they pass. */
typedef struct {
    Turtle* turtle;
    Complaints* complaints;
    FILE* stream;
    unsigned line;
    bool at_newline;     /* the newest byte is a newline: it ends this line */
    unsigned error_line; /* the last complaint's; errors right after it follow from it */
    size_t statements;
} Reading;

/* What sord says of names it can't expand is complained of where it happens. */
static SerdStatus say_nothing(void* const handle, const SerdError* const error)
{
    (void)handle;
    (void)error;
    return SERD_SUCCESS;
}

Turtle* turtle_new(void)
{
    Turtle* const turtle = calloc(1, sizeof(Turtle));
    if (!turtle) {
        return NULL;
    }
    turtle->world = sord_world_new();
    turtle->model = turtle->world ? sord_new(turtle->world, SORD_SPO | SORD_OPS, false) : NULL;
    turtle->env = serd_env_new(NULL);
    if (turtle->world) {
        sord_world_set_error_sink(turtle->world, say_nothing, NULL);
    }
    if (!turtle->model || !turtle->env) {
        turtle_free(turtle);
        return NULL;
    }
    return turtle;
}

void turtle_free(Turtle* const turtle)
{
    if (!turtle) {
        return;
    }
    sord_free(turtle->model);
    serd_env_free(turtle->env);
    sord_world_free(turtle->world);
    for (unsigned i = 0; i < turtle->file_count; ++i) {
        free(turtle->files[i]);
    }
    free(turtle->places);
    free(turtle);
}

static size_t read_byte(void* const buffer, const size_t size, const size_t count,
                        void* const handle)
{
    Reading* const reading = (Reading*)handle;
    const size_t got = fread(buffer, size, count, reading->stream);
    reading->line += reading->at_newline;
    reading->at_newline = got && *(const char*)buffer == '\n';
    return got;
}

static int stream_failed(void* const handle)
{
    return ferror(((Reading*)handle)->stream);
}

static SerdStatus take_prefix(void* const handle, const SerdNode* const name,
                              const SerdNode* const uri)
{
    return serd_env_set_prefix(((Reading*)handle)->turtle->env, name, uri);
}

static SerdStatus take_base(void* const handle, const SerdNode* const uri)
{
    return serd_env_set_base_uri(((Reading*)handle)->turtle->env, uri);
}

static bool remember_place(const Reading* const reading, const SordNode* const subject,
                           const SordNode* const property)
{
    Turtle* const turtle = reading->turtle;
    if (turtle->place_count == turtle->place_room) {
        const size_t room = turtle->place_room ? 2 * turtle->place_room : 1024;
        Place* const places = realloc(turtle->places, room * sizeof(Place));
        if (!places) {
            return false;
        }
        turtle->places = places;
        turtle->place_room = room;
    }
    turtle->places[turtle->place_count++] =
        (Place){subject, property, reading->line, turtle->file_count - 1};
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
    Turtle* const turtle = reading->turtle;
    SordNode* const s = sord_node_from_serd_node(turtle->world, turtle->env, subject, NULL, NULL);
    SordNode* const p = sord_node_from_serd_node(turtle->world, turtle->env, property, NULL, NULL);
    SordNode* const o =
        sord_node_from_serd_node(turtle->world, turtle->env, object, datatype, language);
    if (s && p && o && remember_place(reading, s, p)) {
        const SordQuad quad = {s, p, o, NULL};
        sord_add(turtle->model, quad); /* keeps its own references */
        ++reading->statements;
    } else {
        complain(reading->complaints, "%s:%u: a name here has a prefix that was not declared",
                 turtle->files[turtle->file_count - 1], reading->line);
    }
    sord_node_free(turtle->world, s);
    sord_node_free(turtle->world, p);
    sord_node_free(turtle->world, o);
    return SERD_SUCCESS;
}

/* After a mistake serd goes on at the next line, and what is left of the broken
   subject looks wrong to it line by line: only the first is worth telling. */
/* The format is serd's own. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
static SerdStatus take_error(void* const handle, const SerdError* const error)
{
    Reading* const reading = (Reading*)handle;
    const bool follows = reading->error_line && error->line <= reading->error_line + 1;
    reading->error_line = error->line;
    if (follows) {
        return SERD_SUCCESS;
    }
    char text[NAME_ROOM];
    vsnprintf(text, sizeof text, error->fmt, *error->args);
    text[strcspn(text, "\n")] = '\0';
    complain(reading->complaints, "%s:%u:%u: not Turtle here: %s",
             reading->turtle->files[reading->turtle->file_count - 1], error->line, error->col,
             text);
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
    if (name) {
        turtle->files[turtle->file_count++] = name;
    }
    return name;
}

static void read_stream(Reading* const reading, const char* const path)
{
    SerdReader* const reader =
        serd_reader_new(SERD_TURTLE, reading, NULL, take_base, take_prefix, take_statement, NULL);
    if (!reader) {
        complain(reading->complaints, "%s: there is no memory to read it", path);
        return;
    }
    /* Blank nodes are numbered file by file: keep the files' apart. */
    char prefix[16];
    snprintf(prefix, sizeof prefix, "f%u", reading->turtle->file_count);
    serd_reader_add_blank_prefix(reader, (const uint8_t*)prefix);
    serd_reader_set_error_sink(reader, take_error, reading);
    SerdNode base = serd_node_new_file_uri((const uint8_t*)path, NULL, NULL, true);
    serd_env_set_base_uri(reading->turtle->env, &base);
    serd_reader_start_source_stream(reader, read_byte, stream_failed, reading,
                                    (const uint8_t*)base_name(path), 1);
    while (serd_reader_read_chunk(reader) != SERD_FAILURE) {
        if (feof(reading->stream) || ferror(reading->stream)) {
            break;
        }
    }
    serd_reader_end_stream(reader);
    serd_node_free(&base);
    serd_reader_free(reader);
}

bool turtle_read(Turtle* const turtle, const char* const path, Complaints* const complaints)
{
    FILE* const stream = fopen(path, "rb");
    if (!stream) {
        complain(complaints, "%s: the file can't be opened", path);
        return false;
    }
    if (!add_file_name(turtle, path)) {
        complain(complaints, "%s: a bank holds %d files at most", path, FILES_MAX);
        fclose(stream);
        return false;
    }
    Reading reading = {.turtle = turtle, .complaints = complaints, .stream = stream, .line = 1};
    read_stream(&reading, path);
    if (ferror(stream)) {
        complain(complaints, "%s: reading stopped half-way", path);
    }
    fclose(stream);
    return reading.statements > 0;
}

const SordNode* turtle_uri(Turtle* const turtle, const char* const uri)
{
    /* Interned: a further reference is only counted, and goes with the world. */
    return sord_new_uri(turtle->world, (const uint8_t*)uri);
}

const SordNode* turtle_object(const Turtle* const turtle, const SordNode* const subject,
                              const SordNode* const property)
{
    SordIter* const found = turtle_find(turtle, subject, property, NULL);
    const SordNode* const object = found ? sord_iter_get_node(found, SORD_OBJECT) : NULL;
    sord_iter_free(found);
    return object;
}

SordIter* turtle_find(const Turtle* const turtle, const SordNode* const subject,
                      const SordNode* const property, const SordNode* const object)
{
    return sord_search(turtle->model, subject, property, object, NULL);
}

static const Place* place_of(const Turtle* const turtle, const SordNode* const subject,
                             const SordNode* const property)
{
    const Place* of_subject = NULL;
    for (size_t i = 0; i < turtle->place_count; ++i) {
        const Place* const place = &turtle->places[i];
        if (place->subject == subject) {
            if (place->property == property) {
                return place;
            }
            of_subject = of_subject ? of_subject : place;
        }
    }
    return of_subject;
}

unsigned turtle_file_count(const Turtle* const turtle)
{
    return turtle->file_count;
}

unsigned turtle_file_of(const Turtle* const turtle, const SordNode* const subject)
{
    const Place* const place = place_of(turtle, subject, NULL);
    return place ? place->file : 0;
}

const char* turtle_name(Turtle* const turtle, const SordNode* const node)
{
    const SerdNode* const serd = sord_node_to_serd_node(node);
    SerdNode prefix;
    SerdChunk rest;
    if (serd->type == SERD_URI && serd_env_qualify(turtle->env, serd, &prefix, &rest)) {
        snprintf(turtle->name, sizeof turtle->name, "%s:%.*s", (const char*)prefix.buf,
                 (int)rest.len, (const char*)rest.buf);
    } else {
        snprintf(turtle->name, sizeof turtle->name, "%.*s", NAME_ROOM - 1,
                 serd->type == SERD_BLANK ? "[ ]" : (const char*)serd->buf);
    }
    return turtle->name;
}

/* The entry that a blank node belongs to: what points to it, and so on up. */
static const SordNode* named_owner(const Turtle* const turtle, const SordNode* const node)
{
    const SordNode* owner = node;
    for (int depth = 0; depth < 4 && sord_node_get_type(owner) == SORD_BLANK; ++depth) {
        SordIter* const found = turtle_find(turtle, NULL, NULL, owner);
        if (!found) {
            break;
        }
        owner = sord_iter_get_node(found, SORD_SUBJECT);
        sord_iter_free(found);
    }
    return owner;
}

const char* turtle_where(Turtle* const turtle, const SordNode* const subject,
                         const SordNode* const property)
{
    const Place* const place = place_of(turtle, subject, property);
    const char* const name = turtle_name(turtle, named_owner(turtle, subject));
    snprintf(turtle->where, sizeof turtle->where, "%s:%u: %s",
             place ? turtle->files[place->file] : "?", place ? place->line : 0, name);
    return turtle->where;
}

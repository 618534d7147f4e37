// SPDX-License-Identifier: ISC
#include "model.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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
    if (turtle->world) {
        sord_world_set_error_sink(turtle->world, say_nothing, NULL);
    }
    if (!turtle->model) {
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
    sord_world_free(turtle->world);
    for (unsigned i = 0; i < turtle->file_count; ++i) {
        serd_env_free(turtle->files[i].env);
        free(turtle->files[i].name);
    }
    free(turtle->locations);
    free(turtle->homes);
    free(turtle);
}

void turtle_over(Turtle* const turtle, const DescribedList* const under)
{
    turtle->under = under;
    turtle->bytes = under->bytes;
    turtle->statements = under->statements;
}

bool turtle_is_file(const char* const name)
{
    const size_t length = strlen(name);
    return length > 4 && !strcmp(name + length - 4, ".ttl") && strcmp(name, OWN_LIMITS_FILE);
}

static const char* base_name(const char* const path)
{
    const char* const slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static bool add_file(Turtle* const turtle, const char* const path)
{
    ReadFile* const file = &turtle->files[turtle->file_count];
    file->name = strdup(base_name(path));
    file->env = file->name ? serd_env_new(NULL) : NULL;
    turtle->file_count += file->name != NULL;
    return file->env;
}

bool turtle_is_full(const Turtle* const turtle)
{
    const unsigned under = turtle->under ? turtle->under->files : 0;
    return turtle->is_full || turtle->file_count + under >= FILES_MOST;
}

bool turtle_begin_file(Turtle* const turtle, const char* const path, const size_t size,
                       Diagnostics* const diagnostics)
{
    if (turtle_is_full(turtle)) {
        diagnostics_add_first(diagnostics,
                              "%s: is left out: a bank holds %d files and %d statements at most",
                              base_name(path), FILES_MOST, STATEMENTS_MOST);
    } else if (size > FILE_BYTES_MOST) {
        diagnostics_add_first(diagnostics, "%s: is left out: a file has %d MB at most",
                              base_name(path), FILE_MEGABYTES_MOST);
    } else if (size > BANK_BYTES_MOST - turtle->bytes) {
        diagnostics_add_first(diagnostics,
                              "%s: is left out: all files of a bank have %d MB at most",
                              base_name(path), BANK_MEGABYTES_MOST);
    } else if (!add_file(turtle, path)) {
        diagnostics_add(diagnostics, "%s: there is no memory to read it", base_name(path));
        turtle_fail(turtle);
    } else {
        turtle->bytes += size;
        return true;
    }
    return false;
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

unsigned turtle_file_count(const Turtle* const turtle)
{
    return turtle->file_count;
}

bool turtle_is_whole(const Turtle* const turtle)
{
    return !turtle->failed;
}

void turtle_fail(Turtle* const turtle)
{
    turtle->failed = true;
}

unsigned turtle_file_of(const Turtle* const turtle, const SordNode* const subject)
{
    const Location* const location = location_of(turtle, subject, NULL);
    return location ? location->file : 0;
}

/* Writes the name by one file's prefixes; false if none of them fits. */
static bool qualify(Turtle* const turtle, const unsigned file, const SerdNode* const node)
{
    SerdNode prefix;
    SerdChunk rest;
    if (!serd_env_qualify(turtle->files[file].env, node, &prefix, &rest)) {
        return false;
    }
    snprintf(turtle->name, sizeof turtle->name, "%s:%.*s", (const char*)prefix.buf, (int)rest.len,
             (const char*)rest.buf);
    return true;
}

const char* turtle_name(Turtle* const turtle, const SordNode* const node)
{
    const SerdNode* const serd = sord_node_to_serd_node(node);
    const Location* const location = location_of(turtle, node, NULL);
    if (serd->type == SERD_URI && location && qualify(turtle, location->file, serd)) {
        return turtle->name;
    }
    for (unsigned file = 0; serd->type == SERD_URI && file < turtle->file_count; ++file) {
        if (qualify(turtle, file, serd)) {
            return turtle->name;
        }
    }
    snprintf(turtle->name, sizeof turtle->name, "%.*s", NAME_ROOM - 1,
             serd->type == SERD_BLANK ? "[ ]" : (const char*)serd->buf);
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

static const char* own_label(Turtle* const turtle, const SordNode* const node)
{
    const SordNode* const label = turtle_object(turtle, node, turtle_uri(turtle, RDFS_NS "label"));
    return label ? (const char*)sord_node_get_string(label) : NULL;
}

/* Who has no name but a label is told by that. */
static void name_blank(Turtle* const turtle, const char* const label)
{
    snprintf(turtle->name, sizeof turtle->name, "\"%.100s\"", label);
}

const char* turtle_where(Turtle* const turtle, const SordNode* const subject,
                         const SordNode* const property)
{
    const Location* const location = location_of(turtle, subject, property);
    const bool is_blank = sord_node_get_type(subject) == SORD_BLANK;
    const char* const label = is_blank ? own_label(turtle, subject) : NULL;
    if (label) {
        name_blank(turtle, label);
    } else {
        turtle_name(turtle, named_owner(turtle, subject));
    }
    snprintf(turtle->where, sizeof turtle->where, "%s:%u: %s",
             location ? turtle->files[location->file].name : "?", location ? location->line : 0,
             turtle->name);
    return turtle->where;
}

/* ---- What lies under other files */

const char* turtle_label(Turtle* const turtle, const SordNode* const node)
{
    const char* const own = own_label(turtle, node);
    const Described* const under =
        own ? NULL : described_find(turtle->under, (const char*)sord_node_get_string(node));
    return under ? under->label : own;
}

/* Bytes of a text with its end. */
static size_t bytes_of(const char* const text)
{
    return text ? strlen(text) + 1 : 0;
}

static const char* put_text(char** const to, const char* const text)
{
    char* const put = *to;
    memcpy(put, text ? text : "", bytes_of(text));
    *to += bytes_of(text);
    return text ? put : NULL;
}

/* The row of a subject with a name, its texts still the model's. */
static bool describe(Turtle* const turtle, const Home* const home, Described* const row)
{
    if (!home->subject || sord_node_get_type(home->subject) != SORD_URI) {
        return false;
    }
    *row = (Described){(const char*)sord_node_get_string(home->subject),
                       turtle->files[turtle->locations[home->first].file].name,
                       own_label(turtle, home->subject)};
    return true;
}

bool turtle_described(Turtle* const turtle, Described** const rows, DescribedList* const list)
{
    size_t texts = 0;
    uint32_t count = 0;
    Described row;
    for (size_t i = 0; i < turtle->home_room; ++i) {
        if (describe(turtle, &turtle->homes[i], &row)) {
            texts += bytes_of(row.uri) + bytes_of(row.file) + bytes_of(row.label);
            ++count;
        }
    }
    *rows = malloc((count + 1) * sizeof **rows + texts);
    char* to = *rows ? (char*)(*rows + count + 1) : NULL;
    uint32_t at = 0;
    for (size_t i = 0; *rows && i < turtle->home_room; ++i) {
        if (describe(turtle, &turtle->homes[i], &row)) {
            (*rows)[at++] = (Described){put_text(&to, row.uri), put_text(&to, row.file),
                                        put_text(&to, row.label)};
        }
    }
    if (*rows) {
        described_sort(*rows, count);
    }
    *list = (DescribedList){*rows, count, turtle->file_count, turtle->bytes, turtle->statements};
    return *rows;
}

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

const char* turtle_where(Turtle* const turtle, const SordNode* const subject,
                         const SordNode* const property)
{
    const Location* const location = location_of(turtle, subject, property);
    const char* const name = turtle_name(turtle, named_owner(turtle, subject));
    snprintf(turtle->where, sizeof turtle->where, "%s:%u: %s",
             location ? turtle->files[location->file].name : "?", location ? location->line : 0,
             name);
    return turtle->where;
}

// SPDX-License-Identifier: ISC
#include "entry_names.h"

#include "entries.h"
#include "turtle_writer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void entry_names_add(EntryNames* const entry_names, const EntryKind kind, const uint32_t id,
                     const char* const label, const char* const uri)
{
    for (int i = 0; i < entry_names->count; ++i) {
        if (entry_names->rows[i].kind == kind && entry_names->rows[i].id == id) {
            return;
        }
    }
    const EntryName row = {kind, id, strdup(label), strdup(uri)};
    entry_names->failed = entry_names->failed || !row.label || !row.uri;
    if (entry_names->count == ENTRY_NAMES_MOST || !row.label || !row.uri) {
        free(row.label);
        free(row.uri);
        return;
    }
    entry_names->rows[entry_names->count++] = row;
}

static void read_kind(EntryNames* const entry_names, const EntryKind kind, Turtle* const turtle,
                      Diagnostics* const diagnostics)
{
    char uri[128];
    snprintf(uri, sizeof uri, FL_TERMS "%s", kind_rows[kind].class_name);
    SordIter* const found =
        turtle_find(turtle, NULL, turtle_uri(turtle, RDF_NS "type"), turtle_uri(turtle, uri));
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const node = sord_iter_get_node(found, SORD_SUBJECT);
        Subject subject = {turtle, diagnostics, node, false};
        const int64_t id = field_integer(&subject, "id", ID_LEAST, ID_MOST, 0);
        const char* const label = field_optional_text(&subject, RDFS_NS "label");
        if (!subject.failed && label && sord_node_get_type(node) == SORD_URI) {
            entry_names_add(entry_names, kind, (uint32_t)id, label,
                            (const char*)sord_node_get_string(node));
        }
    }
    sord_iter_free(found);
}

void entry_names_read(EntryNames* const entry_names, const char* const text)
{
    Diagnostics diagnostics = {.count = 0};
    Turtle* const turtle = *text ? turtle_new() : NULL;
    if (turtle) {
        turtle_read_text(turtle, "/names", text, strlen(text), &diagnostics);
        for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
            read_kind(entry_names, (EntryKind)kind, turtle, &diagnostics);
        }
    }
    turtle_free(turtle);
    diagnostics_clear(&diagnostics);
}

void entry_names_drop(EntryNames* const entry_names, const EntryKind kind, const uint32_t id)
{
    for (int i = 0; i < entry_names->count; ++i) {
        if (entry_names->rows[i].kind == kind && entry_names->rows[i].id == id) {
            free(entry_names->rows[i].label);
            free(entry_names->rows[i].uri);
            entry_names->rows[i] = entry_names->rows[--entry_names->count];
            return;
        }
    }
}

char* entry_names_write(const EntryNames* const entry_names)
{
    TurtleWriter writer;
    if (entry_names->failed) {
        return NULL;
    }
    if (!entry_names->count) {
        return strdup("");
    }
    if (turtle_writer_begin(&writer)) {
        for (int i = 0; i < entry_names->count; ++i) {
            const EntryName* const row = &entry_names->rows[i];
            turtle_writer_entry(&writer, row->uri, kind_rows[row->kind].class_name);
            turtle_writer_integer(&writer, "id", row->id);
            turtle_writer_text(&writer, RDFS_NS "label", row->label);
        }
    }
    return turtle_writer_end(&writer);
}

void entry_names_clear(EntryNames* const entry_names)
{
    for (int i = 0; i < entry_names->count; ++i) {
        free(entry_names->rows[i].label);
        free(entry_names->rows[i].uri);
    }
    entry_names->count = 0;
}

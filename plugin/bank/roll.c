// SPDX-License-Identifier: ISC
#include "roll.h"

#include "entries.h"
#include "pen.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char* const entry_class_names[ENTRY_KINDS] = {
    [ENTRY_HANDS] = "HandsFigure", [ENTRY_FEET] = "FeetFigure", [ENTRY_TURNAROUND] = "Turnaround",
    [ENTRY_GROOVE] = "Groove",     [ENTRY_KIT] = "Kit",
};

const char* const entry_words[ENTRY_KINDS] = {
    [ENTRY_HANDS] = "hands figure", [ENTRY_FEET] = "feet figure", [ENTRY_TURNAROUND] = "turnaround",
    [ENTRY_GROOVE] = "groove",      [ENTRY_KIT] = "kit map",
};

void roll_add(Roll* const roll, const EntryKind kind, const uint32_t id, const char* const label,
              const char* const uri)
{
    for (int i = 0; i < roll->count; ++i) {
        if (roll->rows[i].kind == kind && roll->rows[i].id == id) {
            return;
        }
    }
    const RollRow row = {kind, id, strdup(label), strdup(uri)};
    if (roll->count == ROLL_MOST || !row.label || !row.uri) {
        free(row.label);
        free(row.uri);
        return;
    }
    roll->rows[roll->count++] = row;
}

static void read_kind(Roll* const roll, const EntryKind kind, Turtle* const turtle,
                      Complaints* const complaints)
{
    char uri[128];
    snprintf(uri, sizeof uri, FL_TERMS "%s", entry_class_names[kind]);
    SordIter* const found =
        turtle_find(turtle, NULL, turtle_uri(turtle, RDF_NS "type"), turtle_uri(turtle, uri));
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const node = sord_iter_get_node(found, SORD_SUBJECT);
        Subject subject = {turtle, complaints, node, false};
        const int64_t id = field_integer(&subject, "id", ID_LEAST, ID_MOST, 0);
        const char* const label = field_optional_text(&subject, RDFS_NS "label");
        if (!subject.failed && label && sord_node_get_type(node) == SORD_URI) {
            roll_add(roll, kind, (uint32_t)id, label, (const char*)sord_node_get_string(node));
        }
    }
    sord_iter_free(found);
}

void roll_read(Roll* const roll, const char* const text)
{
    Complaints complaints = {.count = 0};
    Turtle* const turtle = *text ? turtle_new() : NULL;
    if (turtle) {
        turtle_read_text(turtle, "/names", text, strlen(text), &complaints);
        for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
            read_kind(roll, (EntryKind)kind, turtle, &complaints);
        }
    }
    turtle_free(turtle);
    complaints_clear(&complaints);
}

void roll_drop(Roll* const roll, const EntryKind kind, const uint32_t id)
{
    for (int i = 0; i < roll->count; ++i) {
        if (roll->rows[i].kind == kind && roll->rows[i].id == id) {
            free(roll->rows[i].label);
            free(roll->rows[i].uri);
            roll->rows[i] = roll->rows[--roll->count];
            return;
        }
    }
}

char* roll_write(const Roll* const roll)
{
    Pen pen;
    if (!roll->count) {
        return strdup("");
    }
    if (pen_begin(&pen)) {
        for (int i = 0; i < roll->count; ++i) {
            const RollRow* const row = &roll->rows[i];
            pen_entry(&pen, row->uri, entry_class_names[row->kind]);
            pen_integer(&pen, "id", row->id);
            pen_text(&pen, RDFS_NS "label", row->label);
        }
    }
    return pen_end(&pen);
}

void roll_clear(Roll* const roll)
{
    for (int i = 0; i < roll->count; ++i) {
        free(roll->rows[i].label);
        free(roll->rows[i].uri);
    }
    roll->count = 0;
}

// SPDX-License-Identifier: ISC
#include "kept_text.h"

#include "fields.h"
#include "model.h"
#include "turtle_writer.h"
#include "utf8.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MINE_KEPT FL_MINE "kept-"

enum { KEPT_WHO_ROOM = KEPT_NAME_ROOM + 32, KEPT_URI_ROOM = 128 };

/* ---- Writing */

static void put_values(TurtleWriter* const writer, const float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        if (control_rows[i].is_selection) {
            turtle_writer_open(writer, "setting");
            turtle_writer_text(writer, "symbol", control_rows[i].symbol);
            turtle_writer_decimal(writer, "value", (double)values[i]);
            turtle_writer_close(writer);
        }
    }
}

static void put_text(TurtleWriter* const writer, const char* const term, const char* const text)
{
    if (*text) {
        turtle_writer_text(writer, term, text);
    }
}

#define DRAFT_TERM(NAME, name, ...) #name "Draft",
static const char* const draft_terms[FIGURE_KINDS] = {FIGURE_KIND_ROWS(DRAFT_TERM)};
#undef DRAFT_TERM

static void put_kept(TurtleWriter* const writer, const uint32_t slot,
                     const KeptSelection* const kept)
{
    char uri[KEPT_URI_ROOM];
    const KeptParts parts = kept_selection_parts(kept);
    snprintf(uri, sizeof uri, MINE_KEPT "%u", slot);
    turtle_writer_entry(writer, uri, "KeptSelection");
    turtle_writer_integer(writer, "slot", slot);
    turtle_writer_text(writer, RDFS_NS "label", parts.name);
    put_values(writer, parts.values);
    put_text(writer, "ownEntries", parts.own);
    put_text(writer, "entryNames", parts.names);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        put_text(writer, draft_terms[kind], parts.drafts[kind]);
    }
}

char* kept_text_write(KeptSelection* const slots[KEPT_MAX])
{
    bool any = false;
    TurtleWriter writer;
    for (uint32_t i = 0; i < KEPT_MAX; ++i) {
        any = any || slots[i];
    }
    if (!any) {
        return strdup("");
    }
    if (turtle_writer_begin(&writer)) {
        for (uint32_t i = 0; i < KEPT_MAX; ++i) {
            if (slots[i]) {
                put_kept(&writer, i + 1, slots[i]);
            }
        }
    }
    return turtle_writer_end(&writer);
}

/* ---- Reading */

typedef struct {
    Bank* beside;
    Turtle* turtle;
    KeptSelection** slots;
    Messages* messages;
    bool failed; /* memory ran out */
} KeptReading;

static void say(const KeptReading* const reading, const char* const who, const char* const what)
{
    messages_say(reading->messages, who, what, "\n");
}

static const char* text_at(const KeptReading* const reading, const SordNode* const subject,
                           const char* const uri)
{
    const SordNode* const node =
        turtle_object(reading->turtle, subject, turtle_uri(reading->turtle, uri));
    return node && sord_node_get_type(node) == SORD_LITERAL
               ? (const char*)sord_node_get_string(node)
               : NULL;
}

static const char* term_at(const KeptReading* const reading, const SordNode* const subject,
                           const char* const term)
{
    char uri[KEPT_URI_ROOM];
    snprintf(uri, sizeof uri, FL_TERMS "%s", term);
    return text_at(reading, subject, uri);
}

static int control_of(const char* const symbol)
{
    int control = 0;
    while (control < CONTROL_COUNT && strcmp(control_rows[control].symbol, symbol) != 0) {
        ++control;
    }
    return control < CONTROL_COUNT && control_rows[control].is_selection ? control : -1;
}

static void say_of_value(const KeptReading* const reading, const char* const who,
                         const char* const symbol, const char* const what)
{
    char words[256];
    const int length = (int)utf8_cut(symbol, strlen(symbol), 64);
    snprintf(words, sizeof words, "\"%.*s\" %s", length, symbol, what);
    utf8_repair(words);
    say(reading, who, words);
}

/* One [ fl:symbol "feet" ; fl:value 12 ]. */
static void take_value(const KeptReading* const reading, const char* const who,
                       const SordNode* const port, float values[CONTROL_COUNT],
                       bool is_set[CONTROL_COUNT])
{
    const char* const symbol = text_at(reading, port, FL_TERMS "symbol");
    const SordNode* const node =
        turtle_object(reading->turtle, port, turtle_uri(reading->turtle, FL_TERMS "value"));
    const int control = symbol ? control_of(symbol) : -1;
    double value = 0.0;
    if (!symbol) {
        say(reading, who, "a value has no fl:symbol; left out");
    } else if (control < 0) {
        say_of_value(reading, who, symbol, "is no control of a selection here; left out");
    } else if (is_set[control]) {
        say_of_value(reading, who, symbol, "has two values; one is left out");
    } else if (!node || !field_read_decimal((const char*)sord_node_get_string(node), &value)) {
        say_of_value(reading, who, symbol, "has no number; it is as it is at first");
    } else {
        const float fit = settings_fit((Control)control, (float)value);
        if (fit < (float)value || fit > (float)value) {
            say_of_value(reading, who, symbol, "is out of its range; brought into it");
        }
        values[control] = fit;
        is_set[control] = true;
    }
}

static void take_values(const KeptReading* const reading, const char* const who,
                        const SordNode* const subject, float values[CONTROL_COUNT])
{
    bool is_set[CONTROL_COUNT] = {false};
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        values[i] = control_rows[i].normal;
    }
    SordIter* const found = turtle_find(reading->turtle, subject,
                                        turtle_uri(reading->turtle, FL_TERMS "setting"), NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        take_value(reading, who, sord_iter_get_node(found, SORD_OBJECT), values, is_set);
    }
    sord_iter_free(found);
}

static bool is_known(const char* const property)
{
    static const char* const others[] = {RDF_NS "type",         RDFS_NS "label",
                                         FL_TERMS "setting",    FL_TERMS "slot",
                                         FL_TERMS "ownEntries", FL_TERMS "entryNames"};
    bool known = false;
    for (size_t i = 0; i < sizeof others / sizeof *others; ++i) {
        known = known || !strcmp(property, others[i]);
    }
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        char uri[KEPT_URI_ROOM];
        snprintf(uri, sizeof uri, FL_TERMS "%s", draft_terms[kind]);
        known = known || !strcmp(property, uri);
    }
    return known;
}

/* What a newer version says of it. */
static void say_unknown(const KeptReading* const reading, const char* const who,
                        const SordNode* const subject)
{
    SordIter* const found = turtle_find(reading->turtle, subject, NULL, NULL);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const property = sord_iter_get_node(found, SORD_PREDICATE);
        if (!is_known((const char*)sord_node_get_string(property))) {
            say_of_value(reading, who, turtle_name(reading->turtle, property),
                         "is nothing that this version knows; left out");
        }
    }
    sord_iter_free(found);
}

static void take_subject(KeptReading* const reading, const SordNode* const subject,
                         const uint32_t slot)
{
    const char* const label = text_at(reading, subject, RDFS_NS "label");
    char who[KEPT_WHO_ROOM];
    float values[CONTROL_COUNT];
    const int length = label ? (int)utf8_cut(label, strlen(label), KEPT_NAME_ROOM - 1) : 0;
    snprintf(who, sizeof who, "kept %u \"%.*s\": ", slot, length, label ? label : "");
    utf8_repair(who);
    if (reading->slots[slot - 1]) {
        say(reading, who, "another is kept in this slot already; left out");
        return;
    }
    take_values(reading, who, subject, values);
    say_unknown(reading, who, subject);
    KeptParts parts = {label ? label : "",
                       values,
                       term_at(reading, subject, "ownEntries"),
                       term_at(reading, subject, "entryNames"),
                       {NULL}};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        parts.drafts[kind] = term_at(reading, subject, draft_terms[kind]);
    }
    reading->slots[slot - 1] = kept_selection_make(reading->beside, &parts, who, reading->messages);
    reading->failed = reading->failed || !reading->slots[slot - 1];
}

/* A subject, and where it stands. */
typedef struct {
    const SordNode* node;
    unsigned line;
} Found;

static int by_line(const void* const a, const void* const b)
{
    const unsigned left = ((const Found*)a)->line, right = ((const Found*)b)->line;
    return (left > right) - (left < right);
}

/* All in the order of the text; NULL if there is no memory. */
static Found* find_all(const KeptReading* const reading, size_t* const count)
{
    const SordNode* const type = turtle_uri(reading->turtle, RDF_NS "type");
    const SordNode* const class = turtle_uri(reading->turtle, FL_TERMS "KeptSelection");
    size_t room = 0;
    SordIter* found = turtle_find(reading->turtle, NULL, type, class);
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        ++room;
    }
    sord_iter_free(found);
    Found* const all = calloc(room + 1, sizeof(Found));
    found = turtle_find(reading->turtle, NULL, type, class);
    for (*count = 0; all && *count < room && !sord_iter_end(found); sord_iter_next(found)) {
        const SordNode* const node = sord_iter_get_node(found, SORD_SUBJECT);
        const Location* const location = location_of(reading->turtle, node, NULL);
        all[(*count)++] = (Found){node, location ? location->line : 0};
    }
    sord_iter_free(found);
    if (all) {
        qsort(all, *count, sizeof(Found), by_line);
    }
    return all;
}

static void take_all(KeptReading* const reading, Diagnostics* const diagnostics)
{
    size_t count = 0;
    Found* const all = find_all(reading, &count);
    reading->failed = !all;
    for (size_t i = 0; all && i < count; ++i) {
        Subject subject = {reading->turtle, diagnostics, all[i].node, false};
        const int64_t slot = field_integer(&subject, "slot", 1, KEPT_MAX, 0);
        if (!subject.failed && !reading->failed) {
            take_subject(reading, all[i].node, (uint32_t)slot);
        }
    }
    free(all);
    if (!count && !diagnostics->count) {
        say(reading, "", "this session: what it says is kept holds no selection; left out");
    }
}

bool kept_text_read(Bank* const beside, const char* const text, KeptSelection* slots[KEPT_MAX],
                    Messages* const messages)
{
    if (!*text) {
        return true;
    }
    Diagnostics diagnostics = {.count = 0};
    KeptReading reading = {beside, turtle_new(), slots, messages, false};
    if (!reading.turtle) {
        return false;
    }
    turtle_read_text(reading.turtle, "/what is kept", text, strlen(text), &diagnostics);
    take_all(&reading, &diagnostics);
    messages_diagnostics(messages, &diagnostics);
    const bool good = turtle_is_whole(reading.turtle) && !reading.failed;
    turtle_free(reading.turtle);
    diagnostics_clear(&diagnostics);
    return good;
}

// SPDX-License-Identifier: ISC
#include "single.h"

#include "bounds.h"
#include "entries.h"
#include "utf8.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Those that name no other entry. */
#define ALONE(NAME, name, class, Type, type, control, alone, ...) [ENTRY_##NAME] = alone,
static const bool can_be_alone[ENTRY_KINDS] = {ENTRY_KIND_ROWS(ALONE)};
#undef ALONE

/* Counts the subjects of a kind; the last of them is in *subject. */
static unsigned count_subjects(Turtle* const turtle, const EntryKind kind,
                               const SordNode** const subject)
{
    char uri[128];
    unsigned count = 0;
    snprintf(uri, sizeof uri, FL_TERMS "%s", kind_rows[kind].class_name);
    SordIter* const found =
        turtle_find(turtle, NULL, turtle_uri(turtle, RDF_NS "type"), turtle_uri(turtle, uri));
    for (; !sord_iter_end(found); sord_iter_next(found)) {
        *subject = sord_iter_get_node(found, SORD_SUBJECT);
        ++count;
    }
    sord_iter_free(found);
    return count;
}

/* The only subject of any kind, and which that is; NULL if there are none or more. */
static const SordNode* find_subject(Turtle* const turtle, const bool is_over, EntryKind* const kind)
{
    const SordNode* subject = NULL;
    unsigned all = 0;
    for (int i = 0; i < ENTRY_KINDS; ++i) {
        const unsigned count =
            can_be_alone[i] || is_over ? count_subjects(turtle, (EntryKind)i, &subject) : 0;
        *kind = count ? (EntryKind)i : *kind;
        all += count;
    }
    return all == 1 ? subject : NULL;
}

static bool read_value(Single* const single, const Bank* const bank, Subject* const subject)
{
    EntryReading reading = bank ? bank_reading(bank) : (EntryReading){.tables = NULL};
    reading.turtle = subject->turtle;
    reading.diagnostics = subject->diagnostics;
    const uint32_t id = (uint32_t)field_integer(subject, "id", 0, ID_MOST, 0);
    single->info = read_info(subject, id, id >= ID_FIRST_OWN, false);
    const bool told = !subject->failed;
    return read_entry(subject, &reading, single->kind, id, &single->figure) && told &&
           turtle_is_whole(subject->turtle);
}

static void say_expected(Diagnostics* const diagnostics, const char* const name)
{
    char words[SINGLE_WHY_ROOM] = "";
    size_t length = 0;
    for (int i = 0; i < ENTRY_KINDS && length < sizeof words; ++i) {
        if (can_be_alone[i]) {
            length += (size_t)snprintf(words + length, sizeof words - length, "%sfl:%s",
                                       length ? ", " : "", kind_rows[i].class_name);
        }
    }
    diagnostics_add(diagnostics, "%s: expected one subject that is one of %s", name, words);
}

static bool read_text(Single* const single, const Bank* const bank, Turtle* const turtle,
                      Diagnostics* const diagnostics, const char* const name)
{
    turtle_read_text(turtle, name, single->text, strlen(single->text), diagnostics);
    const SordNode* const node = find_subject(turtle, bank, &single->kind);
    if (diagnostics->count || !turtle_is_whole(turtle)) {
        return false;
    }
    if (!node) {
        say_expected(diagnostics, name);
        return false;
    }
    Subject subject = {turtle, diagnostics, node, false};
    return read_value(single, bank, &subject);
}

static void say_why(const Diagnostics* const diagnostics, char why[SINGLE_WHY_ROOM])
{
    const char* const told =
        diagnostics->count ? diagnostics->texts[0] : "there is no memory for a figure";
    const size_t length = utf8_cut(told, strlen(told), SINGLE_WHY_ROOM - 1);
    memcpy(why, told, length);
    why[length] = '\0';
}

Single* single_read_over(const Bank* const bank, const char* const name, const char* const text,
                         const size_t size, char why[SINGLE_WHY_ROOM])
{
    if (size > SINGLE_BYTES_MOST) {
        snprintf(why, SINGLE_WHY_ROOM, "the text is longer than %d bytes; a figure needs far less",
                 SINGLE_BYTES_MOST);
        return NULL;
    }
    Diagnostics diagnostics = {.count = 0};
    Turtle* const turtle = turtle_new();
    Single* single = calloc(1, sizeof(Single));
    if (single) {
        atomic_init(&single->holders, 1);
        single->text = strndup(text, size);
    }
    if (!turtle || !single || !single->text ||
        !read_text(single, bank, turtle, &diagnostics, name)) {
        say_why(&diagnostics, why);
        single_free(single);
        single = NULL;
    }
    turtle_free(turtle);
    diagnostics_clear(&diagnostics);
    return single;
}

Single* single_read(const char* const name, const char* const text, const size_t size,
                    char why[SINGLE_WHY_ROOM])
{
    return single_read_over(NULL, name, text, size, why);
}

Single* single_hold(Single* const single)
{
    if (single) {
        atomic_fetch_add(&single->holders, 1);
    }
    return single;
}

void single_free(Single* const single)
{
    if (single && atomic_fetch_sub(&single->holders, 1) == 1) {
        read_info_free(&single->info);
        if (single->kind < (EntryKind)FIGURE_KINDS) {
            read_figure_free(&single->figure);
        }
        free(single->text);
        free(single);
    }
}

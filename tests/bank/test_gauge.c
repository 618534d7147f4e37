// SPDX-License-Identifier: ISC
/* test_gauge.c - the parser never goes deeper than gauge.c counts.  Turtle of every
   kind of brackets that are none (RDF 1.1 Turtle, section 6.5) is read whole; and texts
   thrown together by chance never take the parser below the stack that it needs for
   DEPTH_MOST brackets.  Its stack is looked at with each byte it asks for. */
#define _GNU_SOURCE
#include "../../plugin/bank/bounds.h"
#include "../../plugin/bank/gauge.h"
#include "../../plugin/bank/turtle.h"
#include "../help/check.h"

#include <dlfcn.h>
#include <serd/serd.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TEXTS = 100000, TEXT_ROOM = 4096, WORDS_MOST = 60, LEVELS_MOST = 64 };

static struct {
    SerdSource source;
    uintptr_t base; /* the stack where reading began */
    uintptr_t most; /* bytes of it in use since */
} parser;

static size_t look_and_read(void* const buffer, const size_t size, const size_t count,
                            void* const handle)
{
    const uintptr_t used = parser.base - (uintptr_t)__builtin_frame_address(0);
    parser.most = used > parser.most ? used : parser.most;
    return parser.source(buffer, size, count, handle);
}

/* In the library's place. */
__attribute__((visibility("default"))) SerdStatus
serd_reader_start_source_stream(SerdReader* const reader, const SerdSource source,
                                const SerdStreamErrorFunc error, void* const stream,
                                const uint8_t* const name, const size_t page_size)
{
    SerdStatus (*next)(SerdReader*, SerdSource, SerdStreamErrorFunc, void*, const uint8_t*, size_t);
    *(void**)&next = dlsym(RTLD_NEXT, "serd_reader_start_source_stream");
    parser.source = source;
    return next(reader, look_and_read, error, stream, name, page_size);
}

typedef struct {
    size_t stack;
    size_t diagnostics;
    bool too_deep;
    char first[256]; /* diagnostic */
} Outcome;

static Outcome outcome_of(const char* const text, const size_t size)
{
    Outcome outcome = {0};
    Diagnostics diagnostics = {.count = 0};
    Turtle* const turtle = turtle_new();
    parser.base = (uintptr_t)__builtin_frame_address(0);
    parser.most = 0;
    turtle_read_text(turtle, "/text", text, size, &diagnostics);
    turtle_free(turtle);
    outcome.stack = parser.most;
    outcome.diagnostics = diagnostics.count + diagnostics.unkept;
    for (size_t i = 0; i < diagnostics.count; ++i) {
        outcome.too_deep |= strstr(diagnostics.texts[i], "nested") != NULL;
    }
    snprintf(outcome.first, sizeof outcome.first, "%s",
             diagnostics.count ? diagnostics.texts[0] : "");
    diagnostics_clear(&diagnostics);
    return outcome;
}

#define PREFIX "@prefix a: <urn:a:> .\n"

/* ---- What it needs */

static const char* const openings[] = {"( ", "[ a:p ", "( [ a:p "};

/* `levels` brackets, all closed again. */
static Outcome nested(const char* const opening, const int levels)
{
    char text[TEXT_ROOM] = PREFIX "a:s a:p ";
    char closing[LEVELS_MOST * 2 + 1] = "";
    int open = 0;
    for (size_t i = 0; open < levels; ++i) {
        const char sign = opening[i % strlen(opening)];
        strncat(text, &sign, 1);
        if (sign == '(' || sign == '[') {
            closing[LEVELS_MOST - ++open] = sign == '(' ? ')' : ']';
        }
    }
    strcat(text, closing[LEVELS_MOST - levels] == ']' ? " a:p 1 " : " 1 ");
    strncat(text, &closing[LEVELS_MOST - levels], (size_t)levels);
    strcat(text, " .\n");
    return outcome_of(text, strlen(text));
}

static size_t larger(const size_t a, const size_t b)
{
    return a > b ? a : b;
}

/* Bytes of stack for as many brackets as may be, with whatever can be inside. */
static size_t stack_allowed(void)
{
    static const char flat[] =
        PREFIX "a:s a:p '''a\\u00e9''' , \"b\"@en , 'c'^^a:d , <urn:x> , _:b .\n";
    const size_t inside = outcome_of(flat, strlen(flat)).stack;
    size_t level = 0;
    for (size_t i = 0; i < sizeof openings / sizeof *openings; ++i) {
        level = larger(level, (nested(openings[i], 16).stack - nested(openings[i], 8).stack) / 8);
    }
    printf("# %zu bytes of stack without brackets, %zu more for each\n", inside, level);
    return inside + (DEPTH_MOST + 1) * level;
}

static void sixteen_brackets_are_read_and_seventeen_are_told_with_their_line(void)
{
    for (size_t i = 0; i < sizeof openings / sizeof *openings; ++i) {
        check_case("%s", openings[i]);
        CHECK_TEXT(nested(openings[i], DEPTH_MOST).first, "");
        CHECK_TEXT(nested(openings[i], DEPTH_MOST + 1).first,
                   "text:2: nested more than 16 brackets deep; this sentence is left out");
    }
}

/* ---- Brackets that are none */

#define MANY "(((((((((([[[[[[[[[["

static const char* const harmless[] = {
    PREFIX "a:s a:p \"" MANY "\" .",
    PREFIX "a:s a:p '" MANY "' .",
    PREFIX "a:s a:p \"\"\"" MANY "\n\"" MANY "\"\" " MANY "\"\"\" .",
    PREFIX "a:s a:p '''" MANY "''" MANY "''' .",
    PREFIX "a:s a:p \"\\\"" MANY "\\\\\" , \"" MANY "\" .",
    PREFIX "a:s a:p \"\" , '' , \"" MANY "\" .",
    PREFIX "a:s a:p '\"" MANY "' , \"'" MANY "\" .",
    PREFIX "# " MANY "\na:s a:p 1 . # " MANY "\n",
    PREFIX "a:s a:p 1 # " MANY "\r , 2 .",
    PREFIX "a:s a:p <urn:x#" MANY "> . # '\n a:s a:p '" MANY "' .",
    PREFIX "a:s a:p \"" MANY "\"^^<urn:x#" MANY "> , \"" MANY "\"^^a:x , \"" MANY "\"@en .",
    PREFIX "a:s a:p a:\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\(\\( .",
    PREFIX
    "a:s a:p () , () , () , () , () , () , () , () , () , () , () , () , () , () , () , () , [] , "
    "[] , ( [] [] ( () ) ) .",
    PREFIX "a:s a:p ( '(' \")\" <urn:(> a:\\) ) # (\n .",
};

static void brackets_in_texts_names_and_comments_are_no_brackets(void)
{
    for (size_t i = 0; i < sizeof harmless / sizeof *harmless; ++i) {
        check_case("%s", harmless[i]);
        CHECK_TEXT(outcome_of(harmless[i], strlen(harmless[i])).first, "");
    }
}

static void after_such_a_text_brackets_count_again(void)
{
    char text[TEXT_ROOM];
    for (size_t i = 0; i < sizeof harmless / sizeof *harmless; ++i) {
        check_case("%s", harmless[i]);
        const int size =
            snprintf(text, sizeof text, "%s\na:t a:p ((((((((((((((((((((", harmless[i]);
        CHECK(outcome_of(text, (size_t)size).too_deep);
    }
}

/* A thousand commented-out lines are no thousand brackets. */
static void brackets_side_by_side_are_bounded_in_each_sentence(void)
{
    char text[TEXT_ROOM * 4] = PREFIX "a:s a:p 1";
    for (int i = 1; i <= NESTS_MOST + 1; ++i) {
        CHECK_TEXT(outcome_of(text, strlen(text)).diagnostics > 1 ? "more" : "", "");
        strcat(text, i % 2 ? " , [ a:p 2 ]" : " , ( 3 )");
        if (i == NESTS_MOST) {
            strcat(text, " .\na:t a:p 1");
            CHECK_INT(outcome_of(text, strlen(text) - strlen("a:t a:p 1")).diagnostics, 0);
        }
    }
    char one[TEXT_ROOM * 4] = PREFIX "a:s a:p 1";
    for (int i = 0; i <= NESTS_MOST; ++i) {
        strcat(one, " , ( 3 )");
    }
    strcat(one, " .\n");
    CHECK_TEXT(outcome_of(one, strlen(one)).first,
               "text:2: more than 128 brackets; this sentence is left out");
}

/* ---- By chance */

/* Numbers after Marsaglia 2003, xorshift: the same texts on every machine. */
static uint32_t below(uint32_t* const state, const uint32_t limit)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state % limit;
}

static const char* const words[] = {
    "(",
    "[",
    "]",
    ")",
    "\"",
    "'",
    "\"\"\"",
    "'''",
    "\\",
    "#",
    "\n",
    "\r",
    "<",
    ">",
    ":",
    ",",
    ";",
    ".",
    "^^",
    "@en",
    "_:b",
    "1",
    "1.",
    "true",
    " ",
    " ",
    "a:b ",
    "a:",
    "a",
    "\\(",
    "\\\"",
    "\\'",
    "\\\\",
    "\\u00e9",
    "\\,",
    "\xC3\xA9",
    "\xFF",
    "\xC3",
    "%28",
    "=",
    "{",
    "}",
    "@prefix b: <urn:b:> .\n",
    "PREFIX b: <urn:b:>",
    "a:s a:p ",
    " a:p ",
    "\na:s a:p ",
    ", ",
    " ; a:p ",
    " . ",
    "<urn:x>",
    "'x'",
    "\"x\"",
    "'''x'''",
    "\"\"\"\"",
    "''''",
    "\"\\",
    "\"\"\"\"\\\"\"\"\"",
    "( ",
    "[ a:p ",
    ", ((((((((((((((((((((((((",
    (", [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p "
     "[ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p [ a:p "),
};

/* Each is right where an object is. */
static const char* const objects[] = {
    "a:b",
    "1",
    "1.5e0",
    "true",
    "_:b",
    "<urn:x#(>",
    "'x('",
    "\"x[\"@en",
    "'\\''^^a:x",
    "''",
    "\"\"",
    "'''x(\n'x'\n'''",
    "\"\"\"\"\\\"\"\"\"",
    "'''\"\"\"'\\\\'''",
    "\"\"\"x\"\\n\"y\"\"\"",
    "\"\"\"x\"\\\"\"\"", /* for serd before 0.32 */
    "()",
    "[]",
    "( 1 ')' )",
    "[ a:p 1 ; ]",
    "[ a:p [ a:q ( a:r ) ] , 2 ]",
    "1 # ( \n",
    "1 # [ \r",
    "a:\\(",
    "((((((((((((((( 1 )))))))))))))))",
    "((((((((((((((((((((((((",
};

enum { WORDS = sizeof words / sizeof *words, OBJECTS = sizeof objects / sizeof *objects };

/* Mostly an object: else hardly a text would be right for long. */
static const char* next_word(uint32_t* const state, const bool parts)
{
    return !below(state, 16) ? words[below(state, WORDS)]
           : parts           ? " , "
                             : objects[below(state, OBJECTS)];
}

static size_t throw_together(char text[TEXT_ROOM], uint32_t* const state)
{
    size_t size = (size_t)snprintf(text, TEXT_ROOM, "%sa:s a:p ", PREFIX);
    for (uint32_t left = 1 + below(state, WORDS_MOST); left > 0; --left) {
        const char* const word = next_word(state, left % 2);
        const size_t length = strlen(word);
        if (size + length < TEXT_ROOM) {
            memcpy(text + size, word, length);
            size += length;
        }
    }
    if (!below(state, 8)) {
        text[below(state, (uint32_t)size)] = '\0';
    }
    return size;
}

static void no_text_takes_the_parser_deeper_than_sixteen_brackets(void)
{
    const size_t allowed = stack_allowed();
    uint32_t state = 1;
    size_t most = 0;
    int deep = 0;
    for (int i = 0; i < TEXTS; ++i) {
        char text[TEXT_ROOM];
        const size_t size = throw_together(text, &state);
        const Outcome outcome = outcome_of(text, size);
        most = larger(most, outcome.stack);
        deep += outcome.too_deep;
        if (outcome.stack > allowed) {
            check_case("%zu bytes of stack for %.*s", outcome.stack, (int)size, text);
            CHECK(outcome.stack <= allowed);
        }
    }
    printf("# at most %zu bytes of stack, %zu allowed; %d of %d texts nested too deep\n", most,
           allowed, deep, TEXTS);
    CHECK(deep > TEXTS / 50); /* else this looked at nothing */
}

int main(void)
{
    RUN(sixteen_brackets_are_read_and_seventeen_are_told_with_their_line);
    RUN(brackets_in_texts_names_and_comments_are_no_brackets);
    RUN(after_such_a_text_brackets_count_again);
    RUN(brackets_side_by_side_are_bounded_in_each_sentence);
    RUN(no_text_takes_the_parser_deeper_than_sixteen_brackets);
    return tests_end();
}

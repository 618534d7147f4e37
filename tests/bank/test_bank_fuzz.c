// SPDX-License-Identifier: ISC
/* test_bank_fuzz.c - a small bank with bytes and words of it changed by chance:
   whatever is read from it keeps the promises of figure.h and library.h, and
   whatever is told of it is UTF-8.  The seeds are fixed, so a failure repeats. */
#include "../../plugin/engine/groove/groove.h"
#include "../help/check.h"
#include "bank_folder.h"

enum { MUTATIONS = 300, TEXT_ROOM = 8192, CHANGES_MOST = 6 };

static const char small_bank[] =
    "@prefix fl: <urn:fourlimb:terms#> .\n"
    "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
    "@prefix : <urn:test:> .\n"
    ":hat a fl:HandsFigure ; fl:id 1 ; rdfs:label \"Hat\" ; fl:bars 2 ;\n"
    "\tfl:line [ fl:limb fl:rightHand ; fl:voice fl:hatClosed ; fl:grid 4 ; fl:steps \"Ooog\" ] ,\n"
    "\t\t[ fl:limb fl:leftHand ; fl:voice fl:snare ; fl:grid 2 ; fl:over 1 ; fl:steps \".O\" ] .\n"
    ":gallop a fl:FeetFigure ; fl:id 1 ; rdfs:label \"Gallop\" ; fl:tempoHigh 200 ;\n"
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] ,\n"
    "\t\t[ fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"...o\" ] .\n"
    ":quint a fl:FeetFigure ; fl:id 2 ; rdfs:label \"Five over four\" ;\n"
    "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 5 ; fl:over 4 ; "
    "fl:steps \"O.o.o\" ] .\n"
    ":shots a fl:Turnaround ; fl:id 1 ; rdfs:label \"Shots\" ;\n"
    "\tfl:line [ fl:limb fl:leftHand ; fl:voice fl:crash2 ; fl:grid 1 ; fl:steps \"O O . .\" ] .\n"
    ":street a fl:Groove ; fl:id 1 ; rdfs:label \"Street\" ; fl:tempo 120 ;\n"
    "\tfl:beatsPerBar 7 ; fl:beatUnit 8 ; fl:form \"AAB\" ; fl:crashStart true ;\n"
    "\tfl:part [ fl:letter \"A\" ; fl:hands :hat ; fl:feet :gallop ] ,\n"
    "\t\t[ fl:letter \"B\" ; fl:hands :hat ; fl:feet :quint ] ;\n"
    "\tfl:turnaround :shots .\n";

/* Numbers after Marsaglia 2003, xorshift: the same changes on every machine. */
static uint32_t below(uint32_t* const state, const size_t limit)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return (uint32_t)(*state % limit);
}

typedef struct {
    char bytes[TEXT_ROOM];
    size_t size;
} Text;

/* Puts `with` in the place of `length` bytes at `at`. */
static void put(Text* const text, const size_t at, const size_t length, const char* const with,
                const size_t with_length)
{
    const size_t end = at + length < text->size ? at + length : text->size;
    if (text->size - (end - at) + with_length > TEXT_ROOM) {
        return;
    }
    memmove(&text->bytes[at + with_length], &text->bytes[end], text->size - end);
    memcpy(&text->bytes[at], with, with_length);
    text->size = text->size - (end - at) + with_length;
}

static const char* const words[] = {
    "fl:grid 16",
    "fl:grid 0",
    "fl:grid -1",
    "99999999999999999999",
    "\"",
    "[",
    "]",
    ";",
    ".",
    ",",
    "<",
    ">",
    "\\",
    "\xFF",
    "\xC3",
    "#",
    "\n",
    "fl:line",
    "fl:limb",
    "fl:id 1",
    "fl:id 2",
    "fl:HandsFigure",
    ":hat",
    ":street",
    "fl:form \"H\"",
    "fl:over 13",
    "fl:rightFoot",
    "\"OOOOOOOOOOOOOOOO\"",
    "a",
    "_:b1",
    "(",
    ")",
    "1e400",
    "true",
    "\"\"\"",
    "@prefix : <x> .",
};

enum { WORDS = sizeof words / sizeof *words };

static void change(Text* const text, uint32_t* const state)
{
    const size_t at = below(state, text->size);
    const size_t length = below(state, 24);
    const char* const word = words[below(state, WORDS)];
    switch (below(state, 5)) {
    case 0: /* another byte */
        text->bytes[at] = (char)below(state, 256);
        break;
    case 1: /* something is missing */
        put(text, at, length, "", 0);
        break;
    case 2: /* a word slipped in */
        put(text, at, 0, word, strlen(word));
        break;
    case 3: /* a word in place of something */
        put(text, at, length, word, strlen(word));
        break;
    default: { /* something twice */
        char copy[24];
        const size_t from = below(state, text->size);
        const size_t size = from + length < text->size ? length : text->size - from;
        memcpy(copy, &text->bytes[from], size);
        put(text, at, 0, copy, size);
    }
    }
    text->size = text->size ? text->size : 1;
}

static void check_figures(const Library* const library)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const Figure* const figure = &library->figures[kind][i];
            CHECK(figure_valid(figure));
            CHECK(!figure->bars || figure->cycle_ticks % figure->bars == 0);
            CHECK_INT(figure->kind, kind);
            CHECK(!i || figure->id > figure[-1].id);
        }
    }
}

/* A figure that a groove holds is one of the library's. */
static void check_held(const Library* const library, const FigureKind kind,
                       const Figure* const figure)
{
    CHECK(!figure || library_figure(library, kind, figure->id) == figure);
}

static void check_grooves(const Library* const library)
{
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        const Groove* const groove = &library->grooves[i];
        CHECK(groove->form_bars >= 1 && groove->form_bars <= FORM_BARS_MAX);
        CHECK(groove->tempo >= 20.0 && groove->tempo <= 400.0);
        CHECK(meter_bar_ticks(groove->meter) > 1);
        for (uint32_t bar = 0; bar < groove->form_bars && bar < FORM_BARS_MAX; ++bar) {
            CHECK(groove->form[bar] < PARTS_MAX);
            const Part part = groove->parts[groove->form[bar] % PARTS_MAX];
            CHECK(part.hands || part.feet);
            check_held(library, FIGURE_HANDS, part.hands);
            check_held(library, FIGURE_FEET, part.feet);
        }
        check_held(library, FIGURE_TURNAROUND, groove->turnaround);
    }
}

/* Every groove can be asked for a phrase and more. */
static void check_playing(const Library* const library)
{
    static StrokeList list; /* too large for a stack */
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        float values[CONTROL_COUNT];
        for (int control = 0; control < CONTROL_COUNT; ++control) {
            values[control] = control_rows[control].normal;
        }
        values[CONTROL_GROOVE] = (float)library->grooves[i].id;
        const Settings settings = settings_from_controls(values);
        const Selection selection = selection_make(library, &settings, 120.0);
        const int64_t bar = meter_bar_ticks(library->grooves[i].meter);
        for (int64_t at = 0; at < 20; ++at) {
            groove_strokes(&selection, library->grooves[i].meter, at * bar, (at + 1) * bar, &list);
            for (uint32_t stroke = 0; stroke < list.count; ++stroke) {
                CHECK(list.strokes[stroke].tick / bar == at);
            }
        }
    }
}

static void check_told(const Diagnostics* const diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; ++i) {
        CHECK(is_utf8(diagnostics->texts[i]));
    }
}

static struct {
    int whole, partly, nothing;
} outcomes;

static void count_outcome(const Bank* const bank)
{
    const uint32_t entries = entries_beginning(bank, "");
    ++*(entries == 5 ? &outcomes.whole : entries ? &outcomes.partly : &outcomes.nothing);
}

static void read_mutation(const BankFolder* const folder, const uint32_t seed)
{
    static Text text;
    uint32_t state = seed * 2654435761U + 1U;
    text.size = sizeof small_bank - 1;
    memcpy(text.bytes, small_bank, text.size);
    for (uint32_t changes = 1 + below(&state, CHANGES_MOST); changes > 0; --changes) {
        change(&text, &state);
    }
    bank_folder_write(folder, "small.ttl", text.bytes, text.size);
    Bank* const bank = bank_folder_open(folder);
    check_case("mutation %u", seed);
    check_figures(bank_library(bank));
    check_grooves(bank_library(bank));
    check_playing(bank_library(bank));
    check_told(bank_diagnostics(bank));
    count_outcome(bank);
    bank_free(bank);
}

static void the_small_bank_is_right_before_it_is_changed(void)
{
    const BankFolder folder = bank_folder_make();
    bank_folder_write(&folder, "small.ttl", small_bank, sizeof small_bank - 1);
    Bank* const bank = bank_folder_open(&folder);
    CHECK_INT(bank_diagnostics(bank)->count, 0);
    CHECK_INT(entries_beginning(bank, ""), 5);
    bank_free(bank);
    bank_folder_remove(&folder);
}

static void what_is_read_from_a_changed_bank_keeps_every_promise(void)
{
    const BankFolder folder = bank_folder_make();
    for (uint32_t seed = 1; seed <= MUTATIONS; ++seed) {
        read_mutation(&folder, seed);
    }
    bank_folder_remove(&folder);
}

/* Else the test above would look at nothing. */
static void the_changes_broke_some_banks_wholly_some_partly_and_some_not(void)
{
    CHECK(outcomes.whole >= 3);
    CHECK(outcomes.partly >= 50);
    CHECK(outcomes.nothing >= 3);
}

int main(void)
{
    RUN(the_small_bank_is_right_before_it_is_changed);
    RUN(what_is_read_from_a_changed_bank_keeps_every_promise);
    RUN(the_changes_broke_some_banks_wholly_some_partly_and_some_not);
    return tests_end();
}

// SPDX-License-Identifier: ISC
/* fuzz_text.c - whatever a text has that is to be a draft, a saved entry or a bank: what is read
   keeps the promises of figure.h and library.h, what is told is UTF-8, and what was read is
   written so that the same is read again.  No factory's bank beside it. */
#include "../../plugin/bank/single.h"
#include "../../plugin/bank/write_figure.h"
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

static const BankSources nothing = {"/nowhere/at/all", NULL, NULL};

int LLVMFuzzerInitialize(int* const count, char*** const arguments)
{
    (void)count;
    (void)arguments;
    fuzz_alone();
    return 0;
}

static void check_same_figure(const Figure* const a, const Figure* const b)
{
    FUZZ_WANT(a->id == b->id && a->kind == b->kind && a->bars == b->bars);
    FUZZ_WANT(a->cycle_ticks == b->cycle_ticks && a->stroke_count == b->stroke_count);
    for (uint32_t i = 0; i < a->stroke_count; ++i) {
        FUZZ_WANT(a->strokes[i].tick == b->strokes[i].tick);
        FUZZ_WANT(a->strokes[i].limb == b->strokes[i].limb);
        FUZZ_WANT(a->strokes[i].voice == b->strokes[i].voice);
        FUZZ_WANT(a->strokes[i].level == b->strokes[i].level);
    }
}

static void check_single(const Single* const single)
{
    FUZZ_WANT(fuzz_is_utf8(single->info.label) && fuzz_is_utf8(single->info.comment));
    FUZZ_WANT(single->info.id <= ID_MOST);
    if (single->kind != ENTRY_KIT) {
        Figure figure = single->figure;
        figure.id = figure.id ? figure.id : 1; /* a draft may have none */
        FUZZ_WANT(figure_valid(&figure));
        FUZZ_WANT((EntryKind)single->figure.kind == single->kind);
    }
}

/* What is written of it says the same. */
static void check_written(const Single* const single)
{
    char why[SINGLE_WHY_ROOM];
    const void* const value = &single->figure; /* a union's members begin alike */
    char* const text = write_entry(single->kind, value, &single->info);
    FUZZ_WANT(text);
    Single* const again = single_read("again", text, strlen(text), why);
    if (!again) {
        fuzz_want(strlen(text) > 32768, why, __FILE__, __LINE__);
        free(text);
        return;
    }
    FUZZ_WANT(again->kind == single->kind && again->info.id == single->info.id);
    FUZZ_WANT(!strcmp(again->info.label, single->info.label));
    FUZZ_WANT(!strcmp(again->info.comment, single->info.comment));
    if (single->kind != ENTRY_KIT) {
        check_same_figure(&single->figure, &again->figure);
    } else {
        FUZZ_WANT(!memcmp(single->kit.notes, again->kit.notes, sizeof single->kit.notes));
    }
    single_free(again);
    free(text);
}

static void check_held(const Library* const library, const FigureKind kind,
                       const Figure* const figure)
{
    FUZZ_WANT(!figure || library_figure(library, kind, figure->id) == figure);
}

static void check_groove(const Library* const library, const Groove* const groove)
{
    FUZZ_WANT(groove->form_bars >= 1 && groove->form_bars <= FORM_BARS_MAX);
    FUZZ_WANT(groove->tempo >= 20.0 && groove->tempo <= 400.0);
    FUZZ_WANT(meter_bar_ticks(groove->meter) > 1);
    for (uint32_t bar = 0; bar < groove->form_bars; ++bar) {
        FUZZ_WANT(groove->form[bar] < PARTS_MAX);
        const Part part = groove->parts[groove->form[bar]];
        FUZZ_WANT(part.hands || part.feet);
        check_held(library, FIGURE_HANDS, part.hands);
        check_held(library, FIGURE_FEET, part.feet);
    }
    check_held(library, FIGURE_TURNAROUND, groove->turnaround);
}

static void check_bank(const Bank* const bank)
{
    const Library* const library = bank_library(bank);
    const Diagnostics* const told = bank_diagnostics(bank);
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        for (uint32_t i = 0; i < library->figure_counts[kind]; ++i) {
            const Figure* const figure = &library->figures[kind][i];
            FUZZ_WANT(figure_valid(figure) && (int)figure->kind == kind);
            FUZZ_WANT(!figure->bars || figure->cycle_ticks % figure->bars == 0);
            FUZZ_WANT(!i || figure->id > figure[-1].id);
        }
    }
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        check_groove(library, &library->grooves[i]);
    }
    for (size_t i = 0; i < told->count; ++i) {
        FUZZ_WANT(fuzz_is_utf8(told->texts[i]));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t* const bytes, const size_t size)
{
    char why[SINGLE_WHY_ROOM] = "";
    Single* const single = single_read("text", (const char*)bytes, size, why);
    if (single) {
        check_single(single);
        check_written(single);
    }
    FUZZ_WANT(single || (*why && fuzz_is_utf8(why)));
    single_free(single);
    char* const text = strndup((const char*)bytes, size);
    Bank* const bank = bank_open_session(nothing, text);
    FUZZ_WANT(bank);
    check_bank(bank);
    bank_free(bank);
    free(text);
    return 0;
}

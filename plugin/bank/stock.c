// SPDX-License-Identifier: ISC
#include "stock.h"

#include <stdlib.h>
#include <string.h>

struct Stock {
    Stock* next;
    Bank* bank;
    Drafts drafts;
    char* messages;
    Figure* figures[FIGURE_KINDS]; /* NULL: the bank's */
    Groove* grooves;               /* NULL: the bank's */
    Library library;
};

/* The bank's figures of a kind with the draft in its place in order of id. */
static bool lay_over(Stock* const stock, const FigureKind kind, const Library* const under)
{
    const Figure* const draft = &stock->drafts.drafts[kind]->figure;
    const uint32_t count = under->figure_counts[kind];
    Figure* const figures = calloc(count + 1, sizeof(Figure));
    if (!figures) {
        return false;
    }
    uint32_t at = 0;
    while (at < count && under->figures[kind][at].id < draft->id) {
        figures[at] = under->figures[kind][at];
        ++at;
    }
    figures[at] = *draft;
    const bool replaces = at < count && under->figures[kind][at].id == draft->id;
    for (uint32_t i = at + replaces; i < count; ++i) {
        figures[i + !replaces] = under->figures[kind][i];
    }
    stock->figures[kind] = figures;
    stock->library.figures[kind] = figures;
    stock->library.figure_counts[kind] = count + !replaces;
    return true;
}

static const Figure* again(const Library* const library, const Figure* const figure)
{
    return figure ? library_figure(library, figure->kind, figure->id) : NULL;
}

/* Grooves point to figures: those of the new lists. */
static bool point_anew(Stock* const stock, const Library* const under)
{
    Groove* const grooves = calloc(under->groove_count + 1, sizeof(Groove));
    if (!grooves) {
        return false;
    }
    for (uint32_t i = 0; i < under->groove_count; ++i) {
        grooves[i] = under->grooves[i];
        grooves[i].turnaround = again(&stock->library, grooves[i].turnaround);
        for (int part = 0; part < PARTS_MAX; ++part) {
            grooves[i].parts[part].hands = again(&stock->library, grooves[i].parts[part].hands);
            grooves[i].parts[part].feet = again(&stock->library, grooves[i].parts[part].feet);
        }
    }
    stock->grooves = grooves;
    stock->library.grooves = grooves;
    return true;
}

static bool lay_drafts(Stock* const stock, const Library* const under)
{
    bool any = false;
    bool good = true;
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        if (stock->drafts.drafts[kind]) {
            any = true;
            good = good && lay_over(stock, (FigureKind)kind, under);
        }
    }
    return good && (!any || point_anew(stock, under));
}

Stock* stock_make(Bank* const bank, const Drafts drafts, char* const messages)
{
    Stock* const stock = calloc(1, sizeof(Stock));
    if (!stock) {
        for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
            single_free(drafts.drafts[kind]);
        }
        free(messages);
        return NULL;
    }
    stock->bank = bank_hold(bank);
    stock->drafts = drafts;
    stock->messages = messages;
    stock->library = *bank_library(bank);
    if (!messages || !lay_drafts(stock, bank_library(bank))) {
        stock_free(stock);
        return NULL;
    }
    return stock;
}

void stock_chain(Stock* const stock, Stock* const next)
{
    stock->next = next;
}

static void free_one(Stock* const stock)
{
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        single_free(stock->drafts.drafts[kind]);
        free(stock->figures[kind]);
    }
    free(stock->grooves);
    free(stock->messages);
    bank_free(stock->bank);
    free(stock);
}

void stock_free(Stock* stock)
{
    while (stock) {
        Stock* const next = stock->next;
        free_one(stock);
        stock = next;
    }
}

const Library* stock_library(const Stock* const stock)
{
    return &stock->library;
}

const Bank* stock_bank(const Stock* const stock)
{
    return stock->bank;
}

const char* stock_draft(const Stock* const stock, const FigureKind kind)
{
    const Single* const draft = stock->drafts.drafts[kind];
    return draft ? draft->text : "";
}

const char* stock_messages(const Stock* const stock)
{
    return stock->messages;
}

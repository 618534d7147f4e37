// SPDX-License-Identifier: ISC
#include "listing.h"

#include "../../plugin/bank/entry_facts.h"
#include "bundle.h"
#include "commands.h"
#include "playcheck.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { WIDTH = 100, WORDS_AT = 8, GRID_WIDE = 9 };

/* What is listed, and against which limits. */
typedef struct {
    const Bank* bank;
    const Request* request;
    PlayLimits limits;
    Playability* room;
} Listing;

/* Lines of words, indented, at most WIDTH wide. */
static void print_words(const char* words)
{
    int at = 0;
    while (*words) {
        const int length = (int)strcspn(words, " ");
        if (at && at + 1 + length > WIDTH) {
            putchar('\n');
            at = 0;
        }
        at += printf("%*s%.*s", at ? 1 : WORDS_AT, "", length, words);
        words += length + (words[length] == ' ');
    }
    putchar('\n');
}

static void print_facts(const EntryFacts* const facts, const EntryKind kind)
{
    printf("  %d", facts->difficulty);
    if (kind == ENTRY_GROOVE) {
        printf("  %5s", facts->meter);
    }
    printf("  %-*s", GRID_WIDE, facts->grid);
    if (kind == ENTRY_GROOVE) {
        printf("  %5s", facts->tempo);
    }
    printf("  %7s  ", facts->range);
    if (*facts->feel) {
        printf("%-7s  %s", facts->length, facts->feel);
    } else {
        printf("%s", facts->length);
    }
}

static void print_entry(const Listing* const listing, const EntryKind kind, const uint32_t index)
{
    const EntryInfo* const entry = bank_entry(listing->bank, kind, index);
    const EntryFacts facts = entry_facts(listing->bank, kind, index, listing->room);
    char warning[ENTRY_WARNING_ROOM];
    printf("  %4u  %-34s", entry->id, entry->label);
    if (kind != ENTRY_KIT) {
        print_facts(&facts, kind);
    }
    putchar('\n');
    if (*entry->comment) {
        print_words(entry->comment);
    }
    entry_warning(listing->bank, kind, index, &listing->limits, listing->room, warning);
    if (*warning) {
        printf("%*sbeyond a person: %s\n", WORDS_AT, "", warning);
    }
}

/* ---- Which of them */

/* Grooves in it; figures whose bars are as long, or that roll. */
static bool has_meter(const Listing* const listing, const EntryKind kind, const uint32_t index)
{
    const Section* const asked = request_first(listing->request);
    const Meter meter = {asked->beats, asked->beat_unit};
    const Library* const library = bank_library(listing->bank);
    if (!asked->beats || kind == ENTRY_KIT) {
        return true;
    }
    if (kind == ENTRY_GROOVE) {
        return meter_equal(library->grooves[index].meter, meter);
    }
    const Figure* const figure = &library->figures[kind][index];
    return !figure->bars || figure->cycle_ticks == figure->bars * meter_bar_ticks(meter);
}

static bool is_asked(const Listing* const listing, const EntryKind kind, const uint32_t index)
{
    const char* const family = listing->request->family;
    return has_meter(listing, kind, index) &&
           (!family || !strcasecmp(family, bank_entry(listing->bank, kind, index)->family));
}

static bool is_family(const Listing* const listing, const EntryKind kind, const uint32_t index,
                      const char* const family)
{
    return is_asked(listing, kind, index) &&
           !strcmp(bank_entry(listing->bank, kind, index)->family, family);
}

static uint32_t family_size(const Listing* const listing, const EntryKind kind, const uint32_t end,
                            const char* const family)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < end; ++i) {
        count += is_family(listing, kind, i, family);
    }
    return count;
}

static void print_family(const Listing* const listing, const EntryKind kind,
                         const char* const family)
{
    const uint32_t all = bank_count(listing->bank, kind);
    if (*family) {
        printf(" %s (%u)\n", family, family_size(listing, kind, all, family));
    }
    for (uint32_t i = 0; i < all; ++i) {
        if (is_family(listing, kind, i, family)) {
            print_entry(listing, kind, i);
        }
    }
}

static void print_head(const Listing* const listing, const EntryKind kind)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < bank_count(listing->bank, kind); ++i) {
        count += is_asked(listing, kind, i);
    }
    printf("%u %ss\n", count, kind_rows[kind].word);
    if (count && kind == ENTRY_GROOVE) {
        printf("    id  %-34s hard  meter  %-*s  tempo    range  %-7s  feel\n", "name", GRID_WIDE,
               "grid", "length");
    } else if (count && kind != ENTRY_KIT) {
        printf("    id  %-34s hard  %-*s    range  length\n", "name", GRID_WIDE, "grid");
    }
}

static void print_kind(const Listing* const listing, const EntryKind kind)
{
    print_head(listing, kind);
    for (uint32_t i = 0; i < bank_count(listing->bank, kind); ++i) {
        const char* const family = bank_entry(listing->bank, kind, i)->family;
        if (is_asked(listing, kind, i) && !family_size(listing, kind, i, family)) {
            print_family(listing, kind, family);
        }
    }
}

static int print_listing(const Listing* const listing, const int kind)
{
    for (int i = 0; i < ENTRY_KINDS; ++i) {
        if (kind == -1 || kind == i) {
            print_kind(listing, (EntryKind)i);
        }
    }
    return DONE;
}

int listing_print(const char* const bundle, const Request* const request, const int kind)
{
    Bank* const bank = bundle_bank(bundle);
    if (!bank) {
        return FAILED;
    }
    static Playability room; /* too large for a stack */
    const Listing listing = {bank, request, playcheck_limits(), &room};
    const int status = print_listing(&listing, kind);
    bank_free(bank);
    return status;
}

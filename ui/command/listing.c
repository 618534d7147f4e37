// SPDX-License-Identifier: ISC
#include "listing.h"

#include "../../plugin/bank/entry_facts.h"
#include "../find/found.h"
#include "bundle.h"
#include "commands.h"
#include "playcheck.h"
#include "verdict.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WIDTH = 100, WORDS_AT = 8, GRID_WIDE = 9, LENGTH_WIDE = 12 };

/* What is listed, and against which limits. */
typedef struct {
    const Bank* bank;
    const Wish* wish;
    double minutes;
    PlayLimits limits;
    Playability* room;
} Listing;

/* One kind of it. */
typedef struct {
    const Listing* listing;
    EntryKind kind;
    AskedEntry* entries;
    Match* matches; /* of what is found, in order */
    int count;      /* of those */
} ListedKind;

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

/* Strokes a second are told where a tempo or a limit is asked for. */
static bool tells_rates(const ListedKind* const listed)
{
    return listed->kind != ENTRY_KIT &&
           (listed->listing->wish->tempo > 0.0 || listed->listing->wish->limited);
}

/* In order of its heading: of families there are headings where nothing is ranked. */
static bool tells_family(const ListedKind* const listed)
{
    return wish_ranks(listed->listing->wish);
}

static void print_rates(const ListedKind* const listed, const AskedEntry* const entry)
{
    const Listing* const listing = listed->listing;
    char verdict[VERDICT_ROOM];
    const double tempo = match_tempo(listing->wish, entry, 0.0);
    const AskedRates rates = asked_rates(entry, tempo, listing->room);
    const uint32_t faults =
        asked_faults(entry, tempo, listing->minutes, &listing->limits, listing->room);
    verdict_say(faults, listing->minutes, verdict);
    printf("  %5.0f  %4.0f  %5g  %s", rates.right, rates.left, round(tempo), verdict);
}

static void print_facts(const ListedKind* const listed, const EntryFacts* const facts)
{
    const bool more = tells_rates(listed);
    printf("  %d", facts->difficulty);
    if (listed->kind == ENTRY_GROOVE) {
        printf("  %5s", facts->meter);
    }
    printf("  %-*s", GRID_WIDE, facts->grid);
    if (listed->kind == ENTRY_GROOVE) {
        printf("  %5s", facts->tempo);
    }
    printf("  %7s  ", facts->range);
    if (more) {
        printf("%-*s", LENGTH_WIDE, facts->length);
    } else if (*facts->feel) {
        printf("%-7s  %s", facts->length, facts->feel);
    } else {
        printf("%s", facts->length);
    }
}

/* What it is of, where no heading says so, and the words that were looked through. */
static void print_said(const ListedKind* const listed, const EntryInfo* const info,
                       const EntryFacts* const facts)
{
    char words[2048];
    const bool more = tells_rates(listed);
    const bool family = tells_family(listed) && *info->family;
    snprintf(words, sizeof words, "%s%s%s%s%s%s", family ? "(" : "", family ? info->family : "",
             family ? ") " : "", info->comment, more && *facts->feel ? " Feel: " : "",
             more ? facts->feel : "");
    if (*words) {
        print_words(words);
    }
}

static void print_entry(const ListedKind* const listed, const int index)
{
    const Listing* const listing = listed->listing;
    const uint32_t at = (uint32_t)index;
    const EntryInfo* const info = bank_entry(listing->bank, listed->kind, at);
    const EntryFacts facts = entry_facts(listing->bank, listed->kind, at, listing->room);
    char warning[ENTRY_WARNING_ROOM];
    printf("  %4u  %-34s", info->id, info->label);
    if (listed->kind != ENTRY_KIT) {
        print_facts(listed, &facts);
    }
    if (tells_rates(listed)) {
        print_rates(listed, &listed->entries[index]);
    }
    putchar('\n');
    print_said(listed, info, &facts);
    entry_warning(listing->bank, listed->kind, at, &listing->limits, listing->room, warning);
    if (*warning) {
        printf("%*sbeyond a person: %s\n", WORDS_AT, "", warning);
    }
}

/* ---- Under headings: where they were found, else families */

static const char* family_of(const ListedKind* const listed, const int match)
{
    return listed->entries[listed->matches[match].index].family;
}

static const char* heading_of(const ListedKind* const listed, const int match)
{
    const Wish* const wish = listed->listing->wish;
    return wish_ranks(wish) ? match_heading(wish, &listed->matches[match])
                            : family_of(listed, match);
}

/* The match of a heading after one; `count` if that was the last. */
static int next_under(const ListedKind* const listed, const char* const heading, int match)
{
    while (++match < listed->count && strcmp(heading_of(listed, match), heading) != 0) {
    }
    return match;
}

static void print_heading(const ListedKind* const listed, const char* const heading)
{
    int count = 0;
    for (int i = next_under(listed, heading, -1); i < listed->count;
         i = next_under(listed, heading, i)) {
        ++count;
    }
    if (*heading) {
        printf(" %s (%d)\n", heading, count);
    }
    for (int i = next_under(listed, heading, -1); i < listed->count;
         i = next_under(listed, heading, i)) {
        print_entry(listed, listed->matches[i].index);
    }
}

static void print_columns(const ListedKind* const listed)
{
    const bool more = tells_rates(listed);
    if (listed->kind == ENTRY_GROOVE) {
        printf("    id  %-34s hard  meter  %-*s  tempo    range  %-*s", "name", GRID_WIDE, "grid",
               more ? LENGTH_WIDE : 7, "length");
        fputs(more ? "" : "  feel", stdout);
    } else {
        printf("    id  %-34s hard  %-*s    range  %-*s", "name", GRID_WIDE, "grid",
               more ? LENGTH_WIDE : 0, "length");
    }
    if (more) {
        printf("  right  left     at  for %g minutes", listed->listing->minutes);
    }
    putchar('\n');
}

/* ---- What is found */

static void print_head(const ListedKind* const listed)
{
    char said[WISH_SAID_ROOM];
    const Listing* const listing = listed->listing;
    wish_say(listing->wish, said);
    if (wish_is_empty(listing->wish)) {
        printf("%d %ss\n", listed->count, kind_rows[listed->kind].word);
    } else {
        printf("%d of %u %ss: %s\n", listed->count, bank_count(listing->bank, listed->kind),
               kind_rows[listed->kind].word, said);
    }
    if (listed->count && listed->kind != ENTRY_KIT) {
        print_columns(listed);
    }
}

static AskedEntry asked_of(const Listing* const listing, const EntryKind kind, const uint32_t index)
{
    const Library* const library = bank_library(listing->bank);
    const EntryInfo* const info = bank_entry(listing->bank, kind, index);
    return (AskedEntry){.kind = kind,
                        .id = (int32_t)info->id,
                        .label = info->label,
                        .family = info->family,
                        .comment = info->comment,
                        .tempo_low = info->tempo_low,
                        .tempo_high = info->tempo_high,
                        .figure =
                            kind < (EntryKind)FIGURE_KINDS ? &library->figures[kind][index] : NULL,
                        .groove = kind == ENTRY_GROOVE ? &library->grooves[index] : NULL};
}

static void print_found(const ListedKind* const listed, const FoundIn* const in, const bool alone)
{
    char said[WISH_SAID_ROOM];
    print_head(listed);
    for (int i = 0; i < listed->count; ++i) {
        const char* const heading = heading_of(listed, i);
        if (next_under(listed, heading, -1) == i) {
            print_heading(listed, heading);
        }
    }
    if (!listed->count && alone && !wish_is_empty(listed->listing->wish)) {
        found_loosen(listed->listing->wish, in, said);
        puts(said);
    }
}

/* `alone`: no other kind is asked for.  How many were found; -1 without memory. */
static int print_kind(const Listing* const listing, const EntryKind kind, const bool alone)
{
    int found = -1;
    const uint32_t all = bank_count(listing->bank, kind);
    AskedEntry* const entries = calloc(all + 1, sizeof *entries);
    Match* const matches = calloc(all + 1, sizeof *matches);
    const bool good = entries && matches;
    for (uint32_t i = 0; good && i < all; ++i) {
        entries[i] = asked_of(listing, kind, i);
    }
    if (good) {
        const FoundIn in = {entries, (int)all, 0.0, listing->room};
        found = found_list(listing->wish, &in, matches);
        const ListedKind listed = {listing, kind, entries, matches, found};
        print_found(&listed, &in, alone);
    }
    free(entries);
    free(matches);
    return found;
}

int listing_print(const char* const bundle, const ListingAsked* const asked)
{
    static Playability room; /* too large for a stack */
    Bank* const bank = bundle_bank(bundle);
    if (!bank) {
        return FAILED;
    }
    const Listing listing = {bank, asked->wish, asked->minutes, playcheck_limits(), &room};
    int all = 0;
    bool good = true;
    for (int i = 0; i < ENTRY_KINDS && good; ++i) {
        if (asked->kind == -1 || asked->kind == i) {
            const int found = print_kind(&listing, (EntryKind)i, asked->kind == i);
            good = found >= 0;
            all += found;
        }
    }
    if (good && !all && asked->kind == -1) { /* a kind may be what was meant */
        puts("nothing; there are lists of grooves, hands, feet, turnarounds, kits and controls");
    }
    bank_free(bank);
    return good ? DONE : FAILED;
}

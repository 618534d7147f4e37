// SPDX-License-Identifier: ISC
/* test_factory_bank.c - the bank that is shipped: it loads, it is large enough,
   and every entry tells people what they need to pick it. */
#include "../data/tsv.h"
#include "../help/check.h"
#include "factory.h"

#include <strings.h>

static Bank* bank;

static void the_bank_loads_without_a_complaint(void)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    CHECK_TEXT(diagnostics->count ? diagnostics->texts[0] : "none", "none");
    CHECK_INT(diagnostics->count + diagnostics->unkept, 0);
}

/* How often "a fl:CLASS" is written in the presets, but for those that left: counted without
   the reader. */
static int written_entries(const char* const file_name, const char* const class_name)
{
    static const char left[] = "\tdcterms:isReplacedBy ";
    char path[TSV_LINE_ROOM], wanted[64], line[TSV_LINE_ROOM];
    snprintf(path, sizeof path, "%s/presets/%s.ttl", FOURLIMB_SOURCE, file_name);
    snprintf(wanted, sizeof wanted, "\ta fl:%s ;", class_name);
    FILE* const file = fopen(path, "r");
    int count = 0;
    while (file && fgets(line, sizeof line, file)) {
        count += !strncmp(line, wanted, strlen(wanted));
        count -= !strncmp(line, left, strlen(left));
    }
    if (file) {
        fclose(file);
    }
    return count;
}

static void every_entry_written_in_the_presets_is_in_the_bank(void)
{
    CHECK_INT(bank_count(bank, ENTRY_HANDS), written_entries("hands", "HandsFigure"));
    CHECK_INT(bank_count(bank, ENTRY_FEET), written_entries("feet", "FeetFigure"));
    CHECK_INT(bank_count(bank, ENTRY_TURNAROUND), written_entries("turnarounds", "Turnaround"));
    CHECK_INT(bank_count(bank, ENTRY_GROOVE), written_entries("grooves", "Groove"));
    CHECK_INT(bank_count(bank, ENTRY_KIT), written_entries("kits", "Kit"));
}

/* The numbers are what the project set out to ship; no source outside it. */
static void the_bank_is_as_large_as_was_promised(void)
{
    CHECK(bank_count(bank, ENTRY_HANDS) >= 40);
    CHECK(bank_count(bank, ENTRY_FEET) >= 80);
    CHECK(bank_count(bank, ENTRY_GROOVE) >= 40);
    CHECK(bank_count(bank, ENTRY_TURNAROUND) >= 16);
    CHECK(bank_count(bank, ENTRY_KIT) >= 2);
}

static bool has_meter(const int beats, const int unit)
{
    const Library* const library = bank_library(bank);
    const Meter wanted = {beats, unit};
    for (uint32_t i = 0; i < library->groove_count; ++i) {
        if (meter_equal(library->grooves[i].meter, wanted)) {
            return true;
        }
    }
    return false;
}

/* Meters that songs are written in; common practice, no source. */
static void grooves_cover_the_meters_that_songs_are_in(void)
{
    static const int meters[][2] = {{4, 4}, {3, 4}, {6, 8}, {7, 8}, {12, 8},
                                    {2, 4}, {5, 4}, {5, 8}, {9, 8}, {11, 8}};
    for (size_t i = 0; i < sizeof meters / sizeof *meters; ++i) {
        check_case("%d/%d", meters[i][0], meters[i][1]);
        CHECK(has_meter(meters[i][0], meters[i][1]));
    }
}

static uint32_t family_size(const EntryKind kind, const char* const family)
{
    uint32_t size = 0;
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        size += !strcmp(bank_entry(bank, kind, i)->family, family);
    }
    return size;
}

/* The families that double-kick lessons are built of; common practice, no source. */
static void feet_cover_the_families_that_the_trade_expects(void)
{
    static const char* const families[] = {
        "single foot",     "eighths", "sixteenths", "triplets", "sextuplets",
        "shuffle doubles", "gallop",  "bursts",     "herta",    "over the bar"};
    for (size_t i = 0; i < sizeof families / sizeof *families; ++i) {
        check_case("%s", families[i]);
        CHECK(family_size(ENTRY_FEET, families[i]) >= 2);
    }
}

static void check_told(const EntryKind kind, const EntryInfo* const entry)
{
    check_case("%s %u %s", factory_kind_word(kind), entry->id, entry->label);
    CHECK(*entry->label);
    CHECK(*entry->comment);
    CHECK(strncmp(entry->uri, "urn:fourlimb:", 13) == 0);
    CHECK(entry->id >= 1 && entry->id <= 999); /* ttl/terms.ttl: the factory's ids */
    if (kind != ENTRY_KIT) {
        CHECK(*entry->family);
        CHECK(entry->tempo_low > 0 && entry->tempo_low < entry->tempo_high);
    }
}

static void every_entry_says_what_it_is_and_how_fast(void)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            check_told((EntryKind)kind, bank_entry(bank, (EntryKind)kind, i));
        }
    }
}

/* Characters, not bytes: every byte of UTF-8 but the continuing ones. */
static size_t characters(const char* text)
{
    size_t count = 0;
    for (; *text; ++text) {
        count += ((unsigned char)*text & 0xC0) != 0x80;
    }
    return count;
}

/* 34 is the column that lists of them have; no source. */
static void labels_fit_a_column_of_34(void)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            const char* const label = bank_entry(bank, (EntryKind)kind, i)->label;
            check_case("%s", label);
            CHECK(characters(label) <= 34);
        }
    }
}

static void check_alone(const EntryKind kind, const uint32_t index)
{
    const EntryInfo* const entry = bank_entry(bank, kind, index);
    for (uint32_t i = index + 1; i < bank_count(bank, kind); ++i) {
        check_case("%s %u and %u, %s", factory_kind_word(kind), entry->id,
                   bank_entry(bank, kind, i)->id, entry->label);
        CHECK(strcasecmp(entry->label, bank_entry(bank, kind, i)->label) != 0);
        CHECK(entry->id < bank_entry(bank, kind, i)->id);
    }
}

static void labels_and_ids_are_used_once_in_their_class(void)
{
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            check_alone((EntryKind)kind, i);
        }
    }
}

static void every_figure_keeps_the_promises_of_figures(void)
{
    for (int kind = ENTRY_HANDS; kind <= ENTRY_TURNAROUND; ++kind) {
        for (uint32_t i = 0; i < bank_count(bank, (EntryKind)kind); ++i) {
            check_case("%s %s", factory_kind_word((EntryKind)kind),
                       bank_entry(bank, (EntryKind)kind, i)->label);
            CHECK(figure_valid(factory_figure(bank, (EntryKind)kind, i)));
        }
    }
}

/* The strokes from a tick on, for so long, are those from the start. */
static bool repeats_at(const Figure* const figure, const int64_t tick, const int64_t ticks)
{
    const uint32_t first = figure_first_from(figure, tick);
    const uint32_t end = figure_first_from(figure, tick + ticks);
    bool same = end - first == figure_first_from(figure, ticks);
    for (uint32_t i = 0; same && first + i < end; ++i) {
        const Stroke a = figure->strokes[i];
        const Stroke b = figure->strokes[first + i];
        same = a.tick == b.tick - tick && a.limb == b.limb && a.voice == b.voice &&
               a.level == b.level && a.bends == b.bends;
    }
    return same;
}

/* A figure written for whole bars is written for bars of the groove's length; or for a longer
   one which says the same over and over, so that what the bar line cuts off is no loss. */
static void check_fits(const Groove* const groove, const Figure* const figure)
{
    if (!figure || !figure->bars) {
        return;
    }
    const int64_t bar = meter_bar_ticks(groove->meter);
    const int64_t written = figure->cycle_ticks / figure->bars;
    for (int64_t tick = bar; figure->bars == 1 && written % bar == 0 && tick < written;
         tick += bar) {
        CHECK(repeats_at(figure, tick, bar));
    }
    if (figure->bars > 1 || written % bar) {
        CHECK_INT(written, bar);
    }
}

static void check_groove(const Groove* const groove, const EntryInfo* const entry)
{
    check_case("%s", entry->label);
    CHECK(groove->tempo >= entry->tempo_low && groove->tempo <= entry->tempo_high);
    CHECK(groove->form_bars >= 1 && groove->form_bars <= FORM_BARS_MAX);
    for (uint32_t i = 0; i < groove->form_bars; ++i) {
        const Part part = groove->parts[groove->form[i]];
        CHECK(part.hands && part.feet);
        check_fits(groove, part.hands);
        check_fits(groove, part.feet);
    }
    check_fits(groove, groove->turnaround);
}

static void every_groove_plays_figures_of_its_own_meter(void)
{
    for (uint32_t i = 0; i < bank_count(bank, ENTRY_GROOVE); ++i) {
        check_groove(&bank_library(bank)->grooves[i], bank_entry(bank, ENTRY_GROOVE, i));
    }
}

int main(void)
{
    bank = factory_open();
    RUN(the_bank_loads_without_a_complaint);
    RUN(every_entry_written_in_the_presets_is_in_the_bank);
    RUN(the_bank_is_as_large_as_was_promised);
    RUN(grooves_cover_the_meters_that_songs_are_in);
    RUN(feet_cover_the_families_that_the_trade_expects);
    RUN(every_entry_says_what_it_is_and_how_fast);
    RUN(labels_fit_a_column_of_34);
    RUN(labels_and_ids_are_used_once_in_their_class);
    RUN(every_figure_keeps_the_promises_of_figures);
    RUN(every_groove_plays_figures_of_its_own_meter);
    bank_free(bank);
    return tests_end();
}

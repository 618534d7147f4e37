// SPDX-License-Identifier: ISC
#include "../../plugin/engine/writing/variation_faults.h"
#include "commands.h"
#include "picks.h"
#include "playcheck.h"
#include "sticking.h"
#include "varied.h"
#include "verdict.h"

#include <stdio.h>

/* What is varied, and for whom. */
typedef struct {
    const Figure* feet;
    const Figure* hands; /* NULL: they rest */
    const char* first; /* what the feet are a variation of the groove's by; "": they are its own */
    Meter meter;
    double tempo;
    double minutes;
    int limit; /* strokes a second of one foot; 0: any */
    PlayLimits limits;
} VaryAsked;

static const double minutes_normal = 4.0;

/* The first of the phrase's bars that has feet. */
static bool find_feet(const Selection* const selection, VaryAsked* const asked)
{
    for (uint32_t bar = 0; bar < selection->phrase_bars && !asked->feet; ++bar) {
        const BarParts parts = groove_bar(selection, asked->meter, bar);
        asked->feet = parts.feet;
        asked->hands = parts.hands;
    }
    return asked->feet;
}

/* In place of the feet a variation of them; false, with a message, if there is none. */
static bool begin_with(VaryAsked* const asked, const char* const typed)
{
    static VariationRoom room; /* too large for a stack */
    const int found = varied_number(typed);
    const uint32_t number = found < 0 ? VARIATION_COUNT : (uint32_t)found;
    const Variation made = variation_make(asked->feet, asked->hands, asked->meter, number, &room);
    if (!made.figure) {
        fprintf(stderr, "fourlimb: --variation %s: %s\n", typed, variation_reason(made.reason));
        return false;
    }
    asked->feet = made.figure;
    asked->first = variation_words(number);
    return true;
}

/* ---- A row */

static bool is_within(const VaryAsked* const asked, const Playability* const found)
{
    return !asked->limit || (found->found[RIGHT_FOOT].rate <= asked->limit &&
                             found->found[LEFT_FOOT].rate <= asked->limit);
}

/* By what other names it goes: rows that come out the same. */
static void print_same(const VariationRow rows[VARIATION_COUNT], const uint32_t number)
{
    const char* before = "     the same as ";
    for (uint32_t i = 1; i < VARIATION_COUNT; ++i) {
        if (rows[i].reason == VARY_AS_EARLIER && rows[i].same_as == number) {
            printf("%s%u, %s", before, i, variation_words(i));
            before = "; ";
        }
    }
    fputs(*before == ';' ? "\n" : "", stdout);
}

/* False, and nothing is printed, if a foot has more strokes a second than is asked for. */
static bool print_row(const VaryAsked* const asked, const uint32_t number,
                      const Figure* const figure)
{
    static Playability found; /* likewise */
    char verdict[VERDICT_ROOM];
    const uint32_t faults =
        variation_faults(figure, asked->tempo, asked->minutes, &asked->limits, &found);
    if (!is_within(asked, &found)) {
        return false;
    }
    verdict_say(faults, asked->minutes, verdict);
    printf("%3u  %-28s  %5.0f  %4.0f  %s\n", number, variation_words(number),
           found.found[RIGHT_FOOT].rate, found.found[LEFT_FOOT].rate, verdict);
    sticking_print(stdout, figure, asked->meter);
    printf("     %s\n", variation_help(number));
    return true;
}

/* ---- All of them, from the plainest to the fullest */

static void print_others(const VariationRow rows[VARIATION_COUNT])
{
    puts("not offered");
    for (uint32_t i = 1; i < VARIATION_COUNT; ++i) {
        if (rows[i].reason == VARY_AS_EARLIER) {
            printf("%3u  %s: the same as %u, %s\n", i, variation_words(i), rows[i].same_as,
                   variation_words(rows[i].same_as));
        } else if (rows[i].reason) {
            printf("%3u  %s: %s\n", i, variation_words(i), variation_reason(rows[i].reason));
        }
    }
}

static void print_beyond(const VaryAsked* const asked, const uint8_t* const numbers,
                         const uint32_t count)
{
    if (count) {
        printf("more than %d a second of one foot\n", asked->limit);
    }
    for (uint32_t i = 0; i < count; ++i) {
        printf("%3u  %s\n", numbers[i], variation_words(numbers[i]));
    }
}

static void print_all(const VaryAsked* const asked)
{
    static VariationRoom rooms[2]; /* likewise */
    static VariationRow rows[VARIATION_COUNT];
    uint8_t order[VARIATION_COUNT], beyond[VARIATION_COUNT];
    uint32_t left_out = 0;
    const uint32_t offered = variation_offers(asked->feet, asked->hands, asked->meter, rows, rooms);
    const uint32_t count = variation_order(rows, order);
    printf("%u variations of %d, from the plainest to the fullest\n%s\n", offered,
           VARIATION_COUNT - 1, sticking_key);
    printf(" no  %-28s  right  left  strokes a second; for %g minutes\n", "variation",
           asked->minutes);
    for (uint32_t i = 0; i < count; ++i) {
        const Variation made =
            variation_make(asked->feet, asked->hands, asked->meter, order[i], rooms);
        if (print_row(asked, order[i], made.figure)) {
            print_same(rows, order[i]);
        } else {
            beyond[left_out++] = order[i];
        }
    }
    print_beyond(asked, beyond, left_out);
    if (offered + 1 < VARIATION_COUNT) {
        print_others(rows);
    }
}

static int vary(const Performance* const performance, const Request* const request)
{
    Picks picks;
    char title[256];
    const int status = picks_make(performance, request_first(request), &picks);
    if (status != DONE) {
        return status;
    }
    VaryAsked asked = {.first = "",
                       .meter = picks.meter,
                       .tempo = picks.tempo,
                       .limit = request->limit,
                       .minutes = request->minutes > 0.0 ? request->minutes : minutes_normal,
                       .limits = playcheck_limits()};
    picks_title(&picks, title, sizeof title);
    if (!find_feet(&picks.selection, &asked)) {
        fprintf(stderr, "fourlimb: %s has no feet to vary; --feet gives it some\n", title);
        return ASKED_WRONGLY;
    }
    if (request->variation && !begin_with(&asked, request->variation)) {
        return ASKED_WRONGLY;
    }
    printf("%s%s%s, %g/%d at %g, for %g minutes\n", title, *asked.first ? ", " : "", asked.first,
           picks.meter.beats_per_bar, picks.meter.beat_unit, picks.tempo, asked.minutes);
    print_all(&asked);
    return DONE;
}

int command_vary(const Request* const request)
{
    Performance performance;
    const int status =
        performance_open(&performance, request->bundle) ? vary(&performance, request) : FAILED;
    performance_close(&performance);
    return status;
}

// SPDX-License-Identifier: ISC
#include "../../plugin/engine/writing/variation_faults.h"
#include "commands.h"
#include "picks.h"
#include "playcheck.h"
#include "staff.h"

#include <stdio.h>
#include <stdlib.h>
#include <strings.h>

/* What is varied, and for whom. */
typedef struct {
    const Figure* feet;
    const Figure* hands; /* NULL: they rest */
    const char* first; /* what the feet are a variation of the groove's by; "": they are its own */
    Meter meter;
    double tempo;
    double minutes;
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

/* The number of a variation by its name in any case, or by that; VARIATION_COUNT if none. */
static uint32_t find_variation(const char* const typed)
{
    char* end = NULL;
    const unsigned long number = strtoul(typed, &end, 10);
    uint32_t found = 0;
    while (found < VARIATION_COUNT && strcasecmp(typed, variation_words(found)) != 0) {
        ++found;
    }
    return end != typed && !*end && number < VARIATION_COUNT ? (uint32_t)number : found;
}

/* In place of the feet a variation of them; false, with a message, if there is none. */
static bool begin_with(VaryAsked* const asked, const char* const typed)
{
    static VariationRoom room; /* too large for a stack */
    const uint32_t number = find_variation(typed);
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

/* The figure as it is played in a bar. */
static void strokes_in(const Figure* const feet, const Meter meter, const int64_t bar,
                       StrokeList* const list)
{
    const Groove groove = {
        .id = 1, .meter = meter, .form_bars = FORM_BARS_MAX, .parts = {{.feet = feet}}};
    const Selection selection = selection_of_groove(&groove);
    const int64_t ticks = meter_bar_ticks(meter);
    groove_strokes(&selection, meter, bar * ticks, (bar + 1) * ticks, list);
}

static void print_bars(const Figure* const feet, const Meter meter)
{
    static StrokeList first, second; /* too large for a stack */
    const int64_t ticks = meter_bar_ticks(meter);
    strokes_in(feet, meter, 0, &first);
    strokes_in(feet, meter, 1, &second);
    staff_print(stdout, &first, 0, meter);
    if (!stroke_lists_alike(&first, &second, ticks)) {
        puts(second.count ? "    second bar" : "    second bar: rests");
        if (second.count) {
            staff_print(stdout, &second, ticks, meter);
        }
    }
    const int64_t bars = common_multiple(feet->cycle_ticks, ticks) / ticks;
    if (bars > 2) {
        printf("    and on: after %d bars it comes round\n", (int)bars);
    }
}

/* Why no person can play it. */
static void print_faults(const uint32_t faults)
{
    static const struct {
        uint32_t fault;
        const char* words;
    } rows[] = {{PLAY_TOO_FAST, "too fast"},
                {PLAY_TOO_LONG, "too fast for so long"},
                {PLAY_TOO_CLOSE, "strokes of a foot too close"},
                {PLAY_TORN, "a foot in two places"}};
    const char* before = "beyond a person: ";
    for (size_t i = 0; i < sizeof rows / sizeof *rows; ++i) {
        if (faults & rows[i].fault) {
            printf("%s%s", before, rows[i].words);
            before = ", ";
        }
    }
    puts(faults ? "" : "playable");
}

static void print_row(const VaryAsked* const asked, const uint32_t number,
                      const Figure* const figure)
{
    static Playability found; /* likewise */
    const uint32_t faults =
        variation_faults(figure, asked->tempo, asked->minutes, &asked->limits, &found);
    printf("%2u %s: right foot %.0f a second, left foot %.0f; ", number, variation_words(number),
           found.found[RIGHT_FOOT].rate, found.found[LEFT_FOOT].rate);
    print_faults(faults);
    printf("   %s\n", variation_help(number));
    print_bars(figure, asked->meter);
}

/* ---- All of them, from the plainest to the fullest */

static void print_others(const VariationRow rows[VARIATION_COUNT])
{
    puts("not offered");
    for (uint32_t i = 1; i < VARIATION_COUNT; ++i) {
        if (rows[i].reason == VARY_AS_EARLIER) {
            printf("%2u %s: the same as %u, %s\n", i, variation_words(i), rows[i].same_as,
                   variation_words(rows[i].same_as));
        } else if (rows[i].reason) {
            printf("%2u %s: %s\n", i, variation_words(i), variation_reason(rows[i].reason));
        }
    }
}

static void print_all(const VaryAsked* const asked)
{
    static VariationRoom room; /* likewise */
    static VariationRow rows[VARIATION_COUNT];
    uint8_t order[VARIATION_COUNT];
    const uint32_t offered = variation_offers(asked->feet, asked->hands, asked->meter, rows, &room);
    const uint32_t count = variation_order(rows, order);
    printf("%u variations of %d, from the plainest to the fullest\n", offered, VARIATION_COUNT - 1);
    for (uint32_t i = 0; i < count; ++i) {
        print_row(asked, order[i],
                  variation_make(asked->feet, asked->hands, asked->meter, order[i], &room).figure);
    }
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

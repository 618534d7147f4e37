// SPDX-License-Identifier: ISC
#include "facts.h"

#include <math.h>

enum { KEYS = 128 };

static bool is_note_on(const ReelEvent* const event)
{
    return (event->bytes[0] & 0xF0) == 0x90 && event->bytes[2] > 0;
}

static bool is_click(const ReelEvent* const event, const ReelSection* const section)
{
    return event->bytes[1] == section->clicks[0] || event->bytes[1] == section->clicks[1];
}

/* Bars as they go by, the ones with a click told one after the other. */
typedef struct {
    ClickFacts* facts;
    int last;       /* bar with a click; -1 before the first */
    int clicks;     /* in it */
    int run;        /* bars with a click up to it */
    bool irregular; /* turns differ */
} BarWalk;

static void close_bar(BarWalk* const walk)
{
    ClickFacts* const facts = walk->facts;
    if (walk->clicks) {
        facts->per_bar = !facts->clicked || facts->per_bar == walk->clicks ? walk->clicks : 0;
        ++facts->clicked;
    }
    walk->clicks = 0;
}

/* The turn of bars with a click and `rest` without ends; the last may be cut short. */
static void close_turn(BarWalk* const walk, const int rest, const bool is_last)
{
    ClickFacts* const facts = walk->facts;
    if (!facts->rest) {
        facts->play = walk->run;
        facts->rest = rest;
    } else if (is_last ? walk->run > facts->play || rest > facts->rest
                       : walk->run != facts->play || rest != facts->rest) {
        walk->irregular = true;
    }
    walk->run = 0;
}

static void enter_bar(BarWalk* const walk, const int bar)
{
    close_bar(walk);
    if (bar > walk->last + 1) {
        close_turn(walk, bar - walk->last - 1, false);
    }
    walk->last = bar;
    ++walk->run;
}

ClickFacts facts_click(const Reel* const song, const ReelSection* const section, const int channel)
{
    ClickFacts facts = {.count_in = section->count_in, .bars = section->bars};
    BarWalk walk = {.facts = &facts, .last = -1};
    const double bar_seconds = section->beats * 240.0 / section->beat_unit / section->tempo;
    for (size_t i = 0; i < song->event_count; ++i) {
        const ReelEvent* const event = &song->events[i];
        if (!is_note_on(event) || (event->bytes[0] & 0x0F) != channel ||
            !is_click(event, section)) {
            continue;
        }
        const int bar =
            (int)floor((event->seconds + 1e-3) / bar_seconds) - section->count_in; /* exact */
        facts.clicks_counted += bar < 0;
        if (bar > walk.last) {
            enter_bar(&walk, bar);
        }
        walk.clicks += bar >= 0;
    }
    close_bar(&walk);
    if (facts.clicked < facts.bars) {
        close_turn(&walk, facts.bars - 1 - walk.last, true);
    }
    facts.rest = walk.irregular ? 0 : facts.rest;
    return facts;
}

static void print_bars(FILE* const out, const int bars)
{
    fprintf(out, "%d bar%s", bars, bars == 1 ? "" : "s");
}

void facts_print_click(FILE* const out, const ClickFacts* const facts)
{
    if (facts->count_in) {
        print_bars(out, facts->count_in);
        fputs(facts->clicks_counted ? " counted in, then " : " of rest, then ", out);
    }
    if (!facts->clicked) {
        fputs("no click", out);
        return;
    }
    if (facts->per_bar) {
        fprintf(out, "%d click%s a bar", facts->per_bar, facts->per_bar == 1 ? "" : "s");
    } else {
        fputs("clicks", out);
    }
    if (facts->clicked < facts->bars && facts->rest) {
        fputs(": ", out);
        print_bars(out, facts->play);
        fprintf(out, " with, %d without", facts->rest);
    } else if (facts->clicked < facts->bars) {
        fprintf(out, " in %d of ", facts->clicked);
        print_bars(out, facts->bars);
    }
}

/* The next stroke with this key from `*at` on, or NULL. */
static const ReelEvent* next_stroke(const Reel* const song, const ReelSection* const section,
                                    const int key, size_t* const at)
{
    while (*at < song->event_count) {
        const ReelEvent* const event = &song->events[(*at)++];
        if (is_note_on(event) && event->bytes[1] == key && !is_click(event, section)) {
            return event;
        }
    }
    return NULL;
}

void facts_stray(Stray* const stray, const Reel* const song, const Reel* const exact,
                 const ReelSection* const section)
{
    /* Nobody plays a stroke so far off: two on one key fell into one. */
    static const double most_ms = 200.0;
    for (int key = 0; key < KEYS; ++key) {
        double sum = 0.0, squares = 0.0, count = 0.0;
        size_t at = 0, exact_at = 0;
        for (;;) {
            const ReelEvent* const played = next_stroke(song, section, key, &at);
            const ReelEvent* const written = next_stroke(exact, section, key, &exact_at);
            const double off =
                played && written ? (played->seconds - written->seconds) * 1000.0 : (double)NAN;
            if (!(fabs(off) <= most_ms)) {
                break;
            }
            sum += off;
            squares += off * off;
            count += 1.0;
        }
        stray->squares += count > 0.0 ? fmax(0.0, squares - sum * sum / count) : 0.0;
        stray->count += count;
    }
}

double facts_stray_ms(const Stray* const stray)
{
    return stray->count > 0.0 ? sqrt(stray->squares / stray->count) : 0.0;
}

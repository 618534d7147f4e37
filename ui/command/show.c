// SPDX-License-Identifier: ISC
#include "commands.h"
#include "picks.h"
#include "../paper/sheet_fill.h"
#include "staff.h"

#include "../../plugin/engine/groove/fill.h"
#include "../scene/words.h"

#include <stdio.h>

static void print_bar(const Selection* const selection, const Meter meter, const int bar,
                      const bool left_handed)
{
    static StrokeList before, now; /* too large for a stack */
    const int64_t ticks = meter_bar_ticks(meter);
    groove_strokes(selection, meter, bar * ticks, (bar + 1) * ticks, &now);
    if (left_handed) {
        sheet_fill_mirror(&now);
    }
    const BarParts parts = groove_bar(selection, meter, bar);
    char fill[32] = "";
    words_fill(fill, sizeof fill, parts.fill_begin, parts.fill_end, meter);
    printf("bar %d, %c%s%s", bar + 1, 'A' + parts.part, parts.fill ? ": " : "",
           parts.fill ? fill : "");
    if (bar > 0 && stroke_lists_alike(&before, &now, ticks)) {
        printf(": as bar %d\n", bar);
    } else {
        putchar('\n');
        staff_print(stdout, &now, bar * ticks, meter);
    }
    before = now;
}

static void print_groove(const Picks* const picks, const bool left_handed)
{
    const EntryInfo* const info = picks->info;
    const Selection straight = sheet_fill_straight(&picks->selection);
    char swing[48];
    char title[256];
    picks_title(picks, title, sizeof title);
    words_swing(swing, sizeof swing, picks->selection.swing);
    printf("%s: %s, %g/%d at %g%s%s\n", title, info->family, picks->meter.beats_per_bar,
           picks->meter.beat_unit, picks->tempo, *swing ? ", " : "", swing);
    if (picks->as_written && *info->comment) {
        puts(info->comment);
    }
    const int bars = (int)fill_round_bars(&straight, FILL_ROUND_MAX);
    printf("signs: . rest, g ghost, o normal, O accent, f flam, d drag\n");
    for (int bar = 0; bar < bars; ++bar) {
        print_bar(&straight, picks->meter, bar, left_handed);
    }
}

int command_show(const Request* const request)
{
    Performance performance;
    Picks picks;
    int status = performance_open(&performance, request->bundle)
                     ? picks_make(&performance, request_first(request), &picks)
                     : FAILED;
    if (status == DONE) {
        print_groove(&picks, request_first(request)->left_handed);
    }
    performance_close(&performance);
    return status;
}

// SPDX-License-Identifier: ISC
#include "signature.h"

#include <stdio.h>
#include <string.h>

void signature_upper(const Meter meter, char text[SIGNATURE_ROOM])
{
    snprintf(text, SIGNATURE_ROOM, "%.4g", meter.beats_per_bar);
}

void signature_text(const Meter meter, char text[SIGNATURE_ROOM])
{
    snprintf(text, SIGNATURE_ROOM, "%.4g/%d", meter.beats_per_bar, (int)meter.beat_unit);
}

void signature_place(const Meter meter, const int64_t tick, char text[SIGNATURE_ROOM])
{
    static const struct {
        int part;
        int of;
        const char* said;
    } parts[] = {{0, 1, ""}, {1, 2, "&"}, {1, 4, "e"}, {3, 4, "a"}, {1, 3, "trip"}, {2, 3, "let"}};
    const int64_t beat = meter_beat_ticks(meter);
    const int number = (int)(tick / beat) + 1;
    const int64_t rest = tick % beat;
    for (size_t i = 0; i < sizeof parts / sizeof *parts; ++i) {
        if (rest * parts[i].of == beat * parts[i].part) {
            snprintf(text, SIGNATURE_ROOM, "%d%s", number, parts[i].said);
            return;
        }
    }
    const int64_t common = common_divisor(rest, beat);
    snprintf(text, SIGNATURE_ROOM, "%d+%d/%d", number, (int)(rest / common), (int)(beat / common));
}

/* ---- A groove in another meter */

static bool has_turn(const SeenTurns* const turns, const int64_t tick)
{
    for (uint32_t i = 0; i < turns->count; ++i) {
        if (turns->ticks[i] == tick) {
            return true;
        }
    }
    return false;
}

/* True if a bar of the phrase was told to start hands or feet again there. */
static bool is_told(const View* const view, const int64_t tick)
{
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const bar = view_bar(view, view_phrase(view) + i);
        if (bar && (has_turn(&bar->hands_turns, tick) || has_turn(&bar->feet_turns, tick))) {
            return true;
        }
    }
    return false;
}

/* Of what is as long as a bar, and is cut or starts again with one. */
static bool keeps_to_bars(const View* const view, const SeenBar* const bar)
{
    const Entry* const hands = view_entry(view, ENTRY_HANDS, (int32_t)bar->hands);
    const Entry* const feet = view_entry(view, ENTRY_FEET, (int32_t)bar->feet);
    return (hands && hands->figure && hands->figure->bars) ||
           (feet && feet->figure && feet->figure->bars);
}

enum { PLACES_MOST = 4 };

/* "starts again on 3, 4&". */
static void say_places(const View* const view, const SeenBar* const bar, const int64_t length,
                       char text[SIGNATURE_ROOM])
{
    const int64_t end = meter_bar_ticks(bar->meter);
    size_t used = 0;
    int count = 0;
    for (int64_t tick = length; tick < end; tick += length) {
        char place[SIGNATURE_ROOM];
        if (is_told(view, tick) && count++ < PLACES_MOST) {
            signature_place(bar->meter, tick, place);
            snprintf(text + used, SIGNATURE_ROOM - used, "%s%.16s",
                     used ? ", " : "starts again on ", place);
            used = strlen(text);
        }
    }
    if (!used) {
        snprintf(text, SIGNATURE_ROOM, "rolls over the bar line");
    } else if (count > PLACES_MOST) {
        snprintf(text + used, SIGNATURE_ROOM - used, " and on");
    }
}

/* "each bar loses its last 1/8". */
static void say_loss(const int64_t lost, char text[SIGNATURE_ROOM])
{
    const int64_t whole = 4 * TICKS_PER_QUARTER;
    const int64_t common = common_divisor(lost, whole);
    snprintf(text, SIGNATURE_ROOM, "each bar loses its last %d/%d", (int)(lost / common),
             (int)(whole / common));
}

void signature_mismatch(const View* const view, char text[SIGNATURE_ROOM])
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Entry* const entry = bar ? view_entry(view, ENTRY_GROOVE, (int32_t)bar->groove) : NULL;
    char own[SIGNATURE_ROOM], here[SIGNATURE_ROOM], what[SIGNATURE_ROOM];
    *text = '\0';
    if (!entry || !entry->groove || meter_equal(entry->groove->meter, bar->meter)) {
        return;
    }
    const int64_t length = meter_bar_ticks(entry->groove->meter);
    const int64_t room = meter_bar_ticks(bar->meter);
    if (length == room) {
        snprintf(what, sizeof what, "as long, counted otherwise");
    } else if (length < room) {
        say_places(view, bar, length, what);
    } else if (keeps_to_bars(view, bar)) {
        say_loss(length - room, what);
    } else {
        snprintf(what, sizeof what, "rolls over the bar line");
    }
    signature_text(entry->groove->meter, own);
    signature_text(bar->meter, here);
    snprintf(text, SIGNATURE_ROOM, "%.12s groove in %.12s: %.80s", own, here, what);
}

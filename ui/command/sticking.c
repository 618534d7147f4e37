// SPDX-License-Identifier: ISC
#include "sticking.h"

#include "staff.h"

enum { FINEST = 48, PLAIN = 8, INDENT = 5 };

const char sticking_key[] =
    "r, l: right foot, left foot; R, L: accented; ( and ): ghosts of right and left; b, B: both";

/* The two bars that are shown. */
typedef struct {
    StrokeList bars[2];
    Meter meter;
    int64_t ticks; /* of a bar */
    int64_t beat;
} StickingBars;

static bool is_kick(const Stroke stroke)
{
    return stroke.voice == VOICE_KICK || stroke.voice == VOICE_KICK_LEFT;
}

/* ---- Grids */

/* Whether so many steps in a beat hold every stroke of a span. */
static bool holds(const StickingBars* const shown, const int bar, const int64_t begin,
                  const int64_t end, const int columns)
{
    const StrokeList* const list = &shown->bars[bar];
    const int64_t step = shown->beat / columns;
    for (uint32_t i = 0; i < list->count && shown->beat % columns == 0; ++i) {
        const int64_t tick = list->strokes[i].tick - bar * shown->ticks;
        if (tick >= begin && tick < end && (tick - begin) % step) {
            return false;
        }
    }
    return shown->beat % columns == 0;
}

static int fewest(const StickingBars* const shown, const int bar, const int64_t begin,
                  const int64_t end)
{
    int columns = 1;
    while (columns < FINEST && !holds(shown, bar, begin, end, columns)) {
        ++columns;
    }
    return columns;
}

/* What all beats of both bars are on; 0 if that would be too fine to be read. */
static int common_columns(const StickingBars* const shown)
{
    for (int columns = 2; columns <= PLAIN; ++columns) {
        bool all = true;
        for (int64_t begin = 0; begin < shown->ticks && all; begin += shown->beat) {
            all = holds(shown, 0, begin, begin + shown->beat, columns) &&
                  holds(shown, 1, begin, begin + shown->beat, columns);
        }
        if (all) {
            return columns;
        }
    }
    return 0;
}

/* ---- Letters */

static char letter_of(const Stroke stroke)
{
    const bool right = stroke.limb == RIGHT_FOOT;
    const char* const letters = stroke.level == LEVEL_GHOST   ? ")("
                                : stroke.level > LEVEL_NORMAL ? "LR"
                                                              : "lr";
    return letters[right];
}

/* Two at once are one letter. */
static char letter_at(const StrokeList* const list, const int64_t tick, const bool kicks)
{
    char letter = '.';
    for (uint32_t i = 0; i < list->count; ++i) {
        const Stroke stroke = list->strokes[i];
        if (stroke.tick == tick && is_kick(stroke) == kicks) {
            const bool loud = stroke.level > LEVEL_NORMAL || letter == 'R' || letter == 'L';
            if (letter != '.') {
                letter = loud ? 'B' : 'b';
            } else if (kicks) {
                letter = letter_of(stroke);
            } else {
                letter = 'x';
            }
        }
    }
    return letter;
}

static void print_bar(FILE* const out, const StickingBars* const shown, const int bar,
                      const bool kicks)
{
    const int common = common_columns(shown);
    for (int64_t begin = 0; begin < shown->ticks; begin += shown->beat) {
        const int64_t end = begin + shown->beat;
        const int columns = common ? common : fewest(shown, bar, begin, end);
        const int64_t step = shown->beat / columns;
        fputs(begin ? " " : "", out);
        for (int64_t tick = begin; tick < end && tick < shown->ticks; tick += step) {
            fputc(letter_at(&shown->bars[bar], bar * shown->ticks + tick, kicks), out);
        }
    }
    fputc('|', out);
}

/* ---- The bars */

static void lay(const Figure* const feet, const Meter meter, StickingBars* const shown)
{
    const Groove groove = {
        .id = 1, .meter = meter, .form_bars = FORM_BARS_MAX, .parts = {{.feet = feet}}};
    const Selection selection = selection_of_groove(&groove);
    shown->meter = meter;
    shown->ticks = meter_bar_ticks(meter);
    shown->beat = staff_beat_ticks(meter);
    for (int bar = 0; bar < 2; ++bar) {
        groove_strokes(&selection, meter, bar * shown->ticks, (bar + 1) * shown->ticks,
                       &shown->bars[bar]);
    }
}

static bool any(const StickingBars* const shown, const bool kicks)
{
    for (int bar = 0; bar < 2; ++bar) {
        for (uint32_t i = 0; i < shown->bars[bar].count; ++i) {
            if (is_kick(shown->bars[bar].strokes[i]) == kicks) {
                return true;
            }
        }
    }
    return false;
}

static void print_line(FILE* const out, const StickingBars* const shown, const bool kicks)
{
    fprintf(out, "%*s|", INDENT, "");
    print_bar(out, shown, 0, kicks);
    if (!stroke_lists_alike(&shown->bars[0], &shown->bars[1], shown->ticks)) {
        print_bar(out, shown, 1, kicks);
    }
}

void sticking_print(FILE* const out, const Figure* const feet, const Meter meter)
{
    static StickingBars shown; /* too large for a stack */
    lay(feet, meter, &shown);
    print_line(out, &shown, true);
    const int64_t bars = common_multiple(feet->cycle_ticks, shown.ticks) / shown.ticks;
    if (bars > 2) {
        fprintf(out, " comes round after %d bars", (int)bars);
    }
    fputc('\n', out);
    if (any(&shown, false)) {
        print_line(out, &shown, false);
        fputs(" hat foot\n", out);
    }
}

// SPDX-License-Identifier: ISC
#include "staff.h"

#include "../scene/words.h"

#include <string.h>

enum { COLUMNS_MAX = 1024, PAGE_MAX = 2 * COLUMNS_MAX, FINEST = 48, LABEL_WIDTH = 28 };

static bool fits(const StrokeList* const strokes, const int64_t bar_begin, const int64_t step)
{
    for (uint32_t i = 0; i < strokes->count; ++i) {
        if ((strokes->strokes[i].tick - bar_begin) % step) {
            return false;
        }
    }
    return true;
}

int staff_columns(const StrokeList* const strokes, const int64_t bar_begin, const Meter meter)
{
    const int64_t beat = meter_beat_ticks(meter);
    for (int columns = 2; columns <= FINEST; ++columns) {
        if (beat % columns == 0 && fits(strokes, bar_begin, beat / columns)) {
            return columns;
        }
    }
    return 0;
}

int64_t staff_beat_ticks(const Meter meter)
{
    return (meter_is_compound(meter) ? 3 : 1) * meter_beat_ticks(meter);
}

/* The bar's columns on the page: a space stands after each beat, and in meters
   that count eighths by threes after each of those. */
typedef struct {
    int columns; /* in a beat unit */
    int count;   /* in the bar */
    int group;   /* columns between spaces */
    int64_t begin;
    int64_t step; /* ticks */
} Page;

static Page make_page(const int columns, const int64_t bar_begin, const Meter meter)
{
    const int64_t step = meter_beat_ticks(meter) / columns;
    const int64_t wanted = meter_bar_ticks(meter) / step;
    return (Page){columns, wanted < COLUMNS_MAX ? (int)wanted : COLUMNS_MAX,
                  (int)(staff_beat_ticks(meter) / step), bar_begin, step};
}

static int page_column(const Page page, const int column)
{
    return column + column / page.group;
}

static void print_padded(FILE* const out, const char* const label, char* const line)
{
    size_t end = strlen(line);
    while (end > 0 && line[end - 1] == ' ') {
        --end;
    }
    fprintf(out, "  %-*s%.*s\n", LABEL_WIDTH, label, (int)end, line);
}

static void print_count(FILE* const out, const Page page)
{
    char line[PAGE_MAX + 8];
    memset(line, ' ', PAGE_MAX);
    line[PAGE_MAX] = '\0';
    for (int beat = 0; beat * page.columns < page.count; ++beat) {
        char number[12];
        const int digits = snprintf(number, sizeof number, "%d", beat + 1);
        memcpy(&line[page_column(page, beat * page.columns)], number, (size_t)digits);
    }
    print_padded(out, "", line);
}

static void print_row(FILE* const out, const StrokeList* const strokes, const Page page,
                      const int limb, const int voice)
{
    char line[PAGE_MAX + 1];
    char label[LABEL_WIDTH + 16];
    bool used = false;
    memset(line, ' ', PAGE_MAX);
    line[PAGE_MAX] = '\0';
    for (int column = 0; column < page.count; ++column) {
        line[page_column(page, column)] = '.';
    }
    for (uint32_t i = 0; i < strokes->count; ++i) {
        const Stroke stroke = strokes->strokes[i];
        const int64_t column = (stroke.tick - page.begin) / page.step;
        if (stroke.limb == limb && stroke.voice == voice && column < page.count) {
            line[page_column(page, (int)column)] = ".goOfd"[stroke.level];
            used = true;
        }
    }
    if (used) {
        snprintf(label, sizeof label, "%s, %s", words_limb((Limb)limb), words_voice((Voice)voice));
        print_padded(out, label, line);
    }
}

void staff_print(FILE* const out, const StrokeList* const strokes, const int64_t bar_begin,
                 const Meter meter)
{
    const int columns = staff_columns(strokes, bar_begin, meter);
    if (!columns) {
        fprintf(out, "  its strokes are on too many grids for one row of text\n");
        return;
    }
    const Page page = make_page(columns, bar_begin, meter);
    print_count(out, page);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        for (int voice = 0; voice < VOICE_COUNT; ++voice) {
            print_row(out, strokes, page, limb, voice);
        }
    }
}

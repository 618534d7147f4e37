// SPDX-License-Identifier: ISC
#include "sheet.h"

#include <stddef.h>

static bool same_strokes(const StrokeList* const a, const StrokeList* const b)
{
    bool same = a->count == b->count;
    for (uint32_t i = 0; same && i < a->count; ++i) {
        const Stroke x = a->strokes[i];
        const Stroke y = b->strokes[i];
        same = x.tick == y.tick && x.limb == y.limb && x.voice == y.voice && x.level == y.level;
    }
    return same;
}

static void fill_bar(SheetBar* const row, const Choice* const choice, const Meter meter,
                     const int bar)
{
    const int64_t ticks = meter_bar_ticks(meter);
    choice_strokes(choice, meter, bar * ticks, (bar + 1) * ticks, &row->strokes);
    for (uint32_t i = 0; i < row->strokes.count; ++i) {
        row->strokes.strokes[i].tick -= bar * ticks;
    }
    row->first = row->last = bar + 1;
    row->letter = (char)('A' + choice->groove->form[bar % (int)choice->groove->form_bars]);
    row->turns = bar + 1 == (int)choice->phrase_bars && choice->turnaround;
}

void sheet_fill(Sheet* const sheet, const Choice* const choice, const Meter meter)
{
    sheet->meter = meter;
    sheet->bars = choice->phrase_bars < FORM_BARS_MAX ? (int)choice->phrase_bars : FORM_BARS_MAX;
    sheet->count = 0;
    for (int bar = 0; bar < sheet->bars; ++bar) {
        SheetBar* const row = &sheet->rows[sheet->count];
        fill_bar(row, choice, meter, bar);
        sheet->form[bar] = row->letter;
        SheetBar* const before = sheet->count ? row - 1 : NULL;
        if (before && before->letter == row->letter && before->turns == row->turns &&
            same_strokes(&before->strokes, &row->strokes)) {
            before->last = bar + 1;
        } else {
            ++sheet->count;
        }
    }
    sheet->form[sheet->bars] = '\0';
}

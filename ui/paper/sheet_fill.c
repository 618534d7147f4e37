// SPDX-License-Identifier: ISC
#include "sheet_fill.h"

#include "../../plugin/engine/groove/fill.h"
#include "../notation/brackets.h"
#include "../notation/groups.h"

#include <stddef.h>

static void fill_bar(SheetBar* const row, const Selection* const selection, const Meter meter,
                     const int bar)
{
    const int64_t ticks = meter_bar_ticks(meter);
    groove_strokes(selection, meter, bar * ticks, (bar + 1) * ticks, &row->strokes);
    for (uint32_t i = 0; i < row->strokes.count; ++i) {
        row->strokes.strokes[i].tick -= bar * ticks;
    }
    row->feet_turn_count =
        groove_turns(selection, meter, bar, PAIR_FEET, row->feet_turns, SHEET_TURNS_MAX);
    row->first = row->last = bar + 1;
    row->letter = (char)('A' + selection->groove->form[bar % (int)selection->phrase_bars %
                                                       (int)selection->groove->form_bars]);
    const BarParts parts = groove_bar(selection, meter, bar);
    row->has_fill = parts.fill != NULL;
    row->fill_begin = parts.fill_begin;
    row->fill_end = parts.fill_end;
}

Selection sheet_fill_straight(const Selection* const selection)
{
    Selection straight = *selection;
    straight.swing.ratio = 1.0;
    return straight;
}

/* Right and left stand beside each other in Limb. */
void sheet_fill_mirror(StrokeList* const strokes)
{
    for (uint32_t i = 0; i < strokes->count; ++i) {
        strokes->strokes[i].limb ^= 1U;
    }
}

void sheet_fill(Sheet* const sheet, const Selection* const selection, const Meter meter)
{
    sheet->meter = meter;
    const int round = (int)fill_round_bars(selection, FORM_BARS_MAX);
    sheet->bars = round < FORM_BARS_MAX ? round : FORM_BARS_MAX;
    sheet->count = 0;
    for (int bar = 0; bar < sheet->bars; ++bar) {
        SheetBar* const row = &sheet->rows[sheet->count];
        fill_bar(row, selection, meter, bar);
        sheet->form[bar] = row->letter;
        SheetBar* const before = sheet->count ? row - 1 : NULL;
        if (before && before->letter == row->letter && before->has_fill == row->has_fill &&
            before->fill_begin == row->fill_begin && before->fill_end == row->fill_end &&
            stroke_lists_alike(&before->strokes, &row->strokes, 0) &&
            before->feet_turn_count == row->feet_turn_count &&
            (!row->feet_turn_count || before->feet_turns[0] == row->feet_turns[0])) {
            before->last = bar + 1;
        } else {
            ++sheet->count;
        }
    }
    sheet->form[sheet->bars] = '\0';
    groups_find(sheet);
    brackets_find(sheet);
    sheet->beat = note_value_of(meter, sheet->group_count > 0);
}

void sheet_fill_written(Sheet* const sheet, const Selection* const selection, const Meter meter,
                        const bool left_handed)
{
    const Selection straight = sheet_fill_straight(selection);
    sheet_fill(sheet, &straight, meter);
    sheet->swing = selection->swing;
    for (int row = 0; left_handed && row < sheet->count; ++row) {
        sheet_fill_mirror(&sheet->rows[row].strokes);
    }
}

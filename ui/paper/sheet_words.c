// SPDX-License-Identifier: ISC
#include "sheet_words.h"

#include "../../plugin/engine/groove/foot_load.h"

#include <stddef.h>

const char* sheet_words_name(const Bank* const bank, const EntryKind kind,
                             const Figure* const figure)
{
    for (uint32_t i = 0; figure && i < bank_count(bank, kind); ++i) {
        const EntryInfo* const info = bank_entry(bank, kind, i);
        if (info->id == figure->id) {
            return info->label;
        }
    }
    return "";
}

static void name_parts(Sheet* const sheet, const Bank* const bank, const Selection* const selection)
{
    for (int i = 0; i < PARTS_MAX; ++i) {
        const Part* const part = &selection->groove->parts[i];
        const Figure* const hands = selection->hands ? selection->hands : part->hands;
        const Figure* const feet = selection->feet ? selection->feet : part->feet;
        sheet->parts[i] = (SheetPart){sheet_words_name(bank, ENTRY_HANDS, hands),
                                      sheet_words_name(bank, ENTRY_FEET, feet)};
    }
    sheet->fill = sheet_words_name(bank, ENTRY_TURNAROUND, selection->turnaround);
}

void sheet_words_fill(Sheet* const sheet, const Bank* const bank, const Selection* const selection,
                      const double tempo, const bool left_handed)
{
    static FootLoad load; /* too large for a stack */
    name_parts(sheet, bank, selection);
    foot_load_all(&load, selection, sheet->meter, tempo);
    for (int foot = 0; foot < FOOT_LOAD_FEET; ++foot) {
        const FootDemand* const found = &load.found[left_handed ? 1 - foot : foot];
        sheet->feet[foot] = (SheetFoot){found->rate, found->gap_ms};
    }
    sheet->tempo = tempo;
    sheet->meet_after = groove_realign_bars(selection, sheet->meter);
}

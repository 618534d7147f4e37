// SPDX-License-Identifier: ISC
#include "chartfile.h"

#include "outfile.h"
#include "../file/bytes.h"
#include "../paper/chart_paper.h"
#include "../scene/chart.h"
#include "commands.h"
#include "picks.h"
#include "../paper/sheet_fill.h"
#include "../paper/sheet_words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int save(const Sheet* const sheet, const char* const path, const bool force)
{
    Bytes file = {.bytes = NULL};
    char why[SAVE_WHY_ROOM];
    const char* const problem = chart_paper_make(sheet, path, &file);
    bool good = !problem;
    if (problem) {
        fprintf(stderr, "fourlimb: the chart can't be drawn: %s\n", problem);
    } else if (!outfile_save(path, file.bytes, file.size, force, why)) {
        fprintf(stderr, "fourlimb: %s\n", why);
        good = false;
    } else {
        printf("wrote %s: %d bars on %d page%s\n", path, sheet->bars, chart_pages(sheet),
               chart_pages(sheet) == 1 ? "" : "s");
    }
    bytes_free(&file);
    return good ? DONE : FAILED;
}

bool chartfile_kind(const char* const path)
{
    return chart_paper_kind(path);
}

int chartfile_write(const Performance* const performance, const Section* const section,
                    const char* const title, const char* const path, const bool force)
{
    static Sheet sheet; /* too large for a stack */
    Picks picks;
    const int status = picks_make(performance, section, &picks);
    if (status != DONE) {
        return status;
    }
    sheet_fill_written(&sheet, &picks.selection, picks.meter, section->left_handed);
    sheet.title = title ? title : picks.info->label;
    sheet.comment = picks.as_written ? picks.info->comment : "";
    sheet_words_fill(&sheet, performance->bank, &picks.selection, picks.tempo,
                     section->left_handed);
    return save(&sheet, path, force);
}

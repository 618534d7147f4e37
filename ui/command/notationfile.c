// SPDX-License-Identifier: ISC
#include "notationfile.h"

#include "../file/bytes.h"
#include "../notation/musicxml.h"
#include "commands.h"
#include "outfile.h"
#include "picks.h"
#include "sheet_fill.h"
#include "sheet_words.h"

#include <stdio.h>
#include <string.h>

bool notationfile_kind(const char* const path)
{
    const char* const dot = strrchr(path, '.');
    return dot && (!strcmp(dot, ".musicxml") || !strcmp(dot, ".xml"));
}

static int save(const MusicXmlScore* const score, const char* const path, const bool force)
{
    Bytes file = {.bytes = NULL};
    char why[MUSICXML_WHY_ROOM];
    char refused[SAVE_WHY_ROOM];
    bool good = musicxml_write(score, &file, why);
    if (!good) {
        fprintf(stderr, "fourlimb: no notation was written: %s\n", why);
    } else if (!outfile_save(path, file.bytes, file.size, force, refused)) {
        fprintf(stderr, "fourlimb: %s\n", refused);
        good = false;
    } else {
        printf("wrote %s: %d bars as MusicXML\n", path, score->sheet->bars);
    }
    bytes_free(&file);
    return good ? DONE : FAILED;
}

/* A shuffle is told, not written out. */
int notationfile_write(const Performance* const performance, const Section* const section,
                       const char* const title, const char* const path, const bool force)
{
    static Sheet sheet; /* too large for a stack */
    Picks picks;
    const int status = picks_make(performance, section, &picks);
    if (status != DONE) {
        return status;
    }
    char name[256];
    picks_title(&picks, name, sizeof name);
    sheet_fill_written(&sheet, &picks.selection, picks.meter, section->left_handed);
    sheet.title = title ? title : name;
    sheet.tempo = picks.tempo;
    const MusicXmlScore score = {
        &sheet, picks.selection.swing,
        sheet_words_name(performance->bank, ENTRY_TURNAROUND, picks.selection.turnaround),
        picks.selection.kit->notes};
    return save(&score, path, force);
}

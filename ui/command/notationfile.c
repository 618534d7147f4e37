// SPDX-License-Identifier: ISC
#include "notationfile.h"

#include "../file/bytes.h"
#include "../notation/lilypond.h"
#include "../notation/musicxml.h"
#include "commands.h"
#include "engraver.h"
#include "outfile.h"
#include "picks.h"
#include "../paper/sheet_fill.h"
#include "../paper/sheet_words.h"

#include <stdio.h>
#include <string.h>

enum {
    NOTATION_WHY_ROOM =
        (int)ENGRAVER_WHY_ROOM > (int)SCORE_WHY_ROOM ? (int)ENGRAVER_WHY_ROOM : (int)SCORE_WHY_ROOM
};

/* Makes the file's bytes. */
typedef bool (*NotationMaker)(const NotationScore* score, Bytes* file, char why[NOTATION_WHY_ROOM]);

static bool make_musicxml(const NotationScore* const score, Bytes* const file,
                          char why[NOTATION_WHY_ROOM])
{
    return musicxml_write(score, file, why);
}

static bool make_lilypond(const NotationScore* const score, Bytes* const file,
                          char why[NOTATION_WHY_ROOM])
{
    return lilypond_write(score, file, why);
}

static bool make_pdf(const NotationScore* const score, Bytes* const file,
                     char why[NOTATION_WHY_ROOM])
{
    Bytes source = {.bytes = NULL};
    const bool good = lilypond_write(score, &source, why) && engraver_pdf(&source, file, why);
    bytes_free(&source);
    return good;
}

static const struct {
    const char* ending;
    NotationMaker make;
    const char* words;
} notation_kinds[] = {{".musicxml", make_musicxml, "MusicXML"},
                      {".xml", make_musicxml, "MusicXML"},
                      {".ly", make_lilypond, "LilyPond's input"},
                      {".pdf", make_pdf, "LilyPond engraves them"}};

static int kind_of(const char* const path)
{
    const char* const dot = strrchr(path, '.');
    for (int i = 0; dot && i < (int)(sizeof notation_kinds / sizeof *notation_kinds); ++i) {
        if (!strcmp(dot, notation_kinds[i].ending)) {
            return i;
        }
    }
    return -1;
}

bool notationfile_kind(const char* const path)
{
    return kind_of(path) >= 0;
}

static int save(const NotationScore* const score, const char* const path, const bool force)
{
    Bytes file = {.bytes = NULL};
    char why[NOTATION_WHY_ROOM] = "";
    char refused[SAVE_WHY_ROOM];
    const int kind = kind_of(path);
    bool good = notation_kinds[kind].make(score, &file, why);
    if (!good) {
        fprintf(stderr, "fourlimb: no notation was written: %s\n", why);
    } else if (!outfile_save(path, file.bytes, file.size, force, refused)) {
        fprintf(stderr, "fourlimb: %s\n", refused);
        good = false;
    } else {
        printf("wrote %s: %d bars as %s\n", path, score->sheet->bars, notation_kinds[kind].words);
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
    const NotationScore score = {
        &sheet, picks.selection.swing,
        sheet_words_name(performance->bank, ENTRY_TURNAROUND, picks.selection.turnaround),
        picks.selection.kit->notes};
    return save(&score, path, force);
}

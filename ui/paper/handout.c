// SPDX-License-Identifier: ISC
#include "handout.h"

#include "../../plugin/bank/save.h"
#include "../../plugin/engine/groove/fill.h"
#include "../file/phrase_file.h"
#include "chart_paper.h"
#include "sheet_fill.h"
#include "sheet_words.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FOLDERS_MOST = 1000, LINE_ROOM = 1024, FILE_ROOM = HANDOUT_PATH_ROOM + 512 };

static const char* const endings[] = {".ttl", ".mid", ".pdf", ".txt"};
enum { TURTLE, MIDI, CHART, TEXT, ENDINGS };

typedef struct {
    const Handout* handout;
    HandoutGroove groove;
    Library library; /* what it plays, with the kit maps that there are */
    Settings settings;
    Selection selection;
    Sheet* sheet;
    char plain[PHRASE_NAME_ROOM]; /* what files are called */
    const char* folder;           /* the new one */
    char* why;
} HandoutWork;

static void file_of(const HandoutWork* const work, const int ending, char path[FILE_ROOM])
{
    snprintf(path, FILE_ROOM, "%s/%s%s", work->folder, work->plain, endings[ending]);
}

static bool save(HandoutWork* const work, const int ending, const void* const bytes,
                 const size_t size)
{
    char path[FILE_ROOM];
    char why[SAVE_WHY_ROOM];
    file_of(work, ending, path);
    const bool good = save_file(path, bytes, size, false, why);
    if (!good) {
        snprintf(work->why, HANDOUT_WHY_ROOM, "%s", why);
    }
    return good;
}

/* ---- What goes into it */

static bool write_midi(HandoutWork* const work)
{
    char path[PHRASE_PATH_ROOM];
    char why[PHRASE_WHY_ROOM];
    const HandoutWish* const wish = &work->handout->wish;
    const Phrase phrase = {.library = &work->library,
                           .settings = &work->settings,
                           .meter = wish->meter,
                           .tempo = wish->tempo,
                           .bars = (int)fill_round_bars(&work->selection, FILL_ROUND_MAX),
                           .name = work->plain,
                           .straight = false,
                           .folder = work->folder};
    const bool good = phrase_file(&phrase, path, why);
    if (!good) {
        snprintf(work->why, HANDOUT_WHY_ROOM, "%s", why);
    }
    return good;
}

static bool write_chart(HandoutWork* const work)
{
    Bytes file = {.bytes = NULL};
    const char* const problem = chart_paper_make(work->sheet, endings[CHART], &file);
    if (problem) {
        snprintf(work->why, HANDOUT_WHY_ROOM, "the chart can't be drawn: %s", problem);
    }
    const bool good = !problem && save(work, CHART, file.bytes, file.size);
    bytes_free(&file);
    return good;
}

/* "Ostrel: 7/8 at 180, 4 bars; right foot 8.0, left foot 6.2 strokes a second; ..." */
static bool write_line(HandoutWork* const work)
{
    char line[LINE_ROOM];
    const Sheet* const sheet = work->sheet;
    const bool is_left = *work->groove.left;
    const int length = snprintf(
        line, sizeof line,
        "%s: %g/%d at %g, %u bar%s; right foot %.1f, left foot %.1f strokes a second; for "
        "Fourlimb put %s.ttl into ~/.local/share/fourlimb%s%s\n",
        work->handout->wish.name, sheet->meter.beats_per_bar, sheet->meter.beat_unit, sheet->tempo,
        work->selection.phrase_bars, work->selection.phrase_bars == 1 ? "" : "s",
        sheet->feet[0].rate, sheet->feet[1].rate, work->plain,
        is_left ? "; the MIDI file and the chart also have what that can't say: " : "",
        work->groove.left);
    return length > 0 && length < (int)sizeof line && save(work, TEXT, line, (size_t)length);
}

static bool write_all(HandoutWork* const work)
{
    return save(work, TURTLE, work->groove.text, strlen(work->groove.text)) && write_midi(work) &&
           write_chart(work) && write_line(work);
}

/* ---- The folder */

static bool make_folder(const HandoutWork* const work, char path[HANDOUT_PATH_ROOM])
{
    char parent[PHRASE_PATH_ROOM];
    phrase_file_place(work->handout->folder, parent);
    for (int i = 1; i < FOLDERS_MOST; ++i) {
        char number[16] = "";
        if (i > 1) {
            snprintf(number, sizeof number, " %d", i);
        }
        const int length =
            snprintf(path, HANDOUT_PATH_ROOM, "%s/%s%s", parent, work->plain, number);
        if (length < 0 || length >= HANDOUT_PATH_ROOM) {
            snprintf(work->why, HANDOUT_WHY_ROOM, "the folder's name is too long");
            return false;
        }
        if (!mkdir(path, 0777)) {
            return true;
        }
        if (errno != EEXIST) {
            snprintf(work->why, HANDOUT_WHY_ROOM, "the folder %.512s can't be made: %s", path,
                     strerror(errno));
            return false;
        }
    }
    snprintf(work->why, HANDOUT_WHY_ROOM, "there are too many folders of this name");
    return false;
}

static void take_away(const HandoutWork* const work)
{
    char path[FILE_ROOM];
    for (int ending = 0; ending < ENDINGS; ++ending) {
        file_of(work, ending, path);
        unlink(path);
    }
    rmdir(work->folder);
}

static void fill_sheet(HandoutWork* const work)
{
    const HandoutWish* const wish = &work->handout->wish;
    Sheet* const sheet = work->sheet;
    sheet_fill_written(sheet, &work->selection, wish->meter, work->handout->left_handed);
    sheet_words_fill(sheet, work->groove.bank, &work->selection, wish->tempo,
                     work->handout->left_handed);
    sheet->title = wish->name;
    sheet->comment = "";
}

static bool prepare(HandoutWork* const work)
{
    const HandoutWish* const wish = &work->handout->wish;
    if (!handout_groove_make(&work->groove, wish, work->why)) {
        return false;
    }
    work->library = *bank_library(work->groove.bank);
    work->library.kits = work->handout->kits->kits;
    work->library.kit_count = work->handout->kits->kit_count;
    work->settings = handout_groove_settings(&work->groove, wish->settings);
    work->selection = selection_make(&work->library, &work->settings, wish->tempo);
    work->sheet = calloc(1, sizeof(Sheet));
    if (!work->sheet) {
        snprintf(work->why, HANDOUT_WHY_ROOM, "there is no memory for the chart");
        return false;
    }
    fill_sheet(work);
    phrase_file_name(wish->name, work->plain);
    return true;
}

bool handout_write(const Handout* const handout, char path[HANDOUT_PATH_ROOM],
                   char why[HANDOUT_WHY_ROOM])
{
    HandoutWork* const work = calloc(1, sizeof(HandoutWork)); /* too large for a stack */
    if (!work) {
        snprintf(why, HANDOUT_WHY_ROOM, "there is no memory for it");
        return false;
    }
    work->handout = handout;
    work->why = why;
    work->folder = path;
    bool good = prepare(work) && make_folder(work, path);
    if (good && !write_all(work)) {
        take_away(work);
        good = false;
    }
    handout_groove_free(&work->groove);
    free(work->sheet);
    free(work);
    return good;
}

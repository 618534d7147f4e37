// SPDX-License-Identifier: ISC
#include "lilypond.h"

#include "../scene/words.h"
#include "drum_staff.h"
#include "lilypond_bar.h"
#include "road.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const NotationScore* score;
    Bytes* file;
    char letter; /* of the last bar */
    StaffVoices voices;
} LilyWriter;

/* ---- Above the notes */

/* People's words between quotes. */
static void put_quoted(Bytes* const file, const char* const text)
{
    lilypond_bar_put(file, "\"");
    for (const char* at = text; *at; ++at) {
        lilypond_bar_put(file, *at == '"' || *at == '\\' ? "\\%c" : "%c",
                         *at < ' ' && *at > 0 ? ' ' : *at);
    }
    lilypond_bar_put(file, "\"");
}

static const char* style_of(const char* const head)
{
    return !strcmp(head, "x")          ? "cross"
           : !strcmp(head, "diamond")  ? "diamond"
           : !strcmp(head, "triangle") ? "triangle"
           : !strcmp(head, "cross")    ? "xcircle"
                                       : "()";
}

static const char* script_of(const Voice voice)
{
    return voice == VOICE_HAT_OPEN ? "open" : voice == VOICE_HAT_HALF_OPEN ? "halfopen" : "#f";
}

/* LilyPond counts places from the middle line, which a treble clef calls B4. */
static int line_of(const DrumPlace place)
{
    static const char steps[] = "CDEFGAB";
    return (int)(strchr(steps, place.step) - steps) + 7 * place.octave - (6 + 7 * 4);
}

static void put_style(Bytes* const file)
{
    lilypond_bar_put(file, "#(define places (alist->hash-table '(\n");
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        const DrumPlace place = drum_staff_place((Voice)voice);
        if (place.step) {
            lilypond_bar_put(file, "  (%s %s %s %d)\n", lilypond_bar_name((Voice)voice),
                             style_of(place.head), script_of((Voice)voice), line_of(place));
        }
    }
    lilypond_bar_put(file, ")))\n\n");
}

static void put_header(const LilyWriter* const writer)
{
    Bytes* const file = writer->file;
    lilypond_bar_put(file, "\\version \"2.22.0\"\n\\header {\n  title = ");
    put_quoted(file, writer->score->sheet->title);
    lilypond_bar_put(file, "\n  tagline = ##f\n}\n#(set-global-staff-size 24)\n\n");
    put_style(file);
}

static void put_tempo(const LilyWriter* const writer)
{
    char swing[96];
    const Sheet* const sheet = writer->score->sheet;
    const NoteValue beat = sheet->beat;
    words_swing(swing, sizeof swing, writer->score->swing);
    lilypond_bar_put(writer->file, "  \\tempo ");
    if (*swing) {
        put_quoted(writer->file, swing);
    }
    lilypond_bar_put(writer->file, " %d%s = %.0f\n", beat.unit, beat.dotted ? "." : "",
                     sheet->tempo / beat.quarters);
}

static void put_meter(const LilyWriter* const writer)
{
    const Sheet* const sheet = writer->score->sheet;
    lilypond_bar_put(writer->file, "  \\numericTimeSignature \\time ");
    for (int i = 0; i < sheet->group_count; ++i) {
        lilypond_bar_put(writer->file, "%s%d", i ? "," : "", sheet->groups[i]);
    }
    lilypond_bar_put(writer->file, "%s%.10g/%d\n", sheet->group_count ? " " : "",
                     sheet->meter.beats_per_bar, (int)sheet->meter.beat_unit);
    put_tempo(writer);
}

/* ---- Bars */

static void put_words(const LilyWriter* const writer, const SheetBar* const bar)
{
    char fill[32];
    const char* const name = writer->score->fill;
    if (bar->has_fill) {
        words_fill(fill, sizeof fill, bar->fill_begin, bar->fill_end, writer->score->sheet->meter);
        lilypond_bar_put(writer->file, "  <>^\\markup \\small \\concat { \"%s%s\" ", fill,
                         *name ? ": " : "");
        put_quoted(writer->file, name);
        lilypond_bar_put(writer->file, " }\n");
    }
}

static void put_bar(LilyWriter* const writer, const int index)
{
    Limb limb = RIGHT_HAND;
    const Sheet* const sheet = writer->score->sheet;
    const SheetBar* const bar = road_bar(sheet, index);
    if (bar->letter != writer->letter) {
        lilypond_bar_put(writer->file, "  \\mark \\markup \\box \"%c\"\n", bar->letter);
    }
    writer->letter = bar->letter;
    put_words(writer, bar);
    staff_voices_make(&writer->voices, &bar->strokes, sheet->meter, &limb);
    lilypond_bar_notes(writer->file, &writer->voices, &bar->strokes, sheet);
    lilypond_bar_put(writer->file, "  | %% %d\n", index + 1);
}

static void put_bars(LilyWriter* const writer, const int first, const int count)
{
    for (int i = 0; i < count; ++i) {
        put_bar(writer, first + i);
    }
}

static void put_stretch(LilyWriter* const writer, const RoadStretch stretch)
{
    Bytes* const file = writer->file;
    const bool has_endings = stretch.second >= 0;
    if (stretch.times < 2) {
        put_bars(writer, stretch.first, stretch.count);
        return;
    }
    if (stretch.times > 2) {
        lilypond_bar_put(file, "  <>^\\markup \\small \"%d times\"\n", stretch.times);
    }
    lilypond_bar_put(file, "  \\repeat volta %d {\n", stretch.times);
    put_bars(writer, stretch.first, stretch.count - has_endings);
    lilypond_bar_put(file, "  }\n");
    if (has_endings) {
        lilypond_bar_put(file, "  \\alternative { {\n");
        put_bar(writer, stretch.first + stretch.count - 1);
        lilypond_bar_put(file, "  } {\n");
        put_bar(writer, stretch.second);
        lilypond_bar_put(file, "  } }\n");
    }
}

static void put_all(LilyWriter* const writer)
{
    const Road road = road_make(writer->score->sheet);
    put_header(writer);
    lilypond_bar_put(writer->file, "groove = \\drummode {\n");
    put_meter(writer);
    for (int i = 0; i < road.count; ++i) {
        put_stretch(writer, road.stretches[i]);
    }
    lilypond_bar_put(writer->file, "  \\bar \"|.\"\n}\n\n"
                                   "\\score {\n  \\new DrumStaff \\with {\n"
                                   "    drumStyleTable = #places\n"
                                   "    \\override TextScript.staff-padding = #3\n"
                                   "  } \\groove\n"
                                   "  \\layout { indent = 0 }\n}\n\n"
                                   "\\score {\n  \\unfoldRepeats \\new DrumStaff \\groove\n"
                                   "  \\midi { }\n}\n");
}

bool lilypond_write(const NotationScore* const score, Bytes* const file, char why[SCORE_WHY_ROOM])
{
    LilyWriter* const writer = calloc(1, sizeof *writer);
    snprintf(why, SCORE_WHY_ROOM, "there is no memory for the file");
    if (!writer) {
        return false;
    }
    writer->score = score;
    writer->file = file;
    const bool can = score_can(score, &writer->voices, why);
    if (can) {
        put_all(writer);
    }
    free(writer);
    return can && !file->failed;
}

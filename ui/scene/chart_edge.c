// SPDX-License-Identifier: ISC
#include "chart_edge.h"

#include "ink.h"
#include "signature.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

static const double line_height = 11.5;
static const double first_line = 99.0;
static const Type small = {8.5, false, ALIGN_LEFT, GREY(0.0)};

/* The largest size at which words fit. */
static double fitting_size(cairo_t* const cairo, const char* const words, double size,
                           const bool bold, const double room)
{
    while (size > 6.0 &&
           ink_width(cairo, (Type){size, bold, ALIGN_LEFT, GREY(0.0)}, words) > room) {
        size -= 0.5;
    }
    return size;
}

/* ---- Above */

static void groups_text(const Sheet* const sheet, char text[SIGNATURE_ROOM])
{
    size_t length = 0;
    text[0] = '\0';
    for (int i = 0; i < sheet->group_count; ++i) {
        length += (size_t)snprintf(text + length, SIGNATURE_ROOM - length, "%s%d", i ? "+" : "",
                                   sheet->groups[i]);
    }
}

static void draw_title(cairo_t* const cairo, const Sheet* const sheet, const double width)
{
    char meter[SIGNATURE_ROOM];
    char groups[SIGNATURE_ROOM];
    const double right = width - CHART_MARGIN;
    signature_text(sheet->meter, meter);
    groups_text(sheet, groups);
    const double wide =
        ink_text(cairo, right, 58.0, (Type){22.0, true, ALIGN_RIGHT, GREY(0.0)}, meter);
    ink_text(cairo, right, 82.0, (Type){12.0, true, ALIGN_RIGHT, GREY(0.0)}, groups);
    const double room = right - CHART_MARGIN - wide - 16.0;
    const double size = fitting_size(cairo, sheet->title, 22.0, true, room);
    ink_text(cairo, CHART_MARGIN, 58.0, (Type){size, true, ALIGN_LEFT, GREY(0.0)}, sheet->title);
}

/* In the note that a drummer counts. */
static double draw_tempo(cairo_t* const cairo, const Sheet* const sheet)
{
    char text[32];
    const NoteValue beat = sheet->beat;
    head_note(cairo, CHART_MARGIN + 4.0, 78.0, beat.unit, beat.dotted,
              (Mark){GREY(0.0), 1.0, false});
    snprintf(text, sizeof text, "= %.4g", sheet->tempo / beat.quarters);
    const double x = CHART_MARGIN + (beat.dotted ? 18.0 : 14.0);
    return x + ink_text(cairo, x, 82.0, (Type){12.0, true, ALIGN_LEFT, GREY(0.0)}, text) + 18.0;
}

static void bars_text(const Sheet* const sheet, char* const text, const size_t room)
{
    const char* const plural = sheet->bars == 1 ? "" : "s";
    if (sheet->meet_after > 0 && sheet->meet_after != (uint32_t)sheet->bars) {
        snprintf(text, room, "%d bar%s; all meet again after %u", sheet->bars, plural,
                 sheet->meet_after);
    } else {
        snprintf(text, room, "%d bar%s", sheet->bars, plural);
    }
}

static void draw_second_line(cairo_t* const cairo, const Sheet* const sheet, const double width)
{
    char text[96];
    char groups[SIGNATURE_ROOM];
    const Type bold = {12.0, true, ALIGN_LEFT, GREY(0.0)};
    double x = draw_tempo(cairo, sheet);
    for (const char* letter = sheet->form; *letter; ++letter) {
        const char one[] = {*letter, '\0'};
        x += ink_text(cairo, x, 82.0, bold, one) + 4.0;
    }
    bars_text(sheet, text, sizeof text);
    x += 10.0;
    x += ink_text(cairo, x, 82.0, (Type){9.5, false, ALIGN_LEFT, GREY(0.2)}, text) + 18.0;
    words_swing(text, sizeof text, sheet->swing);
    groups_text(sheet, groups);
    const Type right = {12.0, true, ALIGN_RIGHT, GREY(0.0)};
    const double room = width - CHART_MARGIN - x - ink_width(cairo, right, groups) - 8.0;
    const double size = fitting_size(cairo, text, 12.0, true, room);
    ink_text(cairo, x, 82.0, (Type){size, true, ALIGN_LEFT, GREY(0.0)}, text);
}

/* The letters that the form has, each once and in their order. */
static int letters_of(const Sheet* const sheet, char letters[PARTS_MAX + 1])
{
    int count = 0;
    for (int part = 0; part < PARTS_MAX; ++part) {
        if (strchr(sheet->form, 'A' + part)) {
            letters[count++] = (char)('A' + part);
        }
    }
    letters[count] = '\0';
    return count;
}

static void part_text(const Sheet* const sheet, const char letter, char* const text,
                      const size_t room)
{
    const SheetPart* const part = &sheet->parts[letter - 'A'];
    const char* const hands = part->hands && *part->hands ? part->hands : "silent";
    const char* const feet = part->feet && *part->feet ? part->feet : "silent";
    snprintf(text, room, "%c: hands %s; feet %s", letter, hands, feet);
}

static bool has_comment(const Sheet* const sheet)
{
    return sheet->comment && *sheet->comment;
}

static bool has_fill(const Sheet* const sheet)
{
    return sheet->fill && *sheet->fill;
}

double chart_edge_head(const Sheet* const sheet, const int page)
{
    char letters[PARTS_MAX + 1];
    const int lines = letters_of(sheet, letters) + has_comment(sheet) + has_fill(sheet);
    return page ? first_line : first_line + line_height * lines;
}

static double draw_line(cairo_t* const cairo, const double y, const double width,
                        const char* const text)
{
    const double size = fitting_size(cairo, text, 9.0, false, width - 2.0 * CHART_MARGIN);
    ink_text(cairo, CHART_MARGIN, y, (Type){size, false, ALIGN_LEFT, GREY(0.1)}, text);
    return y + line_height;
}

static double draw_parts(cairo_t* const cairo, const Sheet* const sheet, const double width)
{
    char text[256];
    char letters[PARTS_MAX + 1];
    double y = first_line;
    if (has_comment(sheet)) {
        y = draw_line(cairo, y, width, sheet->comment);
    }
    const int count = letters_of(sheet, letters);
    for (int i = 0; i < count; ++i) {
        part_text(sheet, letters[i], text, sizeof text);
        y = draw_line(cairo, y, width, text);
    }
    if (has_fill(sheet)) {
        snprintf(text, sizeof text, "fill: %s", sheet->fill);
        y = draw_line(cairo, y, width, text);
    }
    return y;
}

void chart_edge_draw_head(cairo_t* const cairo, const Sheet* const sheet, const double width,
                          const int page)
{
    draw_title(cairo, sheet, width);
    draw_second_line(cairo, sheet, width);
    const double y = page ? first_line : draw_parts(cairo, sheet, width);
    ink_line(cairo, CHART_MARGIN, y - 4.0, width - CHART_MARGIN, y - 4.0, 0.8, (Colour)GREY(0.4));
}

/* ---- Below: the key */

/* What the sheet uses. */
typedef struct {
    bool voices[VOICE_COUNT];
    bool ghost;
    bool accent;
    bool graces;
} ChartSigns;

static ChartSigns signs_of(const Sheet* const sheet)
{
    ChartSigns used = {.ghost = false};
    for (int row = 0; row < sheet->count; ++row) {
        const StrokeList* const strokes = &sheet->rows[row].strokes;
        for (uint32_t i = 0; i < strokes->count; ++i) {
            const Stroke stroke = strokes->strokes[i];
            used.voices[stroke.voice] = true;
            used.ghost = used.ghost || stroke.level == LEVEL_GHOST;
            used.accent = used.accent || stroke.level >= LEVEL_ACCENT;
            used.graces = used.graces || stroke.level >= LEVEL_FLAM;
        }
    }
    return used;
}

/* Where the next sign stands: lines from the top, each as full as it may be.  Without a
   context it only counts. */
typedef struct {
    cairo_t* cairo; /* NULL: counts */
    double y;
    double right;
    double x;
    int lines;
} ChartKey;

enum { KEY_SIGN = 16, KEY_GAP = 12 };
static const double key_letter = 4.9; /* a letter's width, as wide as it may be */

/* Begins a sign with its words: its place. */
static double key_place(ChartKey* const key, const char* const words)
{
    const double wide = KEY_SIGN + key_letter * (double)strlen(words) + KEY_GAP;
    if (key->x + wide - KEY_GAP > key->right) {
        key->x = CHART_MARGIN;
        key->y += line_height + 1.5;
        ++key->lines;
    }
    const double x = key->x;
    key->x += wide;
    if (key->cairo) {
        ink_text(key->cairo, x + KEY_SIGN, key->y, small, words);
    }
    return x + 5.0;
}

/* What looks alike stands there once. */
static Voice looks_like(const Voice voice)
{
    const bool is_tom = voice >= VOICE_TOM_HIGH && voice <= VOICE_TOM_FLOOR;
    const bool is_kick = voice == VOICE_KICK || voice == VOICE_KICK_LEFT;
    return is_tom || is_kick ? VOICE_SNARE : voice == VOICE_CRASH_2 ? VOICE_CRASH : voice;
}

static void key_voices(ChartKey* const key, const ChartSigns* const used)
{
    bool looks[VOICE_COUNT] = {false};
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        const Voice look = looks_like((Voice)voice);
        looks[look] = looks[look] || used->voices[voice];
    }
    for (int look = 0; look < VOICE_COUNT; ++look) {
        if (looks[look]) {
            const Voice voice = (Voice)look;
            const double x = key_place(key, look == VOICE_SNARE ? "drum" : words_voice(voice));
            if (key->cairo) {
                head_draw(key->cairo, x, key->y - 3.0, voice, (Mark){GREY(0.0), 0.9, false});
            }
        }
    }
}

static void key_levels(ChartKey* const key, const ChartSigns* const used)
{
    const Mark mark = {GREY(0.0), 0.9, false};
    if (used->ghost) {
        const double x = key_place(key, "ghost");
        if (key->cairo) {
            head_draw(key->cairo, x, key->y - 3.0, VOICE_SNARE, mark);
            head_brackets(key->cairo, x, key->y - 3.0, mark);
        }
    }
    if (used->accent) {
        const double x = key_place(key, "accent");
        if (key->cairo) {
            head_accent(key->cairo, x, key->y - 3.0, (Colour)GREY(0.0));
        }
    }
    if (used->graces) {
        const double x = key_place(key, "flam, drag") + 5.0;
        if (key->cairo) {
            head_graces(key->cairo, x, key->y - 2.0, 1, 1.0);
        }
    }
}

static int key_draw(cairo_t* const cairo, const Sheet* const sheet, const double width,
                    const double y)
{
    const ChartSigns used = signs_of(sheet);
    ChartKey key = {cairo, y, width - CHART_MARGIN, CHART_MARGIN, 1};
    key_voices(&key, &used);
    key_levels(&key, &used);
    return key.lines;
}

/* ---- Below: the feet, and how to read it */

static void feet_text(const Sheet* const sheet, char* const text, const size_t room)
{
    static const char* const names[] = {"right", "left"};
    size_t length = (size_t)snprintf(text, room, "Strokes in the busiest second:");
    for (int foot = 0; foot < 2; ++foot) {
        const SheetFoot* const feet = &sheet->feet[foot];
        if (feet->rate > 0.0) {
            length += (size_t)snprintf(text + length, room - length,
                                       "%s %s foot %.2g, closest %.0f ms apart",
                                       foot && sheet->feet[0].rate > 0.0 ? ";" : "", names[foot],
                                       feet->rate, feet->gap_ms);
        }
    }
    snprintf(text + length, room - length, ".");
}

static bool has_feet(const Sheet* const sheet)
{
    return sheet->feet[0].rate > 0.0 || sheet->feet[1].rate > 0.0;
}

static const char reading[] = "Right limbs stand up from their line, left limbs hang down; stem: "
                              "level. R, L: foot, underlined "
                              "where their figure starts again. Written times, without feel.";

double chart_edge_foot(const Sheet* const sheet)
{
    const int lines = key_draw(NULL, sheet, 595.0, 0.0) + 1 + has_feet(sheet);
    return 16.0 + 13.0 * lines + 26.0;
}

void chart_edge_draw_foot(cairo_t* const cairo, const Sheet* const sheet, const double width,
                          const double height)
{
    char text[256];
    double y = height - chart_edge_foot(sheet) + 16.0;
    ink_line(cairo, CHART_MARGIN, y - 14.0, width - CHART_MARGIN, y - 14.0, 0.8, (Colour)GREY(0.4));
    y += 13.0 * key_draw(cairo, sheet, width, y);
    if (has_feet(sheet)) {
        feet_text(sheet, text, sizeof text);
        ink_text(cairo, CHART_MARGIN, y, (Type){8.5, false, ALIGN_LEFT, GREY(0.0)}, text);
        y += 13.0;
    }
    const double size = fitting_size(cairo, reading, 8.5, false, width - 2.0 * CHART_MARGIN);
    ink_text(cairo, CHART_MARGIN, y, (Type){size, false, ALIGN_LEFT, GREY(0.2)}, reading);
}

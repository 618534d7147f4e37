// SPDX-License-Identifier: ISC
#include "musicxml.h"

#include "../scene/words.h"
#include "musicxml_bar.h"
#include "musicxml_head.h"
#include "road.h"

#include <stdio.h>
#include <stdlib.h>

/* ---- Bars */

static void put_letter(MusicXmlWriter* const writer, const SheetBar* const bar)
{
    Xml* const xml = &writer->xml;
    const char letter[] = {bar->letter, '\0'};
    if (bar->letter != writer->letter) {
        xml_open(xml, "direction", "placement=\"above\"");
        xml_open(xml, "direction-type", "%s", "");
        xml_text(xml, "rehearsal", letter);
        xml_close(xml);
        xml_close(xml);
    }
    writer->letter = bar->letter;
}

static void put_fill(MusicXmlWriter* const writer, const SheetBar* const bar)
{
    Xml* const xml = &writer->xml;
    const char* const name = writer->score->fill;
    char fill[32];
    char text[512];
    if (!bar->has_fill) {
        return;
    }
    words_fill(fill, sizeof fill, bar->fill_begin, bar->fill_end, writer->score->sheet->meter);
    snprintf(text, sizeof text, "%s%s%s", fill, *name ? ": " : "", name);
    xml_open(xml, "direction", "placement=\"above\"");
    musicxml_head_words(xml, text);
    if (bar->fill_begin > 0) {
        xml_whole(xml, "offset", bar->fill_begin / writer->grain);
    }
    xml_close(xml);
}

/* What stands at a bar's ends. */
typedef struct {
    bool begins; /* a repeat */
    bool ends;
    int times;
    int ending; /* 1, 2; 0: none */
} BarLines;

static void put_left(Xml* const xml, const BarLines lines)
{
    if (lines.begins || lines.ending) {
        xml_open(xml, "barline", "location=\"left\"");
        if (lines.begins) {
            xml_text(xml, "bar-style", "heavy-light");
        }
        if (lines.ending) {
            xml_empty(xml, "ending", "number=\"%d\" type=\"start\"", lines.ending);
        }
        if (lines.begins) {
            xml_empty(xml, "repeat", "direction=\"forward\"");
        }
        xml_close(xml);
    }
}

static void put_right(Xml* const xml, const BarLines lines, const bool is_last)
{
    if (!lines.ends && !lines.ending && !is_last) {
        return;
    }
    xml_open(xml, "barline", "location=\"right\"");
    if (lines.ends || is_last) {
        xml_text(xml, "bar-style", "light-heavy");
    }
    if (lines.ending) {
        xml_empty(xml, "ending", "number=\"%d\" type=\"%s\"", lines.ending,
                  lines.ends || is_last ? "stop" : "discontinue");
    }
    if (lines.ends && lines.ending) {
        xml_empty(xml, "repeat", "direction=\"backward\"");
    } else if (lines.ends) {
        xml_empty(xml, "repeat", "direction=\"backward\" times=\"%d\"", lines.times);
    }
    xml_close(xml);
}

static void put_bar(MusicXmlWriter* const writer, const int index, const BarLines lines,
                    const bool is_last)
{
    Xml* const xml = &writer->xml;
    const Sheet* const sheet = writer->score->sheet;
    const SheetBar* const bar = road_bar(sheet, index);
    Limb limb = RIGHT_HAND;
    char text[32];
    xml_open(xml, "measure", "number=\"%d\"", index + 1);
    put_left(xml, lines);
    if (index == 0) {
        musicxml_head_put_bar(writer);
    }
    put_letter(writer, bar);
    if (lines.begins && lines.times > 2) {
        snprintf(text, sizeof text, "%d times", lines.times);
        xml_open(xml, "direction", "placement=\"above\"");
        musicxml_head_words(xml, text);
        xml_close(xml);
    }
    put_fill(writer, bar);
    staff_voices_make(&writer->voices, &bar->strokes, sheet->meter, &limb);
    musicxml_bar_notes(xml, &writer->voices, &bar->strokes, sheet, writer->grain);
    put_right(xml, lines, is_last);
    xml_close(xml);
}

static void put_stretch(MusicXmlWriter* const writer, const RoadStretch stretch)
{
    const int bars = writer->score->sheet->bars;
    const bool has_endings = stretch.second >= 0;
    for (int i = 0; i < stretch.count; ++i) {
        const bool is_end = i == stretch.count - 1;
        const BarLines lines = {.begins = i == 0 && stretch.times > 1,
                                .ends = is_end && stretch.times > 1,
                                .times = stretch.times,
                                .ending = is_end && has_endings};
        const int after = stretch.first + stretch.count * stretch.times;
        put_bar(writer, stretch.first + i, lines, is_end && !has_endings && after == bars);
    }
    if (has_endings) {
        put_bar(writer, stretch.second, (BarLines){.ending = 2}, stretch.second == bars - 1);
    }
}

/* ---- Before: how finely? */

static void note_grain(MusicXmlWriter* const writer, const SheetBar* const bar)
{
    for (int i = 0; i < writer->voices.count; ++i) {
        const Rhythm* const rhythm = &writer->voices.voices[i].rhythm;
        for (int note = 0; note < rhythm->count; ++note) {
            writer->grain = common_divisor(writer->grain, rhythm->notes[note].ticks);
        }
    }
    if (bar->has_fill && bar->fill_begin > 0) {
        writer->grain = common_divisor(writer->grain, bar->fill_begin);
    }
}

static void find_grain(MusicXmlWriter* const writer)
{
    const Sheet* const sheet = writer->score->sheet;
    writer->grain = common_divisor(TICKS_PER_QUARTER, meter_bar_ticks(sheet->meter));
    for (int row = 0; row < sheet->count; ++row) {
        Limb limb = RIGHT_HAND;
        staff_voices_make(&writer->voices, &sheet->rows[row].strokes, sheet->meter, &limb);
        note_grain(writer, &sheet->rows[row]);
    }
}

static void write_all(MusicXmlWriter* const writer)
{
    const Road road = road_make(writer->score->sheet);
    musicxml_head_put(writer);
    xml_open(&writer->xml, "part", "id=\"P1\"");
    for (int i = 0; i < road.count; ++i) {
        put_stretch(writer, road.stretches[i]);
    }
    xml_close(&writer->xml);
    xml_close(&writer->xml);
}

bool musicxml_write(const NotationScore* const score, Bytes* const file, char why[SCORE_WHY_ROOM])
{
    MusicXmlWriter* const writer = calloc(1, sizeof *writer);
    snprintf(why, SCORE_WHY_ROOM, "there is no memory for the file");
    if (!writer) {
        return false;
    }
    writer->score = score;
    bool good = score_can(score, &writer->voices, why);
    if (good) {
        find_grain(writer);
        write_all(writer);
        bytes_append(file, writer->xml.bytes.bytes, writer->xml.bytes.size);
        good = !file->failed && !writer->xml.bytes.failed;
    }
    bytes_free(&writer->xml.bytes);
    free(writer);
    return good;
}

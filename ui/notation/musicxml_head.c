// SPDX-License-Identifier: ISC
#include "musicxml_head.h"

#include "../scene/words.h"
#include "drum_staff.h"

#include <math.h>
#include <stdio.h>

enum { MIDI_DRUMS = 10, KEY_COUNT = 128 };

static const char doctype[] = "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 "
                              "Partwise//EN\" \"http://www.musicxml.org/dtds/partwise.dtd\">\n";

static bool is_struck(const Sheet* const sheet, const int voice)
{
    bool is = false;
    for (int row = 0; row < sheet->count; ++row) {
        const StrokeList* const strokes = &sheet->rows[row].strokes;
        for (uint32_t i = 0; !is && i < strokes->count; ++i) {
            is = strokes->strokes[i].voice == voice;
        }
    }
    return is;
}

static void put_instrument(Xml* const xml, const int voice)
{
    xml_open(xml, "score-instrument", "id=\"P1-I%d\"", voice + 1);
    xml_text(xml, "instrument-name", words_voice((Voice)voice));
    xml_text(xml, "instrument-sound", drum_staff_place((Voice)voice).sound);
    xml_close(xml);
}

/* MusicXML counts keys from 1. */
static void put_key(Xml* const xml, const int voice, const uint8_t key)
{
    xml_open(xml, "midi-instrument", "id=\"P1-I%d\"", voice + 1);
    xml_whole(xml, "midi-channel", MIDI_DRUMS);
    if (key < KEY_COUNT) {
        xml_whole(xml, "midi-unpitched", key + 1);
    }
    xml_close(xml);
}

static void put_part_list(MusicXmlWriter* const writer)
{
    Xml* const xml = &writer->xml;
    const Sheet* const sheet = writer->score->sheet;
    xml_open(xml, "part-list", "%s", "");
    xml_open(xml, "score-part", "id=\"P1\"");
    xml_text(xml, "part-name", "Drums");
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        if (is_struck(sheet, voice)) {
            put_instrument(xml, voice);
        }
    }
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        if (is_struck(sheet, voice)) {
            put_key(xml, voice, writer->score->keys[voice]);
        }
    }
    xml_close(xml);
    xml_close(xml);
}

void musicxml_head_put(MusicXmlWriter* const writer)
{
    Xml* const xml = &writer->xml;
    xml_begin(xml, doctype);
    xml_open(xml, "score-partwise", "version=\"4.0\"");
    xml_open(xml, "work", "%s", "");
    xml_text(xml, "work-title", writer->score->sheet->title);
    xml_close(xml);
    xml_open(xml, "identification", "%s", "");
    xml_open(xml, "encoding", "%s", "");
    xml_text(xml, "software", "Fourlimb " FOURLIMB_VERSION);
    xml_close(xml);
    xml_close(xml);
    put_part_list(writer);
}

/* ---- The first bar */

static void put_attributes(MusicXmlWriter* const writer)
{
    Xml* const xml = &writer->xml;
    const Meter meter = writer->score->sheet->meter;
    xml_open(xml, "attributes", "%s", "");
    xml_whole(xml, "divisions", TICKS_PER_QUARTER / writer->grain);
    xml_open(xml, "time", "%s", "");
    xml_whole(xml, "beats", (int64_t)meter.beats_per_bar);
    xml_whole(xml, "beat-type", meter.beat_unit);
    xml_close(xml);
    xml_open(xml, "clef", "%s", "");
    xml_text(xml, "sign", "percussion");
    xml_close(xml);
    xml_close(xml);
}

static void put_metronome(Xml* const xml, const NoteValue beat, const double tempo)
{
    static const char* const names[] = {
        [1] = "whole", [2] = "half", [4] = "quarter", [8] = "eighth"};
    char number[32];
    snprintf(number, sizeof number, "%g", tempo / beat.quarters);
    xml_open(xml, "direction-type", "%s", "");
    xml_open(xml, "metronome", "parentheses=\"no\"");
    xml_text(xml, "beat-unit", names[beat.unit]);
    if (beat.dotted) {
        xml_empty(xml, "beat-unit-dot", "%s", "");
    }
    xml_text(xml, "per-minute", number);
    xml_close(xml);
    xml_close(xml);
}

void musicxml_head_words(Xml* const xml, const char* const text)
{
    xml_open(xml, "direction-type", "%s", "");
    xml_text(xml, "words", text);
    xml_close(xml);
}

/* Its elements are whole numbers: the ratio to a hundredth. */
static void put_swing(Xml* const xml, const Swing swing)
{
    const int64_t hundredths = llround(swing.ratio * 100.0);
    const int64_t common = common_divisor(hundredths, 100);
    xml_open(xml, "swing", "%s", "");
    xml_whole(xml, "first", hundredths / common);
    xml_whole(xml, "second", 100 / common);
    xml_text(xml, "swing-type", swing.pair_ticks < TICKS_PER_QUARTER ? "16th" : "eighth");
    xml_close(xml);
}

static void put_tempo(MusicXmlWriter* const writer)
{
    Xml* const xml = &writer->xml;
    const Sheet* const sheet = writer->score->sheet;
    const Swing swing = writer->score->swing;
    const bool swings = swing.ratio > 1.0;
    char text[64];
    xml_open(xml, "direction", "placement=\"above\"");
    put_metronome(xml, sheet->beat, sheet->tempo);
    if (swings) {
        words_swing(text, sizeof text, swing);
        musicxml_head_words(xml, text);
    }
    xml_open(xml, "sound", "tempo=\"%.6g\"", sheet->tempo);
    if (swings) {
        put_swing(xml, swing);
    }
    xml_close(xml);
    xml_close(xml);
}

void musicxml_head_put_bar(MusicXmlWriter* const writer)
{
    put_attributes(writer);
    put_tempo(writer);
}

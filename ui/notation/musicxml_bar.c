// SPDX-License-Identifier: ISC
#include "musicxml_bar.h"

#include "beams.h"
#include "drum_staff.h"

#include <stdio.h>

/* What all notes of one time share. */
typedef struct {
    Xml* xml;
    const StaffVoice* voice;
    const RhythmNote* note;
    int index; /* in the rhythm */
    const Sheet* sheet;
    int64_t grain;
    bool is_whole_bar;
} NotePlace;

static const char* type_of(const int value)
{
    static const char* const names[] = {"256th",  "128th",   "64th", "32nd", "16th",
                                        "eighth", "quarter", "half", "whole"};
    int index = 0;
    while (1 << index < value && index < 8) {
        ++index;
    }
    return names[index];
}

static void put_value(Xml* const xml, const RhythmNote* const note)
{
    xml_text(xml, "type", type_of(note->value));
    for (int i = 0; i < note->dots; ++i) {
        xml_empty(xml, "dot", "%s", "");
    }
    if (note->depth > 0) {
        xml_open(xml, "time-modification", "%s", "");
        xml_whole(xml, "actual-notes", note->actual);
        xml_whole(xml, "normal-notes", note->normal);
        xml_close(xml);
    }
}

static void put_portion(Xml* const xml, const char* const name, const int number, const int value)
{
    xml_open(xml, name, "%s", "");
    xml_whole(xml, "tuplet-number", number);
    xml_text(xml, "tuplet-type", type_of(value));
    xml_close(xml);
}

static bool has_bracket(const RhythmNote* const note)
{
    bool has = false;
    for (int i = 0; i < note->depth; ++i) {
        has = has || note->tuplets[i].starts || note->tuplets[i].stops;
    }
    return has;
}

/* Of two in each other the inner one stops first. */
static void put_brackets(Xml* const xml, const RhythmNote* const note)
{
    for (int i = note->depth; i-- > 0;) {
        if (note->tuplets[i].stops) {
            xml_empty(xml, "tuplet", "type=\"stop\" number=\"%d\"", i + 1);
        }
    }
    for (int i = 0; i < note->depth; ++i) {
        const RhythmTuplet tuplet = note->tuplets[i];
        if (tuplet.starts) {
            xml_open(xml, "tuplet",
                     "type=\"start\" number=\"%d\" bracket=\"yes\" show-number=\"%s\"", i + 1,
                     tuplet.actual == 3 && tuplet.normal == 2 ? "actual" : "both");
            put_portion(xml, "tuplet-actual", tuplet.actual, tuplet.value);
            put_portion(xml, "tuplet-normal", tuplet.normal, tuplet.value);
            xml_close(xml);
        }
    }
}

static void put_beams(const NotePlace* const place)
{
    for (int level = 1; level <= BEAMS_MOST; ++level) {
        const char* const word =
            beams_word(&place->voice->rhythm, place->index, level, place->sheet);
        char attribute[24];
        snprintf(attribute, sizeof attribute, "number=\"%d\"", level);
        if (word) {
            xml_text_with(place->xml, "beam", attribute, word);
        }
    }
}

static void put_rest(const NotePlace* const place)
{
    Xml* const xml = place->xml;
    xml_open(xml, "note", "%s", "");
    xml_empty(xml, "rest", "%s", place->is_whole_bar ? "measure=\"yes\"" : "");
    xml_whole(xml, "duration", place->note->ticks / place->grain);
    xml_whole(xml, "voice", place->voice->number);
    if (!place->is_whole_bar) {
        put_value(xml, place->note);
    }
    if (has_bracket(place->note)) {
        xml_open(xml, "notations", "%s", "");
        put_brackets(xml, place->note);
        xml_close(xml);
    }
    xml_close(xml);
}

static void put_what(const NotePlace* const place, const Stroke stroke)
{
    const DrumPlace drum = drum_staff_place((Voice)stroke.voice);
    const char step[] = {drum.step, '\0'};
    xml_open(place->xml, "unpitched", "%s", "");
    xml_text(place->xml, "display-step", step);
    xml_whole(place->xml, "display-octave", drum.octave);
    xml_close(place->xml);
}

static void put_head(const NotePlace* const place, const Stroke stroke)
{
    const DrumPlace drum = drum_staff_place((Voice)stroke.voice);
    xml_text(place->xml, "stem", place->voice->is_up ? "up" : "down");
    xml_text_with(place->xml, "notehead",
                  stroke.level == LEVEL_GHOST ? "parentheses=\"yes\"" : "parentheses=\"no\"",
                  drum.head);
}

/* A flam's is struck through (acciaccatura); a drag's are two. */
static void put_grace(const NotePlace* const place, const Stroke stroke, const int index)
{
    Xml* const xml = place->xml;
    const bool is_drag = stroke.level == LEVEL_DRAG;
    xml_open(xml, "note", "%s", "");
    xml_empty(xml, "grace", "slash=\"%s\"", is_drag ? "no" : "yes");
    put_what(place, stroke);
    xml_empty(xml, "instrument", "id=\"P1-I%d\"", stroke.voice + 1);
    xml_whole(xml, "voice", place->voice->number);
    xml_text(xml, "type", is_drag ? "16th" : "eighth");
    put_head(place, stroke);
    for (int level = 1; is_drag && level <= 2; ++level) {
        char attribute[24];
        snprintf(attribute, sizeof attribute, "number=\"%d\"", level);
        xml_text_with(xml, "beam", attribute, index ? "end" : "begin");
    }
    xml_close(xml);
}

static void put_technical(Xml* const xml, const Stroke stroke)
{
    const DrumPlace drum = drum_staff_place((Voice)stroke.voice);
    xml_open(xml, "technical", "%s", "");
    xml_text(xml, "fingering", stroke.limb == RIGHT_HAND || stroke.limb == RIGHT_FOOT ? "R" : "L");
    if (drum.technical) {
        xml_empty(xml, drum.technical, "%s", "");
    }
    if (stroke.voice == VOICE_CHOKE) {
        xml_text_with(xml, "other-technical", "smufl=\"pictChokeCymbal\"", "choke");
    }
    xml_close(xml);
}

static void put_notations(const NotePlace* const place, const Stroke stroke, const bool is_first)
{
    Xml* const xml = place->xml;
    xml_open(xml, "notations", "%s", "");
    if (is_first) {
        put_brackets(xml, place->note);
    }
    put_technical(xml, stroke);
    if (stroke.level >= LEVEL_ACCENT) {
        xml_open(xml, "articulations", "%s", "");
        xml_empty(xml, "accent", "%s", "");
        xml_close(xml);
    }
    xml_close(xml);
}

static void put_note(const NotePlace* const place, const Stroke stroke, const bool is_first)
{
    Xml* const xml = place->xml;
    xml_open(xml, "note", "%s", "");
    if (!is_first) {
        xml_empty(xml, "chord", "%s", "");
    }
    put_what(place, stroke);
    xml_whole(xml, "duration", place->note->ticks / place->grain);
    xml_empty(xml, "instrument", "id=\"P1-I%d\"", stroke.voice + 1);
    xml_whole(xml, "voice", place->voice->number);
    put_value(xml, place->note);
    put_head(place, stroke);
    if (is_first) {
        put_beams(place);
    }
    put_notations(place, stroke, is_first);
    xml_close(xml);
}

static bool is_here(const NotePlace* const place, const Stroke stroke)
{
    return stroke.tick == place->note->tick && place->voice->limbs & 1U << stroke.limb;
}

/* Grace notes stand before the chord that they lead to. */
static void put_strokes(const NotePlace* const place, const StrokeList* const strokes)
{
    bool is_first = true;
    for (uint32_t i = 0; i < strokes->count; ++i) {
        const Stroke stroke = strokes->strokes[i];
        const int graces = stroke.level == LEVEL_DRAG ? 2 : stroke.level == LEVEL_FLAM;
        for (int grace = 0; is_here(place, stroke) && grace < graces; ++grace) {
            put_grace(place, stroke, grace);
        }
    }
    for (uint32_t i = 0; i < strokes->count; ++i) {
        if (is_here(place, strokes->strokes[i])) {
            put_note(place, strokes->strokes[i], is_first);
            is_first = false;
        }
    }
}

static void put_voice(NotePlace* const place, const StrokeList* const strokes)
{
    const Rhythm* const rhythm = &place->voice->rhythm;
    for (int i = 0; i < rhythm->count; ++i) {
        place->note = &rhythm->notes[i];
        place->index = i;
        if (place->note->is_rest) {
            put_rest(place);
        } else {
            put_strokes(place, strokes);
        }
    }
}

void musicxml_bar_notes(Xml* const xml, const StaffVoices* const voices,
                        const StrokeList* const strokes, const Sheet* const sheet,
                        const int64_t grain)
{
    for (int i = 0; i < voices->count; ++i) {
        const StaffVoice* const voice = &voices->voices[i];
        NotePlace place = {.xml = xml, .voice = voice, .sheet = sheet, .grain = grain};
        if (i > 0) {
            xml_open(xml, "backup", "%s", "");
            xml_whole(xml, "duration", meter_bar_ticks(sheet->meter) / grain);
            xml_close(xml);
        }
        if (rhythm_is_silent(&voice->rhythm)) {
            const RhythmNote whole = {.ticks = meter_bar_ticks(sheet->meter), .is_rest = true};
            place.note = &whole;
            place.is_whole_bar = true;
            put_rest(&place);
        } else {
            put_voice(&place, strokes);
        }
    }
}

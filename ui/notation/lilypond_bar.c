// SPDX-License-Identifier: ISC
#include "lilypond_bar.h"

#include "beams.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { PIECE_ROOM = 512 };

void lilypond_bar_put(Bytes* const file, const char* const format, ...)
{
    char text[PIECE_ROOM];
    va_list list;
    va_start(list, format);
    const int length = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    bytes_append(file, text, (size_t)(length < PIECE_ROOM ? length : PIECE_ROOM - 1));
}

/* A choke has no name there: a crash that is damped. */
const char* lilypond_bar_name(const Voice voice)
{
    static const char* const names[VOICE_COUNT] = {
        [VOICE_KICK] = "bassdrum",
        [VOICE_KICK_LEFT] = "acousticbassdrum",
        [VOICE_SNARE] = "snare",
        [VOICE_SIDE_STICK] = "sidestick",
        [VOICE_HAT_CLOSED] = "closedhihat",
        [VOICE_HAT_HALF_OPEN] = "halfopenhihat",
        [VOICE_HAT_OPEN] = "openhihat",
        [VOICE_HAT_PEDAL] = "pedalhihat",
        [VOICE_RIDE] = "ridecymbal",
        [VOICE_RIDE_BELL] = "ridebell",
        [VOICE_CRASH] = "crashcymbal",
        [VOICE_CRASH_2] = "crashcymbalb",
        [VOICE_CHINA] = "chinesecymbal",
        [VOICE_SPLASH] = "splashcymbal",
        [VOICE_TOM_HIGH] = "hightom",
        [VOICE_TOM_MID] = "lowmidtom",
        [VOICE_TOM_LOW] = "lowtom",
        [VOICE_TOM_FLOOR] = "highfloortom",
        [VOICE_COWBELL] = "cowbell",
        [VOICE_CHOKE] = "crashcymbala",
        [VOICE_CLICK] = "hiwoodblock",
        [VOICE_CLICK_ACCENT] = "hiwoodblock",
    };
    return names[voice];
}

/* One voice of one bar. */
typedef struct {
    Bytes* file;
    const StaffVoice* voice;
    const StrokeList* strokes;
    const Sheet* sheet;
    bool graces_first; /* in any voice: LilyPond wants them in all, or moves bar lines */
} BarVoice;

static bool is_here(const BarVoice* const bar, const RhythmNote* const note, const Stroke stroke)
{
    return stroke.tick == note->tick && bar->voice->limbs & 1U << stroke.limb;
}

static void put_value(const BarVoice* const bar, const RhythmNote* const note)
{
    lilypond_bar_put(bar->file, "%d%s", RHYTHM_WHOLE / note->value, note->dots ? "." : "");
}

/* ---- Before a note */

/* The first stroke of the note that has graces; NULL: none. */
static const Stroke* graced(const BarVoice* const bar, const RhythmNote* const note)
{
    for (uint32_t i = 0; i < bar->strokes->count; ++i) {
        const Stroke* const stroke = &bar->strokes->strokes[i];
        if (is_here(bar, note, *stroke) && stroke->level >= LEVEL_FLAM) {
            return stroke;
        }
    }
    return NULL;
}

static void put_graces(const BarVoice* const bar, const RhythmNote* const note)
{
    const Stroke* const stroke = note->is_rest ? NULL : graced(bar, note);
    if (stroke) {
        const char* const name = lilypond_bar_name((Voice)stroke->voice);
        if (stroke->level == LEVEL_DRAG) {
            lilypond_bar_put(bar->file, "\\grace { %s16[ %s] } ", name, name);
        } else {
            lilypond_bar_put(bar->file, "\\acciaccatura %s8 ", name);
        }
    } else if (bar->graces_first && !note->tick) {
        lilypond_bar_put(bar->file, "\\grace s8 ");
    }
}

static void put_tuplet_starts(const BarVoice* const bar, const RhythmNote* const note)
{
    for (int i = 0; i < note->depth; ++i) {
        if (note->tuplets[i].starts) {
            lilypond_bar_put(bar->file, "\\tuplet %d/%d { ", note->tuplets[i].actual,
                             note->tuplets[i].normal);
        }
    }
}

/* ---- A note and what stands behind it */

/* Which limbs strike, and how loud the loudest. */
typedef struct {
    int count;
    char limbs[LIMB_COUNT + 1];
    uint8_t level;
} LilyStruck;

static LilyStruck put_heads(const BarVoice* const bar, const RhythmNote* const note)
{
    LilyStruck struck = {.count = 0};
    lilypond_bar_put(bar->file, "<");
    for (uint32_t i = 0; i < bar->strokes->count; ++i) {
        const Stroke stroke = bar->strokes->strokes[i];
        if (is_here(bar, note, stroke)) {
            const bool is_right = stroke.limb == RIGHT_HAND || stroke.limb == RIGHT_FOOT;
            lilypond_bar_put(bar->file, "%s%s%s", struck.count ? " " : "",
                             stroke.level == LEVEL_GHOST ? "\\parenthesize " : "",
                             lilypond_bar_name((Voice)stroke.voice));
            if (struck.count < LIMB_COUNT) {
                struck.limbs[struck.count++] = is_right ? 'R' : 'L';
            }
            struck.level = struck.level > stroke.level ? struck.level : stroke.level;
        }
    }
    lilypond_bar_put(bar->file, ">");
    return struck;
}

static void put_beam(const BarVoice* const bar, const int index)
{
    const char* const word = beams_word(&bar->voice->rhythm, index, 1, bar->sheet);
    if (word && !strcmp(word, "begin")) {
        lilypond_bar_put(bar->file, "[");
    } else if (word && !strcmp(word, "end")) {
        lilypond_bar_put(bar->file, "]");
    }
}

static void put_note(const BarVoice* const bar, const int index)
{
    const RhythmNote* const note = &bar->voice->rhythm.notes[index];
    const LilyStruck struck = put_heads(bar, note);
    put_value(bar, note);
    put_beam(bar, index);
    lilypond_bar_put(bar->file, "%s%s\\markup \\teeny \"%s\"",
                     struck.level >= LEVEL_ACCENT ? "->" : "", bar->voice->is_up ? "^" : "_",
                     struck.limbs);
}

static void put_tuplet_stops(const BarVoice* const bar, const RhythmNote* const note)
{
    for (int i = 0; i < note->depth; ++i) {
        if (note->tuplets[i].stops) {
            lilypond_bar_put(bar->file, " }");
        }
    }
}

/* A rest for the whole bar in the first two voices, nothing in others. */
static void put_silence(const BarVoice* const bar)
{
    if (bar->graces_first) {
        lilypond_bar_put(bar->file, "\\grace s8 ");
    }
    lilypond_bar_put(bar->file, "%s1*%.10g/%d", bar->voice->number <= 2 ? "R" : "s",
                     bar->sheet->meter.beats_per_bar, (int)bar->sheet->meter.beat_unit);
}

static void put_voice(const BarVoice* const bar)
{
    const Rhythm* const rhythm = &bar->voice->rhythm;
    for (int i = 0; i < rhythm->count; ++i) {
        const RhythmNote* const note = &rhythm->notes[i];
        put_graces(bar, note);
        put_tuplet_starts(bar, note);
        if (note->is_rest) {
            lilypond_bar_put(bar->file, "r");
            put_value(bar, note);
        } else {
            put_note(bar, i);
        }
        put_tuplet_stops(bar, note);
        lilypond_bar_put(bar->file, i + 1 < rhythm->count ? " " : "");
    }
}

static bool begins_with_graces(const StrokeList* const strokes)
{
    bool begins = false;
    for (uint32_t i = 0; i < strokes->count; ++i) {
        begins = begins || (!strokes->strokes[i].tick && strokes->strokes[i].level >= LEVEL_FLAM);
    }
    return begins;
}

void lilypond_bar_notes(Bytes* const file, const StaffVoices* const voices,
                        const StrokeList* const strokes, const Sheet* const sheet)
{
    static const char* const directions[] = {"", "One", "Two", "Three", "Four"};
    lilypond_bar_put(file, "  <<\n");
    for (int i = 0; i < voices->count; ++i) {
        const BarVoice bar = {file, &voices->voices[i], strokes, sheet,
                              begins_with_graces(strokes)};
        lilypond_bar_put(file, "    \\new DrumVoice { \\voice%s ", directions[bar.voice->number]);
        if (rhythm_is_silent(&bar.voice->rhythm)) {
            put_silence(&bar);
        } else {
            put_voice(&bar);
        }
        lilypond_bar_put(file, " }\n");
    }
    lilypond_bar_put(file, "  >>\n");
}

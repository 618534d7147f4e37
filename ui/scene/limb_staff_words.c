// SPDX-License-Identifier: ISC
#include "limb_staff_words.h"

#include "words.h"

#include <stdio.h>

static const char* const limb_labels[LIMB_COUNT] = {"R hand", "L hand", "R foot", "L foot"};

enum { CHANGES_MOST = 64 };

/* A word that tells which voice a limb plays from there on. */
typedef struct {
    const char* word;
    double x;
    double width;
} VoiceWord;

static const Type change_type = {8.0, false, ALIGN_LEFT, GREY(0.25)};
static const double change_gap = 5.0;

double limb_staff_words_x(const StaffBox box, const Meter meter, const int64_t tick)
{
    return box.x + box.width * (double)tick / (double)meter_bar_ticks(meter);
}

/* What a limb strikes first in the bar; a kick needs no word. */
static Voice first_voice(const SheetBar* const bar, const uint8_t limb)
{
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        if (bar->strokes.strokes[i].limb == limb) {
            return (Voice)bar->strokes.strokes[i].voice;
        }
    }
    return VOICE_COUNT;
}

static bool needs_no_word(const Voice voice)
{
    return voice == VOICE_KICK || voice == VOICE_KICK_LEFT;
}

void limb_staff_words_names(cairo_t* const cairo, const SheetBar* const bar,
                            const StaffLanes* const lanes, const StaffBox box)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const Voice voice = first_voice(bar, (uint8_t)limb);
        const bool is_named = voice < VOICE_COUNT && !needs_no_word(voice);
        const double y = box.y + lanes->line[limb] + (is_named ? -0.5 : 3.0);
        ink_text(cairo, box.x - 22.0, y, (Type){8.5, false, ALIGN_RIGHT, GREY(0.0)},
                 limb_labels[limb]);
        if (is_named) {
            ink_text(cairo, box.x - 22.0, y + 8.5, (Type){7.5, false, ALIGN_RIGHT, GREY(0.25)},
                     words_voice(voice));
        }
    }
}

bool limb_staff_words_changes(const SheetBar* const bar, const uint8_t limb)
{
    const Voice first = first_voice(bar, limb);
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke stroke = bar->strokes.strokes[i];
        if (stroke.limb == limb && stroke.voice != (uint8_t)first) {
            return true;
        }
    }
    return false;
}

static int changes_of(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                      const StaffBox box, const uint8_t limb, VoiceWord changes[CHANGES_MOST])
{
    int count = 0;
    uint8_t voice = (uint8_t)first_voice(bar, limb);
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke stroke = bar->strokes.strokes[i];
        if (stroke.limb != limb) {
            continue;
        }
        if (voice != stroke.voice && count < CHANGES_MOST) {
            const char* const word = words_voice((Voice)stroke.voice);
            changes[count++] = (VoiceWord){word, limb_staff_words_x(box, meter, stroke.tick) + 4.0,
                                           ink_width(cairo, change_type, word)};
        }
        voice = stroke.voice;
    }
    return count;
}

/* Each behind the one before it, and all inside the bar: those at its end make room. */
static void spread(VoiceWord* const changes, const int count, const double end)
{
    for (int i = 1; i < count; ++i) {
        const double free_from = changes[i - 1].x + changes[i - 1].width + change_gap;
        changes[i].x = changes[i].x > free_from ? changes[i].x : free_from;
    }
    double latest = end;
    for (int i = count - 1; i >= 0; --i) {
        latest -= changes[i].width;
        changes[i].x = changes[i].x < latest ? changes[i].x : latest;
        latest = changes[i].x - change_gap;
    }
}

void limb_staff_words_draw(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                           const StaffLanes* const lanes, const StaffBox box)
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        VoiceWord changes[CHANGES_MOST];
        const int count = changes_of(cairo, bar, meter, box, (uint8_t)limb, changes);
        spread(changes, count, box.x + box.width - 6.0);
        for (int i = 0; i < count; ++i) {
            ink_text(cairo, changes[i].x, box.y + lanes->words[limb], change_type, changes[i].word);
        }
    }
}

/* ---- Tuplets */

/* A line over its notes, broken by its number, with feet towards them. */
static void draw_tuplet(cairo_t* const cairo, const SheetTuplet* const tuplet, const double from,
                        const double to, const double y)
{
    char number[16];
    const double foot = tuplet->is_left ? -4.0 : 4.0;
    const Type type = {7.5, true, ALIGN_CENTRE, GREY(0.0)};
    const double middle = 0.5 * (from + to);
    if (tuplet->is_long) {
        snprintf(number, sizeof number, "%d:%d", tuplet->actual, tuplet->normal);
    } else {
        snprintf(number, sizeof number, "%d", tuplet->actual);
    }
    const double half = 0.5 * ink_width(cairo, type, number) + 2.0;
    ink_text(cairo, middle, y + 2.7, type, number);
    if (middle - half > from) {
        ink_line(cairo, from, y, middle - half, y, 0.6, (Colour)GREY(0.0));
        ink_line(cairo, middle + half, y, to, y, 0.6, (Colour)GREY(0.0));
        ink_line(cairo, from, y, from, y + foot, 0.6, (Colour)GREY(0.0));
        ink_line(cairo, to, y, to, y + foot, 0.6, (Colour)GREY(0.0));
    }
}

void limb_staff_words_tuplets(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                              const StaffLanes* const lanes, const StaffBox box)
{
    for (int i = 0; i < bar->tuplet_count; ++i) {
        const SheetTuplet* const tuplet = &bar->tuplets[i];
        const double y = box.y + lanes->bracket[tuplet->pair][tuplet->is_left] +
                         (tuplet->is_left ? -9.0 : 9.0) * tuplet->depth;
        const double end = limb_staff_words_x(box, meter, tuplet->end) - 5.0;
        draw_tuplet(cairo, tuplet, limb_staff_words_x(box, meter, tuplet->begin) - 3.0, end, y);
    }
}

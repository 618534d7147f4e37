// SPDX-License-Identifier: ISC
#include "limb_staff.h"

#include "count.h"
#include "words.h"

#include <stdio.h>

static const double line_below[LIMB_COUNT] = {
    [RIGHT_HAND] = 32.0, [LEFT_HAND] = 47.0, [RIGHT_FOOT] = 100.0, [LEFT_FOOT] = 115.0};

static const char* const limb_labels[LIMB_COUNT] = {"R hand", "L hand", "R foot", "L foot"};

static const double feet_letters_below = 142.0;

static bool points_up(const uint8_t limb)
{
    return limb == RIGHT_HAND || limb == RIGHT_FOOT;
}

static double x_of(const StaffBox box, const Meter meter, const int64_t tick)
{
    return box.x + box.width * (double)tick / (double)meter_bar_ticks(meter);
}

/* The coarsest grid that all strokes of one beat fall on; beats alone if none. */
static const CountGrid* grid_of_beat(const StrokeList* const strokes, const int64_t begin,
                                     const int64_t beat)
{
    for (int g = 0; g < COUNT_COARSE; ++g) {
        const int64_t step = beat / count_coarse[g].steps;
        bool fits = true;
        for (uint32_t i = 0; i < strokes->count; ++i) {
            const int64_t tick = strokes->strokes[i].tick - begin;
            fits = fits && (tick < 0 || tick >= beat || tick % step == 0);
        }
        if (fits) {
            return &count_coarse[g];
        }
    }
    return &count_coarse[0];
}

static void draw_syllables(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                           const StaffBox box, const int64_t begin)
{
    const int64_t beat = meter_beat_ticks(meter);
    const CountGrid* const grid =
        meter.beat_unit == 4 ? grid_of_beat(&bar->strokes, begin, beat) : &count_coarse[0];
    const Type type = {9.0, false, ALIGN_CENTRE, GREY(0.35)};
    for (int step = 1; step < grid->steps; ++step) {
        ink_text(cairo, x_of(box, meter, begin + beat * step / grid->steps), box.y, type,
                 grid->syllables[step - 1]);
    }
}

static void draw_count(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                       const StaffBox box)
{
    const int64_t beat = meter_beat_ticks(meter);
    const int64_t ticks = meter_bar_ticks(meter);
    for (int64_t begin = 0; begin < ticks; begin += beat) {
        char number[16];
        const double x = x_of(box, meter, begin);
        snprintf(number, sizeof number, "%d", (int)(begin / beat) + 1);
        ink_text(cairo, x, box.y, (Type){11.0, true, ALIGN_CENTRE, GREY(0.0)}, number);
        ink_line(cairo, x, box.y + 10.0, x, box.y + line_below[LEFT_FOOT] + 10.0, 0.5,
                 (Colour)GREY(0.75));
        draw_syllables(cairo, bar, meter, box, begin);
    }
}

static void draw_lines(cairo_t* const cairo, const StaffBox box, const bool is_last)
{
    const double top = box.y + 14.0;
    const double bottom = box.y + line_below[LEFT_FOOT] + 10.0;
    const double end = box.x + box.width;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const double y = box.y + line_below[limb];
        ink_line(cairo, box.x - 8.0, y, end, y, 0.6, (Colour)GREY(0.35));
        ink_text(cairo, box.x - 14.0, y + 3.0, (Type){8.5, false, ALIGN_RIGHT, GREY(0.0)},
                 limb_labels[limb]);
    }
    ink_line(cairo, box.x - 8.0, top, box.x - 8.0, bottom, 0.8, (Colour)GREY(0.0));
    ink_line(cairo, end, top, end, bottom, is_last ? 2.0 : 0.8, (Colour)GREY(0.0));
    if (is_last) {
        ink_line(cairo, end - 4.0, top, end - 4.0, bottom, 0.8, (Colour)GREY(0.0));
    }
}

/* Over the count a line along the beats of a fill, with a foot where it takes over. */
static void draw_fill(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                      const StaffBox box)
{
    const double x = x_of(box, meter, bar->fill_begin) - 7.0;
    const double y = box.y - 11.5;
    if (bar->has_fill) {
        ink_line(cairo, x, y, box.x + box.width, y, 1.2, (Colour)GREY(0.0));
    }
    if (bar->has_fill && bar->fill_begin > 0) {
        ink_line(cairo, x, y, x, y + 8.0, 1.2, (Colour)GREY(0.0));
    }
}

static double stem_of(const uint8_t level)
{
    return level == LEVEL_GHOST ? 7.0 : level == LEVEL_NORMAL ? 12.0 : 18.0;
}

static void draw_stroke(cairo_t* const cairo, const Stroke stroke, const double x,
                        const StaffBox box)
{
    const double y = box.y + line_below[stroke.limb];
    const double up = points_up(stroke.limb) ? 1.0 : -1.0;
    const double stem = stem_of(stroke.level);
    ink_line(cairo, x, y, x, y - up * stem, 1.3, (Colour)GREY(0.0));
    head_draw(cairo, x, y, (Voice)stroke.voice, (Mark){GREY(0.0), 1.0, false});
    if (stroke.level == LEVEL_GHOST) {
        head_brackets(cairo, x, y, (Mark){GREY(0.0), 1.0, false});
    }
    if (stroke.level >= LEVEL_ACCENT) {
        head_accent(cairo, x, y - up * (stem + 3.5), (Colour)GREY(0.0));
    }
    if (stroke.level >= LEVEL_FLAM) {
        head_graces(cairo, x, y, stroke.level == LEVEL_DRAG ? 2 : 1, up);
    }
}

static bool starts_turn(const SheetBar* const bar, const int64_t tick)
{
    for (uint32_t i = 0; i < bar->feet_turn_count; ++i) {
        if (bar->feet_turns[i] == tick) {
            return true;
        }
    }
    return false;
}

/* Under the feet: which foot, underlined where their figure starts again. */
static void draw_foot_letter(cairo_t* const cairo, const SheetBar* const bar, const Stroke stroke,
                             const double x, const StaffBox box)
{
    if (limb_is_foot(stroke.limb) && starts_turn(bar, stroke.tick)) {
        const double y = box.y + feet_letters_below + 2.5;
        ink_line(cairo, x - 4.0, y, x + 4.0, y, 0.8, (Colour)GREY(0.0));
    }
    if (limb_is_foot(stroke.limb)) {
        ink_text(cairo, x, box.y + feet_letters_below,
                 (Type){8.0, stroke.level >= LEVEL_ACCENT, ALIGN_CENTRE, GREY(0.0)},
                 stroke.limb == RIGHT_FOOT ? "R" : "L");
    }
}

enum { CHANGES_MOST = 64 };

/* A word that tells which voice a limb plays from there on. */
typedef struct {
    const char* word;
    double x;
    double width;
} VoiceWord;

static const Type change_type = {7.5, false, ALIGN_LEFT, GREY(0.25)};
static const double change_gap = 5.0;

static int changes_of(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                      const StaffBox box, const uint8_t limb, uint8_t* const voice,
                      VoiceWord changes[CHANGES_MOST])
{
    int count = 0;
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke stroke = bar->strokes.strokes[i];
        if (stroke.limb != limb) {
            continue;
        }
        if (*voice != stroke.voice && stroke.voice != VOICE_KICK && count < CHANGES_MOST) {
            const char* const word = words_voice((Voice)stroke.voice);
            changes[count++] = (VoiceWord){word, x_of(box, meter, stroke.tick) + 4.0,
                                           ink_width(cairo, change_type, word)};
        }
        *voice = stroke.voice;
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

/* Words stand outside: over right limbs, under left ones. */
static void draw_changes(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                         const StaffBox box, uint8_t voices[LIMB_COUNT])
{
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        VoiceWord changes[CHANGES_MOST];
        const double y = box.y + line_below[limb] + (points_up((uint8_t)limb) ? -24.0 : 28.0);
        const int count = changes_of(cairo, bar, meter, box, (uint8_t)limb, &voices[limb], changes);
        spread(changes, count, box.x + box.width - 6.0);
        for (int i = 0; i < count; ++i) {
            ink_text(cairo, changes[i].x, y, change_type, changes[i].word);
        }
    }
}

void limb_staff_draw(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                     const StaffBox box, uint8_t voices[LIMB_COUNT], const bool is_last)
{
    draw_count(cairo, bar, meter, box);
    draw_lines(cairo, box, is_last);
    draw_fill(cairo, bar, meter, box);
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke stroke = bar->strokes.strokes[i];
        const double x = x_of(box, meter, stroke.tick);
        draw_stroke(cairo, stroke, x, box);
        draw_foot_letter(cairo, bar, stroke, x, box);
    }
    draw_changes(cairo, bar, meter, box, voices);
}

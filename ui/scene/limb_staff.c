// SPDX-License-Identifier: ISC
#include "limb_staff.h"

#include "count.h"
#include "limb_staff_words.h"

#include <stdio.h>

static const double head_room = 6.0;      /* of a limb that rests */
static const double line_gap = 19.0;      /* of a pair: two lines of small words */
static const double bar_line_left = 16.0; /* of the one: graces stand before it */

/* What the rows of a sheet need besides strokes. */
typedef struct {
    bool words[LIMB_COUNT];
    double stems[LIMB_COUNT];
    int brackets[2][2]; /* as StaffLanes has them; how deep */
} StaffNeeds;

static double stem_of(const uint8_t level)
{
    return level == LEVEL_GHOST ? 6.0 : level == LEVEL_NORMAL ? 11.0 : 16.0;
}

/* With an accent on it, or the sign of an open hat. */
static double room_of(const Stroke stroke)
{
    return stem_of(stroke.level) + (stroke.level >= LEVEL_ACCENT ? 6.0 : 2.0);
}

static StaffNeeds needs_of(const Sheet* const sheet)
{
    StaffNeeds needs = {{false}, {head_room, head_room, head_room, head_room}, {{0}}};
    for (int row = 0; row < sheet->count; ++row) {
        const SheetBar* const bar = &sheet->rows[row];
        for (int limb = 0; limb < LIMB_COUNT; ++limb) {
            needs.words[limb] = needs.words[limb] || limb_staff_words_changes(bar, (uint8_t)limb);
        }
        for (uint32_t i = 0; i < bar->strokes.count; ++i) {
            const Stroke stroke = bar->strokes.strokes[i];
            double* const room = &needs.stems[stroke.limb];
            *room = *room > room_of(stroke) ? *room : room_of(stroke);
        }
        for (int i = 0; i < bar->tuplet_count; ++i) {
            const SheetTuplet* const tuplet = &bar->tuplets[i];
            int* const deep = &needs.brackets[tuplet->pair][tuplet->is_left];
            *deep = *deep > tuplet->depth ? *deep : tuplet->depth + 1;
        }
    }
    return needs;
}

/* One pair below `y`: from the top its brackets, words and stems; the same below. */
static double lay_pair(StaffLanes* const lanes, const StaffNeeds* const needs, const LimbPair pair,
                       double y)
{
    const int right = pair == PAIR_HANDS ? RIGHT_HAND : RIGHT_FOOT;
    const int left = right + 1;
    lanes->bracket[pair][0] = y + 5.5;
    y += 10.0 * needs->brackets[pair][0];
    y += needs->words[right] ? 8.0 : 0.0;
    lanes->words[right] = y;
    y += needs->words[right] ? 1.0 : 0.0;
    lanes->line[right] = y + needs->stems[right];
    lanes->line[left] = lanes->line[right] + line_gap;
    y = lanes->line[left] + needs->stems[left];
    y += needs->words[left] ? 9.0 : 0.0;
    lanes->words[left] = y - 1.0;
    y += 10.0 * needs->brackets[pair][1];
    lanes->bracket[pair][1] = y - 4.5;
    return y;
}

StaffLanes limb_staff_lanes(const Sheet* const sheet)
{
    StaffLanes lanes;
    const StaffNeeds needs = needs_of(sheet);
    const double hands = lay_pair(&lanes, &needs, PAIR_HANDS, 4.0);
    const double feet = lay_pair(&lanes, &needs, PAIR_FEET, hands);
    lanes.letters = feet + 10.0;
    lanes.height = feet + 33.0;
    return lanes;
}

static bool points_up(const uint8_t limb)
{
    return limb == RIGHT_HAND || limb == RIGHT_FOOT;
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
        ink_text(cairo, limb_staff_words_x(box, meter, begin + beat * step / grid->steps), box.y,
                 type, grid->syllables[step - 1]);
    }
}

/* True if the beat begins a group, or if there are none. */
static bool leads(const Sheet* const sheet, const int beat)
{
    int at = 0;
    for (int i = 0; i < sheet->group_count && at < beat; ++i) {
        at += sheet->groups[i];
    }
    const int threes = !sheet->group_count && meter_is_compound(sheet->meter) ? 3 : 1;
    return at == beat || (!sheet->group_count && beat % threes == 0);
}

static void draw_count(cairo_t* const cairo, const Sheet* const sheet, const SheetBar* const bar,
                       const StaffLanes* const lanes, const StaffBox box)
{
    const int64_t beat = meter_beat_ticks(sheet->meter);
    const int64_t ticks = meter_bar_ticks(sheet->meter);
    const bool has_groups = sheet->group_count > 0 || meter_is_compound(sheet->meter);
    for (int number = 0; number * beat < ticks; ++number) {
        char text[16];
        const double x = limb_staff_words_x(box, sheet->meter, number * beat);
        const bool lead = leads(sheet, number);
        snprintf(text, sizeof text, "%d", number + 1);
        ink_text(cairo, x, box.y, (Type){11.0, lead, ALIGN_CENTRE, GREY(0.0)}, text);
        ink_line(cairo, x, box.y + 4.0, x, box.y + lanes->line[LEFT_FOOT] + 10.0,
                 lead && has_groups ? 1.4 : 0.5, (Colour)GREY(0.75));
        draw_syllables(cairo, bar, sheet->meter, box, number * beat);
    }
}

static void draw_lines(cairo_t* const cairo, const StaffLanes* const lanes, const StaffBox box,
                       const bool is_last)
{
    const double top = box.y + lanes->line[RIGHT_HAND] - 18.0;
    const double bottom = box.y + lanes->line[LEFT_FOOT] + 10.0;
    const double begin = box.x - bar_line_left;
    const double end = box.x + box.width;
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        const double y = box.y + lanes->line[limb];
        ink_line(cairo, begin, y, end, y, 0.6, (Colour)GREY(0.35));
    }
    ink_line(cairo, begin, top, begin, bottom, 0.8, (Colour)GREY(0.0));
    ink_line(cairo, end, top, end, bottom, is_last ? 2.0 : 0.8, (Colour)GREY(0.0));
    if (is_last) {
        ink_line(cairo, end - 4.0, top, end - 4.0, bottom, 0.8, (Colour)GREY(0.0));
    }
}

/* Over the count a line along the beats of a fill, with a foot where it takes over. */
static void draw_fill(cairo_t* const cairo, const SheetBar* const bar, const Meter meter,
                      const StaffBox box)
{
    const double x = limb_staff_words_x(box, meter, bar->fill_begin) - 7.0;
    const double y = box.y - 11.5;
    if (bar->has_fill) {
        ink_line(cairo, x, y, box.x + box.width, y, 1.2, (Colour)GREY(0.0));
    }
    if (bar->has_fill && bar->fill_begin > 0) {
        ink_line(cairo, x, y, x, y + 8.0, 1.2, (Colour)GREY(0.0));
    }
}

static void draw_stroke(cairo_t* const cairo, const Stroke stroke, const double x, const double y)
{
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

/* Half the way to the other foot's letter where both strike at once. */
static double beside(const SheetBar* const bar, const Stroke stroke)
{
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke other = bar->strokes.strokes[i];
        if (other.tick == stroke.tick && limb_is_foot(other.limb) && other.limb != stroke.limb) {
            return stroke.limb == RIGHT_FOOT ? -3.5 : 3.5;
        }
    }
    return 0.0;
}

/* Under the feet: which foot, underlined where their figure starts again. */
static void draw_foot_letter(cairo_t* const cairo, const SheetBar* const bar, const Stroke stroke,
                             const double x, const double y)
{
    const Type type = {8.0, stroke.level >= LEVEL_ACCENT, ALIGN_CENTRE, GREY(0.0)};
    ink_text(cairo, x + beside(bar, stroke), y, type, stroke.limb == RIGHT_FOOT ? "R" : "L");
    if (starts_turn(bar, stroke.tick)) {
        ink_line(cairo, x - 4.0, y + 2.5, x + 4.0, y + 2.5, 0.8, (Colour)GREY(0.0));
    }
}

void limb_staff_draw(cairo_t* const cairo, const Sheet* const sheet, const SheetBar* const bar,
                     const StaffLanes* const lanes, const StaffBox box, const bool is_last)
{
    const Meter meter = sheet->meter;
    draw_count(cairo, sheet, bar, lanes, box);
    draw_lines(cairo, lanes, box, is_last);
    draw_fill(cairo, bar, meter, box);
    limb_staff_words_names(cairo, bar, lanes, box);
    limb_staff_words_tuplets(cairo, bar, meter, lanes, box);
    for (uint32_t i = 0; i < bar->strokes.count; ++i) {
        const Stroke stroke = bar->strokes.strokes[i];
        const double x = limb_staff_words_x(box, meter, stroke.tick);
        draw_stroke(cairo, stroke, x, box.y + lanes->line[stroke.limb]);
        if (limb_is_foot(stroke.limb)) {
            draw_foot_letter(cairo, bar, stroke, x, box.y + lanes->letters);
        }
    }
    limb_staff_words_draw(cairo, bar, meter, lanes, box);
}

// SPDX-License-Identifier: ISC
#include "shown.h"

#include "words.h"

double shown_x(const Shown* const shown, const double tick)
{
    return shown->from + shown->space.beat * tick / shown->space.ticks;
}

bool shown_points_up(const int limb)
{
    return limb % 2 == 0;
}

/* A stroke's sign reaches into the strip where the words stand. */
static bool is_in_strip(const Brush* const brush, const SeenStroke* const stroke)
{
    const Geometry* const g = brush->g;
    const bool is_ringed = stroke->voice == VOICE_HAT_OPEN || stroke->voice == VOICE_HAT_HALF_OPEN;
    const double far = stem_height(g, stroke) + (is_ringed ? 15.0 : 0.0) * g->scale;
    return shown_points_up(stroke->limb)
               ? g->line[stroke->limb] - far < g->row_top[stroke->limb] + 11.0
               : g->line[stroke->limb] + far > g->row_bottom[stroke->limb] - 13.0;
}

/* How far a word may run that begins at stroke `i`: to the limb's next sign there. */
static double end_of_word(const Brush* const brush, const Shown* const shown, uint32_t i)
{
    const SeenStroke* const first = &shown->bar->strokes[i];
    while (++i < shown->bar->count) {
        const SeenStroke* const stroke = &shown->bar->strokes[i];
        if (stroke->limb == first->limb && stroke->felt > first->felt &&
            is_in_strip(brush, stroke)) {
            return shown_x(shown, stroke->felt) - 6.0;
        }
    }
    return shown->to;
}

/* The word where there is room for it, else a shorter one. */
static double draw_word(const Brush* const brush, const double x, const double y, const double room,
                        const Voice voice)
{
    const Type type = brush_type(10.0, false, ALIGN_LEFT, brush->colours->soft);
    const char* const word = voice_word(voice);
    const bool fits = ink_width(brush->cairo, type, word) <= room;
    return ink_text(brush->cairo, x, y, type, fits ? word : voice_brief(voice));
}

/* A word stands at the first stroke after the limb has changed to another voice
   than the label beside the row names. */
void shown_words(const Brush* const brush, const Shown* const shown, const int limb)
{
    Voice voice = voice_of_limb(shown->bar, limb);
    double free_from = 0.0;
    for (uint32_t i = 0; i < shown->bar->count; ++i) {
        const SeenStroke* const stroke = &shown->bar->strokes[i];
        if (stroke->limb != limb || stroke->is_grace) {
            continue;
        }
        const double x = shown_x(shown, stroke->felt);
        if (stroke->voice != voice && x >= free_from && x <= shown->to) {
            const bool up = shown_points_up(limb);
            const double y = up ? brush->g->row_top[limb] + 9.0 : brush->g->row_bottom[limb] - 3.0;
            const double from = x + (is_in_strip(brush, stroke) ? 9.0 : 5.0);
            const double room = end_of_word(brush, shown, i) - from;
            free_from = from + 5.0 + draw_word(brush, from, y, room, (Voice)stroke->voice);
        }
        voice = (Voice)stroke->voice;
    }
}

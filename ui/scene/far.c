// SPDX-License-Identifier: ISC
#include "far.h"
#include "words.h"

#include <math.h>
#include <stdio.h>

/* The phrase's first bar with this one's letter; NULL if that is itself. */
static const SeenBar* first_of_letter(const View* const view, const SeenBar* const bar)
{
    for (int i = 0; i < view_phrase_bars(view); ++i) {
        const SeenBar* const other = view_bar(view, view_phrase(view) + i);
        if (other && other->part == bar->part) {
            return other == bar ? NULL : other;
        }
    }
    return NULL;
}

static bool turns_alike(const SeenTurns* const a, const SeenTurns* const b)
{
    bool alike = a->count == b->count;
    for (uint32_t i = 0; alike && i < a->count; ++i) {
        alike = a->ticks[i] == b->ticks[i];
    }
    return alike;
}

/* Of a figure of several bars it must be the same one of them. */
static bool is_same_bar(const View* const view, const EntryKind kind, const uint32_t id,
                        const uint32_t apart)
{
    const Entry* const entry = id ? view_entry(view, kind, (int32_t)id) : NULL;
    const uint32_t bars = entry && entry->figure ? entry->figure->bars : 0;
    return !bars || apart % bars == 0;
}

bool far_is_simile(const View* const view, const SeenBar* const bar)
{
    const SeenBar* const first = first_of_letter(view, bar);
    if (!first || bar->fill || first->fill || bar->groove != first->groove ||
        bar->hands != first->hands || bar->feet != first->feet ||
        bar->hands_step != first->hands_step || bar->feet_step != first->feet_step) {
        return false;
    }
    const uint32_t apart = bar->in_phrase - first->in_phrase;
    return is_same_bar(view, ENTRY_HANDS, bar->hands, apart) &&
           is_same_bar(view, ENTRY_FEET, bar->feet, apart) &&
           turns_alike(&bar->hands_turns, &first->hands_turns) &&
           turns_alike(&bar->feet_turns, &first->feet_turns);
}

/* The fill's name where it has room whole, else how long it is, else that there is one. */
static void draw_fill_word(const Brush* const brush, const double x, const double y,
                           const double room, const SeenBar* const bar)
{
    char beats[32];
    const Entry* const fill = view_entry(brush->view, ENTRY_TURNAROUND, (int32_t)bar->fill);
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->ink);
    words_fill(beats, sizeof beats, bar->fill_begin, bar->fill_end, bar->meter);
    const char* const words[] = {fill ? fill->label : "fill", beats, "fill"};
    for (size_t i = 0; i < sizeof words / sizeof *words; ++i) {
        if (ink_width(brush->cairo, type, words[i]) <= room) {
            ink_text(brush->cairo, x, y, type, words[i]);
            return;
        }
    }
}

/* By letter, number and the fill's name, or a simile where the same is struck as in the first
   of the letter. */
void draw_far_bar(const Brush* const brush, const Target* const target, const SeenBar* const bar)
{
    char text[16];
    const Palette* const colours = brush->colours;
    const Box box = target->box;
    const double y = box.y + 13.0;
    const bool over = brush_is_hovered(brush, target->id);
    double x = box.x + 5.0;
    if (bar == view_bar(brush->view, view_shown(brush->view))) {
        ink_fill(brush->cairo, box, colours->shade);
    }
    snprintf(text, sizeof text, "%c", 'A' + bar->part);
    x += ink_text(brush->cairo, x, y, brush_type(14.0, true, ALIGN_LEFT, colours->ink), text) + 4.0;
    snprintf(text, sizeof text, "%u", bar->in_phrase + 1);
    x += ink_text(brush->cairo, x, y,
                  brush_type(11.0, false, ALIGN_LEFT, over ? colours->ink : colours->soft), text) +
         7.0;
    if (bar->in_phrase + 1 == (uint32_t)brush->view->values[CONTROL_LOOP_BAR]) {
        ink_text_in(brush->cairo, x, y, box.x + box.width - 4.0 - x,
                    brush_type(11.0, true, ALIGN_LEFT, colours->ink), "loop");
    } else if (bar->fill) {
        draw_fill_word(brush, x, y, box.x + box.width - 4.0 - x, bar);
    } else if (far_is_simile(brush->view, bar)) {
        head_simile(brush->cairo, x + 6.0, y - 4.0, (Mark){colours->soft, 0.9, false});
    }
    ink_line(brush->cairo, floor(box.x) + 0.5, box.y + 3.0, floor(box.x) + 0.5,
             box.y + box.height - 3.0, 1.0, colours->edge);
    brush_focus(brush, target, 0.0);
}

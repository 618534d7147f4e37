// SPDX-License-Identifier: ISC
#include "brush.h"

static const double pi = 3.141592653589793;

Type brush_type(const double size, const bool bold, const Align align, const Colour colour)
{
    return (Type){size, bold, align, colour};
}

void brush_focus(const Brush* const brush, const Target* const target, const double out)
{
    if (!brush->view->has_keys || !view_target_same(brush->view->focus, target->id)) {
        return;
    }
    const Box box = target->box;
    ink_frame(brush->cairo,
              (Box){box.x - out, box.y - out, box.width + 2.0 * out, box.height + 2.0 * out}, 6.0,
              2.0, brush->colours->accent);
}

bool brush_is_hovered(const Brush* const brush, const TargetId id)
{
    return view_target_same(brush->view->hover, id);
}

void brush_switch(const Brush* const brush, const At at, const bool on)
{
    const Palette* const colours = brush->colours;
    const Box box = {at.x, at.y - 7.0, 26.0, 14.0};
    if (on) {
        ink_fill_round(brush->cairo, box, 7.0, colours->ink);
    } else {
        ink_frame(brush->cairo, box, 6.0, 1.3, colours->edge);
    }
    const double knob = on ? at.x + 19.0 : at.x + 7.0;
    ink_source(brush->cairo, on ? colours->ground : colours->edge);
    cairo_new_path(brush->cairo);
    cairo_arc(brush->cairo, knob, at.y, on ? 4.2 : 3.4, 0.0, 2.0 * pi);
    cairo_fill(brush->cairo);
}

double brush_difficulty(const Brush* const brush, const At at, const int difficulty)
{
    const Colour colour = brush->colours->soft;
    ink_source(brush->cairo, colour);
    cairo_set_line_width(brush->cairo, 1.1);
    for (int dot = 0; dot < 5; ++dot) {
        cairo_new_path(brush->cairo);
        cairo_arc(brush->cairo, at.x + 3.0 + 9.0 * dot, at.y, 2.5, 0.0, 2.0 * pi);
        if (dot < difficulty) {
            cairo_fill_preserve(brush->cairo);
        }
        cairo_stroke(brush->cairo);
    }
    return 5 * 9.0;
}

Voice brush_voice_of_limb(const SeenBar* const bar, const int limb)
{
    int counts[VOICE_COUNT] = {0};
    int most = VOICE_COUNT;
    for (uint32_t i = 0; i < bar->count; ++i) {
        const SeenStroke* const stroke = &bar->strokes[i];
        if (stroke->limb == limb && !stroke->is_grace) {
            ++counts[stroke->voice];
            most =
                most == VOICE_COUNT || counts[stroke->voice] > counts[most] ? stroke->voice : most;
        }
    }
    return (Voice)most;
}

double brush_stem_height(const Geometry* const g, const SeenStroke* const stroke)
{
    const double scale = g->sign[stroke->limb / 2];
    const double tallest = (g->compact || g->low ? 19.0 : g->list ? 17.0 : 26.0) * scale;
    return 5.0 * scale + tallest * stroke->velocity / 127.0;
}

/* From the tip on: that is where a short stem shows that it is dashed. */
void brush_stem(const Brush* const brush, const double x, const double tip, const double head,
                const double width, const double dash, const Colour colour)
{
    const double dashes[] = {dash, dash};
    cairo_set_dash(brush->cairo, dashes, dash > 0.0 ? 2 : 0, 0.0);
    ink_line(brush->cairo, x, tip, x, head, width, colour);
    cairo_set_dash(brush->cairo, NULL, 0, 0.0);
}

double brush_fit(const Brush* const brush, const double x, const double y, const double room,
                 Type type, const char* const words)
{
    while (type.size > 11.0 && ink_width(brush->cairo, type, words) > room) {
        type.size -= 1.0;
    }
    return ink_text_in(brush->cairo, x, y, room, type, words);
}

void brush_label(const Brush* const brush, const Box box, const char* const words, const bool over)
{
    const Colour colour = over ? brush->colours->ink : brush->colours->soft;
    const CellPlaces places = geometry_in_cell(box);
    ink_text_in(brush->cairo, places.label.x, places.label.y, places.label_room,
                brush_type(11.0, false, ALIGN_LEFT, colour), words);
}

void brush_mark(const Brush* const brush, const Box box, const char* const words, const bool dashed,
                const bool over)
{
    static const double dashes[] = {3.0, 2.0};
    const Palette* const colours = brush->colours;
    cairo_set_dash(brush->cairo, dashes, dashed ? 2 : 0, 0.0);
    ink_frame(brush->cairo, box, 3.0, over ? 1.6 : 1.0, over ? colours->ink : colours->soft);
    cairo_set_dash(brush->cairo, NULL, 0, 0.0);
    const double size = box.height < 18.0 ? 11.0 : 12.0;
    ink_text_in(brush->cairo, box.x + box.width / 2.0,
                box.y + box.height - (size < 12.0 ? 4.0 : 5.0), box.width - 4.0,
                brush_type(size, false, ALIGN_CENTRE, colours->ink), words);
}

static double draw_entry_mark(const Brush* const brush, const At at, const char* const words,
                              const bool dashed)
{
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->ink);
    const double width = ink_width(brush->cairo, type, words) + 10.0;
    brush_mark(brush, (Box){at.x, at.y - 12.0, width, 16.0}, words, dashed, false);
    return width;
}

double brush_marks(const Brush* const brush, const At at, const EntryKind kind,
                   const Entry* const entry, const double room)
{
    const bool edited = view_is_edited(brush->view, kind, entry);
    double wide = 0.0;
    if (entry->is_own && (edited ? room >= 86.0 : room >= 36.0)) {
        wide = draw_entry_mark(brush, at, "own", false) + 5.0;
    }
    if (edited && room >= wide + 46.5) {
        wide += draw_entry_mark(brush, (At){at.x + wide, at.y}, "edited", true) + 5.0;
    }
    return wide;
}

void brush_button(const Brush* const brush, const Target* const target, const char* const words,
                  const bool can)
{
    const Palette* const colours = brush->colours;
    const CellPlaces places = geometry_in_cell(target->box);
    const Box box = places.button;
    const bool over = brush_is_hovered(brush, target->id);
    ink_frame(brush->cairo, box, 3.0, over && can ? 1.6 : 1.0, can ? colours->ink : colours->edge);
    ink_text_in(brush->cairo, places.button_word.x, places.button_word.y, box.width - 4.0,
                brush_type(13.0, can, ALIGN_CENTRE, can ? colours->ink : colours->soft), words);
}

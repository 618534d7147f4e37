// SPDX-License-Identifier: ISC
/* The cards of hands and feet. */
#include "brush.h"
#include "coming.h"
#include "handed.h"
#include "picked.h"

#include <stdio.h>
#include <string.h>

/* "1 bar", "6 sixteenths", "2 beats, triplets". */
static void length_text(const Figure* const figure, char text[64])
{
    const int64_t quarter = TICKS_PER_QUARTER;
    const int grid = (int)(quarter / figure->step_ticks);
    static const char* const names[] = {
        [1] = "quarters",    [2] = "8ths",       [3] = "triplets",   [4] = "16ths",
        [5] = "quintuplets", [6] = "sextuplets", [7] = "septuplets", [8] = "32nds"};
    const bool is_named = quarter % figure->step_ticks == 0 && grid >= 1 && grid <= 8;
    const char* const name = is_named ? names[grid] : "steps";
    if (figure->bars) {
        snprintf(text, 64, "%u bar%s, %s", figure->bars, figure->bars == 1 ? "" : "s", name);
    } else if (figure->cycle_ticks % quarter == 0) {
        const int beats = (int)(figure->cycle_ticks / quarter);
        snprintf(text, 64, "%d beat%s, %s", beats, beats == 1 ? "" : "s", name);
    } else {
        snprintf(text, 64, "%d %s", (int)(figure->cycle_ticks / figure->step_ticks), name);
    }
}

/* What waits for its line: the id, or what plays. */
static int32_t waiting_id(const View* const view, const EntryKind shelf)
{
    const SeenBar* const coming = coming_bar(view);
    return !coming ? view_playing(view, shelf)
                   : (int32_t)(shelf == ENTRY_HANDS ? coming->hands : coming->feet);
}

static void draw_line(const Brush* const brush, const At at, const double room, const Type type,
                      const char* const words)
{
    ink_text_in(brush->cairo, at.x, at.y, room, type, words);
}

/* A name on the last line, and what it is over it; both on both lines where it is too long
   for one. */
static void draw_both(const Brush* const brush, const CardPlaces* const card, const double indent,
                      const Colour colour, const char* const what, const char* const name)
{
    char text[256];
    const Type type = brush_type(12.0, true, ALIGN_LEFT, colour);
    const Type least = brush_type(11.0, true, ALIGN_LEFT, colour);
    const At line = {card->line.x + indent, card->line.y};
    if (ink_width(brush->cairo, least, name) <= card->room) {
        draw_line(brush, line, card->room - indent, type, what);
        brush_fit(brush, card->foot.x, card->foot.y, card->room, type, name);
        return;
    }
    snprintf(text, sizeof text, "%s %s", what, name);
    ink_name(brush->cairo,
             (Box){line.x, line.y - 12.0, card->room - indent, card->foot.y - line.y + 16.0}, type,
             text);
}

static void draw_next(const Brush* const brush, const CardPlaces* const card,
                      const char* const name)
{
    const Colour colour = brush->colours->accent;
    ink_triangle(brush->cairo, card->line.x + 5.0, card->line.y - 4.0, 4.5, POINT_RIGHT, false,
                 colour);
    draw_both(brush, card, card->indent, colour, "next:", name);
}

/* What waits for its line: another figure, or what is made of the feet; false if nothing does. */
static bool draw_waiting(const Brush* const brush, const CardPlaces* const card,
                         const EntryKind shelf)
{
    const View* const view = brush->view;
    const int32_t waits = waiting_id(view, shelf);
    const Entry* const next = waits ? view_entry(view, shelf, waits) : NULL;
    const char* const varied = shelf == ENTRY_FEET ? coming_varied(view) : NULL;
    char name[DIAL_TEXT_ROOM];
    if (waits != view_playing(view, shelf)) {
        draw_next(brush, card, next ? next->label : "rest");
        return true;
    }
    if (varied) {
        handed_words(view, varied, name, sizeof name);
        draw_next(brush, card, name);
    }
    return varied;
}

/* The fill of the bar shown, where it plays these. */
static const Entry* fill_of(const View* const view, const EntryKind kind)
{
    const SeenBar* const bar = view_bar(view, view_shown(view));
    return bar && bar->fill && (kind == ENTRY_HANDS || bar->fill_feet)
               ? view_entry(view, ENTRY_TURNAROUND, (int32_t)bar->fill)
               : NULL;
}

/* A hook back, and the words that are clicked. */
static void draw_put_back(const Brush* const brush, const CardPlaces* const card,
                          const EntryKind kind)
{
    char text[160];
    const Palette* const colours = brush->colours;
    const Entry* const own = picked_own(brush->view, kind);
    const bool over = brush_is_hovered(brush, (TargetId){TARGET_PUT_BACK, (int)kind});
    const At at = card->foot;
    snprintf(text, sizeof text, "for %s", own ? own->label : "rest");
    brush_fit(brush, card->line.x, card->line.y, card->room,
              brush_type(12.0, false, ALIGN_LEFT, colours->soft), text);
    ink_hook(brush->cairo, at.x + 5.0, at.y - 4.0, over ? colours->ink : colours->soft);
    const double x = at.x + card->indent;
    const double wide = ink_text_in(brush->cairo, x, at.y, card->dots.x - 4.0 - x,
                                    brush_type(12.0, false, ALIGN_LEFT, colours->ink),
                                    brush->g->compact ? "back" : "put back");
    ink_line(brush->cairo, x, at.y + 2.5, x + wide, at.y + 2.5, 1.0,
             over ? colours->ink : colours->edge);
}

/* What stands under the name; true if that takes two lines. */
static bool draw_card_foot(const Brush* const brush, const CardPlaces* const card,
                           const EntryKind shelf, const Entry* const entry)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const Entry* const fill = fill_of(view, shelf);
    char text[160];
    const int32_t asked = (int32_t)view->values[kind_controls[shelf]];
    if (draw_waiting(brush, card, shelf)) {
        return true;
    }
    if (fill) {
        draw_both(brush, card, 0.0, colours->ink, "fill:", fill->label);
        return true;
    }
    if (entry && entry->difficulty) {
        brush_difficulty(brush, card->dots, entry->difficulty);
    }
    if (asked && !view_entry(view, shelf, asked)) {
        snprintf(text, sizeof text, "%d: not in the bank", (int)asked);
        draw_line(brush, card->line, card->room, brush_type(12.0, true, ALIGN_LEFT, colours->ink),
                  text);
        return true;
    }
    if (targets_find(brush->targets, (TargetId){TARGET_PUT_BACK, (int)shelf})) {
        draw_put_back(brush, card, shelf);
        return true;
    }
    const double room = card->dots.x - 6.0 - card->foot.x;
    if (entry && brush->g->compact && brush_marks(brush, card->foot, shelf, entry, room) > 0.0) {
        return false;
    }
    if (entry && entry->figure) {
        length_text(entry->figure, text);
        if (ink_width(brush->cairo, brush_type(11.0, false, ALIGN_LEFT, colours->soft), text) >
            room) {
            text[strcspn(text, ",")] = '\0'; /* without its grid */
        }
        brush_fit(brush, card->foot.x, card->foot.y, room,
                  brush_type(12.0, false, ALIGN_LEFT, colours->soft), text);
    }
    return false;
}

static void draw_card_sign(const Brush* const brush, const At at, const TargetId id,
                           const Point point)
{
    const Palette* const colours = brush->colours;
    ink_triangle(brush->cairo, at.x, at.y, 5.5, point, true,
                 brush_is_hovered(brush, id) ? colours->ink : colours->soft);
}

/* Beside the kind; in a small window there is room at the foot. */
static void draw_marks(const Brush* const brush, const CardPlaces* const card, const EntryKind kind,
                       const Entry* const entry)
{
    const View* const view = brush->view;
    const int32_t asked = (int32_t)view->values[kind_controls[kind]];
    const double x = card->title.x + card->title_width;
    const double room = card->up.x - 2.0 - x;
    if (asked && !view_entry(view, kind, asked)) {
        if (room >= 54.0) {
            brush_mark(brush, (Box){x, card->title.y - 12.0, 54.0, 16.0}, "missing", true, false);
        }
    } else if (entry) {
        brush_marks(brush, (At){x, card->title.y}, kind, entry, room);
    }
}

static void draw_card(const Brush* const brush, const Target* const target)
{
    const View* const view = brush->view;
    const Palette* const colours = brush->colours;
    const EntryKind shelf = (EntryKind)target->id.index;
    const CardPlaces card = geometry_card(brush->g, shelf == ENTRY_HANDS ? PAIR_HANDS : PAIR_FEET);
    const int32_t id = view_playing(view, shelf);
    const Entry* const entry = view_entry(view, shelf, id);
    const bool over = brush_is_hovered(brush, target->id);
    char text[64];
    ink_frame(brush->cairo, card.box, 5.0, over ? 1.6 : 1.0, over ? colours->ink : colours->edge);
    draw_line(brush, card.title, 60.0, brush_type(12.0, false, ALIGN_LEFT, colours->soft),
              kind_rows[shelf].title);
    draw_card_sign(brush, card.up_sign, (TargetId){TARGET_CARD_UP, (int)shelf}, POINT_UP);
    draw_card_sign(brush, card.down_sign, (TargetId){TARGET_CARD_DOWN, (int)shelf}, POINT_DOWN);
    draw_marks(brush, &card, shelf, id ? entry : NULL);
    const bool is_known = view_bar(view, view_shown(view)) || (id && entry);
    snprintf(text, sizeof text, id ? "%d, not in the bank" : is_known ? "rest" : " ", (int)id);
    Box name = card.name;
    if (!geometry_folds(brush->g, shelf == ENTRY_HANDS ? RIGHT_HAND : RIGHT_FOOT)) {
        const bool is_tall = draw_card_foot(brush, &card, shelf, entry);
        name.height -= is_tall && !brush->g->edits ? card.over : 0.0;
        edit_draw_held(brush, card.held, card.room);
    }
    ink_name(brush->cairo, name,
             brush_type(brush->g->compact ? 16.0 : 19.0, true, ALIGN_LEFT, colours->ink),
             entry && id ? entry->label : text);
    brush_focus(brush, target, 2.0);
}

void draw_cards(const Brush* const brush)
{
    for (int i = 0; i < brush->targets->count; ++i) {
        const Target* const target = &brush->targets->targets[i];
        if (target->id.kind == TARGET_CARD &&
            (target->group == GROUP_HANDS || target->group == GROUP_FEET)) {
            draw_card(brush, target);
        }
    }
}

// SPDX-License-Identifier: ISC
/* The line that explains what is pointed at, or what has the keys, and says what is new. */
#include "brush.h"
#include "handed.h"
#include "news.h"
#include "shortlist.h"
#include "vary_page.h"

#include <stdio.h>
#include <string.h>

enum { HELP_ROOM = MESSAGE_ROOM + 64 };
_Static_assert((int)HELP_ROOM >= (int)NEWS_ROOM, "news have room");

static const char* tab_help(const Panel panel)
{
    return panel == PANEL_EDIT ? "Edit the figure of hands or feet; E, and Esc goes back"
           : panel == PANEL_OUTPUT
               ? "Channels, kit map, files, the window itself; O, and O again back"
               : "P goes to the next page";
}

static const char* help_of(const View* const view, const TargetId id)
{
    switch (id.kind) {
    case TARGET_DIAL:
        return dial_of(handed_name(view, (Control)id.index))->help;
    case TARGET_CLICK:
        return dial_of(CONTROL_CLICK)->help;
    case TARGET_CARD:
        return dial_of(kind_controls[id.index])->help;
    case TARGET_CARD_UP:
        return "The figure before, heard at the next line";
    case TARGET_CARD_DOWN:
        return "The figure after, heard at the next line";
    case TARGET_PUT_BACK:
        return "Puts back what the groove has itself; Backspace does it for hands, feet and fill";
    case TARGET_WORD:
        return dial_of(view->choosing)->help;
    case TARGET_TAB:
        return tab_help((Panel)id.index);
    case TARGET_PAGE:
        return "The other row of dials";
    case TARGET_SHOW:
        return id.index == SHOW_KEYS ? "The list of keys; K" : "Read from a distance; D";
    case TARGET_BAR:
        return view->place.rolling ? "Double-click loops this bar, and again the whole phrase"
                                   : "Click looks at this bar; double-click loops it";
    case TARGET_THEME:
        return "The window's colours: those of the host, dark, or light";
    case TARGET_OPTION:
        return options_help((OptionItem)id.index);
    case TARGET_EDIT:
        return edit_help((EditItem)id.index);
    case TARGET_ROW:
        return view->hover.kind == TARGET_ROW
                   ? "Click: normal, accent, ghost, none.  Drag up or down: level.  Shift-drag: "
                     "move.  Right click: voice"
                   : "Left, Right: step.  Up, Down: level.  O G F D: accent, ghost, flam, drag.  "
                     "V: voice.  Page Up, Page Down: bar.  E: other limbs.  S: save.  Esc: done";
    case TARGET_HEAD:
    case TARGET_FIND:
    case TARGET_LIST_ROW:
    case TARGET_LIST:
        return view->keys.is_open ? "What each key does; Up and down: more.  Esc or K: back"
                                  : "Up, down: hear another.  Enter: keep it.  Esc: back to what "
                                    "played before.  Left, right, a "
                                    "heading: sort";
    case TARGET_KEPT:
        return "Plays what is kept here, from the change line on; Shift and its number do it too.  "
               "J: the shortlist, and back";
    case TARGET_KEPT_LOT:
        return "The other eight; Shift+0";
    case TARGET_VARY: /* vary_page_help */
    case TARGET_READING:
    case TARGET_NONE:
        break;
    }
    return "";
}

/* A dial's help has what its value does where there is room for it, and why it does nothing
   where it does nothing. */
static void dial_words(const Brush* const brush, const int index, const double room,
                       char text[HELP_ROOM])
{
    const View* const view = brush->view;
    const Control control = (Control)index;
    const Control named = handed_name(view, control); /* a limb's is the other's already */
    const char* const unused = dial_unused(view, control);
    char words[DIAL_HELP_ROOM];
    char whole[HELP_ROOM];
    dial_help(view, named, words);
    if (unused) {
        snprintf(whole, sizeof whole, "Does nothing now: %s.  %s", unused, dial_of(named)->help);
    } else {
        const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
        const bool fits = ink_width(brush->cairo, type, words) <= room;
        snprintf(whole, sizeof whole, "%s", fits ? words : dial_of(named)->help);
    }
    if (named == control) {
        handed_words(view, whole, text, HELP_ROOM);
    } else {
        snprintf(text, HELP_ROOM, "%s", whole);
    }
}

/* The question where: of a folder that is too long for the line its end. */
static void ask_where(const Brush* const brush, const double room, char text[HELP_ROOM])
{
    const char* folder = brush->view->asked.folder;
    const Type type = brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft);
    const char* const found = brush->view->asked.found;
    const char* const brief = *found              ? found
                              : brush->g->compact ? ""
                                                  : "Enter: write.  Esc: not.  Tab: completes";
    for (bool is_whole = true;; is_whole = false) {
        snprintf(text, HELP_ROOM, "Write into %s%.140s|   %s", is_whole ? "" : "\xE2\x80\xA6",
                 folder, brief);
        if (!*folder || (strlen(folder) < 140 && ink_width(brush->cairo, type, text) <= room)) {
            return;
        }
        do {
            ++folder;
        } while ((*folder & 0xC0) == 0x80); /* not within a letter */
    }
}

static void ask(const Brush* const brush, const double room, char text[HELP_ROOM])
{
    const Asking* const asked = &brush->view->asked;
    switch (asked->what) {
    case ASKED_FOLDER:
        ask_where(brush, room, text);
        break;
    case ASKED_GROOVE:
        snprintf(text, HELP_ROOM,
                 "Save what plays as your groove: %s|   %s%sEnter: save.  Esc: not", asked->name,
                 asked->why, *asked->why ? ".  " : "");
        break;
    case ASKED_KEPT:
        snprintf(text, HELP_ROOM, "Name what is kept in %d: %s|   Enter: name it.  Esc: not",
                 (int)asked->id, asked->name);
        break;
    case ASKED_DELETION:
        snprintf(text, HELP_ROOM,
                 "Delete \"%s\"?  Its file stays, its name ending in .deleted.   Enter: delete.  "
                 "Esc: not",
                 asked->name);
        break;
    }
}

/* What is said before anything is explained; false if there is nothing. */
static bool news_of(const Brush* const brush, const double room, char text[HELP_ROOM])
{
    const View* const view = brush->view;
    const bool points = view->hover.kind != TARGET_NONE;
    if (view->asked.is_open) {
        ask(brush, room, text);
    } else if (view->is_typing && *view->refused) {
        snprintf(text, HELP_ROOM, "%s", view->refused);
    } else if (!view->is_typing && *view->edit.note && view->hover.kind != TARGET_DIAL) {
        snprintf(text, HELP_ROOM, "%s", view->edit.note);
    } else if (!view->is_typing && !points && view->dropped) {
        snprintf(text, HELP_ROOM,
                 brush->g->compact
                     ? "%u strokes lost: MIDI room too small"
                     : "%u strokes were not played: the host gives too little room for MIDI",
                 view->dropped);
    } else if (!view->is_typing && !points && *view->message) {
        snprintf(text, HELP_ROOM, "Bank: %s", view->message);
    } else if (!view->is_typing && !points && brush->g->compact) {
        news_words(view, text); /* in a larger window it stands over the groove's name */
    } else {
        return false;
    }
    return true;
}

/* A bar's fill by name, which may have no room in the bar. */
static void bar_words(const View* const view, const TargetId id, char text[HELP_ROOM])
{
    const SeenBar* const bar = view_bar(view, view_phrase(view) + id.index);
    const Entry* const fill =
        bar && bar->fill ? view_entry(view, ENTRY_TURNAROUND, (int32_t)bar->fill) : NULL;
    snprintf(text, HELP_ROOM, "%s%s%s%s", fill ? "Fill: " : "", fill ? fill->label : "",
             fill ? ".  " : "", help_of(view, id));
}

/* What a slot holds, whose name may have had no room in its row. */
static void kept_words(const View* const view, const TargetId id, char text[HELP_ROOM])
{
    const KeptRow* const kept = &view->kept.rows[id.index];
    if (kept->is_there) {
        snprintf(text, HELP_ROOM, "%d, %s: %s.  Enter, Shift+%d: play.  R: name", id.index + 1,
                 kept->name, kept->told, id.index % KEPT_LOT + 1);
    } else {
        snprintf(text, HELP_ROOM, "%s", help_of(view, id));
    }
}

/* The list's help over the pointer's: who has it open asks what it is for. */
static void explain(const Brush* const brush, const double room, char text[HELP_ROOM])
{
    const View* const view = brush->view;
    const TargetId list = {TARGET_LIST, 0};
    const TargetId pointed = brush->g->list || brush->g->keys  ? list
                             : view->hover.kind != TARGET_NONE ? view->hover
                                                               : view->focus;
    if (view->is_typing) {
        snprintf(text, HELP_ROOM, "Type a value: Enter sets it, Esc leaves it as it was");
    } else if (pointed.kind == TARGET_BAR) {
        bar_words(view, pointed, text);
    } else if (pointed.kind == TARGET_VARY) {
        vary_page_help(view, pointed.index, text);
    } else if (pointed.kind == TARGET_KEPT) {
        kept_words(view, pointed, text);
    } else if (pointed.kind == TARGET_DIAL) {
        dial_words(brush, pointed.index, room, text);
    } else {
        snprintf(text, HELP_ROOM, "%s", help_of(view, pointed));
    }
}

bool help_explains(const Brush* const brush)
{
    char text[HELP_ROOM] = "";
    const Geometry* const g = brush->g;
    return g->compact && !g->list && !g->keys &&
           (brush->view->hover.kind != TARGET_NONE || (news_of(brush, g->width, text) && *text));
}

/* Over the last line of a small window's list, or the names of the shortlist's columns: what is
   asked or answered there must be read. */
static void draw_over_list(const Brush* const brush)
{
    char text[HELP_ROOM] = "";
    const Geometry* const g = brush->g;
    Box band = {0.0, g->height - 22.0, g->width, 22.0};
    if (g->kept) {
        shortlist_says(brush->view, g, &band);
    }
    if ((brush->view->asked.is_open || *brush->view->edit.note) &&
        news_of(brush, g->width - 24.0, text)) {
        ink_fill(brush->cairo, band, brush->colours->raised);
        ink_text_in(brush->cairo, 12.0, band.y + 15.0, g->width - 24.0,
                    brush_type(11.0, false, ALIGN_LEFT, brush->colours->ink), text);
    }
}

void draw_help(const Brush* const brush)
{
    char text[HELP_ROOM] = "";
    const Line line = geometry_help(brush->g, help_explains(brush));
    if (brush->g->compact && brush->g->list) {
        draw_over_list(brush);
    }
    if (line.room <= 0.0) {
        return;
    }
    if (!news_of(brush, line.room, text)) {
        explain(brush, line.room, text);
    }
    ink_text_in(brush->cairo, line.at.x, line.at.y, line.room,
                brush_type(11.0, false, ALIGN_LEFT, brush->colours->soft), text);
}

// SPDX-License-Identifier: ISC
/* brush.h - what every part of the screen needs to draw itself; the parts. */
#pragma once

#include "dial.h"
#include "target_choice.h"
#include "targets.h"

typedef struct {
    cairo_t* cairo;
    const View* view;
    const Geometry* g;
    const Palette* colours;
    const TargetList* targets;
    bool lit; /* draw every stroke and beat as if it sounded now */
} Brush;

Type brush_type(double size, bool bold, Align align, Colour colour);

/* The ring around what has the keys, and whether something is pointed at. */
void brush_focus(const Brush* brush, const Target* target, double out);
bool brush_is_hovered(const Brush* brush, TargetId id);

/* A switch, on or off. */
void brush_switch(const Brush* brush, At at, bool on);

/* One to five of five dots. */
double brush_difficulty(const Brush* brush, At at, int difficulty);

void draw_top(const Brush* brush);
void draw_cards(const Brush* brush);
void draw_limbs(const Brush* brush);
void draw_staff(const Brush* brush);
void draw_overview(const Brush* brush);
void draw_panel(const Brush* brush);

/* Pages: what pages.h names. */
void draw_cells(const Brush* brush);
void draw_choice(const Brush* brush, const Target* target, Control control, Box box);
void draw_practice(const Brush* brush);

void draw_dial(const Brush* brush, const Target* target, Control control);
void draw_edit(const Brush* brush, const Target* target);
void edit_draw_held(const Brush* brush, At at, double room);
void draw_theme(const Brush* brush, const Target* target);
void draw_option(const Brush* brush, const Target* target);
void draw_list(const Brush* brush);
void draw_keys(const Brush* brush);
void draw_help(const Brush* brush);

/* True if in a small window the line of countdowns says what is pointed at, or what is new. */
bool help_explains(const Brush* brush);
void draw_reading(const Brush* brush);

/* A name over what stands in a cell. */
void brush_label(const Brush* brush, Box box, const char* words, bool over);

/* What an item of the edit panel does, in a sentence. */
const char* edit_help(EditItem item);

/* What an option of the window is, in a sentence. */
const char* options_help(OptionItem item);

/* The voice that a limb strikes most in a bar; VOICE_COUNT if none. */
Voice brush_voice_of_limb(const SeenBar* bar, int limb);

/* How tall a stem is: the velocity as it will be played. */
double brush_stem_height(const Geometry* geometry, const SeenStroke* stroke);

/* A stem from its tip to its head; in dashes of `dash`, if not 0: a stroke that isn't written
   but the player's own. */
void brush_stem(const Brush* brush, double x, double tip, double head, double width, double dash,
                Colour colour);

/* Words that get smaller, down to 11, and only then are cut. */
double brush_fit(const Brush* brush, double x, double y, double room, Type type, const char* words);

/* What marks an entry: "own", and in dashes "edited", from a place on a base line; the latter
   alone where there is no room for both.  How wide they are. */
double brush_marks(const Brush* brush, At at, EntryKind kind, const Entry* entry, double room);

/* A word in a small box, dashed where it isn't kept. */
void brush_mark(const Brush* brush, Box box, const char* words, bool dashed, bool over);

/* A frame in a cell with words in it. */
void brush_button(const Brush* brush, const Target* target, const char* words, bool can);

// SPDX-License-Identifier: ISC
/* ink.h - marks on a Cairo context: words in any script, noteheads, stems.  Lengths
   are points on paper, or logical pixels. */
#pragma once

#include "../../plugin/engine/written/stroke.h"
#include "palette.h"

#include <cairo.h>

typedef enum { ALIGN_LEFT, ALIGN_CENTRE, ALIGN_RIGHT } Align;

typedef struct {
    double size; /* of the type */
    bool bold;
    Align align;
    Colour colour;
} Type;

typedef struct {
    double x;
    double y;
    double width;
    double height;
} Box;

/* How a notehead is drawn. */
typedef struct {
    Colour colour;
    double scale;
    bool hollow; /* of a limb that is silent */
} Mark;

/* What is drawn next is in this colour. */
void ink_source(cairo_t* cairo, Colour colour);

/* Writes words with their base line at y; their width. */
double ink_text(cairo_t* cairo, double x, double y, Type type, const char* words);

/* The same, cut with an ellipsis to `room`. */
double ink_text_in(cairo_t* cairo, double x, double y, double room, Type type, const char* words);

/* Words in up to two lines from the top of a box; smaller, down to two thirds, and
   only then cut, where they don't fit. */
void ink_name(cairo_t* cairo, Box box, Type type, const char* words);

/* How wide words would be. */
double ink_width(cairo_t* cairo, Type type, const char* words);

void ink_line(cairo_t* cairo, double x1, double y1, double x2, double y2, double width,
              Colour colour);

void ink_fill(cairo_t* cairo, Box box, Colour colour);

/* An outline inside the box. */
void ink_frame(cairo_t* cairo, Box box, double round, double width, Colour colour);

void ink_fill_round(cairo_t* cairo, Box box, double round, Colour colour);

/* A triangle of the given half width: up, down, right. */
typedef enum { POINT_UP, POINT_DOWN, POINT_RIGHT, POINT_LEFT } Point;
void ink_triangle(cairo_t* cairo, double x, double y, double half, Point point, bool filled,
                  Colour colour);

/* An arrow that turns back, with its middle there. */
void ink_hook(cairo_t* cairo, double x, double y, Colour colour);

/* A notehead: x for cymbals, with a ring where open and a barred ring where half
   open, a diamond for the bell, a triangle for the cowbell, an oval for drums
   (Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994).  There cymbals
   are told apart by their place on the staff, which lines for limbs don't have: a ride has a
   bar over its x, a china one below too, crashes stand in a circle (ours, no source). */
void head_draw(cairo_t* cairo, double x, double y, Voice voice, Mark mark);

/* The ring of an open hat, barred where half open, by itself. */
void head_ring(cairo_t* cairo, double x, double y, bool barred, Mark mark);

/* An accent sign, a ghost's brackets, the small heads of a flam or drag. */
void head_accent(cairo_t* cairo, double x, double y, Colour colour);
void head_brackets(cairo_t* cairo, double x, double y, Mark mark);
void head_graces(cairo_t* cairo, double x, double y, int count, double up);

/* A note of its own, stem up, with its head's middle there: unit 1 a whole note, 2 a half,
   4 a quarter, 8 an eighth. */
void head_note(cairo_t* cairo, double x, double y, int unit, bool dotted, Mark mark);

/* As the one before: a stroke between two dots. */
void head_simile(cairo_t* cairo, double x, double y, Mark mark);

// SPDX-License-Identifier: ISC
/* ink.h - marks on a Cairo context: words in any script, noteheads, stems.  Lengths
   are points on paper, or logical pixels. */
#pragma once

#include "../../plugin/engine/stroke.h"

#include <cairo.h>

typedef enum { ALIGN_LEFT, ALIGN_CENTRE, ALIGN_RIGHT } Align;

typedef struct {
    double size; /* of the type */
    bool bold;
    Align align;
    double grey; /* 0 black to 1 white */
} Type;

/* Writes words with their base line at y; their width. */
double ink_text(cairo_t* cairo, double x, double y, Type type, const char* words);

/* How wide words would be. */
double ink_width(cairo_t* cairo, Type type, const char* words);

void ink_line(cairo_t* cairo, double x1, double y1, double x2, double y2, double width,
              double grey);

/* A notehead: x for cymbals, with a ring where open and a barred ring where half
   open, a diamond for the bell, a triangle for the cowbell, an oval for drums
   (Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994). */
void ink_head(cairo_t* cairo, double x, double y, Voice voice, double scale);

/* An accent sign, a ghost's brackets, the small heads of a flam or drag. */
void ink_accent(cairo_t* cairo, double x, double y);
void ink_brackets(cairo_t* cairo, double x, double y);
void ink_graces(cairo_t* cairo, double x, double y, int count, double up);

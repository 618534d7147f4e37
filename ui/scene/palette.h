// SPDX-License-Identifier: ISC
/* palette.h - colours by what they are for, never by limb: what a colour says is
   always said in another way too. */
#pragma once

#include <stdbool.h>

typedef struct {
    double red; /* 0 to 1, sRGB */
    double green;
    double blue;
} Colour;

#define GREY(value)                                                                                \
    {                                                                                              \
        value, value, value                                                                        \
    }

/* Text is `soft`, `ink` or `accent` on `ground`, `shade` or `raised`; `ground` on
   `ink`; `on_accent` on `accent`: at least 4.5 to 1 each.  `edge` draws outlines
   and marks, at least 3 to 1; `rule` divides and carries no meaning alone. */
typedef struct {
    Colour ground; /* the window */
    Colour shade;  /* left limbs, the bar now playing */
    Colour raised; /* the row or field being used */
    Colour rule;   /* beat lines, dividers */
    Colour edge;   /* outlines, limb lines, strokes of the next bar */
    Colour soft;   /* labels, off-beat syllables */
    Colour ink;    /* strokes, values, names */
    Colour accent; /* now, next, keyboard focus */
    Colour on_accent;
} Palette;

extern const Palette palette_dark;
extern const Palette palette_light;

/* Contrast from 1 to 21 (W3C, WCAG 2.1, relative luminance). */
double palette_contrast(Colour a, Colour b);

/* A palette around a host's own background and text colours; where the two don't
   stand out from each other the text becomes black or white. */
Palette palette_around(Colour background, Colour text);

/* True if every pair keeps the promise written above. */
bool palette_readable(const Palette* palette);

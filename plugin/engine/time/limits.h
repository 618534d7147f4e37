// SPDX-License-Identifier: ISC
/* limits.h - every capacity of the engine, with its reason. */
#pragma once

enum {
    TEMPO_LEAST = 1,          /* quarters a minute: less is no tempo */
    TEMPO_MOST = 2000,        /* the same, with the speed: a roll of 33 quarters a second */
    LIMB_LINES_MAX = 16,      /* four limbs on four voices each */
    FIGURE_STROKES_MAX = 512, /* four limbs, 16 notes a quarter, two bars of 4/4 */
    FORM_BARS_MAX = 16,       /* the longest phrase that a chart shows on a page */
    FILL_BARS_MAX = 4,        /* the longest fill: half of a phrase of eight */
    PARTS_MAX = 8,            /* letters A to H */
    SPAN_STROKES_MAX = 256,   /* four limbs, 64 strokes each, in one slice of a block */
    SLICE_FRAMES_MAX = 1024,  /* a block is worked off in slices of this size */
    SOUNDING_MAX = 128,       /* one for each MIDI key */
    MIDI_LIST_MAX = 768,      /* a slice's strokes, their note-offs, and those owed */
    KEPT_MAX = 16,            /* kept selections: all within one turn of a knob */
};

/* Ids of what can be picked: the factory's below the first own, the user's own up to
   the most. */
enum { ID_LEAST = 1, ID_FIRST_OWN = 1000, ID_MOST = 1999 };

// SPDX-License-Identifier: ISC
/* reading.h - the reading view: the bar that plays as large as the window lets it be, for
   who sits at a drum kit two metres away.  No panel, no cards; over the staff groove, bar
   and tempo, under it the form and, by name, the last bar or what waits.

   All of it grows with the smaller of width / 1280 and height / 760; spare width goes to
   the beat, spare height to the rows.  A digit or a capital letter is seen at 16 minutes of
   arc or more, the least that ISO 9241-303 (2011) allows, from two metres, at 96 dots an
   inch in a window of 1280 by 760: 35.2 pixels.  Voices named in the staff alone are less where
   the window is not tall enough: signs have their place before them, and what a limb strikes
   most stands beside its row.  They are for who sits nearer. */
#pragma once

#include "geometry.h"

/* The sizes of type, by what it says. */
typedef enum {
    READING_COUNT, /* beats, of hands and of feet */
    READING_SAID,  /* syllables */
    READING_GROOVE,
    READING_BAR,
    READING_METER,
    READING_TEMPO,
    READING_LIMB,
    READING_RATE,
    READING_VOICE, /* under a limb's name */
    READING_FORM,
    READING_NAME,  /* of the last bar, or of what waits */
    READING_ASIDE, /* voices named in the staff */
    READING_ROLES
} ReadingRole;

/* In logical pixels. */
double reading_size(const Geometry* geometry, ReadingRole role);

/* Puts the staff where the reading view has it. */
void reading_place(Geometry* geometry);

/* Base lines, and what has room beside them. */
typedef struct {
    At groove;
    double groove_room;
    At bar;   /* its middle */
    At meter; /* its middle; the upper number's */
    double meter_lower;
    At tempo; /* right end */
    At limb[LIMB_COUNT];
    At beside[LIMB_COUNT]; /* a hand's voice, a foot's rate */
    double limb_room;
    double rule[2]; /* lines over and under the staff */
    At name;
    double name_room;
} ReadingPlaces;

ReadingPlaces reading_places(const Geometry* geometry);

/* A bar of the form, and of how many. */
Box reading_bar(const Geometry* geometry, int bar, int bars);

// SPDX-License-Identifier: ISC
/* dial.h - how each control port is named, worded, stepped and grouped on screen;
   ranges and defaults are those of plugin/engine/groove/settings.h. */
#pragma once

#include "view.h"

typedef enum {
    DIAL_SWITCH,
    DIAL_CHOICE,  /* a few words side by side */
    DIAL_VALUE,   /* a number or a word over a rule */
    DIAL_PICK,    /* opens a list */
    DIAL_TRIGGER, /* a button: on for a moment */
} DialKind;

/* How a value is written. */
typedef enum {
    FORM_NUMBER, /* with its unit */
    FORM_WORDS,  /* a word for each whole value from the least on */
    FORM_RATIO,  /* long to short */
    FORM_PUSH,   /* ms ahead or behind */
    FORM_ENTRY,  /* what is picked */
    FORM_VARIED, /* a variation's name */
} Form;

typedef struct {
    DialKind kind;
    Form form;
    const char* label;
    const char* unit;         /* "" if none */
    const char* const* words; /* FORM_WORDS */
    const char* zero;         /* the word for 0 in FORM_NUMBER; NULL if it has none */
    double step;              /* of an arrow key or a notch of the wheel */
    double fine;              /* with Shift */
    int panel;                /* Panel, or -1 where it stands elsewhere */
    int column;               /* 0 to 6; on Practice 0 to 4 */
    int row;                  /* 0 or 1; on Practice 0 to 2 */
    const char* help;         /* a sentence */
} Dial;

const Dial* dial_of(Control control);

enum { DIAL_TEXT_ROOM = 96 };

/* The value in words, without its unit where `unit` stands beside it: then *unit
   is it, else "". */
void dial_text(const View* view, Control control, float value, char text[DIAL_TEXT_ROOM],
               const char** unit);

enum { DIAL_HELP_ROOM = 320 };

/* What the dial does, and after it what its value now does, where there is a word for it. */
void dial_help(const View* view, Control control, char text[DIAL_HELP_ROOM]);

enum { DIAL_WHY_ROOM = 160 };

/* Reads what a person typed.  A ratio may be typed as "2:1", a fraction with a point
   or a comma.  False, with a sentence in `why`, for what the port can't take as it is:
   nothing is cut, rounded or brought into range. */
bool dial_parse(Control control, const char* typed, float* value, char why[DIAL_WHY_ROOM]);

/* A value moved by so many steps, in range, on a step. */
float dial_step(Control control, float value, double steps, bool fine);

/* A value brought into range, whole where the port is. */
float dial_fit(Control control, double value);

/* Where a value lies in its range: 0 to 1. */
double dial_share(Control control, float value);

/* Why a dial does nothing now, or NULL. */
const char* dial_unused(const View* view, Control control);

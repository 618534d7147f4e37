// SPDX-License-Identifier: ISC
/* own_groove.h - a selection as a groove of the user's own: what is picked, laid out and dialled
   becomes what is written.  Figures on another grid or cycle, later, or led by the left foot
   are figures of their own then; what a groove can't hold is told.  Whoever keeps a selection as
   a groove does it by this: the window, or a command. */
#pragma once

#include "../engine/groove/selection.h"
#include "write_figure.h"

enum { GROOVE_USES_MAX = 2 * PARTS_MAX + 1, OWN_GROOVE_LEFT_ROOM = 160 };

/* A figure that it plays: whole, so that the library it is from may go. */
typedef struct {
    FigureKind kind;
    uint32_t from;   /* the id of the library's */
    bool is_made;    /* another than that: laid out anew, or led by the other foot */
    Figure figure;   /* what is played */
    Stroke* strokes; /* of it; owned */
    uint32_t id;     /* that the bank has it by; the caller puts in those of new ones */
} GrooveUse;

typedef struct {
    Groove groove; /* without its figures: those are uses, by their places from 1 on; 0: none */
    uint8_t hands[PARTS_MAX];
    uint8_t feet[PARTS_MAX];
    uint8_t fill;
    uint32_t from; /* the groove's id that it is made of */
    int count;
    GrooveUse uses[GROOVE_USES_MAX];
    char left[OWN_GROOVE_LEFT_ROOM]; /* what isn't in it, in words; "" if all is */
} OwnGroove;

/* `meter` and `tempo`, quarter notes a minute, are those it is played in.  False if there is no
   memory, or the selection has no groove.  Free it. */
bool own_groove_make(OwnGroove* own, const Selection* selection, Meter meter, double tempo);
void own_groove_free(OwnGroove* own);

/* A use as an entry that can be saved under a label, with the words of what it came from; NULL
   if there is no memory, or lines of steps can't say it.  The caller frees, as below. */
char* own_groove_figure(const OwnGroove* own, int use, const Bank* bank, const char* label);

/* The groove as such an entry; the bank must have all its uses' ids.  `id` is that of the own
   groove that it goes over, or 0. */
char* own_groove_text(const OwnGroove* own, const Bank* bank, uint32_t id, const char* label);

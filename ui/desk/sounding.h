// SPDX-License-Identifier: ISC
/* sounding.h - which variations and which kept selection sound: what was asked for and waits for
   its line doesn't yet. */
#pragma once

typedef struct Model Model;

enum { SOUNDING_ASKED = 3 };

/* What was asked for last, and when. */
typedef struct {
    int asked[SOUNDING_ASKED];
    double at; /* seconds */
} Sounding;

/* Fills in view.vary.playing and view.kept.playing. */
void sounding_tick(Model* model);

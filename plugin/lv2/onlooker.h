// SPDX-License-Identifier: ISC
/* onlooker.h - for as long as somebody looks on: the phrase as it will be played,
   and the place in it, told inside a sequence on `notify`.  Audio thread. */
#pragma once

#include "../engine/outlook.h"
#include "../talk/tell.h"

#include <stdbool.h>

typedef struct {
    double rate;         /* frames a second */
    int64_t watched;     /* frames for which somebody still looks on */
    int64_t since_place; /* frames since the place was told */
    SeenPlace told_place;
    Outlook outlook;
} Onlooker;

void onlooker_init(Onlooker* onlooker, double rate);

/* Somebody looks on from now, for three seconds unless asked again; one who asks
   for `all` knows nothing yet. */
void onlooker_ask(Onlooker* onlooker, bool all);

/* After `frames` were played; what finds no room is told in a later block. */
void onlooker_tell(Onlooker* onlooker, LV2_Atom_Forge* forge, const Engine* engine, uint32_t frames,
                   const Uris* uris);

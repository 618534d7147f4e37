// SPDX-License-Identifier: ISC
/* factory.h - the bank of the built bundle, and what tests ask of its figures. */
#pragma once

#include "../../plugin/bank/bank.h"
#include "../../plugin/engine/groove/groove.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Ends the program if there is none: no test here means anything then. */
static inline Bank* factory_open(void)
{
    Bank* const bank = bank_open((BankSources){.factory = FOURLIMB_BUILD "/lv2/fourlimb.lv2/bank"});
    if (!bank) {
        printf("# the built bundle's bank can't be opened\n");
        exit(2);
    }
    return bank;
}

static inline const char* factory_kind_word(const EntryKind kind)
{
    return kind_rows[kind].name;
}

/* The figure of an entry; the three first kinds of entry are figures. */
static inline const Figure* factory_figure(const Bank* const bank, const EntryKind kind,
                                           const uint32_t index)
{
    return &bank_library(bank)->figures[kind][index];
}

/* A groove that plays a hands and a feet figure in every bar, either may be NULL. */
static inline Groove plain_groove(const Figure* const hands, const Figure* const feet)
{
    return (Groove){.id = 1,
                    .meter = {4.0, 4},
                    .tempo = 120.0,
                    .form_bars = 1,
                    .parts = {{.hands = hands, .feet = feet}}};
}

/* All of a groove with nothing put in its place, in phrases of so many bars. */
static inline Selection plain_choice(const Groove* const groove, const uint32_t phrase_bars)
{
    return (Selection){.groove = groove,
                       .turnaround = groove->turnaround,
                       .phrase_bars = phrase_bars,
                       .realign = REALIGN_PHRASE,
                       .swing = {1.0, TICKS_PER_QUARTER},
                       .limbs = {true, true, true, true}};
}

enum { STICKING_ROOM = 256 };

/* What a limb is in a sticking. */
static inline char sticking_letter(const uint8_t limb)
{
    return limb == RIGHT_HAND || limb == RIGHT_FOOT ? 'R' : 'L';
}

/* A figure as R and L and dots, one a step; "off the grid" if a stroke lies
   between steps, "two at once" if two share one. */
static inline const char* figure_sticking(const Figure* const figure, const int64_t step)
{
    static char text[STICKING_ROOM];
    const int64_t steps = figure->cycle_ticks / step;
    if (figure->cycle_ticks % step || steps >= STICKING_ROOM) {
        return "its length is off the grid";
    }
    memset(text, '.', (size_t)steps);
    text[steps] = '\0';
    for (uint32_t i = 0; i < figure->stroke_count; ++i) {
        const Stroke stroke = figure->strokes[i];
        if (stroke.tick % step) {
            return "off the grid";
        }
        char* const place = &text[stroke.tick / step];
        if (*place != '.') {
            return "two at once";
        }
        *place = sticking_letter(stroke.limb);
    }
    return text;
}

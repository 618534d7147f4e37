// SPDX-License-Identifier: ISC
/* wish.h - what somebody looks for in a list of the bank, and the one reader of it as it is
   typed, in the window and behind `fourlimb list` alike.

     triplets under 7 at 180 gallop

   7/8, or in 7/8   only in this meter
   on WORD          only on this grid: a word of WISH_GRIDS
   under N          fewer than N strokes a second of one foot, or of a list of hands of one hand
   limit N          N at most
   at N             at this tempo, in quarter notes a minute
   else             words, in any case and script: each must be found.  The word of a grid finds
                    what is on it, too.

   A word is one of these only with what belongs behind it: "at" of "at the gate" is text. */
#pragma once

#include "../../plugin/engine/time/ticks.h"

#include <stdbool.h>
#include <stddef.h>

/* NAME, word, another one, steps in a quarter note (tuplets: or in two or four); 0: by its
   sound. */
#define WISH_GRIDS(X)                                                                              \
    X(QUARTERS, "quarters", "4ths", 1)                                                             \
    X(EIGHTHS, "eighths", "8ths", 2)                                                               \
    X(TRIPLETS, "triplets", "triplet", 3)                                                          \
    X(SIXTEENTHS, "sixteenths", "16ths", 4)                                                        \
    X(QUINTUPLETS, "quintuplets", "quintuplet", 5)                                                 \
    X(SEXTUPLETS, "sextuplets", "sextuplet", 6)                                                    \
    X(SEPTUPLETS, "septuplets", "septuplet", 7)                                                    \
    X(THIRTY_SECONDS, "thirty-seconds", "32nds", 8)                                                \
    X(SHUFFLE, "shuffle", "shuffled", 0)

#define WISH_GRID(NAME, word, other, steps) WISH_##NAME,
typedef enum { WISH_ANY_GRID, WISH_GRIDS(WISH_GRID) WISH_GRID_COUNT } WishGrid;
#undef WISH_GRID

enum { WISH_WORDS_MAX = 12, WISH_WORD_ROOM = 64, WISH_SAID_ROOM = 256 };

typedef struct {
    char text[WISH_WORD_ROOM]; /* UTF-8, of folded case */
    WishGrid grid;             /* that it is the word of */
} WishWord;

/* Zeros: anything. */
typedef struct {
    WishWord words[WISH_WORDS_MAX];
    int word_count;
    const char* family; /* the caller's; NULL: any */
    WishGrid grid;
    Meter meter;                /* 0 beats: any */
    double limit;               /* most strokes in the busiest second; 0: any */
    bool limited;               /* `limit` is meant, be it 0 */
    double tempo;               /* 0: not said */
    char wrong[WISH_WORD_ROOM]; /* what can't be so, such as "at 3000"; "" if all can */
} Wish;

/* Adds what is typed; more than WISH_WORDS_MAX words find nothing more.  A number that can't
   be (and one that is still to be typed) is noted in `wrong` and left out, so that whoever
   types along sees on. */
void wish_read(Wish* wish, const char* typed);

/* The grid of a word; WISH_ANY_GRID if it is none's. */
WishGrid wish_grid(const char* word);
const char* wish_grid_word(WishGrid grid);

/* Which tempi and limits can be. */
bool wish_has_tempo(double tempo);
bool wish_has_limit(double strokes);

/* True if it asks for nothing. */
bool wish_is_empty(const Wish* wish);

/* True if some of what is found is nearer to it than other: it has words or a tempo. */
bool wish_ranks(const Wish* wish);

/* What it asks for, in words: "gallop, on triplets, at most 6 a second at 180". */
void wish_say(const Wish* wish, char said[WISH_SAID_ROOM]);

/* Adds to what is said as many whole characters as there is room for. */
void wish_say_more(char said[WISH_SAID_ROOM], const char* more);

/* The same without one of the things that keep entries out, and that one in words; false if
   there are no more than `index` of them. */
bool wish_without(const Wish* wish, int index, Wish* rest, char said[WISH_SAID_ROOM]);

/* The same letters in whatever case, by the Unicode Standard, cut to the room. */
void wish_fold(const char* text, char* folded, size_t room);

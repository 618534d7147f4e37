// SPDX-License-Identifier: ISC
/* song_words.h - the short texts that a song's Turtle has: meters, places, endings, controls.
   Pure; each returns false, with what is wrong and what is expected in `why`.

   A place is BAR:BEAT, both from 1 as drummers count, and behind the beat, if it is later, e, &
   or a for its quarters, or +1/3 for any share up to sixteenths: 4:2& is bar 4, beat 2 "and". */
#pragma once

#include "../engine/song/song.h"

enum { SONG_WORDS_ROOM = 256 };

/* "7/8 7/8 7/8 8/8" */
bool song_words_meters(const char* text, SongSection* section, char why[SONG_WORDS_ROOM]);

/* "4:1 4:2& 8:4=kick+china": places, and what is struck where that isn't the whole kit. */
bool song_words_hits(const char* text, SongSection* section, char why[SONG_WORDS_ROOM]);

/* "4:3-5:1 8 15:2-": from a place to a place, a bar, or from a place to the end. */
bool song_words_stops(const char* text, SongSection* section, char why[SONG_WORDS_ROOM]);

/* "fill", "fill 2", "stop 3", "choke", "hit", "let ring": and how many beats. */
bool song_words_ending(const char* text, SongSection* section, char why[SONG_WORDS_ROOM]);

/* "feet_shift=2 liberty=0": controls by their symbols. */
bool song_words_controls(const char* text, SongSection* section, char why[SONG_WORDS_ROOM]);

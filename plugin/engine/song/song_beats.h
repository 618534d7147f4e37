// SPDX-License-Identifier: ISC
/* song_beats.h - what a song does at single beats: hits, stops, how sections end.  Pure
   functions of the song's map and a tick.

   Stops, endings and hits are in every pass of their section.  A hit sounds in a stop; what
   the section's ending silences it silences to the end, but hits at places there sound. */
#pragma once

#include "song_map.h"

/* Ticks from the pass's first line to a spot; one with SONG_TO_THE_END is the pass's end. */
int64_t song_beats_tick(const SongRow* row, SongSpot spot);

/* A stretch of the song: ticks, half-open. */
typedef struct {
    int64_t begin;
    int64_t end;
} SongSpan;

/* The section's last beats in a pass, from its first line: empty where it goes on or where a
   fill is as long as it is written. */
SongSpan song_beats_ending(const SongMap* map, uint32_t row);

/* Whether what is written is silent at a tick of the song, and, in *until, the next tick at which
   that may be otherwise; the song's end at most.  Before the song and after it all is silent. */
bool song_beats_silent(const SongMap* map, int64_t tick, int64_t* until);

/* The limbs that strike the voices of a hit, right hand and right foot first but for the snare
   and the left beater: voices[limb] becomes a Voice, or VOICE_COUNT.  False: nobody has so many
   limbs, or a voice is no drum or cymbal. */
bool song_beats_limbs(uint32_t hit_voices, uint8_t voices[LIMB_COUNT]);

/* Adds the strokes of hits, and of an ending's hit or choke, with begin <= tick < end: ticks of the
   song, in order. */
void song_beats_strokes(const SongMap* map, int64_t begin, int64_t end, StrokeList* list);

/* What becomes of the strokes that are written for [begin, end), in ticks of the song and in order:
   silent ones go, hits come in, and what the same limb has up to a thirty-second note before one,
   or at it, or after it, makes room. */
void song_beats_put(const SongMap* map, int64_t begin, int64_t end, StrokeList* list);

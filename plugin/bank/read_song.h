// SPDX-License-Identifier: ISC
/* read_song.h - from a fl:Song of a Turtle to a Song: sections, and what they name in a bank.
   Inside the bank room. */
#pragma once

#include "../engine/song/song.h"
#include "bank.h"
#include "fields.h"

/* False if it is wrong, and complained of: all that is, section by section. */
bool read_song(Subject* subject, const Bank* bank, Song* song);

/* One of its sections. */
bool read_section(Subject* subject, const Bank* bank, SongSection* section);

/* Complains of words of ours that aren't among `terms`, and of those that are stated twice; `what`
   for whom they would be. */
void read_section_words(Subject* subject, const char* const* terms, int count, const char* what);

/* A name into its room; complains where there is none, or too long a one. */
void read_section_name(Subject* subject, char name[SONG_NAME_ROOM]);

// SPDX-License-Identifier: ISC
/* song_say.h - a song's plan in words. */
#pragma once

#include "song_parts.h"

enum { SONG_SAY_ROOM = SONG_NAME_ROOM + 32 };

/* A section's name, with its number where several are called so, and the pass from the second
   on. */
void song_say_name(const SongMap* map, uint32_t row, uint32_t pass, char name[SONG_SAY_ROOM]);

/* Prints section by section what is where, and what it asks of the feet. */
void song_say_road(const SongMap* map, const Library* library);

/* Says on standard error, section by section, what the plugin doesn't play as it is planned. */
void song_say_unheard(const SongPlayed* played);

// SPDX-License-Identifier: ISC
/* engine_inside.h - what the files of the engine's door ask of each other; nobody else. */
#pragma once

#include "passage.h"

/* Something was told or done: it isn't calm, and what is told of it may be another. */
void engine_stir(Engine* engine);

/* Finds how long it is calm after all was looked at, if the revision is still this. */
void engine_find_calm(Engine* engine, uint32_t revision);

/* Settings alone say what is played, now and from wherever. */
void engine_begin_plan(Engine* engine, const Settings* settings);

/* The library or the plan is another: what is picked is looked up in it. */
void engine_find(Engine* engine);

/* Settings become what is asked for: at once if it stands, else at the line they name. */
void engine_ask(Engine* engine, const Settings* settings);

/* Stopped or elsewhere: what waits is in effect at once; of sections the one here. */
void engine_settle(Engine* engine);

/* A fill that was asked for, and hasn't come, won't. */
void engine_forget_fill(Engine* engine);

/* The line has come that what sounds lasts to. */
void engine_turn(Engine* engine);

/* A new meter counts ticks anew: what was drawn ahead is drawn again. */
void engine_move(Engine* engine, int64_t delta);

/* The swing of what is drawn from here on. */
void engine_take_swing(Engine* engine, Swing swing);

/* Draws what can be heard in the next `frames` frames, early as it may come. */
void engine_draw_ahead(Engine* engine, uint32_t frames);

/* Ticks that are drawn ahead where drawing stands. */
int64_t engine_reach(const Engine* engine);

/* The first written tick past which there is something to draw, as far as is known. */
int64_t engine_draws_next(const Engine* engine);

/* Makes variations ahead: so many as there is time for in the frames of a block. */
void engine_vary(Engine* engine, uint32_t frames);

/* True if what sounds, what it grows to and what comes next are made. */
bool engine_is_varied(const Engine* engine);

/* Ticks from now until all is made that such settings play, whatever is kept by now, so that it
   is the same in blocks of any size; 0 if they vary nothing but what sounds. */
int64_t engine_vary_ticks(const Engine* engine, const Settings* settings);

/* What sounds, its feet grown as they are now, wherever in the song. */
Selection engine_grown(const Engine* engine);

/* What the feet are asked for is looked through anew: its figures may be gone. */
void engine_restart_foot_load(Engine* engine);

/* Looks at a bounded share of it; anew if another phrase sounds, however that came. */
void engine_step_foot_load(Engine* engine);

/* True if it has been looked through, and is that of what sounds. */
bool engine_has_foot_load(const Engine* engine);

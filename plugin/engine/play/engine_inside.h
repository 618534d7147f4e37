// SPDX-License-Identifier: ISC
/* engine_inside.h - what the files of the engine's door ask of each other; nobody else. */
#pragma once

#include "engine.h"

/* Quarter notes a minute, as the groove goes. */
double engine_tempo(const Engine* engine);

/* Something that the readouts depend on has changed. */
void engine_restart_foot_load(Engine* engine);

/* What is asked for, in the plan or by the settings, is played from here on. */
void engine_choose(Engine* engine);

/* The section of the plan that the place is in becomes what is asked for. */
void engine_look_into_plan(Engine* engine);

/* Stopped or elsewhere: what waited is in effect at once. */
void engine_break_off(Engine* engine, Jump jump, uint32_t offset);

/* What a section plays: nothing where the plan ends. */
Selection engine_selection_of(const Engine* engine, const PlanEntry* entry);

/* The tick that is `bars` bars of `meter` after the groove's tick 0. */
int64_t engine_bars_ticks(const Engine* engine, int64_t bars, Meter meter);

/* Takes the swing that is asked for, at the next quarter note if it rolls. */
void engine_watch_swing(Engine* engine);

/* Draws what can be heard in the next `frames` frames, early as it may come. */
void engine_draw_ahead(Engine* engine, uint32_t frames);

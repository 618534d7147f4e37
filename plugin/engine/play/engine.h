// SPDX-License-Identifier: ISC
/* engine.h - the one door to the music: settings and reports go in, a block's
   MIDI comes out.  Audio thread only; never allocates, locks, logs or waits. */
#pragma once

#include "click.h"
#include "groove_clock.h"
#include "../groove/groove.h"
#include "midi.h"
#include "lookahead.h"
#include "../groove/plan.h"
#include "../time/position.h"
#include "scheduler.h"
#include "../groove/foot_load.h"

/* Nothing begins, ends or is to be drawn up to here. */
typedef struct {
    int64_t frame; /* of the clock; INT64_MIN: it isn't known */
    int64_t tick;  /* the groove's */
    int64_t drawn; /* as written */
    int64_t reach; /* ticks that are drawn ahead */
} Calm;

/* Which of the feet's variations were made ahead. */
typedef struct {
    uint32_t revision;
    int64_t turn;       /* how often they have grown where it is drawn, */
    int64_t turn_heard; /*   and where it is played */
    uint32_t at;        /* what is looked at next */
} Varying;

typedef struct {
    const Library* library;
    Plan plan;                /* what plays, and what comes: one entry at least */
    Place sounding;           /* of the entry that sounds */
    bool is_song;             /* the plan is told by who knows the song; else by the settings */
    Swing swing;              /* of the quarter note drawn last */
    uint32_t revision;        /* rises with each change of what is or will be played */
    Calm calm;                /* how long nothing happens unless something is told */
    uint32_t stirs;           /* rises with all that can change what engine_readouts tells */
    Position position;        /* the host's */
    GrooveClock groove_clock; /* the groove's: all ticks are its */
    Lookahead lookahead;
    Scheduler scheduler;
    FootLoad foot_load;
    uint32_t realign_bars; /* of what the foot load is of */
    uint32_t foot_load_of; /* revision that it has been held against */
    ClickList clicks;      /* work area */
    MidiList out;
    Varying varying;
    Varied varied; /* feet of all entries */
} Engine;

/* `library` must stay as it is until engine_use names another. */
void engine_init(Engine* engine, const Library* library, double frames_per_second);

/* Plays from another library from the next strokes on, those that are drawn ahead
   included; what sounds is ended as it would have been.  What is picked, and a
   change that waits, stay.  The older library is done with when this returns. */
void engine_use(Engine* engine, const Library* library);

/* Limbs and output change from the next frame on, feel with the next strokes,
   swing at the next beat, and what is played at the line that change_at names;
   all at once while stopped.  The click changes from the next frame on; the clock,
   its tempo and the practice rate with the next block, wherever that is. */
void engine_set(Engine* engine, const Settings* settings);

/* One fill more: it ends on the first bar line that it can still reach whole, with nothing
   of it drawn, unless the groove has one there by itself.  Asked again before it ends it is
   asked once; a stop, a locate or another clock before it forgets it.  False: nothing was
   asked for, as it stands. */
bool engine_fill_now(Engine* engine);

/* For callers who know what comes: sections, each at its bar line, all of their
   settings included, while the plan isn't empty; engine_set is without effect then.
   Put them before the place comes within a beat of them.  Readouts are those of
   the section.  engine_plan_clear leaves what played to the next engine_set. */
void engine_plan_put(Engine* engine, const PlanEntry* entry);
void engine_plan_clear(Engine* engine);

/* For callers who know the place: it rolls on from `tick` of the meter, counted from
   bar 0, at `tempo` quarter notes a minute, 1 to 2000.  Nothing is guessed. */
void engine_locate(Engine* engine, Meter meter, double tempo, int64_t tick);

/* Likewise: it stands from here on, and what sounds is ended at frame `offset`. */
void engine_stop(Engine* engine, uint32_t offset);

/* Takes in a report that stands at frame `offset` of the block going on. */
void engine_report(Engine* engine, const Report* report, uint32_t offset);

/* Begins the output of a block, or of a further part of one: `room` is how many
   messages can still be taken. */
void engine_begin(Engine* engine, uint32_t room);

/* Lets `frames` frames go by unplayed: what falls in them comes late, with the next that are
   played, unless the place is another by then. */
void engine_hold(Engine* engine, uint32_t frames);

/* Lets `frames` frames go by in which nothing happens, which is all that there is to do; false,
   with nothing done, if something may. */
bool engine_wait(Engine* engine, uint32_t frames);

/* Plays `frames` frames, at most SLICE_FRAMES_MAX, from `offset` in the block. */
void engine_advance(Engine* engine, uint32_t offset, uint32_t frames);

/* The settings in effect: of the section, or as they were set. */
const Settings* engine_settings(const Engine* engine);

/* What sounds at the place now. */
Selection engine_selection(const Engine* engine);

/* Strokes not played for want of room, since engine_init. */
uint32_t engine_dropped(const Engine* engine);

/* The output ports' values as of now. */
void engine_readouts(const Engine* engine, float values[READOUT_COUNT]);

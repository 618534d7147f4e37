// SPDX-License-Identifier: ISC
/* position.h - where the song is.  Reports from a host go in, spans of ticks
   come out.  Between reports it runs on frames alone: it anchors at a start, at
   a jump and where speed, tempo or meter change, and only steers otherwise. */
#pragma once

#include "clock.h"
#include "follow.h"
#include "habits.h"
#include "report.h"

typedef struct {
    double frames_per_second;
    Clock clock;
    Habits habits;
    Follow follow;
    Meter meter;    /* in effect */
    double tempo;   /* in effect, counts a minute */
    double speed;   /* as last reported; 0 before any report */
    bool has_meter; /* from the host, else the groove's */
    bool has_tempo; /* from the host, else the groove's */
    bool rolling;
    bool may_resume;  /* stopped, and not moved since */
    bool provisional; /* anchored without bar and beat */
    bool has_frame;
    int64_t frame;        /* the host's, last reported */
    int64_t reported_at;  /* when that was, on our clock */
    double anchor_frame;  /* the host's frame and our tick at the last change of */
    double anchor_tick;   /*   tempo or meter: exact where reports are rounded */
    int64_t played_until; /* first tick not played yet */
} Position;

/* Ticks to play between two frames of the clock; empty if begin >= end. */
typedef struct {
    int64_t begin;
    int64_t end;
} Span;

typedef enum {
    POSITION_GOES_ON, /* nothing broke off */
    POSITION_BROKE,   /* stopped or jumped: sounding notes end here */
} PositionEvent;

void position_init(Position* position, double frames_per_second);

/* What holds where the host names no tempo or meter.  True if it was something else. */
bool position_fallback(Position* position, Meter meter, double tempo);

/* Quarter notes a minute at this moment, as played or, stopped, as told. */
double position_tempo(const Position* position);

/* Takes in a report that stands at clock.now. */
PositionEvent position_report(Position* position, const Report* report);

/* It rolls on from `tick` in this meter, at `tempo` quarter notes a minute: told by
   somebody who knows, so nothing of it is weighed. */
void position_locate(Position* position, Meter meter, double tempo, double tick);

/* It stands where it is, told likewise. */
void position_stop(Position* position);

/* What falls in the next `frames` frames; moves the clock on.  Every tick is
   given once until the next jump. */
Span position_advance(Position* position, uint32_t frames);

// SPDX-License-Identifier: ISC
/* timeline.h - from the frames of a transport to the ticks of a MIDI file.  Frames are
   whole and bar lines need not fall on one: the plugin's own clock goes on from frame
   to frame at so many ticks each, and so does this, so nothing is rounded twice. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

/* Frames a second that files are played at, so that each of a file's ticks is at least
   two frames long up to 400 a minute and none is rounded away. */
enum { TIMELINE_RATE = 192000 };

typedef struct {
    int64_t frame;          /* the transport's */
    double tick;            /* the file's, there */
    double ticks_per_frame; /* from there on */
    int64_t end;            /* the file's last tick; INT64_MAX while it isn't known */
} Timeline;

/* The tempo from here on, quarter notes a minute: to a float, as hosts tell it. */
void timeline_tempo(Timeline* timeline, double tempo);

/* Moves on. */
void timeline_advance(Timeline* timeline, int64_t frames);

/* Whole frames to a tick that is still to come: it comes less than a frame later. */
int64_t timeline_frames_to(const Timeline* timeline, int64_t tick);

/* The file's tick nearest to `frames` from here.  A note later than the last bar begins
   on the file's last tick: who repeats the file would hear it in the first bar. */
uint64_t timeline_tick(const Timeline* timeline, double frames, bool begins);

/* Frames after which nothing written before a place is still to come: push moves by 50
   ms, chance by less than a quarter of a quarter note (plugin/engine/feel/feel.h). */
int64_t timeline_late_frames(double tempo);

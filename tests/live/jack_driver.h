// SPDX-License-Identifier: ISC
/* jack_driver.h - a JACK client that is what a host's person and its tempo map
   are: timebase master, hand on the transport, and ear on a MIDI port.  What it
   asks of the transport it asks on the audio thread, at the frame wanted, so a
   busy machine changes nothing. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct JackDriver JackDriver;

typedef struct {
    double quarters_per_minute; /* what most timebase masters mean by tempo */
    double beats_per_bar;
    int beat_unit;
} Tempo;

/* What to do with the transport once it has rolled to `at`. */
typedef struct {
    int64_t at;
    enum { MOVE_STOP, MOVE_LOCATE } kind;
    int64_t to; /* where a locate goes */
} Move;

/* A stretch that the transport rolled without a jump: [begin, end). */
typedef struct {
    int64_t begin;
    int64_t end;
} Rolled;

/* A MIDI message; what comes after the transport stood still is counted on from
   the end of the stretch. */
typedef struct {
    size_t stretch;
    int64_t frame;
    size_t size; /* as it arrived; only three bytes are kept */
    uint8_t bytes[3];
} Heard;

/* Joins the server once it is up; NULL if it never is, or once
   `waiting` says no. */
JackDriver* jack_driver_open(const char* server, bool (*waiting)(void));
void jack_driver_close(JackDriver* driver);

/* Waits for an output whose name ends in `port` as long as `waiting` says so, and listens. */
bool jack_driver_listen(JackDriver* driver, const char* port, bool (*waiting)(void));

/* With the transport standing still: the tempo, counted from bar 0 at frame 0,
   and the place to start from.  `tempo` must stay where it is. */
bool jack_driver_set(JackDriver* driver, const Tempo* tempo, int64_t frame);

/* Starts, makes the moves one after the other, and returns when the transport
   stands still with the last stretch's messages heard; false if it never does.  The last
   move must be a stop. */
bool jack_driver_play(JackDriver* driver, const Move* moves, size_t count);

/* The same in parts, for what is to be done while it rolls: it rolls on until the moves
   are made, which must stay where they are.  Who starts without may ask for them later. */
void jack_driver_start(JackDriver* driver, const Move* moves, size_t count);
void jack_driver_ask(JackDriver* driver, const Move* moves, size_t count);
bool jack_driver_finish(JackDriver* driver);

/* The frame that the transport last rolled to. */
int64_t jack_driver_place(const JackDriver* driver);

/* How many frames the server has run, rolling or not: a time that waits with it. */
int64_t jack_driver_frames(const JackDriver* driver);

/* As fast as the machine can, or in time. */
bool jack_driver_hurry(JackDriver* driver, bool hurry);

/* What was rolled and heard since the beginning. */
size_t jack_driver_rolled(const JackDriver* driver, const Rolled** rolled);
size_t jack_driver_heard(const JackDriver* driver, const Heard** heard);

/* Frames in a second, and in a cycle. */
uint32_t jack_driver_rate(const JackDriver* driver);
uint32_t jack_driver_period(const JackDriver* driver);

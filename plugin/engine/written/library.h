// SPDX-License-Identifier: ISC
/* library.h - everything that can be picked: figures, grooves and kit maps.
   Made once by the bank room, then only read, so any thread may hold it. */
#pragma once

#include "figure.h"
#include "ride_on.h"

/* What one letter of a form plays; either may be NULL: those limbs rest. */
typedef struct {
    const Figure* hands;
    const Figure* feet;
    RideOn ride_on; /* where the hands keep the time */
} Part;

/* What a groove asks of the feel where the controls are left at their defaults;
   not a number: nothing. */
typedef struct {
    double swing_ratio;
    bool swing_sixteenths;
    double looseness_ms;
    double touch; /* 0 to 1 */
    double push_hands_ms;
    double push_snare_ms;
    double push_feet_ms;
    double liberty; /* 0 to 1 */
} WrittenFeel;

typedef struct {
    uint32_t id;                 /* permanent, from 1 */
    Meter meter;                 /* the meter it was written in */
    double tempo;                /* quarter notes a minute, for hosts that have none */
    uint32_t form_bars;          /* 1 to FORM_BARS_MAX */
    uint8_t form[FORM_BARS_MAX]; /* index into parts for each bar of the phrase */
    Part parts[PARTS_MAX];
    const Figure* turnaround; /* the fill, or NULL */
    WrittenFeel feel;
    bool crash_start; /* a crash on the first beat of each phrase */
} Groove;

/* A MIDI key for each voice. */
typedef struct {
    uint32_t id;                /* permanent, from 1 */
    uint8_t notes[VOICE_COUNT]; /* 0 to 127; KIT_NO_KEY where the kit has none for it */
} Kit;

/* Only a choke may have none: it ends the cymbal's note all the same. */
enum { KIT_NO_KEY = 255 };

/* An entry that left the bank: nobody else gets its id, which plays another one. */
typedef struct {
    uint32_t id;    /* first */
    uint32_t by;    /* of one that is there */
    RideOn ride_on; /* hands: which are those, on this cymbal */
} Successor;

typedef struct {
    const Successor* rows; /* in order of id */
    uint32_t count;
} Successors;

typedef struct Library Library;

struct Library {
    const Figure* figures[FIGURE_KINDS]; /* by FigureKind, in order of id */
    uint32_t figure_counts[FIGURE_KINDS];
    const Groove* grooves; /* in order of id */
    uint32_t groove_count;
    const Kit* kits; /* in order of id */
    uint32_t kit_count;
    Successors successors[ENTRY_KINDS];
    const Library* kept[KEPT_MAX]; /* where each kept selection finds what it plays, by slot
                                      from 0: a draft or another file of the same id is none
                                      of its; NULL: nothing is kept there */
};

/* The id of what plays where this one is picked: another one if its entry left, else itself,
   be it anybody's or nobody's. */
uint32_t library_id(const Library* library, EntryKind kind, uint32_t id);

/* On what the hands of this id are played: where they left, being others on another cymbal. */
RideOn library_ride_on(const Library* library, uint32_t hands);

/* The entry with this id, or the one that plays in its place, or NULL. */
const Figure* library_figure(const Library* library, FigureKind kind, uint32_t id);
const Groove* library_groove(const Library* library, uint32_t id);
const Kit* library_kit(const Library* library, uint32_t id);

/* Points its grooves, which the caller owns, to its own figures instead of others of their
   kinds and ids. */
void library_join(const Library* library, Groove* grooves);

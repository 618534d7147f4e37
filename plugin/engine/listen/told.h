// SPDX-License-Identifier: ISC
/* told.h - what is told of what somebody played, limb by limb.

   The mean against the click holds the person and the set-up (pads, drivers, ears: taps come
   some 40 ms early by nature, Baath & Madison 2012), so limbs are judged by what parts them, by
   how far they spread, and by drift.  Pure; bounded. */
#pragma once

#include "pairing.h"
#include "pads.h"

enum { TOLD_MOST = 4 * PAIRING_STROKES_MAX }; /* written strokes of a stretch; played ones too */

/* A written stroke at its time. */
typedef struct {
    double ms; /* rising */
    Stroke stroke;
} ToldWritten;

/* A note that came in. */
typedef struct {
    double ms; /* rising, on the same clock */
    uint8_t key;
    uint8_t velocity; /* 1 to 127 */
} ToldPlayed;

/* A stretch: what is written, what came in, and on which keys. */
typedef struct {
    const ToldWritten* written;
    uint32_t written_count;
    const ToldPlayed* played;
    uint32_t played_count;
    const Kit* kit;
    bool split; /* the left foot's kick has its own key */
} ToldTask;

/* One limb; zeros where it has nothing written. */
typedef struct {
    uint32_t written;
    uint32_t struck; /* those that were played */
    uint32_t missed;
    uint32_t extra;  /* played, and not written */
    double mean_ms;  /* against the click: behind is above 0 */
    double apart_ms; /* against the other limbs' strokes together */
    double sd_ms;    /* around the limb's own mean */
    double drift_ms; /* from the stretch's begin to its end, by the straight line that fits */
    double level;    /* mean velocity, */
    double level_sd; /*   and its spread among strokes written equally loud */
} ToldLimb;

typedef struct {
    double shift_ms; /* of all limbs together: where strokes were looked for */
    uint32_t strays; /* notes that nothing written is like: no voice's key, or one that rests */
    ToldLimb limbs[LIMB_COUNT];
} Told;

/* What is worked with. */
typedef struct {
    double written[PAIRING_STROKES_MAX];
    double played[PAIRING_STROKES_MAX];
    uint32_t written_index[PAIRING_STROKES_MAX];
    uint32_t played_index[PAIRING_STROKES_MAX];
    int32_t found[PAIRING_STROKES_MAX];
    PairingRoom pairing;
} ToldRoom;

/* `shift_ms`: where the last stretch's strokes were; of two shifts that fit as well the nearer
   one is taken.  pairs[i], if not NULL: the played note of written stroke i, or PAIRING_NONE.
   Costs some 300 steps a stroke: not for one block of an audio thread.  Each stream has PAIRING_STROKES_MAX strokes at most; what is beyond isn't looked at. */
void told_make(Told* told, const ToldTask* task, double shift_ms, int32_t* pairs, ToldRoom* room);

/* At most `misses` missed or extra in 32 written, and a spread of `spread_ms` at most, for each
   limb that has strokes. */
bool told_is_clean(const Told* told, double spread_ms, uint32_t misses);

// SPDX-License-Identifier: ISC
/* comparison.h - notes heard against strokes expected, one to one. */
#pragma once

#include "expected.h"
#include "player.h"

typedef struct {
    size_t wanted; /* strokes that had to sound */
    size_t lost;   /* of those, not heard */
    size_t extra;  /* heard, but not expected: doubled, or in the wrong place */
    double worst;  /* frames off, of those heard */
    int64_t first_lost, first_extra, worst_at; /* frames of the recording */
} Comparison;

/* Both sides of one key, walked together. */
typedef struct {
    const Scenario* scenario;
    const Player* player;
    const Expected* expected;
    int key;
    size_t stroke, note; /* next of each */
} Pairing;

static inline bool is_judged(const Pairing* const pairing, const double frame)
{
    for (size_t i = 0; i < pairing->expected->start_count; ++i) {
        const double since = frame - (double)pairing->expected->starts[i];
        if (since >= 0.0 && since < (double)pairing->scenario->settle) {
            return false;
        }
    }
    return true;
}

static inline bool is_note_on(const Note note, const int key)
{
    return (note.bytes[0] & 0xF0U) == LV2_MIDI_MSG_NOTE_ON && note.bytes[1] == key;
}

static inline const Stroke* next_stroke(Pairing* const pairing)
{
    const Expected* const expected = pairing->expected;
    for (; pairing->stroke < expected->count; ++pairing->stroke) {
        const Stroke* const stroke = &expected->strokes[pairing->stroke];
        if (stroke->key == pairing->key && is_judged(pairing, stroke->frame)) {
            return stroke;
        }
    }
    return NULL;
}

static inline const Note* next_note(Pairing* const pairing)
{
    const Player* const player = pairing->player;
    for (; pairing->note < player->count; ++pairing->note) {
        const Note* const note = &player->notes[pairing->note];
        if (is_note_on(*note, pairing->key) && is_judged(pairing, (double)note->frame)) {
            return note;
        }
    }
    return NULL;
}

static inline void add_lost(Comparison* const comparison, const Stroke* const stroke)
{
    if (stroke->may_miss) {
        return;
    }
    if (!comparison->lost++) {
        comparison->first_lost = (int64_t)stroke->frame;
    }
    ++comparison->wanted;
}

static inline void add_heard(Comparison* const comparison, const Stroke* const stroke,
                             const Note* const note)
{
    const double off = fabs((double)note->frame - stroke->frame);
    if (off > comparison->worst) {
        comparison->worst = off;
        comparison->worst_at = note->frame;
    }
    ++comparison->wanted;
}

/* A note within `reach` frames of a stroke is that stroke. */
static inline void compare_key(Pairing pairing, const double reach, Comparison* const comparison)
{
    for (;;) {
        const Stroke* const stroke = next_stroke(&pairing);
        const Note* const note = next_note(&pairing);
        if (!stroke && !note) {
            return;
        }
        if (note && (!stroke || (double)note->frame < stroke->frame - reach)) {
            if (!comparison->extra++) {
                comparison->first_extra = note->frame;
            }
            ++pairing.note;
        } else if (!note || (double)note->frame > stroke->frame + reach) {
            add_lost(comparison, stroke);
            ++pairing.stroke;
        } else {
            add_heard(comparison, stroke, note);
            ++pairing.note;
            ++pairing.stroke;
        }
    }
}

static inline Comparison compare(const Scenario* const scenario, const Player* const player,
                                 const Expected* const expected)
{
    /* A quarter of the fastest sixteenth, at 240: no note can pass for two. */
    const double reach = 60.0 / 240.0 / 4.0 / 4.0 * 48000.0 + scenario->slack;
    const int keys[] = {CLICK_KEY,   CLICK_ACCENT_KEY, HAT_KEY,    bar_keys[0],
                        bar_keys[1], bar_keys[2],      bar_keys[3]};
    Comparison comparison = {.wanted = 0};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; ++i) {
        compare_key((Pairing){scenario, player, expected, keys[i], 0, 0}, reach, &comparison);
    }
    return comparison;
}

// SPDX-License-Identifier: ISC
/* preview_feed.h - for as long as somebody looks on: the phrase as it will be played,
   and the place in it, told inside a sequence on `notify`.  Audio thread. */
#pragma once

#include "../engine/play/preview.h"
#include "../engine/play/through.h"
#include "../talk/encode.h"

#include <stdbool.h>

enum { PREVIEW_FEED_NOTES = 16 }; /* more between two blocks than a drummer plays */

typedef struct {
    double rate;         /* frames a second */
    int64_t watched;     /* frames for which somebody still looks on */
    int64_t since_place; /* frames since the place was told */
    SeenPlace told_place;
    bool learns;                       /* who looks on wants the notes that come in */
    uint8_t notes[PREVIEW_FEED_NOTES]; /* that came in and aren't told yet */
    uint32_t note_count;
    Preview preview;
} PreviewFeed;

void preview_feed_init(PreviewFeed* preview_feed, double rate);

/* Somebody looks on from now, for three seconds unless asked again; one who asks
   for `all` knows nothing yet; one who `learns` keys is told the notes that begin,
   until it is asked for something else. */
void preview_feed_ask(PreviewFeed* preview_feed, bool all, bool learns);

/* A MIDI message came in: true if it is used up, being a note that will be told. */
bool preview_feed_midi(PreviewFeed* preview_feed, const uint8_t* bytes, uint32_t size);

/* After `frames` were played; what finds no room is told in a later block. */
void preview_feed_tell(PreviewFeed* preview_feed, LV2_Atom_Forge* forge, const Engine* engine,
                       uint32_t frames, const Uris* uris);
